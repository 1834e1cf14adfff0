//! Planes measured one by one in a job file: read, refused with their place, and planned.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use covering::Catalog;
use plan::{Job, Plan, Severity, plan, read_job};
use reader::Format;
use roof::{EdgeKind, EdgeName, Meeting, Taken};

const HOUSE: &str = r#"
format = 1
name   = "Curlew barn"

[covering]
sheet = "composite-slate"

[[plane]]
name           = "south"
pitch          = "9/12"
facing         = "southeast"
eave           = 40
top            = 40
left_rake      = "15 ft"
right_rake     = "15 ft"
diagonal_left  = "42' 8-5/8\""
edges          = { right = "hip", top = "ridge" }
meets          = { top = "north.2" }

[[plane]]
name    = "north"
corners = [[40, 24, 9], [0, 24, 9], [0, 12, 18], [40, 12, 18]]
holes   = [[[10, 20, 12], [12, 20, 12], [12, 16, 15]]]
edges   = { 1 = "sidewall" }
"#;

fn sound(text: &str) -> Job {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert_eq!(mistakes, []);
    job.unwrap()
}

fn planned(text: &str) -> Plan {
    plan(&sound(text), &Catalog::shipped())
}

#[test]
#[allow(clippy::float_cmp, reason = "feet and sixteenths are exact in binary")]
fn planes_are_read_as_meant() {
    let job = sound(HOUSE);
    let [south, north] = job.planes.as_slice() else { panic!("two planes") };
    let Taken::ByTape(tape) = &south.taken else { panic!("by tape") };
    assert_eq!((tape.facing_deg, tape.eave, tape.left_rake, tape.diagonal_right), (Some(135.0), 480.0, 180.0, None));
    assert_eq!(tape.diagonal_left, Some(512.625));
    assert_eq!(south.kinds[&EdgeName::Right], EdgeKind::Hip);
    assert_eq!(south.meets[&EdgeName::Top], Meeting { plane: "north".into(), edge: EdgeName::From(2) });
    let Taken::ByCorners { outer, holes } = &north.taken else { panic!("by corners") };
    assert_eq!((outer[2], holes[0][2]), ([0.0, 144.0, 216.0], [144.0, 192.0, 180.0]));
    assert_eq!(north.kinds[&EdgeName::From(1)], EdgeKind::Sidewall);
    let in_json = r#"{ "format": 1, "name": "a", "covering": { "sheet": "composite-slate" }, "plane": [{ "name": "n",
        "corners": [[0, 0, 0], [1, 0, 0], [0, 1, 1]], "edges": { "2": "rake" } }] }"#;
    assert_eq!(read_job(in_json, Format::Json).1, []);
}

/// A taped plane and a surveyed one of 40 × 15 ft tied at the ridge; a hole of 2 × 5 ft halved. Lines are counted once.
#[test]
fn a_job_of_planes_alone_is_planned() {
    let plan = planned(HOUSE);
    assert!(plan.problems.iter().all(|problem| problem.severity == Severity::Caution), "{:?}", plan.problems);
    assert_eq!((plan.problems[0].code.as_str(), plan.problems[0].place.path.as_str()), ("plane-not-cut", "plane[0].name"));
    let ids: Vec<_> = plan.roof.planes.iter().map(|plane| (plane.id.as_str(), plane.known_by)).collect();
    assert_eq!(ids, [("plane.south", "tape"), ("plane.north", "corners")]);
    let totals = &plan.roof.totals;
    for (is, should) in [
        (totals.area_sqft, 1200.0 - 5.0),
        (totals.eave_ft, 80.0),
        // Of the hole: the plane ends below its lower side.
        (totals.high_edge_ft, 2.0),
        (totals.hip_ft, 15.0),
        (totals.sidewall_ft, 15.0),
        (totals.ridge_ft, 40.0),
    ] {
        assert!((is - should).abs() < 0.2, "{is} {should} {totals:?}");
    }
    assert_eq!(plan.layout.planes.len(), 2);
    assert!(plan.layout.pieces > 1000 && !plan.order.is_empty());
}

