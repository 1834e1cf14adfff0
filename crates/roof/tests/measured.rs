//! Planes measured one by one: closed forms, and roofs taken apart and put together again.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use roof::{
    Block, Built, EdgeKind, EdgeName, KnownBy, MeasuredPart, MeasuredPlane, Meeting, OutlineAt, Part, Plane, Point3, Roof,
    Severity, Side, SideKind, Taken, Tape, build, sanity_check, with_measured,
};
use units::Pitch;

const FT: f64 = 12.0;

fn measured(planes: &[MeasuredPlane]) -> Built {
    let built = with_measured(Built::default(), planes, 0.0);
    assert_eq!(sanity_check(&built.roof), Vec::<String>::new());
    built
}

fn codes(built: &Built) -> Vec<&'static str> {
    built.problems.iter().map(|problem| problem.code).collect()
}

fn named(name: &str, taken: Taken) -> MeasuredPlane {
    MeasuredPlane { name: name.into(), taken, kinds: BTreeMap::new(), meets: BTreeMap::new() }
}

/// Eave, right rake, top, left rake in feet at 9/12, facing south.
fn tape([eave, right, top, left]: [f64; 4]) -> Tape {
    Tape {
        pitch: Pitch::per_12(9.0).unwrap(),
        facing_deg: Some(180.0),
        eave: eave * FT,
        top: top * FT,
        left_rake: left * FT,
        right_rake: right * FT,
        diagonal_left: None,
        diagonal_right: None,
        left_offset: None,
    }
}

fn taped(name: &str, tape: Tape) -> MeasuredPlane {
    named(name, Taken::ByTape(tape))
}

fn cornered(name: &str, corners: &[Point3]) -> MeasuredPlane {
    named(name, Taken::ByCorners { outer: corners.to_vec(), holes: vec![] })
}

/// Said of a plane's edges.
trait Said {
    fn called(self, edge: EdgeName, kind: EdgeKind) -> Self;
    fn meeting(self, edge: EdgeName, plane: &str, other: EdgeName) -> Self;
}

impl Said for MeasuredPlane {
    fn called(mut self, edge: EdgeName, kind: EdgeKind) -> Self {
        self.kinds.insert(edge, kind);
        self
    }

    fn meeting(mut self, edge: EdgeName, plane: &str, other: EdgeName) -> Self {
        self.meets.insert(edge, Meeting { plane: plane.into(), edge: other });
        self
    }
}

fn feet(roof: &Roof, kind: EdgeKind) -> f64 {
    roof.lines.iter().filter(|line| line.kind == kind).map(|line| line.length().to_feet()).sum()
}

fn area(roof: &Roof) -> f64 {
    roof.planes.iter().map(|plane| plane.area().to_square_feet()).sum()
}

#[track_caller]
fn near(is: f64, should: f64) {
    assert!((is - should).abs() <= 1e-7 * (1.0 + should.abs()), "{is} is not {should}");
}

/// 4 × 3 ft with diagonals of 5: right triangles.
#[test]
fn a_rectangle_by_tape() {
    let tape = Tape { diagonal_left: Some(60.0), diagonal_right: Some(60.0), ..tape([4.0, 3.0, 4.0, 3.0]) };
    let Built { roof, problems } = measured(&[taped("south", tape)]);
    assert_eq!(problems, []);
    let plane = &roof.planes[0];
    assert_eq!((plane.id.as_str(), plane.name.as_str(), plane.known_by), ("plane.south", "south", KnownBy::Tape));
    near(area(&roof), 12.0);
    // 9/12: the slope is 5 long on a run of 4.
    near(roof.plan_area.to_square_feet(), 12.0 * 0.8);
    near(roof.height, 3.0 * FT * 0.6);
    near(feet(&roof, EdgeKind::Eave), 4.0);
    near(feet(&roof, EdgeKind::Ridge), 4.0);
    near(feet(&roof, EdgeKind::Rake), 6.0);
    let kinds: Vec<EdgeKind> = plane.rings[0].edges.iter().map(|edge| edge.kind).collect();
    assert_eq!(kinds, [EdgeKind::Eave, EdgeKind::Rake, EdgeKind::Ridge, EdgeKind::Rake]);
    near(plane.places()[0][0][1], 0.0);
    near(plane.facing_deg, 180.0);
}

/// One diagonal is enough: a gate of 4 × 3 ft that leans by 1 ft to the right, so the left diagonal is √(5² + h²).
#[test]
fn one_diagonal_fixes_a_leaning_plane() {
    let up = 8f64.sqrt();
    for (left, right) in [(Some((25.0 + 8.0f64).sqrt()), None), (None, Some((9.0 + 8.0f64).sqrt()))] {
        let tape = Tape {
            diagonal_left: left.map(|feet| feet * FT),
            diagonal_right: right.map(|feet| feet * FT),
            ..tape([4.0, 3.0, 4.0, 3.0])
        };
        let built = measured(&[taped("south", tape)]);
        assert_eq!(built.problems, []);
        near(area(&built.roof), 4.0 * up);
        near(built.roof.planes[0].places()[0][3][0], FT);
    }
}

