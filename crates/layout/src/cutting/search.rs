//! The pieces of most value that one unit can give.

use super::table::Table;

/// Values are whole numbers, so that sums are exact.
pub(crate) const ONE: u64 = 1 << 32;

/// Searches the sets of pieces that one unit can give.
#[derive(Debug)]
pub(crate) struct Search<'a> {
    pub(crate) table: &'a Table,
    /// Of each kind.
    pub(crate) values: &'a [u64],
    /// How many are there of each kind.
    pub(crate) left: &'a [u64],
    /// Only sets whose way of cutting is known; otherwise all that may fit.
    pub(crate) known: bool,
    /// Sets that may still be looked at.
    pub(crate) nodes: u64,
}

/// What a search found.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Best {
    /// Kinds; one that is needed twice is there twice.
    pub(crate) pieces: Vec<usize>,
    pub(crate) value: u64,
    /// No set has more: the value itself, unless the search had to stop.
    pub(crate) limit: u64,
}

impl Search<'_> {
    /// The best set with this kind in it, the others being of the given kinds.
    pub(crate) fn with(&mut self, kind: usize, others: impl Iterator<Item = usize>) -> Best {
        let mut others: Vec<usize> = others.filter(|&other| self.left[other] > 0 && self.values[other] > 0).collect();
        others.sort_by_key(|&other| (std::cmp::Reverse(self.values[other]), other));
        let mut best = Best { pieces: vec![kind], value: self.values[kind], limit: self.values[kind] };
        self.grow(&mut vec![kind], self.values[kind], &others, &mut best);
        best.limit = best.limit.max(best.value);
        best
    }

    fn grow(&mut self, pieces: &mut Vec<usize>, value: u64, others: &[usize], best: &mut Best) {
        let most = self.most_of(pieces, others);
        for (index, &other) in others.iter().enumerate() {
            let most = value + most[index];
            if most <= best.value {
                return;
            }
            if self.nodes == 0 {
                best.limit = best.limit.max(most);
                return;
            }
            if pieces.iter().filter(|&&piece| piece == other).count() as u64 >= self.left[other] {
                continue;
            }
            self.nodes -= 1;
            pieces.push(other);
            if self.is_possible(pieces) {
                let value = value + self.values[other];
                if value > best.value {
                    best.value = value;
                    best.pieces.clone_from(pieces);
                }
                let mates = others[index..].iter().copied().filter(|&mate| self.table.are_mates(other, mate));
                self.grow(pieces, value, &mates.collect::<Vec<_>>(), best);
            }
            pieces.pop();
        }
    }

    fn is_possible(&self, pieces: &[usize]) -> bool {
        if self.known { self.table.fits(pieces) } else { self.table.may_fit(pieces) }
    }

    /// For each of the others: more than this is not to be had from it and those after it. They add no more than all their
    /// values, and no more than the room that is left holds of the most valuable one by area.
    fn most_of(&self, pieces: &[usize], others: &[usize]) -> Vec<u64> {
        let kinds = &self.table.kinds;
        let room = self.table.blank.area() - pieces.iter().map(|&piece| kinds[piece].area).sum::<f64>();
        let (mut most, mut all, mut best) = (vec![0; others.len()], 0u64, 0.0f64);
        for (index, &other) in others.iter().enumerate().rev() {
            if kinds[other].area <= room {
                best = best.max(self.values[other] as f64 / kinds[other].area);
                all = all.saturating_add(self.values[other].saturating_mul(self.left[other]));
            }
            most[index] = all.min((best * room * (1.0 + 1e-9)) as u64 + 1);
        }
        most
    }
}
