//! The roof plan as a whole: its bytes, its room, what it tells.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod lettering;

use covering::Catalog;
use drawings::{Anchor, Item, LineType, Point, Scene, Text, roof_plan, svg};
use lettering::{extent, overlap, texts};
use plan::{Plan, plan, read_job};
use proptest::prelude::*;
use reader::Format;

const KINDS: [LineType; 11] = [
    LineType::Eave,
    LineType::Rake,
    LineType::Ridge,
    LineType::Hip,
    LineType::Valley,
    LineType::Sidewall,
    LineType::Headwall,
    LineType::Break,
    LineType::HighEdge,
    LineType::DeadValley,
    LineType::Hidden,
];

fn planned(text: &str) -> Plan {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}\n{text}");
    plan(&job.unwrap(), &Catalog::shipped())
}

/// A job of blocks, told as outline and edges.
fn job(blocks: &[(&str, String, String, f64)]) -> Plan {
    let mut text = "format = 1\nname = \"Made in the test\"\n[covering]\nsheet = \"composite-slate\"\n".to_owned();
    for (name, outline, edges, height) in blocks {
        text += &format!("[[block]]\nname = \"{name}\"\neave_height = {height}\noutline = [{outline}]\nedges = [{edges}]\n");
    }
    planned(&text)
}

fn rectangle([left, low]: [f64; 2], [right, high]: [f64; 2]) -> String {
    format!("[{left}, {low}], [{right}, {low}], [{right}, {high}], [{left}, {high}]")
}

/// Twelve corners, a hip at every corner that stands out and a valley at every other.
fn twelve_corners() -> Plan {
    let outline = "[10.5, 0], [30, 0], [30, 8], [48, 8], [48, 30.25], [37, 30.25], [37, 44], [19, 44], [19, 35], [0, 35], [0, 14], \
                   [10.5, 14]";
    let edges = ["{ eave = \"8/12\" }"; 12].join(", ");
    job(&[("house", outline.into(), edges, 9.0)])
}

/// A house with overhangs of 2 ft, and a porch 20 ft wide whose own walls meet the house's under its eave.
fn porch_under_an_eave() -> Plan {
    let side = |kind: &str| format!("{{ {kind}, overhang = \"24 in\" }}");
    let house = [side("eave = \"8/12\""), side("gable = true"), side("eave = \"8/12\""), side("gable = true")].join(", ");
    let porch =
        "{ eave = \"3/12\", overhang = 0 }, { gable = true, overhang = 0 }, { wall = true }, { gable = true, overhang = 0 }";
    job(&[
        ("house", rectangle([-2.0, -2.0], [42.0, 30.0]), house, 12.0),
        ("porch", rectangle([10.0, -10.0], [30.0, 0.0]), porch.into(), 8.0),
    ])
}

fn lines(scene: &Scene, kind: LineType) -> Vec<[Point; 2]> {
    let of_kind = |item: &Item| match item {
        Item::Line { points, line } if *line == kind => Some([points[0], points[1]]),
        _ => None,
    };
    scene.items.iter().filter_map(of_kind).collect()
}

/// On the paper, without the sample in the key, which is the first that is drawn.
fn length(scene: &Scene, kind: LineType) -> f64 {
    lines(scene, kind).iter().skip(1).map(|[a, b]| libm::hypot(a[0] - b[0], a[1] - b[1])).sum()
}

fn has(scene: &Scene, words: &str) -> bool {
    texts(scene).any(|text| text.words == words)
}

/// `HEADLAP_BLESS=1 cargo test -p drawings` writes the drawings anew; look at them before you keep them.
#[test]
fn drawings_stay_as_they_were_looked_at() {
    let hip = planned(include_str!("../../../examples/hip.toml"));
    let manor = planned(include_str!("../../../examples/manor.toml"));
    let chimney = planned(include_str!("../../../examples/chimney.toml"));
    for (name, plan) in [("hip", hip), ("manor", manor), ("chimney", chimney), ("twelve-corners", twelve_corners())] {
        let path = format!("{}/tests/golden/roof-plan-{name}.svg", env!("CARGO_MANIFEST_DIR"));
        let drawn = svg(&roof_plan(&plan).unwrap());
        if std::env::var_os("HEADLAP_BLESS").is_some() {
            std::fs::write(&path, &drawn).unwrap();
        }
        let kept = std::fs::read_to_string(&path).unwrap();
        assert!(drawn == kept, "{name} has changed; bless it if the new drawing is right");
    }
}