/// Eave 9 ft, top 3 ft, rakes 5 ft: over the 6 ft between them two triangles of 3, 4 and 5.
#[test]
fn without_a_diagonal_the_top_is_level_and_that_is_said() {
    let built = measured(&[taped("south", tape([9.0, 5.0, 3.0, 5.0]))]);
    assert_eq!(codes(&built), ["no-diagonal"]);
    // From one corner to the other: 6 along and 4 up.
    let diagonal = 52f64.sqrt() * FT;
    let told = units::Length::inches(diagonal).to_string();
    assert!(built.problems[0].remedy.contains(&told), "{}", built.problems[0].remedy);
    near(area(&built.roof), 24.0);
}

/// Eave and top alike say nothing about the lean: square on the left end.
#[test]
fn without_a_diagonal_equal_eave_and_top_stand_square() {
    let built = measured(&[taped("south", tape([4.0, 3.0, 4.0, 3.0]))]);
    assert_eq!(codes(&built), ["no-diagonal"]);
    near(area(&built.roof), 12.0);
}

/// An offset of 3 ft on a rake of 5 ft: 4 ft up.
#[test]
fn an_offset_stands_in_for_a_diagonal() {
    let built = measured(&[taped("south", Tape { left_offset: Some(3.0 * FT), ..tape([9.0, 5.0, 3.0, 5.0]) })]);
    assert_eq!(built.problems, []);
    near(area(&built.roof), 24.0);
}

/// 6 ft with two rakes of 5 ft: a triangle 4 ft high.
#[test]
fn a_triangle_needs_no_diagonal() {
    let built = measured(&[taped("east", tape([6.0, 5.0, 0.0, 5.0]))]);
    assert_eq!(built.problems, []);
    near(area(&built.roof), 12.0);
    assert_eq!(built.roof.planes[0].rings[0].corners.len(), 3);
}

#[test]
fn tapes_that_cannot_be_are_refused_with_their_figures() {
    let long = |left, right| Tape { diagonal_left: left, diagonal_right: right, ..tape([20.0, 15.0, 20.0, 15.0]) };
    for (tape, code, figures) in [
        (
            tape([20.0, 8.0, 0.0, 10.0]),
            "tapes-do-not-reach",
            &["left_rake 10' 0\"", "right_rake 8' 0\"", "eave 20' 0\""][..],
        ),
        (long(Some(36.0 * FT), None), "tapes-do-not-reach", &["diagonal_left 36' 0\""]),
        (long(None, Some(4.0 * FT)), "tapes-do-not-reach", &["diagonal_right 4' 0\"", "eave 20' 0\""]),
        (long(Some(25.0 * FT), Some(24.0 * FT)), "tapes-disagree", &["diagonal_right is 24' 0\"", "25' 0\"", "1' 0\" more"]),
    ] {
        let built = measured(&[taped("south", tape)]);
        assert_eq!(codes(&built), [code]);
        assert!(built.roof.planes.is_empty());
        let says = &built.problems[0].says;
        for figure in figures {
            assert!(says.contains(figure), "{figure} in {says}");
        }
    }
}

/// A quarter of an inch too much on one diagonal of a rectangle: said, and spread over six tapes.
#[test]
fn a_small_miss_is_said_and_spread() {
    let tape =
        Tape { diagonal_left: Some(25.0 * FT), diagonal_right: Some(25.0 * FT + 0.25), ..tape([20.0, 15.0, 20.0, 15.0]) };
    let built = measured(&[taped("south", tape)]);
    assert_eq!(codes(&built), ["tapes-miss"]);
    assert!(built.problems[0].says.contains("miss by 1/4\""), "{}", built.problems[0].says);
    assert!((area(&built.roof) - 300.0).abs() < 0.5);
}

#[test]
fn an_out_of_square_plane_stays_so_and_is_said() {
    // Corners 0 0, 240 0, 240 180, 0 184 in.
    let tape = Tape {
        top: libm::hypot(240.0, 4.0),
        left_rake: 184.0,
        diagonal_left: Some(300.0),
        diagonal_right: Some(libm::hypot(240.0, 184.0)),
        ..tape([20.0, 15.0, 20.0, 15.0])
    };
    let built = measured(&[taped("south", tape)]);
    assert_eq!(codes(&built), ["out-of-square"]);
    near(area(&built.roof), 240.0 * 182.0 / 144.0);
}

