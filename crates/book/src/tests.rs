//! What holds for every book.

mod alike;
mod figures;
mod findings;
mod golden;
mod pictures;
mod tail;
mod words;

use covering::Catalog;
use plan::Plan;
use reader::Format;

use crate::content::{Block, Content};
use crate::{Binding, Language, Measures, Paper, Part};

/// The example houses, read from the disk so that a new one is tried too.
pub(crate) fn examples() -> Vec<(String, Plan)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "toml"));
    paths.sort();
    let planned = |path: std::path::PathBuf| {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let (job, mistakes) = plan::read_job(&std::fs::read_to_string(path).unwrap(), Format::Toml);
        (name, plan::plan(&job.unwrap_or_else(|| panic!("{mistakes:?}")), &Catalog::shipped()))
    };
    paths.into_iter().map(planned).collect()
}

pub(crate) const PARTS: [Part; 6] = [Part::Whole, Part::Crew, Part::Office, Part::Official, Part::Owner, Part::Poles];

pub(crate) const fn binding(language: Language, measures: Measures, part: Part) -> Binding {
    Binding { language, measures, paper: Paper::Letter, part, date: None }
}

/// Every line of lettering on the sheets, the lettering of the drawings among them.
pub(crate) fn lines(content: &Content) -> Vec<String> {
    let mut lines: Vec<String> = content.foot.iter().flatten().cloned().collect();
    for sheet in &content.sheets {
        lines.extend([sheet.title.clone(), sheet.sort.clone()]);
        of_blocks(&sheet.blocks, &mut lines);
    }
    lines
}

fn of_blocks(blocks: &[Block], lines: &mut Vec<String>) {
    for block in blocks {
        match block {
            Block::Banner { words }
            | Block::Heading { words }
            | Block::Words { words }
            | Block::Caution { words }
            | Block::Contents { words } => {
                lines.push(words.clone());
            }
            Block::List { items } | Block::Key { items } | Block::Boxes { items } => lines.extend(items.iter().cloned()),
            Block::Facts { facts } => lines.extend(facts.iter().flatten().cloned()),
            Block::Table(table) => {
                lines.extend(table.columns.iter().map(|column| column.head.clone()));
                lines.extend(table.rows.iter().flatten().cloned());
            }
            Block::Figure(picture) => {
                lines.extend([picture.alt.clone(), picture.caption.clone()]);
                lines.extend(lettering(&picture.svg));
            }
            Block::Sign { lines: signed, fields } => lines.extend(signed.iter().chain(fields).cloned()),
            Block::Columns { blocks, .. } | Block::Together { blocks } => of_blocks(blocks, lines),
            Block::Beside { left, right } => {
                of_blocks(left, lines);
                of_blocks(right, lines);
            }
        }
    }
}

/// Between the tags of the text elements.
fn lettering(svg: &str) -> Vec<String> {
    let texts = svg.split("<text ").skip(1);
    let words = texts.filter_map(|text| text.split_once('>')?.1.split_once("</text>").map(|(words, _)| words));
    words
        .map(|words| words.replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&"))
        .collect()
}
