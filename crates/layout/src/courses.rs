//! Course lines: how many, how far apart.

mod even;
mod limits;
mod lines;
mod top;

pub(crate) use lines::CourseLines;

/// S / e this close above a whole number is that number: rounding must not add a course.
pub(crate) const ROUNDING: f64 = 1e-9;
