//! Words for typing a house in feet, and for measuring what came of it.

#![allow(dead_code, reason = "each test file uses a part of this")]
#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use roof::{Block, Built, Change, EdgeKind, OutlineAt, Plane, Roof, Severity, Side, SideKind, build, sanity_check};
use units::{Length, Pitch};

pub(crate) const FT: f64 = 12.0;

pub(crate) fn pitch(rise: f64) -> Pitch {
    Pitch::per_12(rise).unwrap()
}

pub(crate) fn eave(rise: f64) -> Side {
    over(Side::new(SideKind::Eave(pitch(rise))), 0.0)
}

pub(crate) fn gable() -> Side {
    over(Side::new(SideKind::Gable), 0.0)
}

pub(crate) fn wall() -> Side {
    Side::new(SideKind::Wall)
}

pub(crate) fn over(side: Side, inches: f64) -> Side {
    Side { overhang: Some(Length::inches(inches)), ..side }
}

/// From `rise_ft` above the eave on, the side goes on at a pitch, or upright at 0.
pub(crate) fn then(mut side: Side, rise_ft: f64, rise: f64) -> Side {
    side.changes.push(Change { rise: Length::feet(rise_ft), pitch: (rise > 0.0).then(|| pitch(rise)) });
    side
}

pub(crate) fn at_height(side: Side, feet: f64) -> Side {
    Side { eave_height: Some(feet * FT), ..side }
}

pub(crate) fn block(name: &str, corners_ft: &[[f64; 2]], height_ft: f64, sides: &[Side]) -> Block {
    Block {
        name: name.into(),
        outline: corners_ft.iter().map(|c| [c[0] * FT, c[1] * FT]).collect(),
        outline_at: OutlineAt::DripLine,
        sides: sides.to_vec(),
        holes: vec![],
        eave_height: height_ft * FT,
    }
}

/// From the south-west corner at the origin, 9 ft up; sides south, east, north, west.
pub(crate) fn rectangle(east: f64, north: f64, sides: &[Side]) -> Block {
    block("house", &[[0.0, 0.0], [east, 0.0], [east, north], [0.0, north]], 9.0, sides)
}

pub(crate) fn at_walls(block: Block) -> Block {
    Block { outline_at: OutlineAt::Walls, ..block }
}

#[track_caller]
pub(crate) fn sound(blocks: &[Block]) -> Roof {
    let Built { roof, problems } = build(blocks, 0.0);
    assert!(problems.iter().all(|problem| problem.severity == Severity::Caution), "{problems:?}");
    assert_eq!(sanity_check(&roof), Vec::<String>::new());
    roof
}

#[track_caller]
pub(crate) fn sole(block: Block) -> Roof {
    sound(&[block])
}

pub(crate) fn feet(roof: &Roof, kind: EdgeKind) -> f64 {
    roof.lines.iter().filter(|line| line.kind == kind).map(|line| line.length().to_feet()).sum()
}

pub(crate) fn area(roof: &Roof) -> f64 {
    roof.planes.iter().map(|plane| plane.area().to_square_feet()).sum()
}

#[track_caller]
pub(crate) fn plane<'a>(roof: &'a Roof, id: &str) -> &'a Plane {
    let ids: Vec<&str> = roof.planes.iter().map(|plane| plane.id.as_str()).collect();
    roof.planes.iter().find(|plane| plane.id == id).unwrap_or_else(|| panic!("no {id} among {ids:?}"))
}

#[track_caller]
pub(crate) fn area_of(roof: &Roof, id: &str) -> f64 {
    plane(roof, id).area().to_square_feet()
}

/// Length of the slope over a run at a pitch.
pub(crate) fn slope(run: f64, rise: f64) -> f64 {
    run * (144.0 + rise * rise).sqrt() / 12.0
}

/// The length of every line kind in feet; kinds not named have none.
#[track_caller]
pub(crate) fn lines_are(roof: &Roof, should: &[(EdgeKind, f64)]) {
    for kind in EdgeKind::ALL {
        let should = should.iter().find(|(named, _)| *named == kind).map_or(0.0, |(_, feet)| *feet);
        let is = feet(roof, kind);
        assert!((is - should).abs() <= 1e-4 * (1.0 + should), "{}: {is} ft is not {should}", kind.name());
    }
}

#[track_caller]
pub(crate) fn near(is: f64, should: f64) {
    assert!((is - should).abs() <= 1e-5 * (1.0 + should.abs()), "{is} is not {should}");
}
