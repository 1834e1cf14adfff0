//! Roofs whose planes and lines can be worked out by hand.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use roof::{Block, Built, EdgeKind, OutlineAt, Roof, Severity, Side, SideKind, build, sanity_check};
use units::{Length, Pitch};

const FT: f64 = 12.0;

fn eave(rise: f64) -> Side {
    Side::new(SideKind::Eave(Pitch::per_12(rise).unwrap()))
}

fn gable() -> Side {
    Side::new(SideKind::Gable)
}

fn over(side: Side, inches: f64) -> Side {
    Side { overhang: Some(Length::inches(inches)), ..side }
}

fn block(corners_ft: &[[f64; 2]], sides: Vec<Side>) -> Block {
    Block {
        name: "house".into(),
        outline: corners_ft.iter().map(|c| [c[0] * FT, c[1] * FT]).collect(),
        outline_at: OutlineAt::DripLine,
        sides,
        holes: vec![],
        eave_height: 9.0 * FT,
    }
}

fn sound(blocks: &[Block]) -> Roof {
    let Built { roof, problems } = build(blocks, 0.0);
    assert!(problems.iter().all(|problem| problem.severity == Severity::Caution), "{problems:?}");
    assert_eq!(sanity_check(&roof), Vec::<String>::new());
    roof
}

fn feet(roof: &Roof, kind: EdgeKind) -> f64 {
    roof.lines.iter().filter(|line| line.kind == kind).map(|line| line.length().to_feet()).sum()
}

fn area(roof: &Roof) -> f64 {
    roof.planes.iter().map(|plane| plane.area().to_square_feet()).sum()
}

#[track_caller]
fn near(is: f64, should: f64, within: f64) {
    assert!((is - should).abs() <= within, "{is} is not {should}");
}

const RECTANGLE: [[f64; 2]; 4] = [[0.0, 0.0], [50.0, 0.0], [50.0, 30.0], [0.0, 30.0]];
const ELL: [[f64; 2]; 6] = [[0.0, 0.0], [40.0, 0.0], [40.0, 22.0], [16.0, 22.0], [16.0, 30.0], [0.0, 30.0]];

/// Worked from the hip-rafter rule of NAVEDTRA 14044 (US Navy, Builder): at 8 in 12 over a run of 15 ft the hip is
/// √(15² + 15² + 10²) = √550 ft; the ridge of a 30 × 50 ft hip roof is 50 − 30 ft.
#[test]
fn hip_roof_of_the_navy_manual() {
    let roof = sound(&[block(&RECTANGLE, vec![eave(8.0); 4])]);
    near(feet(&roof, EdgeKind::Ridge), 20.0, 1e-9);
    near(feet(&roof, EdgeKind::Hip), 4.0 * 550f64.sqrt(), 1e-9);
    near(feet(&roof, EdgeKind::Eave), 160.0, 1e-9);
    near(area(&roof), 1_802.776, 5e-4);
    near(roof.height, 10.0 * FT, 1e-9);
    assert_eq!(roof.lines.len(), 9);
    let names: Vec<&str> = roof.planes.iter().map(|plane| plane.name.as_str()).collect();
    assert_eq!(names, ["house, south", "house, east", "house, north", "house, west"]);
}

/// NAVEDTRA 14044 (US Navy, Builder): common run 15 ft at 8 in 12, hip 23.45 ft.
#[test]
fn hip_of_the_navy_manual_as_printed() {
    let roof = sound(&[block(&RECTANGLE, vec![eave(8.0); 4])]);
    let hip = roof.lines.iter().find(|line| line.kind == EdgeKind::Hip).unwrap();
    near(hip.length().to_feet(), 23.45, 0.005);
}

/// NAVEDTRA 14044 (US Navy, Builder): 7 in 12, run 8 ft, rafter 111.12 in by its table of 13.89 in per foot.
#[test]
fn common_rafter_of_the_navy_manual() {
    let corners = [[0.0, 0.0], [30.0, 0.0], [30.0, 16.0], [0.0, 16.0]];
    let roof = sound(&[block(&corners, vec![eave(7.0), gable(), eave(7.0), gable()])]);
    let rake = roof.lines.iter().find(|line| line.kind == EdgeKind::Rake).unwrap();
    near(rake.length().to_inches(), 111.12, 0.03);
    assert_eq!(rake.length().to_tape().to_string(), "9' 3-1/8\"");
}

