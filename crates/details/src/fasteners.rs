//! Fasteners that hold underlayment until units are laid, on a grid: close along laps, wider in the field.

use units::Length;

use crate::strip::Strip;
use crate::{FastenerGrid, Roll};

/// Fills in the count of every strip of one kind.
pub(crate) fn fasten(strips: &mut [Strip], roll: &Roll, layers_on: impl Fn(usize) -> u32, grid: &FastenerGrid) {
    let is_top: Vec<bool> = strips.iter().map(|strip| !strips.iter().any(|other| lies_over(other, strip))).collect();
    for (strip, is_top) in strips.iter_mut().zip(is_top) {
        let Some(patch) = strip.patches.first() else { continue };
        let [low, high] = patch.v();
        let advance = (roll.width - roll.side_lap).to_inches() / f64::from(layers_on(patch.plane));
        let shown = if is_top { high - low } else { advance.min(high - low) };
        let end_laps = strip.pieces.len().saturating_sub(1) as u32;
        strip.fasteners = of_strip([strip.length, high - low], shown, end_laps, is_top, grid);
    }
}

/// Nails along every piece of edge metal, one at each end and between them at most so far apart.
pub(crate) fn nail(strips: &mut [Strip], apart: Length) {
    for strip in strips {
        strip.fasteners = strip.pieces.iter().map(|piece| steps(piece.length, apart.to_inches()) + 1).sum();
    }
}

fn lies_over(other: &Strip, strip: &Strip) -> bool {
    let (Some(above), Some(below)) = (other.patches.first(), strip.patches.first()) else { return false };
    let overlap = |a: [f64; 2], b: [f64; 2]| a[0] < b[1] && b[0] < a[1];
    above.plane == below.plane
        && above.v()[1] > below.v()[1]
        && overlap(above.v(), below.v())
        && overlap(above.u(), below.u())
}

/// A row in the lap along the lower edge, one along the upper edge of the topmost strip, rows in the field between them, and
/// a row up every end lap, its ends apart, which belong to the rows along.
fn of_strip([length, height]: [f64; 2], shown: f64, end_laps: u32, is_top: bool, grid: &FastenerGrid) -> u32 {
    let [at_laps, in_field] = [grid.at_laps, grid.in_field].map(Length::to_inches);
    let lap_rows = 1 + u32::from(is_top);
    lap_rows * (steps(length, at_laps) + 1)
        + between(shown, in_field) * (steps(length, in_field) + 1)
        + end_laps * between(height, at_laps)
}

/// Steps of at most `spacing` that make up a length.
pub(crate) fn steps(length: f64, spacing: f64) -> u32 {
    (length / spacing - 1e-9).ceil().max(0.0) as u32
}

/// Points at most `spacing` apart within a length, its ends not counted.
fn between(length: f64, spacing: f64) -> u32 {
    steps(length, spacing).saturating_sub(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const GRID: FastenerGrid =
        FastenerGrid { at_laps: Length::inches(6.0), in_field: Length::inches(12.0), box_count: 1000 };

    /// Points of the grid set out one by one, 12 in apart between side laps and 6 in at side and end laps (International
    /// Building Code 2018 table 1507.1.1(3), for winds of 140 mph and more).
    #[test]
    fn the_count_is_that_of_the_points() {
        // A 36-in strip 120 in long of which 33 in show: 21 in the lap, two rows of 11 in the field.
        assert_eq!(of_strip([120.0, 36.0], 33.0, 0, false, &GRID), 21 + 2 * 11);
        // The topmost has a row along its upper edge too, and an end lap five points between its ends.
        assert_eq!(of_strip([120.0, 36.0], 36.0, 1, true, &GRID), 2 * 21 + 2 * 11 + 5);
    }
}