/// A hip roof of 40 × 28 ft at 9/12 by tape: two trapezoids, two triangles. Hip: over a square of 14 ft it rises 10.5 ft.
fn hip_house(miss: f64) -> Vec<MeasuredPlane> {
    let hip = (14f64 * 14.0 * 2.0 + 10.5 * 10.5).sqrt();
    let slope = 17.5; // 14 × 5/4
    let diagonal = (26f64 * 26.0 + slope * slope).sqrt() * FT;
    let long = Tape { diagonal_left: Some(diagonal), diagonal_right: Some(diagonal), ..tape([40.0, hip, 12.0, hip]) };
    let short = Tape { left_rake: hip * FT + miss, ..tape([28.0, hip, 0.0, hip]) };
    let (left, right, top) = (EdgeName::Left, EdgeName::Right, EdgeName::Top);
    vec![
        taped("south", long).called(right, EdgeKind::Hip).meeting(right, "east", left).meeting(top, "north", top),
        taped("east", short).meeting(right, "north", left).called(right, EdgeKind::Hip),
        taped("north", long).called(right, EdgeKind::Hip).meeting(right, "west", left).called(left, EdgeKind::Hip),
        taped("west", Tape { left_rake: hip * FT, ..short })
            .called(right, EdgeKind::Hip)
            .meeting(right, "south", left)
            .called(left, EdgeKind::Hip),
    ]
}

#[test]
fn a_hip_roof_by_tape_counts_each_hip_once() {
    let Built { roof, problems } = measured(&hip_house(0.0));
    assert_eq!(problems, []);
    let hip = (14f64 * 14.0 * 2.0 + 10.5 * 10.5).sqrt();
    near(feet(&roof, EdgeKind::Hip), 4.0 * hip);
    near(feet(&roof, EdgeKind::Ridge), 12.0);
    near(feet(&roof, EdgeKind::Eave), 136.0);
    near(feet(&roof, EdgeKind::Rake), 0.0);
    near(area(&roof), 40.0 * 28.0 * 1.25);
    let hips = roof.lines.iter().filter(|line| line.kind == EdgeKind::Hip);
    assert!(hips.clone().count() == 4 && hips.into_iter().all(|line| line.planes.len() == 2));
}

#[test]
fn the_longer_tape_of_one_line_counts_and_an_inch_is_too_much() {
    let hip = (14f64 * 14.0 * 2.0 + 10.5 * 10.5).sqrt();
    let Built { roof, problems } = measured(&hip_house(0.75));
    assert_eq!(problems, []);
    near(feet(&roof, EdgeKind::Hip), 4.0 * hip + 0.75 / 12.0);
    let built = measured(&hip_house(1.25));
    assert_eq!(codes(&built), ["tie-lengths-differ"]);
    assert!(built.problems[0].severity == Severity::Error && built.problems[0].says.contains("1-1/4\" apart"));
    assert_eq!(built.roof.planes.len(), 4);
}

#[test]
fn ties_that_cannot_be_are_named() {
    let (left, right, top) = (EdgeName::Left, EdgeName::Right, EdgeName::Top);
    let square = || Tape { diagonal_left: Some(60.0), ..tape([4.0, 3.0, 4.0, 3.0]) };
    let b = || taped("b", square());
    for (a, b, code) in [
        (taped("a", square()).meeting(top, "c", top), b(), "tie-unknown"),
        (taped("a", square()).meeting(top, "a", top), b(), "tie-unknown"),
        (taped("a", square()).meeting(top, "b", EdgeName::From(0)), b(), "tie-unknown"),
        (taped("a", square()).meeting(right, "b", left), b(), "tie-unnamed"),
        (taped("a", square()).meeting(right, "b", left).called(right, EdgeKind::Rake), b(), "tie-of-a-free-edge"),
        (
            taped("a", square()).meeting(right, "b", left).called(right, EdgeKind::Hip),
            b().called(left, EdgeKind::Valley),
            "tie-named-differently",
        ),
        (taped("a", square()).meeting(top, "b", top), b().meeting(EdgeName::Eave, "a", top), "tie-taken"),
    ] {
        assert_eq!(codes(&measured(&[a, b])), [code]);
    }
    let mutual = [taped("a", square()).meeting(top, "b", top), b().meeting(top, "a", top)];
    assert_eq!(codes(&measured(&mutual)), Vec::<&str>::new());
}

#[test]
fn a_facing_that_is_not_told_is_said_once() {
    let unknown = || Tape { facing_deg: None, diagonal_left: Some(60.0), ..tape([4.0, 3.0, 4.0, 3.0]) };
    let built = measured(&[taped("a", unknown()), taped("b", unknown())]);
    assert_eq!(codes(&built), ["facing-unknown"]);
    assert!(built.problems[0].says.starts_with("a, b: "));
}

