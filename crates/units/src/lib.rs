//! Quantities as types: a unit is a constructor, so that a pitch and a headlap cannot be swapped.
//!
//! Geometry computes in bare `f64` inches; everywhere else a length is a [`Length`], a pitch a [`Pitch`].

mod area;
mod length;
mod mass;
mod measure;
mod misread;
mod pitch;

pub use area::Area;
pub use length::Length;
pub use mass::Mass;
pub use measure::{LengthUnit, Measure};
pub use misread::Misread;
pub use pitch::Pitch;
