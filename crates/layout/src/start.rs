//! The start offset: where along the first course a unit begins, so that few pieces are small, few are needed, few are cut.

use crate::better::{Score, better};
use crate::bond::Bond;
use crate::legal::Rules;
use crate::strip::Strip;

/// Steps in which offsets are tried, in: on the tape's marks.
const STEP: f64 = 0.5;

/// u of a unit's left side in the first course.
pub(crate) fn start(strips: &[Strip], bond: &Bond, rules: &Rules) -> f64 {
    let Some([left, right]) = strips.first().and_then(first_row) else { return 0.0 };
    let mut best: Option<(Score, f64)> = None;
    for offset in offsets(right - left, bond) {
        if let Some(score) = better(strips, bond, left + offset, rules, best.map(|(score, _)| score)) {
            best = Some((score, left + offset));
        }
    }
    best.map_or(left, |(_, origin)| origin)
}

/// From the leftmost to the rightmost end of the course.
fn first_row(strip: &Strip) -> Option<[f64; 2]> {
    Some([strip.touched.first()?.from, strip.touched.last()?.to])
}

/// Offsets from the left end, ascending: whole units at the left end, at the right end, and steps between.
fn offsets(row: f64, bond: &Bond) -> Vec<f64> {
    let whole_at_right = (row - bond.width).rem_euclid(bond.step());
    let steps = (bond.step() / STEP).ceil() as u32;
    let mut offsets: Vec<f64> = (0..steps).map(|step| f64::from(step) * STEP).chain([whole_at_right]).collect();
    offsets.sort_by(f64::total_cmp);
    offsets
}
