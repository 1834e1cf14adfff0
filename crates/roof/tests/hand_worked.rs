//! More roofs worked by hand, and that every roof of docs/roofs.md has its test. Lengths in feet.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod common;

use common::*;
use roof::EdgeKind::{Eave, Hip, Rake, Ridge, Sidewall, Valley};
use roof::{Block, Hole, bay_outline, turret_outline};

fn main_house() -> Block {
    rectangle(40.0, 28.0, &[eave(8.0), gable(), eave(8.0), gable()])
}

/// Gables to the south and north, 16 wide, 6 out on both sides of the main house.
fn crossing(rise: f64) -> Block {
    let corners = [[12.0, -6.0], [28.0, -6.0], [28.0, 34.0], [12.0, 34.0]];
    block("wing", &corners, 9.0, &[gable(), eave(rise), gable(), eave(rise)])
}

/// Both at 8 in 12: the main ridge is 14 × 8/12 up, the crossing one 8 × 8/12, so it dies 8 in from either eave and is
/// seen 6 + 8 on both sides. Each of four valleys runs over a square of 8 and rises 16/3.
#[test]
fn cross_gables_with_unequal_ridges() {
    let roof = sound(&[main_house(), crossing(8.0)]);
    lines_are(
        &roof,
        &[
            (Eave, 2.0 * (40.0 - 16.0) + 4.0 * 6.0),
            (Rake, 4.0 * slope(14.0, 8.0) + 4.0 * slope(8.0, 8.0)),
            (Ridge, 40.0 + 2.0 * 14.0),
            (Valley, 4.0 * 8.0 * (2.0 + 4.0 / 9.0f64).sqrt()),
        ],
    );
    near(area(&roof), slope(40.0 * 28.0 + 2.0 * 6.0 * 16.0, 8.0));
    assert_eq!(roof.planes.len(), 4);
}

/// The crossing gable at 12 in 12: its ridge, 8 up, dies where 2y/3 = 8, y = 12. Valleys: 8 aside, 12 in, 8 up.
#[test]
fn a_steeper_cross_gable() {
    let roof = sound(&[main_house(), crossing(12.0)]);
    near(feet(&roof, Valley), 4.0 * (64.0 + 144.0 + 64.0f64).sqrt());
    near(feet(&roof, Ridge), 40.0 + 2.0 * 18.0);
    // On each side the wing covers, inside the main eave, the triangle of 16 by 12.
    let wing = 2.0 * (16.0 * 6.0 + 96.0);
    near(area(&roof), slope(40.0 * 28.0 - 2.0 * 96.0, 8.0) + slope(wing, 12.0));
}

/// Eight sides, 10 across, 12 in 12: 5 up; corners 5 / cos 22.5° from the middle; sides 10 × tan 22.5° = 10 (√2 − 1).
#[test]
fn octagon_turret() {
    let outline = turret_outline([0.0, 0.0], 8, 10.0);
    let roof = sole(block("turret", &outline, 9.0, &vec![eave(12.0); 8]));
    let side = 10.0 * (2f64.sqrt() - 1.0);
    let corner2 = 25.0 + side * side / 4.0;
    lines_are(&roof, &[(Eave, 8.0 * side), (Hip, 8.0 * (corner2 + 25.0).sqrt())]);
    near(area(&roof), slope(8.0 * side * 5.0 / 2.0, 12.0));
    near(roof.height, 5.0 * FT);
    let facing: Vec<f64> = roof.planes.iter().map(|plane| plane.facing_deg.round()).collect();
    assert_eq!(facing, [180.0, 135.0, 90.0, 45.0, 0.0, 315.0, 270.0, 225.0]);
}

/// 40 × 40 about a court of 16 × 16, all at 6 in 12: wings 12 wide, ridge 6 in and 3 up, a square of 28. Hips from the
/// outer corners and valleys from the court's run over squares of 6: √(36 + 36 + 9) = 9.
#[test]
fn courtyard() {
    let mut house = rectangle(40.0, 40.0, &vec![eave(6.0); 4]);
    let court = [[12.0, 12.0], [28.0, 12.0], [28.0, 28.0], [12.0, 28.0]];
    house.holes = vec![Hole { outline: court.map(|c| c.map(|c| c * FT)).to_vec(), sides: vec![eave(6.0); 4] }];
    let roof = sole(house);
    lines_are(&roof, &[(Eave, 160.0 + 64.0), (Ridge, 4.0 * 28.0), (Hip, 4.0 * 9.0), (Valley, 4.0 * 9.0)]);
    near(area(&roof), slope(1600.0 - 256.0, 6.0));
}

/// Half a hexagon 10 wide at the wall, 8 in 12: sides of 5, 5 cos 30° from the middle of the wall, where all three planes
/// meet. Hips and the sides' lines at the wall all run 5 in plan.
#[test]
fn bay_of_three_sides() {
    let outline = bay_outline([15.0, 0.0], [25.0, 0.0], 6);
    let roof = sole(block("bay", &outline, 9.0, &[eave(8.0), eave(8.0), eave(8.0), wall()]));
    let rise = 5.0 * 3f64.sqrt() / 2.0 * 2.0 / 3.0;
    let line = (25.0 + rise * rise).sqrt();
    lines_are(&roof, &[(Eave, 15.0), (Hip, 2.0 * line), (Sidewall, 2.0 * line)]);
    near(area(&roof), slope(3.0 * 25.0 * 3f64.sqrt() / 4.0, 8.0));
}

