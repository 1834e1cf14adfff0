//! Bonds worked out by hand or asked of every joint on its own.
#![allow(clippy::unwrap_used, reason = "tests only")]

mod common;

use common::{gable, graduated, inches, moulded, plain_slate, plane, random_shingle, random_slate};
use covering::{Bond, Bonds, Covering};
use layout::{Course, Fault, Graduated, Hanging, LaidPlane, MatchHips, SettingOut};
use roof::{Block, EdgeKind, OutlineAt, Plane, Side, SideKind};

fn lay(plane: &Plane, sheet: &Covering) -> LaidPlane {
    layout::lay(0, plane, sheet, &SettingOut::default())
}

/// The least distance of any joint to any other so many courses down, every pair compared.
fn nearest(laid: &LaidPlane, down: usize) -> f64 {
    let joints: Vec<Vec<f64>> = laid.courses.iter().map(Course::joints).collect();
    let pairs = (down..joints.len()).flat_map(|course| {
        let below = &joints[course - down];
        joints[course].iter().flat_map(move |u| below.iter().map(move |other| (u - other).abs()))
    });
    pairs.fold(f64::INFINITY, f64::min)
}

/// Part of all pieces that is cut from each kind of unit.
fn shares(laid: &LaidPlane) -> Vec<f64> {
    let of = |unit| laid.counts_of(unit as u32).pieces() as f64 / laid.counts().pieces() as f64;
    (0..laid.units.len()).map(of).collect()
}

fn shares_come_near(laid: &LaidPlane, sheet: &Covering) {
    for (mixed, share) in sheet.bonds.widths.iter().zip(shares(laid)) {
        assert!((mixed.share - share).abs() <= sheet.bonds.share_within, "{mixed:?} {share}");
    }
}

fn hipped() -> Plane {
    use EdgeKind::{Eave, Hip, Ridge};
    plane(&[(&[[0.0, 0.0], [480.0, 0.0], [330.0, 180.0], [150.0, 180.0]], &[Eave, Hip, Ridge, Hip])])
}

#[test]
fn random_widths_miss_the_joints_below_and_keep_their_shares() {
    for plane in [gable(400.0, 200.0), hipped()] {
        let sheet = random_slate();
        let laid = lay(&plane, &sheet);
        assert!(nearest(&laid, 1) > 3.0 - 1e-6);
        assert_eq!(laid.findings, []);
        shares_come_near(&laid, &sheet);
    }
}

/// Wood shingles: joints at least 1-1/2 in apart in adjacent courses, and no two joints in line in any three adjacent
/// courses (common practice, no published source).
#[test]
fn triple_lap_of_random_widths_misses_two_courses_down() {
    for plane in [gable(400.0, 200.0), hipped()] {
        let sheet = random_shingle();
        let laid = lay(&plane, &sheet);
        assert!(nearest(&laid, 1) > 1.5 - 1e-6 && nearest(&laid, 2) > 1.5 - 1e-6);
        assert!(!laid.findings.iter().any(|finding| matches!(finding.fault, Fault::JointOverJoint { .. })));
        shares_come_near(&laid, &sheet);
    }
}

#[test]
fn the_job_chooses_among_the_bonds_of_the_sheet() {
    let mut sheet = random_slate();
    sheet.bonds = Bonds { allows: vec![Bond::Half, Bond::Random], ..sheet.bonds };
    let of = |bond| layout::lay(0, &gable(300.0, 100.0), &sheet, &SettingOut { bond, ..SettingOut::default() });
    assert_eq!(of(None).units.len(), 1);
    assert_eq!(of(Some(Bond::Random)).units.len(), 5);
    assert_eq!(of(Some(Bond::Third)), of(None), "what the sheet does not allow is not laid");
}

