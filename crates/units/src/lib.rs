//! Quantities as types: a unit is a constructor, so that a pitch and a headlap cannot be swapped.
//!
//! Geometry computes in bare `f64` inches; everywhere else a length is a [`Length`], a pitch a [`Pitch`].

mod area;
mod expansion;
mod length;
mod mass;
mod measure;
mod misread;
mod money;
mod pitch;
mod temperature;

pub use area::Area;
pub use expansion::Expansion;
pub use length::Length;
pub use mass::Mass;
pub use measure::{LengthUnit, Measure};
pub use misread::Misread;
pub use money::{Money, Percent, Price};
pub use pitch::Pitch;
pub use temperature::Temperature;