/// Half an octagon 10 wide at the wall, 6 in 12: three sides of 10 (√2 − 1) and two halves square to the wall, all 5 from
/// its middle, 2.5 up there. The halves' planes run up the wall, 5 of run.
#[test]
fn bay_of_three_sides_and_two_halves() {
    let outline = bay_outline([15.0, 0.0], [25.0, 0.0], 8);
    let mut sides = vec![eave(6.0); 5];
    sides.push(wall());
    let roof = sole(block("bay", &outline, 9.0, &sides));
    let side = 10.0 * (2f64.sqrt() - 1.0);
    let corner2 = 25.0 + side * side / 4.0;
    lines_are(&roof, &[(Eave, 4.0 * side), (Hip, 4.0 * (corner2 + 6.25).sqrt()), (Sidewall, 2.0 * slope(5.0, 6.0))]);
    near(area(&roof), slope(4.0 * side * 5.0 / 2.0, 6.0));
}

/// Walls 40 × 28, overhangs of 1 all round, 12 in 12 to the south and 6 in 12 to the north, plates of one height: the
/// ridge lies where x = (28 − x) / 2, x = 28/3. The eaves lie 1 and 1/2 below the plates.
#[test]
fn unequal_pitches_with_equal_overhangs() {
    let sides = [over(eave(12.0), 12.0), over(gable(), 12.0), over(eave(6.0), 12.0), over(gable(), 12.0)];
    let roof = sole(at_walls(rectangle(40.0, 28.0, &sides)));
    let (south, north) = (slope(28.0 / 3.0 + 1.0, 12.0), slope(56.0 / 3.0 + 1.0, 6.0));
    lines_are(&roof, &[(Eave, 84.0), (Ridge, 42.0), (Rake, 2.0 * (south + north))]);
    near(area(&roof), 42.0 * (south + north));
    near(roof.height, (28.0 / 3.0 + 1.0) * FT);
    near(plane(&roof, "house.2").frame.origin[2], 8.5 * FT);
}

/// 40 × 24, 8 in 12 along and 12 in 12 at the ends: 8 up, the ends 8 of run; hips √(12² + 8² + 8²).
#[test]
fn hip_roof_of_two_pitches() {
    let roof = sole(rectangle(40.0, 24.0, &[eave(8.0), eave(12.0), eave(8.0), eave(12.0)]));
    lines_are(&roof, &[(Eave, 128.0), (Ridge, 24.0), (Hip, 4.0 * 272f64.sqrt())]);
    near(area(&roof), slope((40.0 + 24.0) * 12.0, 8.0) + slope(24.0 * 8.0, 12.0));
}

/// 30 × 30 at 8 in 12: four hips of √550, as in the hip roof of the manual.
#[test]
fn pyramid() {
    let roof = sole(rectangle(30.0, 30.0, &vec![eave(8.0); 4]));
    lines_are(&roof, &[(Eave, 120.0), (Hip, 4.0 * 550f64.sqrt())]);
    near(area(&roof), slope(900.0, 8.0));
}

/// 40 × 22 with a wing 16 wide that runs 8 out, hipped all round at 9 in 12. In plan, in units of the diagonal: hips of 11
/// at three corners of the house and 8 at two of the wing, one of 3 that leads from the wing's ridge to the main one; a
/// valley of 8. Ridges: 40 − 22 along, 8 of the wing.
#[test]
fn hipped_ell() {
    let corners = [[0.0, 0.0], [40.0, 0.0], [40.0, 22.0], [16.0, 22.0], [16.0, 30.0], [0.0, 30.0]];
    let roof = sole(block("house", &corners, 9.0, &vec![eave(9.0); 6]));
    let per_foot = (2.0 + 0.75f64 * 0.75).sqrt();
    lines_are(
        &roof,
        &[(Eave, 140.0), (Hip, (3.0 * 11.0 + 2.0 * 8.0 + 3.0) * per_foot), (Valley, 8.0 * per_foot), (Ridge, 18.0 + 8.0)],
    );
}

#[test]
fn every_roof_of_the_table_is_tested() {
    let page = include_str!("../../../docs/roofs.md");
    let tests = [
        include_str!("closed_forms.rs"),
        include_str!("several_blocks.rs"),
        include_str!("profiles.rs"),
        include_str!("dormers.rs"),
        include_str!("hand_worked.rs"),
    ]
    .concat();
    let rows: Vec<&str> = page.lines().filter(|line| line.starts_with("| ") && line.contains('`')).collect();
    let named: Vec<&str> = rows.iter().map(|row| row.rsplit('`').nth(1).unwrap()).collect();
    let missing: Vec<&&str> = named.iter().filter(|name| !tests.contains(&format!("#[test]\nfn {name}()"))).collect();
    assert!(missing.is_empty(), "{missing:?}");
    assert!(named.len() >= 30, "{}", named.len());
}
