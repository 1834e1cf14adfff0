//! The stage map of planned houses.
#![allow(clippy::unwrap_used, reason = "tests only")]

mod lettering;

use covering::Catalog;
use drawings::{Fill, Item, Scene, stage};
use lettering::{extent, overlap, texts};
use plan::Plan;
use reader::Format;

fn planned(text: &str) -> Plan {
    let (job, mistakes) = plan::read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    plan::plan(&job.unwrap(), &Catalog::shipped())
}

const HOUSES: [&str; 5] = [
    include_str!("../../../examples/gable.toml"),
    include_str!("../../../examples/hip.toml"),
    include_str!("../../../examples/ell.toml"),
    include_str!("../../../examples/manor.toml"),
    include_str!("../../../examples/gambrel.toml"),
];

fn boxes(scene: &Scene) -> Vec<[f64; 4]> {
    let paper = |item: &Item| match item {
        Item::Shape { rings, fill: Fill::Paper, .. } => {
            let [a, _, c, _] = rings[0].as_slice() else { return None };
            Some([a[0], a[1], c[0], c[1]])
        }
        _ => None,
    };
    scene.items.iter().filter_map(paper).collect()
}

/// Every pile has its box and its row; no box lies over another, nothing is written over anything, nothing runs off the paper.
#[test]
fn every_pile_is_on_the_map_and_in_the_list() {
    for house in HOUSES {
        let plan = planned(house);
        let scenes = stage(&plan);
        let [map, lists @ ..] = scenes.as_slice() else { panic!("a map and a list") };
        let [width, height] = map.page.size();
        let boxes = boxes(map);
        for (index, a) in boxes.iter().enumerate() {
            assert!(a[0] >= 9.9 && a[1] >= 9.9 && a[2] <= width - 9.9 && a[3] <= height - 9.9, "{a:?}");
            let apart =
                |b: &[f64; 4]| a[2] <= b[0] + 1e-6 || b[2] <= a[0] + 1e-6 || a[3] <= b[1] + 1e-6 || b[3] <= a[1] + 1e-6;
            assert!(boxes[index + 1..].iter().all(apart), "{a:?}");
        }
        let words: Vec<&str> = texts(map).map(|text| text.words.as_str()).collect();
        for pile in &plan.loads.piles {
            assert!(words.contains(&pile.number.to_string().as_str()), "pile {}", pile.number);
        }
        let all: Vec<_> = texts(map).collect();
        for (index, text) in all.iter().enumerate() {
            let hit = all[index + 1..].iter().find(|other| overlap(extent(text), extent(other)));
            assert!(hit.is_none(), "{} over {}", text.words, hit.unwrap().words);
        }
        assert!(!lists.is_empty());
    }
}

#[test]
fn nothing_laid_nothing_staged() {
    assert!(stage(&planned(&HOUSES[0].replace("composite-slate", "no-such-sheet"))).is_empty());
}
