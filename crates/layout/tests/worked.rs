//! Worked examples from outside.

mod common;

use common::{gable, inches, moulded, pitch, plain_slate};

/// Published: I. S. Griffith, Carpentry (1916): a roof of 16 × 20 ft in 6 × 12-in slates at 3-in lap. Each slate shows
/// 6 × 4-1/2 = 27 sq in, so 16 × 20 × 144 / 27 = 1,707 slates by the formula.
///
/// Laid, it takes more. 16 ft up the slope is 42-2/3 exposures, and courses are whole: 43 of them, 1/3 more than the
/// formula, 13-1/3 slates of the 40 in a course. And every second course of a half bond begins and ends with a half
/// slate, each cut from a slate of its own: 41 pieces on 40 widths, one more in each of the 21 odd courses.
#[test]
fn griffiths_roof_course_by_course() {
    let laid = layout::lay(0, &gable(240.0, 192.0), &plain_slate(12.0, 6.0, 3.0), &layout::SettingOut::default());
    let by_formula: f64 = 16.0 * 20.0 * 144.0 / 27.0;
    assert_eq!(by_formula.ceil() as u32, 1707);
    assert_eq!(laid.courses.len(), 43);
    for (index, course) in laid.courses.iter().enumerate() {
        assert_eq!(course.pieces(), 40 + index as u64 % 2, "course {index}");
    }
    let whole_courses = (43.0 - 42.0 - 2.0 / 3.0) * 40.0;
    let half_slates = 21.0;
    assert!((laid.counts().pieces() as f64 - (by_formula + whole_courses + half_slates)).abs() < 1e-9);
    assert_eq!(laid.counts().pieces(), 1741);
    assert_eq!(laid.findings, []);
}

/// Slates per square at 3-in lap: length, width, the 1869 table, the pocketbook's.
/// Published: Architectural Review and American Builders' Journal, vol. 1 (1869), p. 451, "Table of Slates"; The Building
/// Trades Pocketbook (about 1900), "Slating". Both round down more often than not.
const SLATES_PER_SQUARE: [(f64, f64, Option<f64>, Option<f64>); 28] = [
    (12.0, 6.0, Some(533.0), Some(533.0)),
    (12.0, 7.0, Some(457.0), Some(457.0)),
    (12.0, 8.0, Some(400.0), Some(400.0)),
    (12.0, 9.0, Some(355.0), Some(355.0)),
    (14.0, 7.0, Some(374.0), Some(374.0)),
    (14.0, 8.0, Some(327.0), Some(327.0)),
    (14.0, 9.0, Some(291.0), Some(291.0)),
    (14.0, 10.0, Some(261.0), Some(261.0)),
    (16.0, 8.0, Some(272.0), Some(277.0)),
    (16.0, 9.0, Some(246.0), Some(246.0)),
    (16.0, 10.0, Some(221.0), Some(221.0)),
    (16.0, 12.0, Some(184.0), None),
    (18.0, 9.0, Some(213.0), Some(218.0)),
    (18.0, 10.0, Some(192.0), Some(192.0)),
    (18.0, 11.0, Some(175.0), Some(171.0)),
    (18.0, 12.0, Some(160.0), Some(160.0)),
    (20.0, 10.0, Some(169.0), Some(169.0)),
    (20.0, 11.0, Some(154.0), Some(154.0)),
    (20.0, 12.0, Some(141.0), Some(141.0)),
    (20.0, 14.0, Some(121.0), Some(121.0)),
    (22.0, 11.0, Some(137.0), Some(138.0)),
    (22.0, 12.0, Some(126.0), Some(126.0)),
    (22.0, 13.0, None, Some(116.0)),
    (22.0, 14.0, Some(108.0), Some(108.0)),
    (24.0, 12.0, Some(114.0), Some(114.0)),
    (24.0, 13.0, None, Some(106.0)),
    (24.0, 14.0, Some(97.0), None),
    (24.0, 16.0, Some(86.0), Some(86.0)),
];

/// Printed figures that the tables' own rule, 14,400 / (width × exposure), does not give: 16 × 8 in the 1869 table
/// (276.9), 18 × 9 (213.3) and 18 × 11 (174.5) in the pocketbook.
const MISPRINTS: [(f64, f64, f64); 3] = [(16.0, 8.0, 272.0), (18.0, 9.0, 218.0), (18.0, 11.0, 171.0)];