/// Third bond of 12-in units: joints 4 in further from course to course.
#[test]
fn third_bond_at_double_lap() {
    let bonds = Bonds { allows: vec![Bond::Third], ..Bonds::default() };
    let laid = lay(&gable(300.0, 120.0), &Covering { bonds, ..plain_slate(18.0, 12.0, 3.0) });
    assert!((nearest(&laid, 1) - 4.0).abs() < 1e-6 && (nearest(&laid, 2) - 4.0).abs() < 1e-6);
    assert!(nearest(&laid, 3) < 1e-6);
}

/// Offsets that leave ever less choice.
#[test]
fn where_no_whole_unit_fits_one_is_cut() {
    let mut sheet = random_slate();
    for least in [4.0, 5.0] {
        sheet.joint_offset = inches(least);
        let laid = lay(&gable(400.0, 150.0), &sheet);
        assert!(nearest(&laid, 1) > least - 1e-6, "{}", nearest(&laid, 1));
        let is_cut = |run: &&layout::Run| run.width < laid.units[run.unit as usize].width - 1e-6;
        assert!(laid.courses.iter().flat_map(|course| &course.runs).any(|run| is_cut(&run)));
    }
    // Over two 8-in slates side by side there is no place for a joint 5 in off all three, and the mix cannot be kept.
    let laid = lay(&gable(400.0, 150.0), &sheet);
    let eight = |fault: &Fault| matches!(fault, Fault::MixNotKept { width, .. } if *width == inches(8.0));
    assert!(laid.findings.iter().any(|finding| eight(&finding.fault)));
}

/// Common practice, no published source: where the greatest exposure is 7-1/2 in, courses of staggered butts have their lines
/// at most 6-1/2 in apart and every other unit 1 in lower; starters and first course lie straight. An 18-in unit then laps
/// 18 - 2 x 6-1/2 - 1 = 4 in.
#[test]
fn staggered_butts_of_the_trade() {
    let mut sheet = moulded();
    sheet.bands[0].greatest_exposure = inches(7.5);
    sheet.bands[0].headlap = inches(3.0);
    sheet.bonds.step = Some(inches(1.0));
    // From 1-1/4 in past the eave to 5-1/2 in below the ridge: ten times 6-1/2 in.
    let plane = gable(245.0, 65.0 - 1.25 + 5.5);
    let laid = layout::lay(0, &plane, &sheet, &SettingOut { staggered: true, ..SettingOut::default() });
    assert_eq!(laid.courses.len(), 10);
    for (index, course) in laid.courses.iter().enumerate() {
        assert!((course.exposure - 6.5).abs() < 1e-9, "{}", course.exposure);
        let field = course.runs.iter().max_by_key(|run| run.count).unwrap();
        assert_eq!(field.hangs == Hanging::None, index == 0);
        // The first course is straight: what laps over it laps an inch more.
        let lap = if index <= 2 { 5.0 } else { 4.0 };
        assert!((laid.headlap(index, &sheet).to_inches() - lap).abs() < 1e-9, "course {index}");
    }
    let straight = lay(&plane, &sheet);
    assert_eq!(straight.courses.len(), 9, "65 / 7-1/2 is 8-2/3");
    assert!(straight.courses.iter().flat_map(|course| &course.runs).all(|run| run.hangs == Hanging::None));
}

fn lay_graduated(plane: &Plane, sheet: &Covering) -> LaidPlane {
    layout::lay(0, plane, sheet, &SettingOut { graduated: Graduated::BySheet, ..SettingOut::default() })
}

