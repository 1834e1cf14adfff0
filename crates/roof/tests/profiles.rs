//! Sides that change their pitch, turn upright or begin late, worked by hand. Lengths in feet.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod common;

use common::*;
use roof::EdgeKind::{Break, Eave, Headwall, HighEdge, Hip, Rake, Ridge};
use roof::{Built, build};

fn four(side: &roof::Side) -> [roof::Side; 4] {
    std::array::from_fn(|_| side.clone())
}

/// 40 × 24, 24 in 12 for the first 8 ft up (4 ft of run), then 6 in 12 over the other 8 ft of run: rise 8 + 4.
#[test]
fn gambrel() {
    let side = then(eave(24.0), 8.0, 6.0);
    let roof = sole(rectangle(40.0, 24.0, &[side.clone(), gable(), side, gable()]));
    let (lower, upper) = (slope(4.0, 24.0), slope(8.0, 6.0));
    lines_are(&roof, &[(Eave, 80.0), (Break, 80.0), (Ridge, 40.0), (Rake, 4.0 * (lower + upper))]);
    near(area_of(&roof, "house.0"), 40.0 * lower);
    near(area_of(&roof, "house.2/1"), 40.0 * upper);
    near(roof.height, 12.0 * FT);
    let names: Vec<&str> = roof.planes.iter().map(|plane| plane.name.as_str()).collect();
    assert_eq!(names, ["house, south", "house, south, upper", "house, north", "house, north, upper"]);
}

/// The plane above a break is measured from the break line: its left end is where the break line begins.
#[test]
fn the_frame_above_a_break_lies_on_the_break_line() {
    let side = then(eave(24.0), 8.0, 6.0);
    let roof = sole(rectangle(40.0, 24.0, &four(&side)));
    let frame = plane(&roof, "house.0/1").frame;
    // 4 ft in from the eave and from the hip, 8 ft above eaves at 9 ft.
    for (is, should) in frame.origin.iter().zip([4.0 * FT, 4.0 * FT, 17.0 * FT]) {
        near(*is, should);
    }
    let low = plane(&roof, "house.0/1").places()[0][0];
    assert!(low[0].abs() < 1e-6 && low[1].abs() < 1e-6, "{low:?}");
    let between = plane(&roof, "house.0").rings[0].edges.iter().find(|edge| edge.kind == Break).unwrap();
    assert_eq!(roof.planes[between.meets.unwrap()].id, "house.0/1");
}

/// 40 × 24, all sides 24 in 12 up to 8 ft (4 ft of run), then 6 in 12 to a ridge of 40 − 24. Lower hips rise 8 over a
/// square of 4: √(4² + 4² + 8²); upper ones 4 over a square of 8: √(8² + 8² + 4²).
#[test]
fn mansard() {
    let roof = sole(rectangle(40.0, 24.0, &four(&then(eave(24.0), 8.0, 6.0))));
    let hips = 4.0 * (96f64.sqrt() + 12.0);
    lines_are(&roof, &[(Eave, 128.0), (Break, 2.0 * (32.0 + 16.0)), (Ridge, 16.0), (Hip, hips)]);
    // Lower: the plan less the 32 × 16 inside the break; upper: that rectangle.
    near(area(&roof), slope(960.0 - 512.0, 24.0) + slope(512.0, 6.0));
    assert_eq!(roof.planes.len(), 8);
}

/// A bell-cast eave at the walls of 40 × 24: 4 in 12 from the roof edge, 2 ft out, to 1 ft above the plate, then 12 in
/// 12. The edge falls at the pitch of the eave, 2 × 4/12; the break lies 1 × 12/4 = 3 ft inside the wall.
#[test]
fn bell_cast_eaves_drop_at_their_own_pitch() {
    let side = over(then(eave(4.0), 1.0, 12.0), 24.0);
    let house = at_walls(rectangle(40.0, 24.0, &[side.clone(), gable(), side, gable()]));
    let roof = sole(house);
    let (lower, upper) = (slope(5.0, 4.0), slope(9.0, 12.0));
    lines_are(&roof, &[(Eave, 80.0), (Break, 80.0), (Ridge, 40.0), (Rake, 4.0 * (lower + upper))]);
    near(roof.height, (5.0 / 3.0 + 9.0) * FT);
    let low = plane(&roof, "house.0").rings[0].corners[0];
    near(low[1], -2.0 * FT);
    near(low[2], (9.0 - 2.0 / 3.0) * FT);
}