fn square_house() -> Built {
    let eave = Side::new(SideKind::Eave(Pitch::per_12(9.0).unwrap()));
    let outline = vec![[0.0, 0.0], [480.0, 0.0], [480.0, 336.0], [0.0, 336.0]];
    build(&[block("house", outline, vec![eave; 4])], 0.0)
}

fn block(name: &str, outline: Vec<[f64; 2]>, sides: Vec<Side>) -> Block {
    Block { name: name.into(), outline, outline_at: OutlineAt::DripLine, sides, holes: vec![], eave_height: 108.0 }
}

/// Taped planes lie clear of everything else and of each other, true to scale, each as it faces.
#[test]
fn taped_planes_lie_beside_the_house() {
    let square = |facing| Tape { facing_deg: Some(facing), diagonal_left: Some(60.0), ..tape([4.0, 3.0, 4.0, 3.0]) };
    let planes = [taped("a", square(90.0)), taped("b", square(225.0))];
    let built = with_measured(square_house(), &planes, 30.0);
    assert_eq!(codes(&built), ["plane-not-cut"]);
    assert!(built.problems[0].says.starts_with("a, b: measured by tape"), "{}", built.problems[0].says);
    let roof = built.roof;
    assert_eq!(sanity_check(&roof), Vec::<String>::new());
    let x = |plane: &Plane| plane.rings[0].corners.iter().map(|corner| corner[0]).collect::<Vec<_>>();
    let most = |xs: &[f64]| xs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let least = |xs: &[f64]| xs.iter().copied().fold(f64::INFINITY, f64::min);
    let (a, b) = (x(&roof.planes[4]), x(&roof.planes[5]));
    assert!(least(&a) > 480.0 && least(&b) > most(&a));
    // Facing as roof::build tells it: the direction of fall, from north.
    for (plane, facing) in [(&roof.planes[4], 90.0), (&roof.planes[5], 225.0)] {
        let right = plane.frame.right;
        near((libm::atan2(right[1], -right[0]).to_degrees() - 30.0).rem_euclid(360.0), facing);
    }
    near(roof.height, 168.0 * 9.0 / 12.0);
}

/// Nothing cuts planes that were measured one by one, and where that could count a place twice it is said.
#[test]
fn what_is_not_cut_is_said() {
    let [tape, corners] = [taped("t", tape([4.0, 3.0, 0.0, 3.0])), cornered("c", &SLOPE)];
    let said = |house: Built, planes: &[MeasuredPlane]| {
        let found = with_measured(house, planes, 0.0).problems;
        let told = found.iter().filter(|problem| problem.code == "plane-not-cut");
        told.map(|problem| (problem.block.clone(), problem.severity)).collect::<Vec<_>>()
    };
    let caution = |name: &str| (name.to_owned(), Severity::Caution);
    assert_eq!(said(square_house(), &[tape.clone(), corners.clone()]), [caution("t"), caution("c")]);
    assert_eq!(said(square_house(), std::slice::from_ref(&corners)), [caution("c")]);
    assert_eq!(said(Built::default(), &[tape.clone(), corners.clone()]), [caution("t")]);
    assert_eq!(said(Built::default(), std::slice::from_ref(&corners)), []);
    assert_eq!(said(Built::default(), std::slice::from_ref(&tape)), []);
}

const SLOPE: [Point3; 4] = [[0.0, 0.0, 100.0], [240.0, 0.0, 100.0], [240.0, 144.0, 208.0], [0.0, 144.0, 208.0]];

/// 20 ft × 12 ft of run at 9/12: 15 ft up the slope.
#[test]
fn a_plane_by_corners_tells_pitch_and_facing_either_way_round() {
    let mut other_way = SLOPE;
    other_way.reverse();
    for corners in [SLOPE, other_way] {
        let Built { roof, problems } = measured(&[cornered("south", &corners)]);
        assert_eq!(problems, []);
        let plane = &roof.planes[0];
        near(plane.pitch.rise(), 9.0);
        near(plane.facing_deg, 180.0);
        near(area(&roof), 300.0);
        near(feet(&roof, EdgeKind::Eave), 20.0);
        near(feet(&roof, EdgeKind::HighEdge), 20.0);
        near(feet(&roof, EdgeKind::Rake), 30.0);
        assert_eq!(plane.known_by, KnownBy::Corners);
        plane.rings[0].corners[0].into_iter().zip(SLOPE[0]).for_each(|(is, should)| near(is, should));
    }
}

