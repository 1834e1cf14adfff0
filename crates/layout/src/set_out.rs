//! What is chalked and marked once the courses are laid, and what the crew must know of them.

use covering::Covering;
use roof::Plane;
use units::Length;

use crate::courses::CourseLines;
use crate::pole::{guides, poles};
use crate::square::Square;
use crate::{Fault, Finding, LaidPlane, SettingOut};

/// Lines further out of parallel in 10 ft are seen: a performance standard for remodelers, read at second hand.
pub(crate) const MOST_IN_10_FT: Length = Length::inches(0.5);
/// Exposures nearer to a mark of the unit, in, lie on it.
const ON_A_MARK: f64 = 1e-6;

/// A laid plane with its stations, poles and guide lines, and the findings that they bring.
pub(crate) fn mark_out(
    mut laid: LaidPlane,
    plane: &Plane,
    covering: &Covering,
    lines: &CourseLines,
    setting_out: &SettingOut,
) -> LaidPlane {
    let square = Square::of(plane, covering, lines);
    laid.stations.clone_from(&lines.stations);
    laid.out_of_square = square.told(covering, lines);
    laid.poles = poles(plane, covering, &laid, &square, setting_out);
    laid.guides = guides(plane, covering);
    let found = off_the_marks(&laid, covering).into_iter().chain(out_of_parallel(&laid)).chain(narrow_strips(lines));
    laid.findings.extend(found.collect::<Vec<_>>());
    laid
}

/// The first course whose exposure is no mark of the unit. The top one ends under a cap or an apron and is laid by its line,
/// the lowest can be an odd one.
fn off_the_marks(laid: &LaidPlane, covering: &Covering) -> Option<Finding> {
    let below_top = laid.courses.split_last()?.1.iter().enumerate().skip(1);
    let nearest = |exposure: f64| {
        let off = |mark: &f64| (mark - exposure).abs();
        covering.marks.iter().map(|mark| mark.to_inches()).min_by(|a, b| off(a).total_cmp(&off(b)))
    };
    below_top.filter_map(|(course, row)| Some((course, row, nearest(row.exposure)?))).find_map(|(course, row, mark)| {
        let fault = Fault::OffTheMarks { is: Length::inches(row.exposure), mark: Length::inches(mark) };
        ((mark - row.exposure).abs() > ON_A_MARK).then_some(Finding { fault, course, at: [0.0, row.butt] })
    })
}

fn out_of_parallel(laid: &LaidPlane) -> Option<Finding> {
    let is = Length::inches(laid.out_of_square?.in_10_ft);
    let course = laid.courses.len().checked_sub(1)?;
    let fault = Fault::OutOfParallel { is, most: MOST_IN_10_FT };
    (is > MOST_IN_10_FT).then_some(Finding { fault, course, at: [0.0, laid.courses[course].butt] })
}

fn narrow_strips(lines: &CourseLines) -> impl Iterator<Item = Finding> + '_ {
    let least = lines.least / 2.0;
    lines.stations.iter().filter_map(move |station| {
        let is = station.shows.filter(|shows| *shows < least && station.is_low_edge())?;
        let course = lines.butts.iter().rposition(|&butt| butt <= station.v)?;
        let fault = Fault::NarrowStrip { kind: station.kind, is: Length::inches(is), least: Length::inches(least) };
        Some(Finding { fault, course, at: [0.0, station.v] })
    })
}
