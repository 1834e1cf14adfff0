//! What a nail of the units passes before it reaches the deck.

use covering::Covering;
use details::{NailHolds, Passed};
use units::Length;

use super::Facts;

/// Layer by layer from the head down, as they are placed; none where nothing of this sheet is laid.
pub(crate) fn passed<'a>(facts: &Facts<'a>, covering: &Covering) -> Option<&'a [Passed]> {
    let mut of_units = facts.details.nails.iter().filter(|need| need.holds == NailHolds::Units);
    of_units.find(|need| need.sheet == covering.id).map(|need| need.passes.as_slice())
}

/// All of it together.
pub(crate) fn thickness(passed: &[Passed]) -> Length {
    passed.iter().fold(Length::ZERO, |sum, layers| sum + layers.thickness)
}

/// `1/2" of 2 units, 1/16" of 2 layers of underlayment`.
pub(crate) fn told(passed: &[Passed]) -> String {
    let layer = |layers: &Passed| {
        let Passed { what, layers, thickness } = layers;
        let of = if matches!(*what, "units" | "caps") { String::new() } else { "layers of ".into() };
        format!("{} of {layers} {of}{what}", thickness.in_inches())
    };
    passed.iter().map(layer).collect::<Vec<_>>().join(", ")
}