#[test]
fn walls_at_the_edges_of_corner_planes_are_told() {
    let mut turned = SLOPE;
    turned.reverse();
    let wall = EdgeName::From(2);
    let roof = measured(&[cornered("south", &SLOPE).called(wall, EdgeKind::Headwall)]).roof;
    near(feet(&roof, EdgeKind::Headwall), 20.0);
    // Of the corners as typed here, edge 0 is the upper one.
    let roof = measured(&[cornered("south", &turned).called(EdgeName::From(0), EdgeKind::Headwall)]).roof;
    near(feet(&roof, EdgeKind::Headwall), 20.0);
}

/// A corner lifted by 2d square to the plane of four lies d/2 off the nearest plane, for the four miss by ± d/2 in turn.
#[test]
fn flatness_is_checked_and_the_miss_stated() {
    let lifted = |by: f64| {
        let mut corners = SLOPE;
        corners[2] = [240.0, 144.0 - 0.6 * by, 208.0 + 0.8 * by];
        measured(&[cornered("south", &corners)])
    };
    assert_eq!(codes(&lifted(0.4)), Vec::<&str>::new());
    let built = lifted(2.0);
    assert_eq!((codes(&built), built.problems[0].severity), (vec!["corners-not-flat"], Severity::Caution));
    assert!(built.problems[0].says.contains("1/2\" "), "{}", built.problems[0].says);
    let built = lifted(6.0);
    assert_eq!((codes(&built), built.problems[0].severity), (vec!["corners-not-flat"], Severity::Error));
    assert!(built.roof.planes.is_empty());
}

#[test]
fn corners_that_make_no_plane_are_refused() {
    let [a, b, c, d] = SLOPE;
    let middle = [120.0, 72.0, 154.0];
    for (corners, code) in [
        (&[a, c, b, d][..], "outline-crosses-itself"),
        (&[a, b], "outline-too-few-corners"),
        (&[a, a, b, c], "corner-repeated"),
        (&[a, c, middle], "corners-on-a-line"),
        (&[a, b, [240.0, 144.0, 100.0]], "plane-level"),
        (&[a, b, [240.0, 1.0, 400.0]], "plane-is-a-wall"),
        (&[a, b, c, middle, c], "outline-folds-back"),
    ] {
        let built = measured(&[cornered("south", corners)]);
        assert_eq!(codes(&built), [code], "{corners:?}");
        assert!(built.roof.planes.is_empty() && built.problems[0].severity == Severity::Error);
    }
}

#[test]
fn holes_are_cut_out() {
    let hole = [[60.0, 48.0, 136.0], [60.0, 96.0, 172.0], [120.0, 96.0, 172.0], [120.0, 48.0, 136.0]];
    for turned in [false, true] {
        let mut hole = hole.to_vec();
        if turned {
            hole.reverse();
        }
        let taken = Taken::ByCorners { outer: SLOPE.to_vec(), holes: vec![hole] };
        let built = measured(&[named("south", taken)]);
        assert_eq!(built.problems, []);
        near(area(&built.roof), 300.0 - 25.0);
    }
    let outside = vec![[900.0, 0.0, 100.0], [960.0, 0.0, 100.0], [960.0, 48.0, 136.0]];
    let taken = Taken::ByCorners { outer: SLOPE.to_vec(), holes: vec![outside] };
    assert_eq!(codes(&measured(&[named("south", taken)])), ["hole-misplaced"]);
}

/// Every plane of a roof as its corners, shaken by at most `shake` inches; corners that planes share are shaken alike or
/// not.
fn taken_apart(roof: &Roof, shake: f64) -> Vec<MeasuredPlane> {
    let mut count = 0.0;
    let mut shaken = |corner: &Point3| {
        corner.map(|at| {
            count += 1.0;
            at + shake * libm::sin(count * 7.0)
        })
    };
    let corners = roof.planes.iter().map(|plane| plane.rings[0].corners.iter().map(&mut shaken).collect::<Vec<_>>());
    corners.enumerate().map(|(index, corners)| cornered(&index.to_string(), &corners)).collect()
}

#[track_caller]
fn assert_same(roof: &Roof, again: &Roof, within: f64) {
    let close = |a: f64, b: f64| (a - b).abs() <= within;
    assert!(close(area(roof), area(again)), "{} {}", area(roof), area(again));
    for kind in EdgeKind::ALL {
        assert!(close(feet(roof, kind), feet(again, kind)), "{kind:?} {} {}", feet(roof, kind), feet(again, kind));
    }
    let joints = |roof: &Roof| roof.lines.iter().filter(|line| line.planes.len() == 2).count();
    assert_eq!(joints(roof), joints(again));
}