/// A kick that begins over the wall: everything outside it, 2 ft, lies at 4 in 12.
#[test]
fn a_bell_cast_may_begin_over_the_wall() {
    let side = over(then(eave(4.0), 0.0, 12.0), 24.0);
    let roof = sole(at_walls(rectangle(40.0, 24.0, &[side.clone(), gable(), side, gable()])));
    lines_are(&roof, &[(Eave, 80.0), (Break, 80.0), (Ridge, 40.0), (Rake, 4.0 * (slope(2.0, 4.0) + slope(12.0, 12.0)))]);
}

/// Three pitches on one side: 12 in 12 for 4 ft up, 6 in 12 for 2 more, 3 in 12 for the rest: runs 4, 4 and 4.
#[test]
fn a_side_may_break_twice() {
    let side = then(then(eave(12.0), 4.0, 6.0), 6.0, 3.0);
    let roof = sole(rectangle(40.0, 24.0, &[side.clone(), gable(), side, gable()]));
    lines_are(
        &roof,
        &[(Eave, 80.0), (Break, 160.0), (Ridge, 40.0), (Rake, 4.0 * (slope(4.0, 12.0) + slope(4.0, 6.0) + slope(4.0, 3.0)))],
    );
    near(roof.height, 7.0 * FT);
    assert_eq!(plane(&roof, "house.0/2").name, "house, south, upper 2");
}

/// 40 × 24 at 8 in 12, ridge 8 ft up; the gable ends become hips 6 ft up. There the gable is 24 − 2 × 9 = 6 wide; each
/// hip rises 2 over a square of 3.
#[test]
fn half_hip() {
    let end = then(gable(), 6.0, 8.0);
    let roof = sole(rectangle(40.0, 24.0, &[eave(8.0), end.clone(), eave(8.0), end]));
    lines_are(
        &roof,
        &[(Eave, 80.0 + 2.0 * 6.0), (Rake, 4.0 * slope(9.0, 8.0)), (Hip, 4.0 * 22f64.sqrt()), (Ridge, 40.0 - 2.0 * 3.0)],
    );
    near(area(&roof), slope(960.0, 8.0));
    near(area_of(&roof, "house.1"), slope(6.0 * 3.0 / 2.0, 8.0));
    // u runs from the left end of the hip's own eave.
    let frame = plane(&roof, "house.1").frame;
    near(frame.origin[1], 9.0 * FT);
    near(frame.origin[2], 15.0 * FT);
}

/// The same at the walls with overhangs of 1 ft all round: the hip's eave is carried out and down with it, to 6 − 8/12.
#[test]
fn a_half_hip_overhangs_at_its_own_pitch() {
    let end = over(then(gable(), 6.0, 8.0), 12.0);
    let side = over(eave(8.0), 12.0);
    let roof = sole(at_walls(rectangle(40.0, 24.0, &[side.clone(), end.clone(), side, end])));
    // From the eaves at −8/12 up to 6 − 8/12: still 9 ft of run; the ridge is 8 ft up as before.
    lines_are(
        &roof,
        &[
            (Eave, 2.0 * 42.0 + 2.0 * (26.0 - 18.0)),
            (Rake, 4.0 * slope(9.0, 8.0)),
            (Hip, 4.0 * (16.0 + 16.0 + 64.0 / 9.0f64).sqrt()),
            (Ridge, 42.0 - 8.0),
        ],
    );
}

/// 40 × 24 at 8 in 12, ridge 8 ft up; the hip ends stop 5 ft up, 7.5 ft in, where they are 24 − 15 = 9 wide, and small
/// gables stand there up to the ridge: each hip rises 5 over a square of 7.5, each rake 3 over 4.5.
#[test]
fn gablet_on_a_hip() {
    let end = then(eave(8.0), 5.0, 0.0);
    let roof = sole(rectangle(40.0, 24.0, &[eave(8.0), end.clone(), eave(8.0), end]));
    lines_are(
        &roof,
        &[
            (Eave, 128.0),
            (Hip, 4.0 * (2.0 * 7.5f64 * 7.5 + 25.0).sqrt()),
            (Headwall, 2.0 * 9.0),
            (Rake, 4.0 * slope(4.5, 8.0)),
            (Ridge, 40.0 - 15.0),
        ],
    );
    near(area_of(&roof, "house.1"), slope((24.0 + 9.0) / 2.0 * 7.5, 8.0));
    near(area(&roof), slope(960.0, 8.0));
}