/// Exact rows of the framing square's hip line, 6 → 18, 14 → 22 and 21 → 27 in per foot of common run
/// (Griffith, Carpentry, 1916).
#[test]
fn exact_rows_of_the_hip_line() {
    for (rise, per_foot) in [(1.0, 17.0), (6.0, 18.0), (14.0, 22.0), (21.0, 27.0)] {
        let roof = sound(&[block(&RECTANGLE, vec![eave(rise); 4])]);
        near(feet(&roof, EdgeKind::Hip) / 4.0, 15.0 * per_foot / 12.0, 1e-9);
    }
}

/// A rule of old estimating books: a roof of one pitch has the area of its plan times the rafter over the run, whatever
/// its shape; for 1,008 sq ft of plan they print 1,432 at 12 in 12, 1,210 at 8, 1,129 at 6 and 1,815 at 18 in 12, with
/// rounded factors (hence half a percent).
#[test]
fn area_of_uniform_slope() {
    let tee = [[0.0, 0.0], [40.0, 0.0], [40.0, 22.0], [24.0, 22.0], [24.0, 30.0], [16.0, 30.0], [16.0, 22.0], [0.0, 22.0]];
    let plan = 40.0 * 22.0 + 8.0 * 16.0;
    for (rise, printed) in [(12.0, 1_432.0), (8.0, 1_210.0), (6.0, 1_129.0), (18.0, 1_815.0)] {
        let factor = (144.0f64 + rise * rise).sqrt() / 12.0;
        let ell = sound(&[block(&ELL, vec![eave(rise); 6])]);
        near(area(&ell), plan * factor, 1e-6);
        near(area(&ell), printed, 0.005 * printed);
        near(area(&sound(&[block(&tee, vec![eave(rise); 8])])), (880.0 + 64.0) * factor, 1e-6);
        let gabled = sound(&[block(&RECTANGLE, vec![eave(rise), gable(), eave(rise), gable()])]);
        near(area(&gabled), 1_500.0 * factor, 1e-6);
    }
}

#[test]
fn ell_with_gables_has_one_valley() {
    // Main house 40 × 22, wing 16 wide running 8 out to the north; 9 in 12.
    let sides = vec![eave(9.0), gable(), eave(9.0), eave(9.0), gable(), eave(9.0)];
    let roof = sound(&[block(&ELL, sides)]);
    let valleys: Vec<_> = roof.lines.iter().filter(|line| line.kind == EdgeKind::Valley).collect();
    assert_eq!(valleys.len(), 1);
    // The valley rises over a square of 8 ft to the wing's ridge: 8 × √(1 + 1 + 0.75²).
    near(valleys[0].length().to_feet(), 8.0 * 2.5625f64.sqrt(), 1e-9);
    near(area(&roof), 1_008.0 * 1.25, 1e-6);
}

#[test]
fn straight_sides_of_one_pitch_are_one_plane() {
    let corners = [[0.0, 0.0], [20.0, 0.0], [50.0, 0.0], [50.0, 30.0], [0.0, 30.0]];
    let roof = sound(&[block(&corners, vec![eave(8.0); 5])]);
    let ids: Vec<&str> = roof.planes.iter().map(|plane| plane.id.as_str()).collect();
    assert_eq!(ids, ["house.0", "house.2", "house.3", "house.4"]);
    near(area(&roof), 1_802.776, 5e-4);
}

#[test]
fn outlines_may_be_typed_either_way_round() {
    let mut corners = RECTANGLE.to_vec();
    corners.reverse();
    // Reversed, side 0 runs along the north, 1 along the west, 2 along the south, 3 along the east.
    let roof = sound(&[block(&corners, vec![eave(6.0), gable(), eave(8.0), gable()])]);
    let by_id: Vec<(&str, &str, f64)> =
        roof.planes.iter().map(|plane| (plane.id.as_str(), plane.name.as_str(), plane.pitch.rise())).collect();
    assert!(
        by_id.contains(&("house.0", "house, north", 6.0)) && by_id.contains(&("house.2", "house, south", 8.0)),
        "{by_id:?}"
    );
}

#[test]
fn walls_with_overhangs_reach_down_and_out() {
    let mut house = block(&RECTANGLE, vec![over(eave(8.0), 18.0); 4]);
    house.outline_at = OutlineAt::Walls;
    let roof = sound(&[house]);
    near(area(&roof), 53.0 * 33.0 * 208f64.sqrt() / 12.0, 1e-6);
    // 18 in out at 8 in 12 is 12 in down.
    let low = roof.planes.iter().flat_map(|p| &p.rings).flat_map(|r| &r.corners).map(|c| c[2]).fold(f64::MAX, f64::min);
    near(low, 9.0 * FT - 12.0, 1e-9);
}

