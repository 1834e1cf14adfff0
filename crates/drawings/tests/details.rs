//! Details of the shipped examples: what they tell is what the plan counts, and nothing is lettered over something else.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod lettering;

use covering::Catalog;
use drawings::{Detail, English, Text, details};
use lettering::{extent, overlap, texts};
use plan::{MetalRun, Plan, plan, read_job};
use reader::Format;

const CHIMNEY: &str = include_str!("../../../examples/chimney.toml");
const MANOR: &str = include_str!("../../../examples/manor.toml");
const COTTAGE: &str = include_str!("../../../examples/cottage.toml");

/// Half of a Letter page that lies, mm.
const ROOM: f64 = 120.0;

fn planned(text: &str) -> Plan {
    plan(&read_job(text, Format::Toml).0.unwrap(), &Catalog::shipped())
}

fn runs<'a>(plan: &'a Plan, id: &str) -> Vec<&'a MetalRun> {
    let metal = plan.details.metal.as_ref().unwrap();
    metal.items.iter().filter(|item| item.id == id).flat_map(|item| &item.runs).collect()
}

#[test]
fn metal_is_told_as_the_plan_counts_it() {
    let plan = planned(CHIMNEY);
    let drawn = details(&plan, ROOM, &English);
    let key = |name: &str| drawn.iter().find(|detail| detail.name == name).unwrap().figure.keyed.join("\n");
    let steps = runs(&plan, "step-flashing").iter().map(|run| run.pieces.len()).max().unwrap();
    assert!(key("sidewall").contains(&format!("pieces: {steps};")), "{}", key("sidewall"));
    let apron = runs(&plan, "aprons").into_iter().find(|run| key_of(&drawn, "apron") == run.at).unwrap();
    assert!(key("apron").contains(&format!("heads sealed: {}", apron.face_nails)), "{}", key("apron"));
    let pipe = &plan.details.metal.as_ref().unwrap().pipes[0];
    assert!(key("pipe").contains(&format!("units of course {}", pipe.over.unwrap() + 1)), "{}", key("pipe"));
}

/// What a detail is of.
fn key_of(drawn: &[Detail], name: &str) -> String {
    drawn.iter().find(|detail| detail.name == name).unwrap().of.clone()
}

/// As it stands when the paper is turned so that it is level.
fn level(text: &Text) -> Text {
    let (sin, cos) = (libm::sin(text.turn.to_radians()), libm::cos(text.turn.to_radians()));
    let [x, y] = text.at;
    Text { at: [x * cos + y * sin, y * cos - x * sin], turn: 0.0, ..text.clone() }
}

#[test]
fn nothing_is_lettered_over_something_else() {
    for text in [CHIMNEY, MANOR, COTTAGE] {
        for Detail { name, of, figure } in details(&planned(text), ROOM, &English) {
            let words: Vec<&Text> = texts(&figure.scene).collect();
            for (at, one) in words.iter().enumerate() {
                for other in words[at + 1..].iter().filter(|other| (one.turn - other.turn).abs() < 1e-9) {
                    let hit = overlap(extent(&level(one)), extent(&level(other)));
                    assert!(!hit, "{name}, {of}: {} and {}", one.words, other.words);
                }
            }
            assert!(figure.scene.page.size()[0] <= ROOM, "{name}, {of} is wider than its room");
        }
    }
}