/// The ridge of one plane meets two planes beyond, as when a survey keeps no corner in the middle of it.
#[test]
fn a_long_edge_meets_two_short_ones() {
    let north = |from: f64, to: f64| [[to, 288.0, 100.0], [from, 288.0, 100.0], [from, 144.0, 208.0], [to, 144.0, 208.0]];
    let planes = [cornered("s", &SLOPE), cornered("nw", &north(0.0, 100.0)), cornered("ne", &north(100.3, 240.0))];
    let Built { roof, problems } = measured(&planes);
    assert_eq!(problems, []);
    assert!((feet(&roof, EdgeKind::Ridge) - 20.0).abs() < 0.03);
    near(feet(&roof, EdgeKind::HighEdge), 0.0);
    assert_eq!(roof.lines.iter().filter(|line| line.kind == EdgeKind::Ridge).count(), 2);
    let south = &roof.planes[0].rings[0];
    assert_eq!(south.edges.iter().filter_map(|edge| edge.meets).collect::<Vec<_>>(), [2, 1]);
}

/// 20 in of eave that rise 1/5 in, and 80 ft of slope that lie in one plane with it: laid level, the far corners would be 5 in
/// off.
#[test]
fn a_short_eave_does_not_tilt_a_long_slope() {
    let at = |x: f64, y: f64| [x, y, 100.0 + 0.75 * y + 0.01 * x];
    let corners = [at(0.0, 0.0), at(19.9, 0.0), at(500.0, 144.0), at(-480.0, 144.0)];
    let Built { roof, problems } = measured(&[cornered("south", &corners)]);
    assert_eq!(problems, []);
    for corner in corners {
        let near = |is: &Point3| is.iter().zip(corner).all(|(is, should)| (is - should).abs() < 1e-3);
        assert!(roof.planes[0].rings[0].corners.iter().any(near), "{corner:?}");
    }
}

/// A level ridge over two eaves that are twisted against each other, 4.8 in over 20 ft. The nearest plane of each side lies
/// 1.2 in in height off each of its corners, by turns above and below: square to a slope of 9/12 that is 1.2 / 1.25 = 0.96 in.
/// The one plane is above the ridge's end and the other below it. The cosine between the two is 0.8² − 0.6² = 0.28, so what is
/// 0.96 in off the end along the one's square is 0.96 × 1.28 = 1.23 in off the other.
#[test]
fn twisted_sides_that_do_not_meet_are_a_caution_with_its_place() {
    let south = [[0.0, 0.0, 97.6], [240.0, 0.0, 102.4], [240.0, 144.0, 208.0], [0.0, 144.0, 208.0]];
    let north = [[240.0, 288.0, 97.6], [0.0, 288.0, 102.4], [0.0, 144.0, 208.0], [240.0, 144.0, 208.0]];
    let Built { roof, problems } = measured(&[cornered("south", &south), cornered("north", &north)]);
    assert!(problems.iter().all(|problem| problem.severity == Severity::Caution), "{problems:?}");
    let gaps: Vec<_> = problems.iter().filter(|problem| problem.code == "planes-do-not-meet").collect();
    let [gap] = gaps.as_slice() else { panic!("{problems:?}") };
    assert!(
        gap.says.contains("south and north do not meet: along its edge 2") && gap.says.contains("1-1/4\""),
        "{}",
        gap.says
    );
    assert_eq!(gap.part, Part::Measured { plane: 0, at: MeasuredPart::Corner { hole: None, corner: 2 } });
    assert!((feet(&roof, EdgeKind::Ridge) - 20.0).abs() < 0.02);
}

/// The corners know better where an edge lies than a word does.
#[test]
fn a_tie_over_a_distance_is_not_made() {
    let north = [[240.0, 312.0, 100.0], [0.0, 312.0, 100.0], [0.0, 168.0, 208.0], [240.0, 168.0, 208.0]];
    let south = cornered("south", &SLOPE).meeting(EdgeName::From(2), "north", EdgeName::From(2));
    let built = measured(&[south.called(EdgeName::From(2), EdgeKind::Ridge), cornered("north", &north)]);
    assert_eq!(codes(&built), ["tie-apart"]);
    // 24 in of run at 9/12 is 18 in of height, and 18 / 1.25 square to the slope.
    assert!(built.problems[0].says.contains("1' 2-3/8\""), "{}", built.problems[0].says);
}

#[test]
fn a_word_that_the_corners_deny_is_a_caution() {
    let north = [[240.0, 288.0, 100.0], [0.0, 288.0, 100.0], [0.0, 144.0, 208.0], [240.0, 144.0, 208.0]];
    let south = cornered("s", &SLOPE).called(EdgeName::From(2), EdgeKind::Headwall);
    let built = measured(&[south, cornered("n", &north)]);
    assert_eq!(codes(&built), ["edge-is-another"]);
    near(feet(&built.roof, EdgeKind::Ridge), 20.0);
}