#[test]
fn unequal_drops_make_a_short_rake_and_a_caution() {
    let mut house =
        block(&RECTANGLE, vec![over(eave(8.0), 12.0), over(eave(4.0), 12.0), over(eave(8.0), 12.0), over(eave(4.0), 12.0)]);
    house.outline_at = OutlineAt::Walls;
    let built = build(&[house], 0.0);
    assert_eq!(sanity_check(&built.roof), Vec::<String>::new());
    let cautions: Vec<_> = built.problems.iter().filter(|problem| problem.code == "fascias-not-level").collect();
    assert_eq!(cautions.len(), 4);
    // 12 in at 8 in 12 falls 8 in; a 4-in-12 side needs 24 in of overhang to fall as far.
    assert!(cautions.iter().any(|caution| caution.remedy == "an overhang of 2' 0\" on side 1 would level the fascia"));
    // The south plane drops 8 in and the east one 4: along the east eave's line the south plane ends in a rake from
    // 8 in below to 4 in below, 6 in of run at 8 in 12, four times.
    near(feet(&built.roof, EdgeKind::Rake), 4.0 * 52f64.sqrt() / 12.0, 1e-9);
    near(built.roof.plan_area.to_square_feet(), 52.0 * 32.0, 1e-6);
}

#[test]
fn a_shed_has_a_high_edge_and_a_lean_to_a_headwall() {
    let corners = [[0.0, 0.0], [20.0, 0.0], [20.0, 10.0], [0.0, 10.0]];
    let shed = sound(&[block(&corners, vec![eave(5.0), gable(), gable(), gable()])]);
    near(feet(&shed, EdgeKind::HighEdge), 20.0, 1e-9);
    near(feet(&shed, EdgeKind::Rake), 2.0 * 10.0 * 13.0 / 12.0, 1e-9);
    let wall = Side::new(SideKind::Wall);
    let lean_to = sound(&[block(&corners, vec![eave(5.0), gable(), wall.clone(), wall])]);
    near(feet(&lean_to, EdgeKind::Headwall), 20.0, 1e-9);
    near(feet(&lean_to, EdgeKind::Sidewall), 10.0 * 13.0 / 12.0, 1e-9);
}

#[test]
fn north_turns_the_names() {
    let built = build(&[block(&RECTANGLE, vec![eave(8.0), gable(), eave(8.0), gable()])], 90.0);
    // North lies to the right of the sheet, so what faces its foot faces east.
    let named: Vec<(&str, f64)> = built.roof.planes.iter().map(|p| (p.name.as_str(), p.facing_deg)).collect();
    assert_eq!(named, [("house, east", 90.0), ("house, west", 270.0)]);
}

#[test]
fn bad_outlines_are_named_and_the_others_built() {
    let good = block(&RECTANGLE, vec![eave(8.0); 4]);
    let bow = block(&[[0.0, 0.0], [10.0, 10.0], [10.0, 0.0], [0.0, 10.0]], vec![eave(8.0); 4]);
    let cases: Vec<(Block, &str)> = vec![
        (bow, "outline-crosses-itself"),
        (block(&RECTANGLE, vec![gable(); 4]), "no-eave-side"),
        (block(&RECTANGLE, vec![eave(8.0); 3]), "edges-do-not-match"),
        (block(&RECTANGLE[..2], vec![eave(8.0); 2]), "outline-too-few-corners"),
        (block(&[[0.0, 0.0], [0.0, 0.0], [9.0, 0.0], [9.0, 9.0]], vec![eave(8.0); 4]), "corner-repeated"),
        (block(&[[0.0, 0.0], [9.0, 0.0], [4.0, 0.0], [4.0, 9.0]], vec![eave(8.0); 4]), "outline-folds-back"),
        (block(&[[0.0, 0.0], [9.0, 0.0], [20.0, 0.0]], vec![eave(8.0); 3]), "outline-folds-back"),
        (
            block(
                &[[0.0, 0.0], [20.0, 0.0], [50.0, 0.0], [50.0, 30.0], [0.0, 30.0]],
                vec![eave(8.0), eave(6.0), eave(8.0), eave(8.0), eave(8.0)],
            ),
            "straight-sides-differ",
        ),
    ];
    for (bad, code) in cases {
        let built = build(&[bad, good.clone()], 0.0);
        assert_eq!(built.problems.iter().map(|p| p.code).collect::<Vec<_>>(), [code]);
        assert_eq!(built.roof.planes.len(), 4, "{code}");
    }
}