/// One pitch, eaves at 18 and 9 ft over 30 ft at 8 in 12: the ridge lies where 18 + 2x/3 = 9 + 2(30 − x)/3, x = 8.25.
#[test]
fn saltbox_of_one_pitch() {
    let roof = sole(rectangle(40.0, 30.0, &[at_height(eave(8.0), 18.0), gable(), eave(8.0), gable()]));
    lines_are(&roof, &[(Eave, 80.0), (Ridge, 40.0), (Rake, 2.0 * slope(30.0, 8.0))]);
    near(area_of(&roof, "house.0"), 40.0 * slope(8.25, 8.0));
    near(roof.height, 21.75 * 2.0 / 3.0 * FT);
    near(plane(&roof, "house.0").frame.origin[2], 18.0 * FT);
}

/// The same with the front eave at 16 ft, 12 in 12 in front and 6 in 12 behind: 16 + x = 9 + (30 − x)/2, x = 16/3.
#[test]
fn saltbox_of_two_pitches() {
    let roof = sole(rectangle(40.0, 30.0, &[at_height(eave(12.0), 16.0), gable(), eave(6.0), gable()]));
    let run = 16.0 / 3.0;
    lines_are(&roof, &[(Eave, 80.0), (Ridge, 40.0), (Rake, 2.0 * (slope(run, 12.0) + slope(30.0 - run, 6.0)))]);
    near(roof.height, (7.0 + run) * FT);
}

/// A saltbox at the walls: overhangs of 1 ft carry each eave out and down from its own height.
#[test]
fn saltbox_with_overhangs() {
    let sides = [over(at_height(eave(12.0), 16.0), 12.0), over(gable(), 12.0), over(eave(6.0), 12.0), over(gable(), 12.0)];
    let Built { roof, problems } = build(&[at_walls(rectangle(40.0, 30.0, &sides))], 0.0);
    assert!(problems.is_empty(), "{problems:?}");
    let run = 16.0 / 3.0;
    near(plane(&roof, "house.0").frame.origin[2], 15.0 * FT);
    near(plane(&roof, "house.2").frame.origin[2], 8.5 * FT);
    near(area(&roof), 42.0 * (slope(run + 1.0, 12.0) + slope(31.0 - run, 6.0)));
}

/// A hip end between unequal eaves, 10 ft in front and 9 behind, 40 × 24, all at 12 in 12. Up to 10 ft the end runs 1 ft
/// in along the front wall, on which it shows a rake of 1 ft over 1; from there on the front is 23 ft deep. The ridge
/// lies 11.5 further up; hips rise 11.5 over squares of 11.5 in front and 12.5 over squares of 12.5 behind.
#[test]
fn a_hip_between_unequal_eaves_shows_a_short_rake() {
    let roof = sole(rectangle(40.0, 24.0, &[at_height(eave(12.0), 10.0), eave(12.0), eave(12.0), eave(12.0)]));
    lines_are(
        &roof,
        &[
            (Eave, 38.0 + 24.0 + 40.0 + 24.0),
            (Rake, 2.0 * 2f64.sqrt()),
            (Hip, 2.0 * 3f64.sqrt() * (11.5 + 12.5)),
            (Ridge, 40.0 - 25.0),
        ],
    );
}

/// 20 × 10 at 5 in 12: slope 10 × 13/12.
#[test]
fn shed() {
    let roof = sole(rectangle(20.0, 10.0, &[eave(5.0), gable(), gable(), gable()]));
    lines_are(&roof, &[(Eave, 20.0), (HighEdge, 20.0), (Rake, 2.0 * 10.0 * 13.0 / 12.0)]);
}

#[test]
fn changes_out_of_order_are_named() {
    for side in [
        then(then(eave(24.0), 8.0, 12.0), 8.0, 6.0),
        then(then(eave(24.0), 8.0, 12.0), 7.0, 6.0),
        then(eave(24.0), 0.0, 6.0),
    ] {
        let built = build(&[rectangle(40.0, 24.0, &[side, gable(), eave(8.0), gable()])], 0.0);
        let codes: Vec<&str> = built.problems.iter().map(|problem| problem.code).collect();
        assert_eq!(codes, ["change-too-low"]);
        assert!(built.roof.planes.is_empty());
    }
}
