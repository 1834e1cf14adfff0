//! Course lines of whole roofs: worked examples, and what holds for every roof.

#![allow(clippy::unwrap_used, reason = "tests only")]

mod common;

use common::{gable, inches, moulded, pitch, plain_slate, plane, shingle};
use covering::Covering;
use layout::{Fault, LaidPlane, Layout, MatchHips, PoleSide, Remedy, SettingOut, StationSide, Why};
use proptest::prelude::*;
use roof::{Block, Dormer, DormerKind, EdgeKind, OutlineAt, Plane, Roof, Side, SideKind};

fn matching() -> SettingOut {
    SettingOut { match_hips: MatchHips::All, ..SettingOut::default() }
}

fn block(outline: &[[f64; 2]], pitches: &[f64]) -> Block {
    Block {
        name: "house".into(),
        outline: outline.to_vec(),
        outline_at: OutlineAt::DripLine,
        sides: pitches.iter().map(|&rise| Side::new(SideKind::Eave(pitch(rise)))).collect(),
        holes: vec![],
        eave_height: 100.0,
    }
}

/// A hip roof 40 × 28 ft with these pitches from the south round.
fn hip_roof(pitches: [f64; 4]) -> Roof {
    let corners = [[0.0, 0.0], [480.0, 0.0], [480.0, 336.0], [0.0, 336.0]];
    roof::build(&[block(&corners, &pitches)], 0.0).roof
}

fn lay(roof: &Roof, sheet: &Covering, setting_out: &SettingOut) -> Layout {
    layout::lay_roof(roof, |_| Some(sheet), setting_out)
}

/// Heights of a plane's course lines above the datum.
fn heights(roof: &Roof, laid: &LaidPlane) -> Vec<f64> {
    laid.courses.iter().map(|course| roof.planes[laid.plane].frame.point([0.0, course.butt])[2]).collect()
}

