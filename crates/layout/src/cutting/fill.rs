//! Fills unit after unit, the piece of most value first, each time with the most valuable others that fit beside it.

use super::search::Search;
use super::table::Table;

/// Sets looked at for one unit.
const NODES: u64 = 400;

/// Units that are cut alike: kinds of pieces, and how many units.
pub(crate) type Filled = Vec<(Vec<usize>, u64)>;

pub(crate) fn fill(table: &Table, values: &[u64]) -> Filled {
    let mut left: Vec<u64> = table.kinds.iter().map(|kind| kind.count).collect();
    let mut order: Vec<usize> = (0..left.len()).collect();
    order.sort_by(|&a, &b| {
        values[b].cmp(&values[a]).then(table.kinds[b].area.total_cmp(&table.kinds[a].area)).then(a.cmp(&b))
    });
    let mut filled = Filled::new();
    for kind in order {
        while left[kind] > 0 {
            let mates = table.mates[kind].iter().map(|&mate| mate as usize);
            let best = Search { table, values, left: &left, known: true, nodes: NODES }.with(kind, mates);
            let units = units(&best.pieces, &left);
            for &piece in &best.pieces {
                left[piece] -= units;
            }
            filled.push((best.pieces, units));
        }
    }
    filled
}

/// How many units can be cut so while all the pieces are wanted.
fn units(pieces: &[usize], left: &[u64]) -> u64 {
    let each = |piece: usize| pieces.iter().filter(|&&other| other == piece).count() as u64;
    pieces.iter().map(|&piece| left[piece] / each(piece)).min().unwrap_or(1).max(1)
}

pub(crate) fn count(filled: &Filled) -> u64 {
    filled.iter().map(|(_, units)| units).sum()
}
