//! Courses spread anew from where one lies on the roof: worked by hand, and what holds for every reading.

#![allow(clippy::unwrap_used, reason = "tests only")]

mod common;

use common::{gable, graduated, inches, pitch, plain_slate};
use covering::Covering;
use layout::{End, Graduated, LaidPlane, Layout, Limit, MatchHips, Reading, Relaid, Relaying, SettingOut, Way};
use proptest::prelude::*;
use roof::{Block, OutlineAt, Plane, Roof, Side, SideKind};

fn of(plane: Plane) -> Roof {
    Roof { planes: vec![plane], ..Roof::default() }
}

fn hip_roof(pitches: [f64; 4]) -> Roof {
    let block = Block {
        name: "house".into(),
        outline: vec![[0.0, 0.0], [480.0, 0.0], [480.0, 336.0], [0.0, 336.0]],
        outline_at: OutlineAt::DripLine,
        sides: pitches.iter().map(|&rise| Side::new(SideKind::Eave(pitch(rise)))).collect(),
        holes: vec![],
        eave_height: 100.0,
    };
    roof::build(&[block], 0.0).roof
}

/// Planned, then spread anew from readings of (course counted from 0, left, right) on the first plane.
fn relaid(roof: &Roof, sheet: &Covering, setting_out: &SettingOut, readings: &[(usize, f64, f64)]) -> (Layout, Relaid) {
    let layout = layout::lay_roof(roof, |_| Some(sheet), setting_out);
    let reading = |&(course, left, right): &(usize, f64, f64)| Reading { plane: 0, course, ends: [left, right] };
    let readings: Vec<Reading> = readings.iter().map(reading).collect();
    let relaying = Relaying { roof, layout: &layout, setting_out };
    let relaid = layout::relay(relaying, |_| Some(sheet), &readings).unwrap();
    (layout, relaid)
}

