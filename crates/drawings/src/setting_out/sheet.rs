use plan::{Course, LaidPlane, Mark, Plan, Plane, Pole};
use units::Length;

use crate::Words;

/// Planes of more pieces are drawn as course lines.
const MOST_PIECES: u64 = 4_000;

/// What one sheet is about.
pub(crate) struct Sheet<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) plane: &'a Plane,
    pub(crate) laid: &'a LaidPlane,
    pub(crate) words: &'a dyn Words,
}

impl<'a> Sheet<'a> {
    pub(crate) fn of(plan: &'a Plan, id: &str, words: &'a dyn Words) -> Option<Self> {
        let plane = plan.roof.planes.iter().find(|plane| plane.id == id)?;
        let laid = plan.layout.planes.iter().find(|laid| laid.id == id)?;
        Some(Self { plan, plane, laid, words })
    }

    pub(crate) fn heading(&self) -> String {
        format!("{} — {}", self.plan.name, self.plane.name)
    }

    pub(crate) fn pieces(&self) -> u64 {
        self.laid.courses.iter().flat_map(|course| &course.runs).map(|run| u64::from(run.count)).sum()
    }

    pub(crate) fn cut_pieces(&self) -> u64 {
        let runs = self.laid.courses.iter().flat_map(|course| &course.runs);
        runs.filter(|run| run.cut.is_some()).map(|run| u64::from(run.count)).sum()
    }

    /// Whether every piece is drawn, or course lines only.
    pub(crate) fn shows_pieces(&self) -> bool {
        self.pieces() <= MOST_PIECES
    }

    /// Of the plane and of what is laid on it: left, low, right, high, in inches of its frame.
    pub(crate) fn bounds(&self) -> [f64; 4] {
        let rings = self.plane.outlines_in.iter().chain(&self.laid.laid_in);
        let nothing = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
        let [left, low, right, high] = rings
            .flatten()
            .fold(nothing, |[left, low, right, high], &[u, v]| [left.min(u), low.min(v), right.max(u), high.max(v)]);
        if left <= right { [left, low, right, high] } else { [0.0; 4] }
    }

    /// Inches.
    pub(crate) fn width(&self) -> f64 {
        let [left, _, right, _] = self.bounds();
        right - left
    }

    /// Inches.
    pub(crate) fn height(&self) -> f64 {
        let [_, low, _, high] = self.bounds();
        high - low
    }

    /// Running marks of a course on the pole of a side, `left` or `right`; on any other pole of the plane if none of that side
    /// reaches it.
    pub(crate) fn mark(&self, side: &str, course: usize) -> Option<&Mark> {
        mark(self.laid, side, course)
    }

    /// Mark of a course's butts on the pole of a side.
    pub(crate) fn butt_mark(&self, side: &str, course: usize) -> f64 {
        let exact = || self.laid.courses[course].butt_in - self.laid.first_butt_in;
        self.mark(side, course).map_or_else(exact, |mark| mark.butt_in)
    }

    /// Mark of a course's heads on the pole of a side; none above the top line, where units are trimmed under caps or aprons.
    pub(crate) fn head_mark(&self, side: &str, course: usize) -> Option<f64> {
        let head = self.laid.courses[course].butt_in + self.laid.courses[course].length_in;
        let exact = || (head <= self.laid.top_in).then_some(head - self.laid.first_butt_in);
        self.mark(side, course).map_or_else(exact, |mark| mark.head_in)
    }

    /// From the left end of a course to its first joint; none for a course of one piece. At a valley a joint can lie left of the
    /// butts' end, where only heads reach: it is passed over.
    pub(crate) fn first_joint(course: &Course) -> Option<f64> {
        let &[left, right] = course.spans_in.first()?;
        let joint = course.joints_in.iter().find(|&&joint| joint > left)?;
        (*joint < right).then_some(joint - left)
    }

    /// Shortest spacing of course lines, inches.
    pub(crate) fn least_exposure(&self) -> f64 {
        self.exposures()[0]
    }

    /// Least and greatest.
    pub(crate) fn exposures(&self) -> [f64; 2] {
        let exposures = self.laid.courses.iter().map(|course| course.exposure_in);
        exposures.fold([f64::INFINITY, 0.0], |[least, greatest], is| [least.min(is), greatest.max(is)])
    }
}

/// Running marks of a course on the pole of a side, `left` or `right`; on any other pole of the plane if none of that side reaches
/// it.
#[must_use]
pub fn mark<'a>(laid: &'a LaidPlane, side: &str, course: usize) -> Option<&'a Mark> {
    let of = |pole: &'a Pole| pole.marks.iter().find(|mark| mark.course == course);
    let on_side = laid.poles.iter().filter(|pole| pole.side == side).find_map(of);
    on_side.or_else(|| laid.poles.iter().find_map(of))
}

/// To the nearest tape mark, in feet, inches and sixteenths.
pub(crate) fn tape(inches: f64) -> String {
    Length::inches(inches).to_tape().to_string()
}

/// To the nearest tape mark, in inches and sixteenths.
pub(crate) fn in_inches(inches: f64) -> String {
    Length::inches(inches).to_tape().in_inches()
}
