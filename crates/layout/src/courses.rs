//! Course lines: how many, how far apart.

mod limits;
mod lines;
mod solve;
mod station;
mod top;

pub(crate) use lines::{CourseLines, Slope};
pub use station::{Station, StationSide};

/// S / e this close above a whole number is that number: rounding must not add a course.
pub(crate) const ROUNDING: f64 = 1e-9;