/// Slates 20 in long and then 18 in at 3-in lap, worked by hand: exposures (20 - 3) / 2 = 8-1/2 and (18 - 3) / 2 = 7-1/2 in. Ten
/// courses of each reach 85 + 75 = 160 in. Heads lie 20 and 18 in over their butts, so those of the last long course and the
/// first short one lie 8-1/2 + 18 - 20 = 6-1/2 in apart, once, and then 7-1/2; the course over the last long one covers
/// 20 - 8-1/2 - 7-1/2 = 4 in of it.
#[test]
fn the_drop_from_20_in_to_18_in_slates() {
    let sheet = graduated(plain_slate(20.0, 10.0, 3.0), &[(20.0, 53.0), (18.0, 47.0)]);
    let laid = lay_graduated(&gable(240.0, 160.0), &sheet);
    assert_eq!(laid.courses.len(), 20);
    let heads: Vec<f64> = laid.courses.iter().map(|course| course.butt + course.length).collect();
    for (index, course) in laid.courses.iter().enumerate() {
        let [length, shows] = if index < 10 { [20.0, 8.5] } else { [18.0, 7.5] };
        assert!((course.length - length).abs() < 1e-9 && (course.exposure - shows).abs() < 1e-9, "{index}: {course:?}");
        let headlap = laid.headlap(index, &sheet).to_inches();
        assert!((headlap - if index == 11 { 4.0 } else { 3.0 }).abs() < 1e-9, "course {index}: {headlap}");
        let apart = if index == 10 { 6.5 } else { shows };
        assert!(index == 0 || (heads[index] - heads[index - 1] - apart).abs() < 1e-9, "course {index}");
    }
    let heads_of_pole = laid.poles[0].marks[10].head.unwrap() - laid.poles[0].marks[9].head.unwrap();
    assert!((heads_of_pole - 6.5).abs() < 1e-9);
}

#[test]
fn lengths_of_the_job_are_laid_with_its_shares() {
    let sheet = graduated(plain_slate(20.0, 10.0, 3.0), &[(20.0, 40.0), (18.0, 30.0), (16.0, 30.0)]);
    let lengths = |graduated| {
        let laid = layout::lay(0, &gable(240.0, 160.0), &sheet, &SettingOut { graduated, ..SettingOut::default() });
        let mut lengths: Vec<f64> = laid.courses.iter().map(|course| course.length).collect();
        lengths.dedup();
        lengths
    };
    assert_eq!(lengths(Graduated::No), [20.0]);
    assert_eq!(lengths(Graduated::BySheet), [20.0, 18.0, 16.0]);
    assert_eq!(lengths(Graduated::Lengths(vec![(inches(16.0), 0.5), (inches(18.0), 0.5)])), [18.0, 16.0]);
    assert_eq!(Graduated::Lengths(vec![(inches(17.0), 1.0)]).unknown(&sheet), [inches(17.0)]);
}

/// Round a hip roof of one pitch the lengths change at one height, where all planes have a line.
#[test]
fn lengths_change_at_one_height_round_hips() {
    let block = Block {
        name: "house".into(),
        outline: vec![[0.0, 0.0], [480.0, 0.0], [480.0, 336.0], [0.0, 336.0]],
        outline_at: OutlineAt::DripLine,
        sides: vec![Side::new(SideKind::Eave(common::pitch(8.0))); 4],
        holes: vec![],
        eave_height: 100.0,
    };
    let roof = roof::build(&[block], 0.0).roof;
    let sheet = graduated(plain_slate(20.0, 10.0, 3.0), &[(20.0, 50.0), (18.0, 30.0), (16.0, 20.0)]);
    let setting_out = SettingOut { match_hips: MatchHips::All, graduated: Graduated::BySheet, ..SettingOut::default() };
    let layout = layout::lay_roof(&roof, |_| Some(&sheet), &setting_out);
    assert_eq!(layout.planes.len(), 4);
    let [first, others @ ..] = &layout.planes[..] else { panic!() };
    assert_eq!(first.courses.chunk_by(|a, b| a.length.total_cmp(&b.length).is_eq()).count(), 3);
    for other in others {
        assert_eq!(other.courses.len(), first.courses.len());
        for (a, b) in first.courses.iter().zip(&other.courses) {
            assert!((a.butt - b.butt).abs() < 1e-6 && (a.length - b.length).abs() < 1e-9, "{a:?} {b:?}");
        }
    }
}