#[test]
fn what_is_wrong_with_a_plane_points_into_the_file() {
    for (from, to, code, marked) in [
        ("\"42' 8-5/8\\\"\"", "\"70 ft\"", "tapes-do-not-reach", "plane[0].diagonal_left"),
        ("\"north.2\"", "\"nroth.2\"", "tie-unknown", "plane[0].meets.top"),
        ("\"north.2\"", "\"north.1\"", "tie-lengths-differ", "plane[0].meets.top"),
        ("[0, 12, 18]", "[0, 12, 19]", "corners-not-flat", "plane[1].corners["),
    ] {
        let plan = planned(&HOUSE.replacen(from, to, 1));
        let problem = plan.problems.iter().find(|problem| problem.code == code);
        let problem = problem.unwrap_or_else(|| panic!("{code} in {:?}", plan.problems));
        assert!(problem.place.path.starts_with(marked) && problem.place.line > 8, "{problem:?}");
        assert!(problem.severity == Severity::Error && problem.place.plane.starts_with("plane."), "{problem:?}");
    }
}

#[test]
fn each_mistake_is_named_with_its_place() {
    for (from, to, path) in [
        ("name           = \"south\"", "name = \" \"", "plane[0].name"),
        ("\"north\"\ncorners", "\"south\"\ncorners", "plane[1].name"),
        ("\"9/12\"", "\"90 deg\"", "plane[0].pitch"),
        ("\"southeast\"", "\"soutsoutheast\"", "plane[0].facing"),
        ("\"southeast\"", "500", "plane[0].facing"),
        ("eave           = 40", "eave = 0", "plane[0].eave"),
        ("top            = 40", "top = \"1/2 in\"", "plane[0].top"),
        ("top            = 40", "top = -1", "plane[0].top"),
        ("diagonal_left ", "left_offset = 1\ndiagonal_left ", "plane[0].left_offset"),
        ("diagonal_left ", "holes = [[]]\ndiagonal_left ", "plane[0].holes"),
        ("{ right = \"hip\"", "{ rigt = \"hip\"", "plane[0].edges.rigt"),
        ("right = \"hip\"", "right = \"eave\"", "plane[0].edges.right"),
        ("right = \"hip\"", "right = \"hipp\"", "plane[0].edges.right"),
        ("{ top = \"north.2\" }", "{ top = \"north\" }", "plane[0].meets.top"),
        ("{ top = \"north.2\" }", "{ 0 = \"north.2\" }", "plane[0].meets.0"),
        ("{ 1 = ", "{ 4 = ", "plane[1].edges.4"),
        ("corners = ", "eave = 3\ncorners = ", "plane[1].eave"),
        ("[0, 24, 9]", "[0, 24]", "plane[1].corners[1]"),
        ("[12, 20, 12], ", "", "plane[1].holes[0]"),
    ] {
        assert!(HOUSE.contains(from), "{from}");
        let (_, mistakes) = read_job(&HOUSE.replacen(from, to, 1), Format::Toml);
        let paths: Vec<&str> = mistakes.iter().map(|mistake| mistake.path.as_str()).collect();
        assert_eq!(paths, [path], "{to}: {mistakes:?}");
    }
}

/// The house beside it is planned, and what is wrong elsewhere still points at its own table.
#[test]
fn a_plane_that_lacks_tapes_is_told_and_the_rest_is_planned() {
    let begun = "[[plane]]\nname = \"begun\"\npitch = 8\neave = 30\n\n";
    let bare = "[[plane]]\nname = \"bare\"\n";
    let bent = HOUSE.replace("diagonal_left  = \"42' 8-5/8\\\"\"", "diagonal_left = 90");
    assert_ne!(bent, HOUSE);
    let text = format!("{}{bare}", bent.replacen("[[plane]]", &format!("{begun}[[plane]]"), 1));
    let planned = plan(&sound(&text), &Catalog::shipped());
    let errors = planned.problems.iter().filter(|problem| problem.severity == Severity::Error);
    let told: Vec<(&str, &str)> = errors.map(|error| (error.place.path.as_str(), error.says.as_str())).collect();
    let unfinished: Vec<&(&str, &str)> = told.iter().filter(|(path, _)| !path.contains('.')).collect();
    let expected =
        [("plane[0]", "begun lacks top, left_rake, right_rake"), ("plane[3]", "bare has neither tapes nor corners")];
    assert_eq!(unfinished, expected.iter().collect::<Vec<_>>());
    assert!(told.iter().any(|(path, _)| path.starts_with("plane[1].")), "{told:?}");
    assert!(planned.roof.planes.iter().any(|plane| plane.id == "plane.north"));
}
