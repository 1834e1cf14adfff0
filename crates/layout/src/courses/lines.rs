use covering::Covering;
use roof::{Place, Plane};

use super::limits::Limits;
use super::top::top;
use super::{ROUNDING, even};

/// The course lines of a plane, v in inches.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CourseLines {
    /// Of every course from the lowest up; at least one.
    pub(crate) butts: Vec<f64>,
    /// The top line.
    pub(crate) top: f64,
    /// The least exposure that the sheet prefers.
    pub(crate) least: f64,
}

impl CourseLines {
    /// `None` where there is nothing to lay or the sheet's exposures are no numbers to lay by.
    pub(crate) fn of(plane: &Plane, covering: &Covering, laid: &[Vec<Place>]) -> Option<Self> {
        let first = laid.iter().flatten().map(|&[_, v]| v).reduce(f64::min)?;
        let top = top(plane, covering)?;
        let limits = Limits::of(covering, plane.pitch)?;
        Some(Self { butts: even::butts(first, top, &limits), top, least: limits.least })
    }

    /// v of the first butts.
    pub(crate) fn first(&self) -> f64 {
        self.butts.first().copied().unwrap_or(self.top)
    }

    /// How many courses.
    pub(crate) fn count(&self) -> usize {
        self.butts.len()
    }

    /// What a course shows: to the next line, or to the top.
    pub(crate) fn shows(&self, course: usize) -> f64 {
        let next = self.butts.get(course + 1).copied().unwrap_or(self.top);
        (next - self.butts[course]).max(0.0)
    }

    /// What the course shows whose butts lie at a height or next below it.
    pub(crate) fn shows_at(&self, v: f64) -> f64 {
        let above = self.butts.iter().take_while(|&&butt| butt < v + crate::bond::NIL).count();
        self.shows(above.saturating_sub(1))
    }

    /// What the last course shows, where that is less than the least exposure.
    pub(crate) fn short_top(&self) -> Option<f64> {
        let shows = self.shows(self.count() - 1);
        (shows < self.least * (1.0 - ROUNDING)).then_some(shows)
    }
}
