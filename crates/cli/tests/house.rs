//! Keeps the arrows of the house: reads the list of rooms and every manifest, and draws the picture in
//! `ARCHITECTURE.md`. `HEADLAP_BLESS=1 cargo test -p cli --test house` redraws it.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use toml::{Table, Value};

const BEGIN: &str = "<!-- from house.toml and the manifests; HEADLAP_BLESS=1 cargo test -p cli --test house -->\n";
const END: &str = "<!-- end -->\n";

struct Storey {
    name: String,
    does: String,
    rooms: Vec<String>,
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn table(path: &Path) -> Table {
    text(path).parse().unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn word(table: &Table, key: &str) -> String {
    table.get(key).and_then(Value::as_str).unwrap_or_else(|| panic!("{key} is missing")).to_owned()
}

/// From the ground up.
fn storeys(house: &Table) -> Vec<Storey> {
    let storeys = house.get("storey").and_then(Value::as_array).expect("house.toml lists storeys");
    storeys.iter().filter_map(Value::as_table).map(storey).collect()
}

fn storey(table: &Table) -> Storey {
    let rooms = table.get("rooms").and_then(Value::as_array).expect("a storey has rooms");
    let rooms = rooms.iter().filter_map(Value::as_str).map(str::to_owned).collect();
    Storey { name: word(table, "name"), does: word(table, "does"), rooms }
}

/// Folder name and manifest of every crate.
fn manifests() -> BTreeMap<String, Table> {
    let folders = fs::read_dir(root().join("crates")).expect("there are crates").filter_map(Result::ok);
    let crates = folders.map(|folder| folder.path()).filter(|folder| folder.join("Cargo.toml").exists());
    crates
        .map(|folder| (folder.file_name().unwrap_or_default().to_string_lossy().into(), table(&folder.join("Cargo.toml"))))
        .collect()
}

/// What a crate depends on by any table: ordinary, dev, build, and those for one platform only.
fn dependencies(manifest: &Table, workspace: &Table) -> Vec<String> {
    let platforms =
        manifest.get("target").and_then(Value::as_table).into_iter().flat_map(Table::values).filter_map(Value::as_table);
    let mut found: Vec<String> = [manifest]
        .into_iter()
        .chain(platforms)
        .flat_map(|table| ["dependencies", "dev-dependencies", "build-dependencies"].map(|key| table.get(key)))
        .flatten()
        .filter_map(Value::as_table)
        .flat_map(|table| table.iter().map(|(key, entry)| real_name(key, entry, workspace)))
        .collect();
    found.sort();
    found.dedup();
    found
}

/// A dependency may go by another name, in the crate's manifest or in the workspace's.
fn real_name(key: &str, entry: &Value, workspace: &Table) -> String {
    let package = |entry: &Value| entry.get("package").and_then(Value::as_str).map(str::to_owned);
    package(entry).or_else(|| workspace.get(key).and_then(package)).unwrap_or_else(|| key.to_owned())
}

fn workspace() -> Table {
    let root = table(&root().join("Cargo.toml"));
    let workspace = root.get("workspace").and_then(|workspace| workspace.get("dependencies")).and_then(Value::as_table);
    workspace.cloned().expect("the root manifest has every version")
}

/// Storey, and place from the left.
fn places(storeys: &[Storey]) -> BTreeMap<&str, (usize, usize)> {
    let rooms = |(level, storey)| std::iter::repeat(level).zip(Storey::rooms(storey).enumerate());
    storeys.iter().enumerate().flat_map(rooms).map(|(level, (at, room))| (room, (level, at))).collect()
}

impl Storey {
    fn rooms(&self) -> impl Iterator<Item = &str> {
        self.rooms.iter().map(String::as_str)
    }
}

/// Every arrow that points up, or to the right on its own storey, in words.
fn wrong_arrows(storeys: &[Storey], manifests: &BTreeMap<String, Table>, workspace: &Table) -> Vec<String> {
    let places = places(storeys);
    let mut wrong = Vec::new();
    for (room, manifest) in manifests {
        for used in dependencies(manifest, workspace) {
            let (Some(&from), Some(&to)) = (places.get(room.as_str()), places.get(used.as_str())) else { continue };
            if to.0 > from.0 {
                wrong.push(format!("{room} uses {used}, which is upstairs"));
            } else if to.0 == from.0 && to.1 >= from.1 {
                wrong.push(format!("{room} uses {used}, which is not to its left"));
            }
        }
    }
    wrong
}

/// Rooms without code, crates that are not rooms, crates whose name is not their folder's.
fn misfits(storeys: &[Storey], manifests: &BTreeMap<String, Table>) -> Vec<String> {
    let places = places(storeys);
    let rooms = storeys.iter().flat_map(Storey::rooms);
    let empty = rooms.filter(|room| !has_code(&root().join("crates").join(room).join("src")));
    let homeless = manifests.keys().filter(|name| !places.contains_key(name.as_str()));
    let renamed = manifests.iter().filter(|(folder, manifest)| manifest["package"]["name"].as_str() != Some(folder));
    empty
        .map(|room| format!("{room} is in house.toml and has no code"))
        .chain(homeless.map(|name| format!("{name} is not in house.toml")))
        .chain(renamed.map(|(folder, _)| format!("the crate in {folder} has another name")))
        .collect()
}

/// A file with a line that is no comment.
fn has_code(folder: &Path) -> bool {
    let Ok(entries) = fs::read_dir(folder) else { return false };
    let is_code = |line: &str| !line.trim().is_empty() && !line.trim_start().starts_with("//");
    entries.filter_map(Result::ok).map(|entry| entry.path()).any(|path| match path.is_dir() {
        true => has_code(&path),
        false => text(&path).lines().any(is_code),
    })
}

/// The roof above, the ground below.
fn picture(storeys: &[Storey]) -> String {
    let lists: Vec<String> = storeys.iter().map(|storey| storey.rooms.join(" . ")).collect();
    let wide = lists.iter().map(String::len).max().unwrap_or_default();
    let margin = storeys.iter().map(|storey| storey.name.len()).max().unwrap_or_default();
    let floor = format!("{:margin$} +{}+\n", "", "-".repeat(wide + 4));
    let line = |(storey, list): (&Storey, &String)| format!("{:margin$} |  {list:wide$}  |  {}\n", storey.name, storey.does);
    let built: String = storeys.iter().zip(&lists).rev().map(|both| floor.clone() + &line(both)).collect();
    format!("```text\n{built}{floor}```\n")
}

/// A line a room, in the words of its manifest.
fn rooms(storeys: &[Storey], manifests: &BTreeMap<String, Table>) -> String {
    let does = |room: &str| {
        manifests.get(room).map_or_else(String::new, |manifest| {
            word(manifest["package"].as_table().unwrap_or(&Table::new()), "description")
        })
    };
    let line = |room: &str| format!("| `{room}` | {} |\n", does(room));
    let lines: String = storeys.iter().rev().flat_map(Storey::rooms).map(line).collect();
    format!("| room | holds |\n|---|---|\n{lines}")
}

#[test]
fn no_arrow_points_up_or_round() {
    let house = storeys(&table(&root().join("house.toml")));
    assert_eq!(wrong_arrows(&house, &manifests(), &workspace()), Vec::<String>::new());
}

#[test]
fn every_room_is_a_crate_and_every_crate_a_room() {
    let house = storeys(&table(&root().join("house.toml")));
    assert_eq!(misfits(&house, &manifests()), Vec::<String>::new());
}

#[test]
fn the_picture_is_current() {
    let house = storeys(&table(&root().join("house.toml")));
    let drawn = format!("{BEGIN}{}\n{}{END}", picture(&house), rooms(&house, &manifests()));
    let path = root().join("ARCHITECTURE.md");
    let page = text(&path);
    let (before, rest) = page.split_once(BEGIN).expect("ARCHITECTURE.md has the marker before the picture");
    let (_, after) = rest.split_once(END).expect("ARCHITECTURE.md has the marker after the picture");
    let current = format!("{before}{drawn}{after}");
    if std::env::var_os("HEADLAP_BLESS").is_some() {
        fs::write(&path, &current).expect("ARCHITECTURE.md can be written");
    } else {
        assert!(page == current, "the picture in ARCHITECTURE.md is old; redraw it with HEADLAP_BLESS=1\n{drawn}");
    }
}

/// The keeper of the arrows is shown wrong ones.
mod keeper {
    use super::*;

    fn house() -> Vec<Storey> {
        let text = r#"
            [[storey]]
            name = "LOW"
            does = "stone"
            rooms = ["a", "b"]
            [[storey]]
            name = "HIGH"
            does = "wood"
            rooms = ["c"]
        "#;
        storeys(&text.parse().expect("good TOML"))
    }

    fn wrong(room: &str, manifest: &str) -> Vec<String> {
        let manifest = manifest.parse().expect("good TOML");
        let workspace = "other = { path = \"c\", package = \"c\" }\na.path = \"a\"".parse().expect("good TOML");
        wrong_arrows(&house(), &BTreeMap::from([(room.to_owned(), manifest)]), &workspace)
    }

    #[test]
    fn good_arrows_pass() {
        assert!(wrong("c", "[dependencies]\na.workspace = true\nb.workspace = true\nserde = \"1\"").is_empty());
        assert!(wrong("b", "[dependencies]\na.workspace = true").is_empty());
    }

    #[test]
    fn arrows_up_are_found_in_every_table() {
        for table in ["dependencies", "dev-dependencies", "build-dependencies", "target.'cfg(unix)'.dependencies"] {
            assert_eq!(wrong("a", &format!("[{table}]\nc.workspace = true")), ["a uses c, which is upstairs"], "{table}");
        }
    }

    #[test]
    fn arrows_to_the_right_and_to_itself_are_found() {
        assert_eq!(wrong("a", "[dependencies]\nb.path = \"../b\""), ["a uses b, which is not to its left"]);
        assert_eq!(wrong("a", "[dev-dependencies]\na.path = \".\""), ["a uses a, which is not to its left"]);
    }

    #[test]
    fn another_name_hides_nothing() {
        assert_eq!(wrong("a", "[dependencies]\nx = { path = \"../c\", package = \"c\" }"), ["a uses c, which is upstairs"]);
        assert_eq!(wrong("a", "[dependencies]\nother.workspace = true"), ["a uses c, which is upstairs"]);
    }

    #[test]
    fn an_empty_room_and_a_homeless_crate_are_found() {
        let homeless = "[package]\nname = \"shed\"".parse().expect("good TOML");
        let found = misfits(&house(), &BTreeMap::from([("barn".to_owned(), homeless)]));
        let expected = [
            "a is in house.toml and has no code",
            "b is in house.toml and has no code",
            "c is in house.toml and has no code",
            "barn is not in house.toml",
            "the crate in barn has another name",
        ];
        assert_eq!(found, expected);
    }

    #[test]
    fn the_picture_stands_on_its_ground() {
        let expected = "```text\n     +---------+\nHIGH |  c      |  wood\n     +---------+\nLOW  |  a . b  |  stone\n     +---------+\n```\n";
        assert_eq!(picture(&house()), expected);
    }
}
