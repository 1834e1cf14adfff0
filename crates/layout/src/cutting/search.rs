//! The pieces of most value that one unit can give.

use super::candidate::Candidate;
use super::shape::SNUG;
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
    /// values, no more than the area that is left holds of the one most valuable by area, and on the butt line no more than
    /// its length that is left holds of the one most valuable by its foot.
    fn most_of(&self, pieces: &[usize], others: &[usize]) -> Vec<u64> {
        let (kinds, blank) = (&self.table.kinds, &self.table.blank);
        let room = blank.area() - pieces.iter().map(|&piece| kinds[piece].area).sum::<f64>();
        let feet = pieces.iter().map(|&piece| kinds[piece].foot).filter(|&foot| foot > 0.0);
        let along = blank.width + blank.kerf + 64.0 * SNUG - feet.map(|foot| foot + blank.kerf).sum::<f64>();
        let (mut most, mut rest) = (vec![0; others.len()], Rest::default());
        for (index, &other) in others.iter().enumerate().rev() {
            if kinds[other].area <= room {
                rest.add(&kinds[other], self.values[other], self.left[other], blank.kerf);
            }
            most[index] = rest.most(room, along);
        }
        most
    }
}

/// What some kinds are worth at most.
#[derive(Default)]
struct Rest {
    with_foot: u64,
    without: u64,
    /// Most value for an area.
    by_area: f64,
    /// Most value for a length of the butt line.
    by_foot: f64,
}

impl Rest {
    fn add(&mut self, kind: &Candidate, value: u64, count: u64, kerf: f64) {
        let all = value.saturating_mul(count);
        self.by_area = self.by_area.max(value as f64 / kind.area);
        if kind.foot > 0.0 {
            self.by_foot = self.by_foot.max(value as f64 / (kind.foot + kerf));
            self.with_foot = self.with_foot.saturating_add(all);
        } else {
            self.without = self.without.saturating_add(all);
        }
    }

    fn most(&self, room: f64, along: f64) -> u64 {
        let holds = |density: f64, room: f64| (density * room * (1.0 + 1e-9)) as u64 + 1;
        let with_foot = self.with_foot.min(holds(self.by_foot, along));
        with_foot.saturating_add(self.without).min(holds(self.by_area, room))
    }
}