fn exposures(laid: &LaidPlane) -> Vec<f64> {
    laid.courses.iter().map(|course| course.exposure).collect()
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

/// Equal rise, e1 sin θ1 = e2 sin θ2: 8-1/2 in at 8:12 is 8.5 × 0.554700 / 0.707107 = 6.6679 in at 12:12.
#[test]
fn courses_at_8_and_12_in_12_rise_alike() {
    let roof = hip_roof([8.0, 12.0, 8.0, 12.0]);
    let laid = lay(&roof, &plain_slate(20.0, 12.0, 3.0), &matching());
    let [shallow, steep] = [&laid.planes[0], &laid.planes[1]].map(|plane| exposures(plane)[3]);
    assert!((shallow * 6.6679 / 8.5 - steep).abs() < 1e-4, "{shallow} {steep}");
    assert!(laid.unmatched.is_empty());
    assert_eq!(laid.matched.len(), 1);
    assert_eq!(laid.matched[0].planes, [0, 1, 2, 3]);
    assert!(laid.matched[0].odd.is_empty(), "all first butts at one height");
    assert!(laid.matched[0].courses > 0, "the steep planes take more courses than by themselves");
    let lines = heights(&roof, &laid.planes[0]);
    for plane in &laid.planes[1..] {
        assert!(heights(&roof, plane).iter().zip(&lines).all(|(a, b)| close(*a, *b)));
    }
}

/// The common rise may not pass 8 × sin 33.69° = 4.4376 in, and 7 in at 12:12 rises 7 × sin 45° = 4.9497 in.
#[test]
fn what_cannot_meet_says_why_and_what_the_ways_out_cost() {
    let mut sheet = plain_slate(19.0, 12.0, 3.0);
    sheet.bands[0].least_exposure = inches(7.0);
    let roof = hip_roof([8.0, 12.0, 8.0, 8.0]);
    let laid = lay(&roof, &sheet, &matching());
    // North, south and west meet; the east plane has two hips.
    assert_eq!(laid.matched.len(), 1);
    assert_eq!(laid.matched[0].planes, [0, 2, 3]);
    assert_eq!(laid.unmatched.len(), 2);
    let Why::NoCommonRise { greatest, least } = laid.unmatched[0].why else { panic!("the rise") };
    assert!((greatest - 4.4376).abs() < 1e-4 && (least - 4.9497).abs() < 1e-4);
    let ways = &laid.unmatched[0].ways;
    assert_eq!((ways[0].remedy, ways[0].courses), (Remedy::CapHip, Some(0)));
    let Remedy::ShorterExposure { plane: 1, exposure } = ways[1].remedy else { panic!("{:?}", ways[1]) };
    assert!((exposure - 4.4376 * 2f64.sqrt()).abs() < 1e-4);
    assert!(ways[1].courses > Some(0) && ways[1].pieces > Some(0));
    assert!(matches!(ways[2].remedy, Remedy::OtherUnit { .. }));
    let alone = layout::lay(1, &roof.planes[1], &sheet, &SettingOut::default());
    assert_eq!(exposures(&laid.planes[1]), exposures(&alone), "it is laid by itself");
}

/// A gable dormer on the south plane: its courses lie at the heights of the main roof's but for one odd course at its eave.
#[test]
fn a_dormers_courses_meet_the_main_roofs() {
    let sides = [Some(9.0), None, Some(9.0), None]
        .map(|rise| Side::new(rise.map_or(SideKind::Gable, |rise| SideKind::Eave(pitch(rise)))));
    let corners = [[0.0, 0.0], [480.0, 0.0], [480.0, 336.0], [0.0, 336.0]];
    let house = Block { sides: sides.to_vec(), ..block(&corners, &[]) };
    let dormer = Dormer {
        name: "dormer".into(),
        kind: DormerKind::Gable,
        on: "house.0".into(),
        across: inches(240.0),
        up: inches(40.0),
        width: inches(80.0),
        wall_height: inches(50.0),
        pitch: pitch(9.0),
        overhang: Some(inches(8.0)),
        rake_overhang: Some(inches(8.0)),
    };
    let blocks = [house];
    let alone = roof::build(&blocks, 0.0);
    let roof = roof::with_dormers(alone, &blocks, &[dormer], 0.0).0.roof;
    assert_eq!(roof.planes.len(), 4);
    let laid = lay(&roof, &moulded(), &matching());
    assert_eq!(laid.matched.len(), 1, "{:?}", laid.unmatched);
    let main = heights(&roof, &laid.planes[0]);
    for plane in &laid.planes[2..] {
        for height in &heights(&roof, plane)[1..] {
            assert!(main.iter().any(|line| close(*line, *height)), "{height} of {main:?}");
        }
    }
    let kinds: Vec<EdgeKind> = laid.planes[0].stations.iter().map(|station| station.kind).collect();
    assert!(kinds.contains(&EdgeKind::Headwall) && kinds.contains(&EdgeKind::Valley), "{kinds:?}");
}

/// Left rafters of 201.9 in, right ones of 198.9 in: 24 courses of 8.4125 and 8.2875 in, and a 20-in slate laps
/// 20 − 2 × 8.4125 = 3.175 and 20 − 2 × 8.2875 = 3.425 in.
#[test]
fn two_ends_have_marks_of_their_own() {
    use EdgeKind::{Eave, Rake, Ridge};
    let corners = [[0.0, 0.0], [900.0, 0.0], [900.0, 198.9], [0.0, 201.9]];
    let surface = plane(&[(&corners, &[Eave, Rake, Ridge, Rake])]);
    let laid = layout::lay(0, &surface, &plain_slate(20.0, 12.0, 3.0), &SettingOut::default());
    assert_eq!(laid.courses.len(), 24);
    let of = |side| laid.poles.iter().find(|pole| pole.side == side).unwrap();
    for (side, exposure) in [(PoleSide::Left, 8.4125), (PoleSide::Right, 8.2875)] {
        for mark in &of(side).marks {
            let exact = mark.course as f64 * exposure;
            assert!((mark.butt - exact).abs() <= 1.0 / 32.0 + 1e-9, "each mark within half a sixteenth");
            assert!(close(mark.butt * 16.0, (mark.butt * 16.0).round()));
        }
    }
    let square = laid.out_of_square.unwrap();
    assert!(close(square.slopes[0], 201.9) && close(square.slopes[1], 198.9));
    assert!(close(square.headlaps[0], 3.175) && close(square.headlaps[1], 3.425));
    // 3 in over 75 ft are 0.4 in over 10 ft, which is not seen.
    assert!(close(square.in_10_ft, 0.4) && laid.findings.is_empty(), "{:?}", laid.findings);
    let narrow = [[0.0, 0.0], [600.0, 0.0], [600.0, 198.9], [0.0, 201.9]];
    let surface = plane(&[(&narrow, &[Eave, Rake, Ridge, Rake])]);
    let laid = layout::lay(0, &surface, &plain_slate(20.0, 12.0, 3.0), &SettingOut::default());
    // Over 50 ft they are 0.6 in.
    assert!(matches!(laid.findings[0].fault, Fault::OutOfParallel { is, .. } if close(is.to_inches(), 0.6)));
}

/// A jog 35 in up: even courses of 138 / 19 = 7.263 in would leave a strip of 1.3 in over it.
#[test]
fn a_line_lands_at_the_higher_eave_and_both_poles_have_it() {
    use EdgeKind::{Eave, Rake, Ridge};
    let corners = [[0.0, 35.0], [120.0, 35.0], [120.0, 0.0], [300.0, 0.0], [300.0, 138.0], [0.0, 138.0]];
    let surface = plane(&[(&corners, &[Eave, Rake, Eave, Rake, Ridge, Rake])]);
    let mut sheet = plain_slate(19.0, 12.0, 4.0);
    sheet.bands[0].least_exposure = inches(6.0);
    let laid = layout::lay(0, &surface, &sheet, &SettingOut::default());
    assert_eq!(laid.courses.len(), 19, "138 / 7.5 in");
    let station = laid.stations[0];
    assert_eq!((station.kind, station.side, station.shows), (Eave, StationSide::Above, None));
    assert!(laid.courses.iter().any(|course| (course.butt - 35.0).abs() <= 1.0 / 32.0 + 1e-9));
    let left = laid.poles.iter().find(|pole| pole.side == PoleSide::Left && pole.u < 1.0).unwrap();
    assert!(close(left.marks[0].butt, 35.0), "one zero for all poles: {:?}", left.marks[0]);
    let right = laid.poles.iter().find(|pole| pole.side == PoleSide::Right).unwrap();
    assert!(close(right.marks[0].butt, 0.0) && right.marks[1].head == Some(right.marks[1].butt + 19.0));
}

/// Units marked at 7 and 7-1/2 in, courses of 7-1/4: nobody may lay them by the marks.
#[test]
fn an_exposure_that_is_no_mark_is_told() {
    let mut sheet = plain_slate(19.0, 12.0, 4.0);
    sheet.marks = vec![inches(7.0), inches(7.5)];
    let told = |height: f64| {
        let laid = layout::lay(0, &gable(300.0, height), &sheet, &SettingOut::default());
        laid.findings.iter().any(|finding| matches!(finding.fault, Fault::OffTheMarks { .. }))
    };
    assert!(told(72.5));
    assert!(!told(75.0));
}

fn sheets() -> impl Strategy<Value = Covering> {
    let plain = (12u32..24).prop_map(|length| {
        let mut sheet = plain_slate(f64::from(length), 10.0, 3.0);
        sheet.bands[0].least_exposure = sheet.bands[0].greatest_exposure * 0.75;
        sheet
    });
    prop_oneof![plain, Just(moulded()), Just(shingle())]
}

/// An L or a T of eaves at random pitches.
fn houses() -> impl Strategy<Value = Roof> {
    let sizes = (300.0..500.0f64, 200.0..300.0f64, 100.0..180.0f64, 80.0..200.0f64);
    let pitches = prop::collection::vec(prop::sample::select(vec![6.0, 8.0, 9.0, 12.0]), 8);
    (sizes, pitches).prop_map(|((width, depth, wing, out), pitches)| {
        let corners = [[0.0, 0.0], [width, 0.0], [width, depth], [wing, depth], [wing, depth + out], [0.0, depth + out]];
        roof::build(&[block(&corners, &pitches[..6])], 0.0).roof
    })
}

/// What holds for every plane's lines, however they were found.
fn sound(plane: &Plane, sheet: &Covering, laid: &LaidPlane, matched: bool) {
    let band = sheet.band(plane.pitch).unwrap();
    let [least, greatest, headlap] =
        [band.least_exposure, band.greatest_exposure, band.headlap].map(units::Length::to_inches);
    let exposures = exposures(laid);
    assert!((exposures.iter().sum::<f64>() - (laid.top - laid.first_butt)).abs() < 1e-6);
    assert!(exposures.iter().all(|&e| e <= greatest + 1e-6), "{exposures:?} {greatest}");
    let over = sheet.lap.courses() as usize;
    for lines in laid.courses.windows(over + 1) {
        assert!(sheet.unit.length.to_inches() - (lines[over].butt - lines[0].butt) >= headlap - 1e-6);
    }
    let body = if matched {
        &exposures[1.min(exposures.len() - 1)..exposures.len() - 1]
    } else {
        &exposures[..exposures.len() - 1]
    };
    assert!(body.iter().all(|&e| e >= least - 1e-6), "{exposures:?} {least}");
    assert!(body.windows(2).all(|pair| (pair[1] - pair[0]).abs() <= 0.125 + 1e-6), "{exposures:?}");
    let short = laid.findings.iter().any(|finding| matches!(finding.fault, Fault::ShortTopCourse { .. }));
    assert_eq!(short, *exposures.last().unwrap() < least * (1.0 - 1e-9));
}

proptest! {
    #[test]
    fn courses_of_every_house_are_sound_and_meet(roof in houses(), sheet in sheets(), asked in any::<bool>()) {
        let setting_out = if asked { matching() } else { SettingOut::default() };
        let layout = lay(&roof, &sheet, &setting_out);
        for laid in layout.planes.iter().filter(|laid| laid.top - laid.first_butt > 30.0) {
            sound(&roof.planes[laid.plane], &sheet, laid, asked);
        }
        for matched in &layout.matched {
            let lines = |plane: usize| {
                let laid = layout.planes.iter().find(|laid| laid.plane == plane).unwrap();
                heights(&roof, laid)
            };
            let all: Vec<f64> = matched.planes.iter().flat_map(|&plane| lines(plane)[1..].to_vec()).collect();
            for &plane in &matched.planes {
                let [low, high] = [lines(plane)[1], *lines(plane).last().unwrap()];
                let own = lines(plane);
                let missing = all.iter().filter(|&&line| line > low && line < high).find(|line| !own.iter().any(|own| close(*own, **line)));
                prop_assert_eq!(missing, None, "a line of a neighbour that does not run on");
            }
        }
    }

    /// Marks are whole tape steps, each within half a step of the exact line, whatever the step.
    #[test]
    fn marks_never_add_up_their_rounding(height in 40.0..400.0f64, step in prop::sample::select(vec![0.0625, 0.125, 0.25])) {
        let setting_out = SettingOut { tape_step: inches(step), ..SettingOut::default() };
        let laid = layout::lay(0, &gable(200.0, height), &moulded(), &setting_out);
        for pole in &laid.poles {
            prop_assert_eq!(pole.marks.len(), laid.courses.len());
            for mark in &pole.marks {
                let exact = laid.courses[mark.course].butt - laid.first_butt;
                prop_assert!((mark.butt - exact).abs() <= step / 2.0 + 1e-9);
                prop_assert!(close(mark.butt / step, (mark.butt / step).round()));
            }
        }
    }
}
