use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use drawings::{Scene, cut_sheets, roof_plan, setting_out, svg};
use plan::Plan;

use crate::note::Note;
use crate::output::{unwritten, write_file};

/// Writes the roof plan, a setting-out sheet for each laid plane and the cut list; makes the folder if need be, and tells what it wrote.
pub(crate) fn write(plan: &Plan, folder: &Path) -> Result<Vec<PathBuf>, Box<Note>> {
    let mut taken = BTreeSet::new();
    let sheets =
        plan.layout.planes.iter().filter_map(|laid| Some((free_name(&laid.id, &mut taken), setting_out(plan, &laid.id)?)));
    let papers = roof_plan(plan).map(|scene| ("roof-plan.svg".to_owned(), scene)).into_iter().chain(sheets);
    let lists = cut_sheets(plan).into_iter().enumerate();
    let papers = papers.chain(lists.map(|(index, scene)| (format!("cut-list-{}.svg", index + 1), scene)));
    write_scenes(folder, papers)
}

/// Writes scenes as SVG under their names; makes the folder if need be, and tells what it wrote.
pub(crate) fn write_scenes(folder: &Path, scenes: impl Iterator<Item = (String, Scene)>) -> Result<Vec<PathBuf>, Box<Note>> {
    fs::create_dir_all(folder).map_err(|error| unwritten(folder, &error))?;
    scenes
        .map(|(name, scene)| {
            let path = folder.join(name);
            write_file(&path, svg(&scene))?;
            Ok(path)
        })
        .collect()
}

/// A block's name may hold what a file's name may not, and two names may then become one.
fn free_name(id: &str, taken: &mut BTreeSet<String>) -> String {
    let safe: String =
        id.chars().map(|c| if c.is_alphanumeric() || "._-".contains(c) { c } else { '-' }).take(100).collect();
    let mut name = format!("setting-out-{safe}.svg");
    let mut again = 2;
    // Some file systems do not tell capitals from small letters.
    while !taken.insert(name.to_lowercase()) {
        name = format!("setting-out-{safe}-{again}.svg");
        again += 1;
    }
    name
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_name_leaves_the_folder_or_takes_anothers_place() {
        let mut taken = BTreeSet::new();
        let mut name = |id| free_name(id, &mut taken);
        assert_eq!(name("house.0"), "setting-out-house.0.svg");
        assert_eq!(name("../../x/y.0"), "setting-out-..-..-x-y.0.svg");
        assert_eq!(name("a b.0"), "setting-out-a-b.0.svg");
        assert_eq!(name("a/b.0"), "setting-out-a-b.0-2.svg");
        assert_eq!(name("House.0"), "setting-out-House.0-2.svg");
    }
}
