//! The papers of the saw, of a planned house.
#![allow(clippy::unwrap_used, reason = "tests only")]

use covering::Catalog;
use drawings::{Item, Scene, cut_sheets};
use reader::Format;

fn words(scene: &Scene) -> impl Iterator<Item = &str> {
    scene.items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text.words.as_str()) } else { None })
}

/// Every kind of piece stands on the papers, in the order of the saw, however many papers that takes. The pieces of each
/// kind of unit are numbered from 1.
#[test]
fn the_whole_cut_list_is_printed() {
    let (job, _) = plan::read_job(include_str!("../../../examples/manor.toml"), Format::Toml);
    let plan = plan::plan(&job.unwrap(), &Catalog::shipped());
    let sheets = cut_sheets(&plan);
    assert!(sheets.len() > 1);
    let printed: Vec<&str> = sheets.iter().flat_map(words).collect();
    for cutting in &plan.layout.cutting {
        for piece in 1..=cutting.kinds.len() {
            assert!(printed.contains(&piece.to_string().as_str()), "piece {piece}");
        }
    }
    assert!(printed.iter().any(|words| words.contains(" + ")), "a unit gives two pieces");
    for scene in &sheets {
        let [width, height] = scene.page.size();
        for text in scene.items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None }) {
            assert!(text.at[0] <= width - 9.0 && text.at[1] <= height - 9.0, "{} runs off the paper", text.words);
        }
    }
}