fn any_house() -> impl Strategy<Value = Block> {
    let outline = (3usize..9, prop::collection::vec((240.0..600.0f64, 0.2..0.8f64), 9)).prop_map(|(count, polar)| {
        let corner = |(index, &(far, turn)): (usize, &(f64, f64))| {
            let angle = (index as f64 + turn) / count as f64 * std::f64::consts::TAU;
            [far * libm::cos(angle), far * libm::sin(angle)]
        };
        polar.iter().take(count).enumerate().map(corner).collect::<Vec<_>>()
    });
    (outline, prop::collection::vec((4.0..20.0f64, 0u8..5), 9)).prop_map(|(outline, sides)| {
        let side = |&(rise, gable): &(f64, u8)| {
            let eave = SideKind::Eave(Pitch::per_12(rise).unwrap());
            Side::new(if gable == 0 { SideKind::Gable } else { eave })
        };
        let sides = sides.iter().take(outline.len()).map(side).collect();
        block("house", outline, sides)
    })
}

/// No line so short, and no two so near, that a survey to an inch could not tell them apart; and no wall, which corners of
/// planes do not tell.
fn is_surveyable(roof: &Roof) -> bool {
    let ends = |line: &roof::Line| line.ends;
    let gap = |a: Point3, b: Point3| (0..3).map(|i| (a[i] - b[i]) * (a[i] - b[i])).sum::<f64>().sqrt();
    let corners: Vec<Point3> = roof.lines.iter().flat_map(ends).collect();
    let apart = |a: &Point3| corners.iter().all(|b| gap(*a, *b) < 1e-3 || gap(*a, *b) > 12.0);
    let is_wall = |line: &roof::Line| matches!(line.kind, EdgeKind::Sidewall | EdgeKind::Headwall | EdgeKind::DeadValley);
    let is_whole = roof.planes.iter().all(|plane| plane.rings.len() == 1);
    let is_short = |line: &roof::Line| line.length().to_inches() < 12.0;
    is_whole && !roof.lines.iter().any(|line| is_wall(line) || is_short(line)) && corners.iter().all(apart)
}

fn sorted(a: &str, b: &str) -> [String; 2] {
    if a < b { [a.into(), b.into()] } else { [b.into(), a.into()] }
}