/// What each course shows at one end, the one that was read first.
fn shows(spread: &layout::Spread, end: usize) -> Vec<f64> {
    let lines: Vec<f64> = spread.butts.iter().chain([&spread.top]).map(|butts| butts[end]).collect();
    lines.windows(2).map(|pair| pair[1] - pair[0]).collect()
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

/// 201.9 in of slope at the left and 198.9 at the right, 24 courses: 201.9 / 24 = 8.4125 and 198.9 / 24 = 8.2875 in, which
/// leaves a 20-in slate headlaps of 3.175 and 3.425 in. Worked by hand.
#[test]
fn first_butts_3_in_too_high_at_one_end_are_a_two_ended_pole() {
    let sheet = plain_slate(20.0, 12.0, 3.0);
    let (_, relaid) = relaid(&of(gable(360.0, 201.9)), &sheet, &SettingOut::default(), &[(0, 0.0, 3.0)]);
    let spread = relaid.outcome.unwrap();
    assert_eq!((spread.butts.len(), spread.more), (24, 0));
    assert!(shows(&spread, 0).iter().all(|e| close(*e, 8.4125) && close(20.0 - 2.0 * e, 3.175)));
    assert!(shows(&spread, 1).iter().all(|e| close(*e, 8.2875) && close(20.0 - 2.0 * e, 3.425)));
    assert!(close(relaid.out_of_parallel.unwrap(), 1.0), "3 in over 30 ft");
}

/// 24 courses of 8 in, at most 8.2; the course at 112 in lies at 112.6 and 112.2: ten courses of 7.94 and 7.98 in are left.
#[test]
fn drift_goes_into_all_courses_that_are_left() {
    let mut sheet = plain_slate(20.0, 12.0, 3.0);
    sheet.bands[0].greatest_exposure = inches(8.2);
    let setting_out = SettingOut { sight_limit: inches(2.0), ..SettingOut::default() };
    let (layout, relaid) = relaid(&of(gable(360.0, 192.0)), &sheet, &setting_out, &[(14, 112.6, 112.2)]);
    assert_eq!(layout.planes[0].courses.len(), 24);
    assert!(close(relaid.laid[0].drift[0], 0.6) && close(relaid.laid[0].drift[1], 0.2));
    assert!(close(relaid.laid[0].shows.unwrap()[0], 112.6 / 14.0));
    let spread = relaid.outcome.unwrap();
    assert!(shows(&spread, 0).iter().all(|e| close(*e, 7.94)) && shows(&spread, 1).iter().all(|e| close(*e, 7.98)));
    // The most is 10 courses of 8.2 in, 82 in; left there are 79.4 and 79.8.
    assert!(close(spread.room[0], 82.0 - 79.8));
    let [left, right] = [0, 1].map(|pole: usize| {
        let mut poles: Vec<_> = spread.poles.iter().collect();
        poles.sort_by(|a, b| a.u.total_cmp(&b.u));
        poles[pole].marks.iter().map(|mark| mark.butt).collect::<Vec<_>>()
    });
    // Each running mark to the nearest sixteenth by itself: 112.6 + 7.94 = 120.54 and 112.2 + 7.98 = 120.18.
    assert_eq!((left.len(), left[0], right[0]), (9, 120.5625, 120.1875));
}

/// 24 courses of exactly 8-1/2 in, none less than 8.4: a course half an inch low leaves 85.5 in for ten courses that show 85 at
/// most, or eleven that show 92.4 at least.
#[test]
fn without_room_it_says_which_limit_and_what_to_do() {
    let mut sheet = plain_slate(20.0, 12.0, 3.0);
    sheet.bands[0].least_exposure = inches(8.4);
    let roof = of(gable(360.0, 204.0));
    let (_, relaid) = relaid(&roof, &sheet, &SettingOut::default(), &[(14, 118.5, 119.0)]);
    let no_room = relaid.outcome.unwrap_err();
    let [few, many] = no_room.in_the_way.as_slice() else { panic!("{no_room:?}") };
    assert!(few.courses == 10 && few.end == End::Left && matches!(few.limit, Limit::Greatest(by) if close(by, 0.5)));
    assert!(many.courses == 11 && matches!(many.limit, Limit::Least(by) if close(by, 11.0 * 8.4 - 85.0)));
    assert!(no_room.ways.iter().any(|way| matches!(way, Way::CoverMore { by } if close(*by, 0.5))));
    assert!(no_room.ways.contains(&Way::TakeUp { from: 1 }), "drift began with the first course");
    let short = no_room.ways.iter().find_map(|way| match way {
        Way::ShortTop { courses: 11, shows } => Some(*shows),
        _ => None,
    });
    assert!(short.is_some_and(|shows| shows > 0.0 && shows < 85.5 - 10.0 * 8.4 + 1e-9), "{short:?}");
    assert!(no_room.ways.iter().all(|way| !matches!(way, Way::SeenChange { .. })), "no eye is in the way");
}

/// Courses of 8 in, at most 8.2; 2 in too high with four courses left is 7-1/2 in each. From 8-1/7 in, changed by 1/8 in each
/// time, four courses cannot come below 8.143 × 4 − 10 × 0.125 = 31.32 in, where 30 are left; three reach 24.6.
#[test]
fn a_change_that_would_be_seen_is_told_with_the_limit_that_would_do() {
    let mut sheet = plain_slate(20.0, 12.0, 3.0);
    sheet.bands[0].greatest_exposure = inches(8.2);
    let (_, relaid) = relaid(&of(gable(360.0, 144.0)), &sheet, &SettingOut::default(), &[(14, 114.0, 114.0)]);
    let no_room = relaid.outcome.unwrap_err();
    assert!(matches!(no_room.in_the_way[0].limit, Limit::Greatest(by) if close(by, 30.0 - 24.6)));
    assert!(matches!(no_room.in_the_way[1].limit, Limit::Sight(by) if close(by, 4.0 * 114.0 / 14.0 - 1.25 - 30.0)));
    // Four courses come down to 30 in if ten changes make 2.571: 0.2571, on the tape 5/16.
    assert!(no_room.ways.contains(&Way::SeenChange { limit: 0.3125 }), "{:?}", no_room.ways);
}

/// What is laid too wide is told; the course above pays for it, as two courses together leave the headlap: 20 − 3 − 8.6 = 8.4.
#[test]
fn the_headlap_over_the_last_course_is_kept() {
    let sheet = plain_slate(20.0, 12.0, 3.0);
    let setting_out = SettingOut { sight_limit: inches(1.0), ..SettingOut::default() };
    let readings = [(10, 83.0, 83.0), (11, 91.6, 91.6)];
    let (_, relaid) = relaid(&of(gable(360.0, 200.0)), &sheet, &setting_out, &readings);
    assert!(relaid.laid[1].shows.unwrap()[0] > relaid.greatest);
    let spread = relaid.outcome.unwrap();
    assert!(shows(&spread, 0)[0] <= 8.4 + 1e-9, "{:?}", shows(&spread, 0));
}

/// e1 sin θ1 = e2 sin θ2: what 8:12 shows, 12:12 shows times 6.6679 / 8.5.
#[test]
fn a_neighbour_beyond_a_hip_is_told_what_it_would_show() {
    let roof = hip_roof([8.0, 12.0, 8.0, 12.0]);
    let sheet = plain_slate(20.0, 12.0, 3.0);
    let setting_out = SettingOut { match_hips: MatchHips::All, ..SettingOut::default() };
    let (layout, _) = relaid(&roof, &sheet, &setting_out, &[(10, 84.0, 84.0)]);
    let planned = layout.planes[0].courses[10].butt - layout.planes[0].first_butt;
    let (_, relaid) = relaid(&roof, &sheet, &setting_out, &[(10, planned + 0.5, planned + 0.5)]);
    let spread = relaid.outcome.unwrap();
    assert_eq!(spread.neighbours.iter().map(|of| of.plane).collect::<Vec<_>>(), [1, 3]);
    for neighbour in &spread.neighbours {
        assert!(close(neighbour.off, 0.5), "{neighbour:?}");
        assert_eq!(neighbour.course, 10);
        let ours = shows(&spread, 0);
        assert!((neighbour.shows[1] - ours[1] * 6.6679 / 8.5).abs() < 1e-4);
        assert_eq!(neighbour.marks.first().map(|mark| mark.course), Some(11));
    }
}

/// Slates and slopes of all sizes, by themselves or with their courses matched.
fn case() -> impl Strategy<Value = (Roof, Covering, SettingOut)> {
    let pitches = prop::sample::select(vec![[8.0; 4], [8.0, 12.0, 8.0, 12.0], [6.0, 9.0, 7.0, 9.0]]);
    (pitches, 60.0..400.0f64, any::<bool>(), any::<bool>(), 0.0..2.0f64, 10.0..24.0f64).prop_map(
        |(pitches, height, hipped, matched, below, length)| {
            let mut sheet = plain_slate(length, 10.0, 3.0);
            sheet.bands[0].least_exposure = inches((sheet.bands[0].greatest_exposure.to_inches() - below).max(1.0));
            let roof = if hipped { hip_roof(pitches) } else { of(gable(240.0, height)) };
            let match_hips = if matched { MatchHips::All } else { MatchHips::None };
            (roof, sheet, SettingOut { match_hips, ..SettingOut::default() })
        },
    )
}

/// The same in two lengths, with butts staggered, or both.
fn bonded() -> impl Strategy<Value = (Roof, Covering, SettingOut)> {
    (case(), 20.0..80.0f64, 1.0..3.0f64, prop::option::of(0.25..1.0f64)).prop_map(
        |((roof, sheet, setting_out), share, drop, step)| {
            let own = sheet.unit.length.to_inches();
            let mut sheet = graduated(sheet, &[(own, share), (own - drop, 100.0 - share)]);
            sheet.bonds.step = step.map(inches);
            let setting_out = SettingOut { staggered: step.is_some(), graduated: Graduated::BySheet, ..setting_out };
            (roof, sheet, setting_out)
        },
    )
}

/// Of the new courses from the one that was read up: more are of its length, and fewer leave out of those next to it.
fn lengths(laid: &LaidPlane, course: usize, count: usize) -> Vec<f64> {
    let planned: Vec<f64> = laid.courses[course..].iter().map(|course| course.length).collect();
    let more = vec![planned[0]; count.saturating_sub(planned.len())];
    let left_out = planned.len().saturating_sub(count);
    more.into_iter().chain([planned[0]]).chain(planned[1 + left_out..].iter().copied()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(ProptestConfig::default().cases.max(200)))]
    #[test]
    fn zero_drift_changes_nothing((roof, sheet, setting_out) in prop_oneof![case(), bonded()], part in 0.0..1.0f64) {
        let layout = layout::lay_roof(&roof, |_| Some(&sheet), &setting_out);
        let laid = &layout.planes[0];
        let course = (part * laid.courses.len() as f64) as usize;
        // Read off the tape, as a person does.
        let mark = ((laid.courses[course].butt - laid.first_butt) * 16.0).round() / 16.0;
        let (_, relaid) = relaid(&roof, &sheet, &setting_out, &[(course, mark, mark)]);
        let spread = relaid.outcome.unwrap();
        prop_assert!(spread.as_planned && spread.more == 0 && spread.missed.is_empty());
        for (butts, planned) in spread.butts.iter().zip(&laid.courses[course..]) {
            prop_assert!(butts.iter().all(|butt| close(*butt, planned.butt - laid.first_butt)));
        }
        prop_assert!(spread.neighbours.iter().all(|of| of.off == 0.0));
        for (new, old) in spread.poles.iter().zip(&laid.poles) {
            let above: Vec<_> = old.marks.iter().filter(|mark| mark.course > course).copied().collect();
            prop_assert_eq!(&new.marks, &above);
        }
    }

    #[test]
    fn new_courses_of_two_lengths_keep_their_headlap(
        (roof, sheet, setting_out) in bonded(), part in 0.0..1.0f64, drift in -1.5..1.5f64,
    ) {
        let layout = layout::lay_roof(&roof, |_| Some(&sheet), &setting_out);
        let laid = &layout.planes[0];
        let course = 1 + (part * (laid.courses.len() - 1) as f64) as usize;
        prop_assume!(course < laid.courses.len());
        let planned = laid.courses[course].butt - laid.first_butt;
        let (_, relaid) = relaid(&roof, &sheet, &setting_out, &[(course, planned + drift, planned + drift)]);
        if let Ok(spread) = &relaid.outcome {
            let all = shows(spread, 0);
            let lengths = lengths(laid, course, spread.butts.len());
            for (pair, length) in all.windows(2).zip(lengths) {
                prop_assert!(length - pair[0] - pair[1] - laid.step >= 3.0 - 1e-6, "{all:?}");
            }
        }
    }

    #[test]
    fn new_courses_keep_every_limit(
        (roof, sheet, setting_out) in case(), part in 0.0..1.0f64, left in -1.5..1.5f64, right in -1.5..1.5f64,
    ) {
        let layout = layout::lay_roof(&roof, |_| Some(&sheet), &setting_out);
        let laid = &layout.planes[0];
        let course = 1 + (part * (laid.courses.len() - 1) as f64) as usize;
        prop_assume!(course < laid.courses.len());
        let planned = laid.courses[course].butt - laid.first_butt;
        let (_, relaid) = relaid(&roof, &sheet, &setting_out, &[(course, planned + left, planned + right)]);
        match &relaid.outcome {
            Ok(spread) if !spread.as_planned => {
                for end in 0..2 {
                    let all = shows(spread, end);
                    prop_assert!(all.iter().all(|e| *e <= relaid.greatest + 1e-6 && *e >= -1e-9), "{all:?}");
                    prop_assert!(all.windows(2).all(|pair| 20.0 - pair[0] - pair[1] >= 20.0 - 2.0 * relaid.greatest - 1e-6));
                    let held = &all[..all.len() - 1];
                    prop_assert!(held.windows(2).all(|pair| (pair[1] - pair[0]).abs() <= 0.125 + 1e-6) || setting_out.match_hips != MatchHips::None);
                    prop_assert!(spread.room.iter().all(|room| *room >= 0.0));
                }
            }
            Ok(_) => {}
            Err(no_room) => {
                prop_assert!(!no_room.in_the_way.is_empty());
                prop_assert!(no_room.in_the_way.iter().all(|way| way.limit.by() > 0.0), "{no_room:?}");
            }
        }
    }
}