/// On a plane so large that half slates at its ends do not count, laid slates per square are those of the old tables.
#[test]
fn slates_per_square_of_a_large_plane_are_those_of_the_tables() {
    for (length, width, of_1869, pocketbook) in SLATES_PER_SQUARE {
        let exposure = (length - 3.0) / 2.0;
        let plane = gable(width * 50_000.0, exposure * 4.0);
        let laid = layout::lay(0, &plane, &plain_slate(length, width, 3.0), &layout::SettingOut::default());
        let per_square = laid.counts().pieces() as f64 / plane.area().to_squares();
        let by_formula = 14_400.0 / (width * exposure);
        assert!((per_square - by_formula).abs() < 0.01, "{length} × {width}");
        for table in [of_1869, pocketbook].into_iter().flatten() {
            let misprint = MISPRINTS.contains(&(length, width, table));
            assert_eq!((per_square - table).abs() >= 1.0, misprint, "{length} × {width}: {per_square} for {table}");
        }
    }
}

/// 20-in slate at 3-in lap on a slope of 201.9 in: ⌈201.9 / 8.5⌉ = 24 courses, 201.9 / 24 = 8.4125 in each, which leaves
/// a headlap of 20 − 2 × 8.4125 = 3.175 in. Exposure of a 20-in slate: US Simplified Practice Recommendation R14-28.
#[test]
fn a_slope_of_201_9_in() {
    let sheet = plain_slate(20.0, 12.0, 3.0);
    let laid = layout::lay(0, &gable(360.0, 201.9), &sheet, &layout::SettingOut::default());
    assert_eq!(laid.courses.len(), 24);
    for course in &laid.courses {
        assert!((course.exposure - 8.4125).abs() < 1e-9);
        assert!((sheet.headlap(units::Length::inches(course.exposure)).to_inches() - 3.175).abs() < 1e-9);
    }
    assert!((laid.starters[0].height - 11.5875).abs() < 1e-9, "exposure and headlap");
}

/// 374 in between the laid rakes is 30 units of 12-1/4 in with their gaps and 6-1/2 in over: with a half bond some end of
/// some course is a sliver below 4 in wherever the first unit begins. Moving the last joint cures them all.
#[test]
fn slivers_at_the_rakes_give_way_to_moved_joints() {
    let laid = layout::lay(0, &gable(372.5, 180.0), &moulded(), &layout::SettingOut::default());
    assert_eq!(laid.findings, []);
    let narrowed = laid.courses.iter().filter(|course| course.runs.iter().any(|run| run.width < 11.99)).count();
    assert!(narrowed >= laid.courses.len() / 2, "every second course");
}

/// Below the sheet's pitches a plane is laid at the shortest exposure that the sheet knows.
#[test]
fn a_plane_too_flat_for_the_sheet_is_laid_all_the_same() {
    let mut sheet = plain_slate(20.0, 12.0, 4.0);
    sheet.bands[0].from = pitch(9.0);
    sheet.bands[0].least_exposure = inches(7.0);
    let laid = layout::lay(0, &gable(300.0, 70.0), &sheet, &layout::SettingOut::default());
    assert_eq!(laid.courses.len(), 10);
    assert!(laid.courses.iter().all(|course| (course.exposure - 7.0).abs() < 1e-9));
}

#[test]
fn what_cannot_be_laid_has_no_courses() {
    let mut sheet = plain_slate(20.0, 12.0, 4.0);
    sheet.bands.clear();
    assert_eq!(layout::lay(0, &gable(300.0, 70.0), &sheet, &layout::SettingOut::default()).courses, []);
    let mut sheet = plain_slate(20.0, 12.0, 4.0);
    sheet.unit.width = inches(f64::NAN);
    assert_eq!(layout::lay(0, &gable(300.0, 70.0), &sheet, &layout::SettingOut::default()).courses, []);
    assert_eq!(
        layout::lay(0, &common::plane(&[]), &plain_slate(20.0, 12.0, 4.0), &layout::SettingOut::default()).courses,
        []
    );
}