/// How far the joints of planes lie off the plane beyond, by the vector product of two directions on it.
fn gaps(roof: &Roof) -> BTreeMap<[String; 2], f64> {
    let mut gaps = BTreeMap::new();
    for plane in &roof.planes {
        let ring = &plane.rings[0];
        for (at, other) in ring.edges.iter().enumerate().filter_map(|(at, edge)| Some((at, edge.meets?))) {
            let other = &roof.planes[other];
            let [o, a, b] = [[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]].map(|place| other.frame.point(place));
            let [a, b] = [a, b].map(|p| [p[0] - o[0], p[1] - o[1], p[2] - o[2]]);
            let normal = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
            for p in [ring.corners[at], ring.corners[(at + 1) % ring.corners.len()]] {
                let off = (0..3).map(|i| (p[i] - o[i]) * normal[i]).sum::<f64>().abs();
                let widest: &mut f64 = gaps.entry(sorted(&plane.name, &other.name)).or_default();
                *widest = widest.max(off);
            }
        }
    }
    gaps
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: ProptestConfig::default().cases.max(512),
        // One house in six has walls or corners too near each other to be surveyed.
        max_global_rejects: 1_000_000,
        ..ProptestConfig::default()
    })]

    /// A roof raised from an outline, known only by the corners of its planes, has the same area and the same lines.
    #[test]
    fn a_roof_taken_apart_is_the_same_roof(house in any_house()) {
        let roof = build(&[house], 0.0).roof;
        prop_assume!(!roof.planes.is_empty() && is_surveyable(&roof));
        let built = measured(&taken_apart(&roof, 0.0));
        prop_assert!(built.problems.is_empty(), "{:?}", built.problems);
        assert_same(&roof, &built.roof, 0.01);
        for (plane, again) in roof.planes.iter().zip(&built.roof.planes) {
            prop_assert!((plane.pitch.rise() - again.pitch.rise()).abs() < 1e-3);
        }
    }

    /// Tapes of any plane of four corners over a level eave give its area back, with either diagonal and with both.
    #[test]
    fn tapes_of_a_plane_give_it_back(
        (eave, left, right) in (96.0..600.0f64, (-60.0..60.0f64, 60.0..400.0f64), (-60.0..60.0f64, 60.0..400.0f64)),
        which in 0u8..3,
    ) {
        let corners = [[0.0, 0.0], [eave, 0.0], [eave + right.0, right.1], [left.0, left.1]];
        let convex = |at: usize| {
            let [a, b, c] = [0, 1, 2].map(|step| corners[(at + step) % 4]);
            (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]) > 500.0
        };
        prop_assume!((0..4).all(convex));
        let length = |a: usize, b: usize| libm::hypot(corners[a][0] - corners[b][0], corners[a][1] - corners[b][1]);
        let tape = Tape {
            eave,
            right_rake: length(1, 2),
            top: length(2, 3),
            left_rake: length(3, 0),
            diagonal_left: (which != 1).then(|| length(0, 2)),
            diagonal_right: (which != 0).then(|| length(1, 3)),
            ..tape([0.0; 4])
        };
        let built = measured(&[taped("p", tape)]);
        prop_assert!(built.problems.iter().all(|problem| problem.code == "out-of-square"), "{:?}", built.problems);
        let twice: f64 = (0..4).map(|at| {
            let [[ax, ay], [bx, by]] = [corners[at], corners[(at + 1) % 4]];
            ax * by - bx * ay
        }).sum();
        // Corners of a ring within 1/2048 in of one height or one distance along are put on it.
        let moved = 2.0 / 2048.0;
        let girth: f64 = (0..4).map(|at| length(at, (at + 1) % 4)).sum();
        prop_assert!((area(&built.roof) - twice / 288.0).abs() < moved * girth / 144.0);
        for (is, should) in built.roof.planes[0].places()[0].iter().zip(corners) {
            prop_assert!(libm::hypot(is[0] - should[0], is[1] - should[1]) < moved, "{is:?} {should:?}");
        }
    }

    /// One tape of six wrong by a foot is never silently taken: it is refused.
    #[test]
    fn a_slip_of_a_foot_is_refused(
        (eave, up, which, longer) in (120.0..600.0f64, 96.0..400.0f64, 0usize..6, any::<bool>()),
    ) {
        let diagonal = libm::hypot(eave, up);
        let mut tapes = [eave, up, eave, up, diagonal, diagonal];
        tapes[which] += if longer { 12.0 } else { -12.0 };
        let [eave, right_rake, top, left_rake, left, right] = tapes;
        let tape = Tape { eave, right_rake, top, left_rake, diagonal_left: Some(left), diagonal_right: Some(right), ..tape([0.0; 4]) };
        let built = measured(&[taped("p", tape)]);
        prop_assert_eq!(codes(&built).first().copied(), Some("tapes-disagree"));
    }

    #[test]
    fn no_tapes_panic(lengths in prop::array::uniform6(prop_oneof![Just(1.0), Just(120.0), 1.0..120_000.0f64]), which in 0u8..4) {
        let [eave, right_rake, top, left_rake, left, right] = lengths;
        let tape = Tape {
            eave, right_rake, top, left_rake,
            diagonal_left: (which & 1 > 0).then_some(left),
            diagonal_right: (which & 2 > 0).then_some(right),
            ..tape([0.0; 4])
        };
        measured(&[taped("p", tape)]);
    }

    #[test]
    fn no_corners_panic(planes in prop::collection::vec(prop::collection::vec(prop::array::uniform3(-3i8..4), 0..7), 0..5)) {
        let planes: Vec<MeasuredPlane> = planes.iter().enumerate().map(|(index, corners)| {
            let corners: Vec<Point3> = corners.iter().map(|corner| corner.map(|at| f64::from(at) * 48.0)).collect();
            cornered(&index.to_string(), &corners)
        }).collect();
        measured(&planes);
    }

    /// However badly it was surveyed: what is planned passes its proof, and planes that do not meet within an inch are told.
    #[test]
    fn a_bad_survey_is_told_and_proven(house in any_house(), shake in 0.25..1.0f64) {
        let apart = taken_apart(&build(&[house], 0.0).roof, shake);
        let Built { roof, problems } = measured(&apart);
        let told: BTreeSet<[String; 2]> = problems.iter().filter(|problem| problem.code == "planes-do-not-meet").map(|problem| {
            let (one, rest) = problem.says.split_once(" and ").unwrap();
            sorted(one, rest.split_once(" do not").unwrap().0)
        }).collect();
        let is_told = |pair: &[String; 2]| told.contains(pair);
        prop_assert!(gaps(&roof).len() >= told.len());
        prop_assert!(gaps(&roof).iter().all(|(pair, gap)| is_told(pair) == (*gap > 1.0) || (gap - 1.0).abs() < 1e-3));
    }

    /// A survey good to a quarter of an inch still finds its joints.
    #[test]
    fn a_shaken_hip_roof_is_still_a_hip_roof(shake in 0.0..0.25f64) {
        let roof = square_house().roof;
        let built = measured(&taken_apart(&roof, shake));
        prop_assert!(built.problems.iter().all(|problem| problem.severity == Severity::Caution));
        assert_same(&roof, &built.roof, 2.0);
    }
}
