//! Points, polygons and the weighted straight skeleton. Mathematics only: it has never heard of a roof.
//!
//! Everything is in one plane unit, which callers keep to inches.

mod number;
mod point;
pub mod polygon;
pub mod region;
pub mod skeleton;

pub use number::{Number, Wide};
pub use point::{Point, add, cross, distance, dot, off_segment, scale, sub};

/// Two points nearer than this are one point. A power of two, far below what a tape shows (1/16) and far above what
/// `f64` loses on coordinates of a few thousand.
pub const TOLERANCE: f64 = 1.0 / 65_536.0;