/// Of the porch, the headwall (20 ft) and the last 2 ft of each rake lie under the eave; the eaves are 44 + 44 + 20 ft, the rakes
/// of the porch are seen for 8 ft each beside the house's four of 16 ft.
#[test]
fn what_lies_under_an_overhang_is_dashed() {
    let scene = roof_plan(&porch_under_an_eave()).unwrap();
    let foot = length(&scene, LineType::Eave) / 108.0;
    assert!((length(&scene, LineType::Hidden) / foot - 24.0).abs() < 0.01);
    assert!((length(&scene, LineType::Rake) / foot - (4.0 * 16.0 + 2.0 * 8.0)).abs() < 0.01);
    assert!(has(&scene, "under another plane"));
}

/// A garage that stops flush under the rake of the house: rake and sidewall lie over each other, so the sidewall is drawn beside.
#[test]
fn a_wall_under_an_edge_is_drawn_beside_it() {
    let gabled = "{ eave = \"8/12\" }, { gable = true }, { eave = \"8/12\" }, { gable = true }";
    let garage = "{ eave = \"6/12\" }, { gable = true }, { eave = \"6/12\" }, { wall = true }";
    let scene = roof_plan(&job(&[
        ("house", rectangle([0.0, 0.0], [40.0, 28.0]), gabled.into(), 9.0),
        ("garage", rectangle([40.0, 4.0], [60.0, 24.0]), garage.into(), 7.0),
    ]))
    .unwrap();
    let wall = lines(&scene, LineType::Sidewall)[1];
    let rakes = lines(&scene, LineType::Rake);
    let off = rakes.iter().map(|rake| wall[0][0] - rake[0][0]).filter(|off| off.abs() < 2.0).fold(0.0, f64::max);
    assert!((0.6..1.5).contains(&off), "{off} mm to the garage's side");
}

#[test]
fn every_plane_is_named_on_it_or_in_the_list() {
    let plan = twelve_corners();
    let scene = roof_plan(&plan).unwrap();
    let listed = |name: &str| texts(&scene).filter(|text| text.words.starts_with(&format!("{name}, 8/12"))).count();
    let whole = |name: &str| texts(&scene).filter(|text| text.words == name).count();
    let broken = |name: &str| {
        let (first, second) = name.split_once(", ").unwrap();
        usize::from(has(&scene, &format!("{first},")) && has(&scene, second))
    };
    for plane in &plan.roof.planes {
        let name = plane.name.as_str();
        assert!(listed(name) + whole(name) + broken(name) >= 1, "{name}");
    }
    let letters = texts(&scene).filter(|text| text.words == "A" && text.strong).count();
    assert_eq!(letters, 2, "on its plane and in the list");
}

/// Lengths stand on the setting-out sheets: feet and inches are written here for the scale alone.
#[test]
fn no_length_is_written() {
    let scene = roof_plan(&porch_under_an_eave()).unwrap();
    let lengths: Vec<&str> =
        texts(&scene).map(|text| text.words.as_str()).filter(|words| words.contains(['\'', '"'])).collect();
    assert!(lengths.iter().all(|words| words.ends_with("= 1'")), "{lengths:?}");
}

#[test]
fn openings_are_numbered_where_they_are_and_named_in_the_list() {
    let plan = planned(include_str!("../../../examples/chimney.toml"));
    let scene = roof_plan(&plan).unwrap();
    for (index, opening) in plan.roof.openings.iter().enumerate() {
        let number = (index + 1).to_string();
        let at_it = |text: &&Text| text.words == number && text.anchor == Anchor::Middle;
        assert_eq!(texts(&scene).filter(at_it).count(), 1, "{}", opening.name);
        assert!(has(&scene, &opening.name));
    }
}

/// Two planes that meet at a ridge and stand apart: each is drawn with its own four edges, so the one ridge twice.
#[test]
fn planes_by_tape_are_drawn_whole_and_told_to_stand_anywhere() {
    let scene = roof_plan(&planned(include_str!("../../../examples/taped.toml"))).unwrap();
    let drawn = |kind: LineType| lines(&scene, kind).len() - 1;
    assert_eq!([LineType::Eave, LineType::Rake, LineType::Ridge].map(drawn), [2, 4, 2]);
    assert!(has(&scene, "Planes measured by tape stand side by side: their place in plan is not known."));
}

#[test]
fn what_is_not_planned_is_told() {
    let mut plan = porch_under_an_eave();
    assert!(!texts(&roof_plan(&plan).unwrap()).any(|text| text.words.starts_with("NOT ALL")));
    plan.problems.push(plan::Problem {
        code: "made-in-the-test".into(),
        severity: plan::Severity::Error,
        says: String::new(),
        remedy: String::new(),
        place: plan::ProblemPlace::default(),
    });
    assert!(texts(&roof_plan(&plan).unwrap()).any(|text| text.words.starts_with("NOT ALL OF THE JOB IS PLANNED")));
}

