use plan::{CutKind, Plan};

use super::layer::{SAW_PIECE, SAW_TEXT};
use super::model::{Anchor, Model};
use crate::cut_row::cut_from;
use crate::laid_piece::moved;

/// Between pieces, and the height of their numbers, inches.
const BETWEEN: f64 = 6.0;
const NUMBER: f64 = 1.5;
/// Pieces in a row.
const ROW: usize = 25;

/// Every kind of cut piece once, in the order of the saw, in rows downwards from a place; under each its number in the cut list,
/// how many, and its bin.
pub(super) fn draw(model: &mut Model, plan: &Plan, from: [f64; 2]) {
    let mut at = from;
    for cutting in plan.layout.cutting.iter().filter(|cutting| !cutting.kinds.is_empty()) {
        model.text(SAW_TEXT, [from[0], at[1] - NUMBER], 2.0 * NUMBER, Anchor::Left, &cut_from(cutting));
        at[1] -= 4.0 * NUMBER;
        for (row, kinds) in cutting.kinds.chunks(ROW).enumerate() {
            let height = kinds.iter().map(|kind| kind.height_in).fold(0.0, f64::max);
            at = [from[0], at[1] - height];
            for (index, kind) in kinds.iter().enumerate() {
                piece(model, kind, row * ROW + index + 1, at);
                at[0] += kind.width_in.max(cutting.width_in) + BETWEEN;
            }
            at[1] -= 3.0 * BETWEEN;
        }
    }
}

fn piece(model: &mut Model, kind: &CutKind, number: usize, at: [f64; 2]) {
    kind.parts_in.iter().for_each(|part| model.ring(SAW_PIECE, &moved(part, at)));
    let lines = [number.to_string(), format!("{} x, bin {}", kind.count, kind.bin)];
    for (line, words) in (1..).zip(lines) {
        let place = [at[0], at[1] - f64::from(line) * 2.0 * NUMBER];
        model.text(SAW_TEXT, place, NUMBER, Anchor::Left, &words);
    }
}
