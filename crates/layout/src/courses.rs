//! Course lines: how many, how far apart.

mod grade;
mod limits;
mod lines;
mod matched;
mod rest;
mod shared;
mod solve;
mod station;
mod top;

pub(crate) use lines::{CourseLines, Slope};
pub use matched::{Matched, OddCourse, Remedy, Unmatched, WayOut, Why};
pub use rest::Limit;
pub(crate) use rest::Rest;
pub(crate) use shared::{Shared, set_out};
pub(crate) use solve::{Courses, Wanted};
pub use station::{Station, StationSide};

/// S / e this close above a whole number is that number: rounding must not add a course.
pub(crate) const ROUNDING: f64 = 1e-9;