#[test]
fn without_planes_there_is_no_roof_plan() {
    let mut plan = porch_under_an_eave();
    plan.roof.planes.clear();
    plan.roof.lines.clear();
    assert!(roof_plan(&plan).is_none());
}

#[test]
fn a_roof_that_is_not_laid_is_drawn_without_starts() {
    let mut plan = porch_under_an_eave();
    let starts = |plan: &Plan| has(&roof_plan(plan).unwrap(), "laying starts, first butts");
    assert!(starts(&plan));
    plan.layout.planes.clear();
    assert!(!starts(&plan));
}

/// Whether a segment touches an upright box: some part of it lies between all four sides.
fn touches([a, b]: [Point; 2], [left, top, right, bottom]: [f64; 4]) -> bool {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (axis, low, high) in [(0, left, right), (1, top, bottom)] {
        let step = b[axis] - a[axis];
        let [enter, leave] = [(low - a[axis]) / step, (high - a[axis]) / step];
        if step.abs() < 1e-12 {
            if a[axis] < low || a[axis] > high {
                return false;
            }
        } else {
            from = from.max(enter.min(leave));
            to = to.min(enter.max(leave));
        }
    }
    from <= to
}

/// A rectangle in quarters of a foot with eaves all round or a gable at each short end.
fn block(name: &'static str, reach: i32) -> impl Strategy<Value = (&'static str, String, String, f64)> {
    let sides = (24..120_i32, 24..120_i32);
    (-reach..=reach, -reach..=reach, sides, any::<bool>(), 3..14_i32, 7..12_i32).prop_map(
        move |(x, y, (width, depth), gabled, rise, height)| {
            let quarter = |feet: i32| f64::from(feet) / 4.0;
            let outline = rectangle([quarter(x), quarter(y)], [quarter(x + width), quarter(y + depth)]);
            let eave = format!("{{ eave = {rise}, overhang = 1 }}");
            let end = if gabled { "{ gable = true, overhang = 0.5 }".to_owned() } else { eave.clone() };
            let ends = if width > depth { [&eave, &end] } else { [&end, &eave] };
            (name, outline, [ends, ends].concat().into_iter().cloned().collect::<Vec<_>>().join(", "), f64::from(height))
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn lettering_stays_on_the_paper_apart_and_off_the_lines(
        one in block("house", 0),
        others in prop::collection::vec((block("wing", 80), block("shed", 80)), 0..2),
    ) {
        let others = others.into_iter().flat_map(|(wing, shed)| [wing, shed]);
        let scene = roof_plan(&job(&[one].into_iter().chain(others).collect::<Vec<_>>())).unwrap();
        let [right, bottom] = scene.page.size();
        let drawn: Vec<[Point; 2]> = KINDS.into_iter().flat_map(|kind| lines(&scene, kind)).collect();
        let all: Vec<_> = texts(&scene).collect();
        for (index, text) in all.iter().enumerate() {
            let extent = extent(text);
            prop_assert!(text.cap >= 2.5);
            prop_assert!(extent[0] >= 0.0 && extent[1] >= 0.0 && extent[2] <= right && extent[3] <= bottom, "{}", text.words);
            for other in &all[index + 1..] {
                prop_assert!(!overlap(extent, self::extent(other)), "{} over {}", text.words, other.words);
            }
            for line in &drawn {
                prop_assert!(!touches(*line, extent), "{} over a line", text.words);
            }
        }
    }
}

/// A gable house 40 by 28 ft, zones 3 ft wide (ASCE 7: a tenth of 28 ft is less): a line of 40 ft along each eave and of 14 ft
/// along each of four rakes, 136 ft in all.
#[test]
fn zones_of_the_wind_run_along_eaves_and_rakes() {
    let text = |site: &str| {
        format!(
            "format = 1\nname = \"Made in the test\"\n[covering]\nsheet = \"composite-slate\"\n[[block]]\nname = \"house\"\n\
             eave_height = 9\noutline = [[0, 0], [40, 0], [40, 28], [0, 28]]\nedges = [{{ eave = \"8/12\" }}, {{ gable = true }}, \
             {{ eave = \"8/12\" }}, {{ gable = true }}]\n{site}"
        )
    };
    let still = roof_plan(&planned(&text(""))).unwrap();
    let windy = roof_plan(&planned(&text("[site]\ncode = \"2018\"\nwind_mph = 115\nwind_exposure = \"B\"\n"))).unwrap();
    let foot = length(&windy, LineType::Eave) / 80.0;
    assert!(length(&still, LineType::Limit) < 1e-9);
    assert!((length(&windy, LineType::Limit) / foot - 136.0).abs() < 0.01, "{}", length(&windy, LineType::Limit) / foot);
    assert!(has(&windy, "wind: edge zone, 3' 0\""));
}
