//! Which kinds of pieces may come from one unit together.

use super::candidate::{Candidate, may_fit, seats};
use super::shape::{Blank, SNUG};

/// So many mates are found for a kind in a quick table, and so many others are tried for it.
const BEST_MATES: usize = 24;
const TRIED: usize = 4 * BEST_MATES;

/// The kinds and who goes with whom.
#[derive(Debug)]
pub(crate) struct Table {
    pub(crate) blank: Blank,
    pub(crate) kinds: Vec<Candidate>,
    /// For each, ascending, those that one unit may give together with it; itself too where a unit may give two.
    pub(crate) mates: Vec<Vec<u32>>,
    /// In a complete table the same with a bit for each kind, as searches ask for two at a time.
    together: Vec<Vec<u64>>,
    /// Whether every two were tried.
    pub(crate) complete: bool,
}

impl Table {
    /// Each kind with those that fill its unit best.
    pub(crate) fn quick(kinds: Vec<Candidate>, blank: Blank) -> Self {
        let mut table = Self::without_mates(kinds, blank);
        table.try_best_mates();
        table
    }

    /// Every two kinds that go together.
    pub(crate) fn complete(kinds: Vec<Candidate>, blank: Blank) -> Self {
        let mut table = Self { complete: true, ..Self::without_mates(kinds, blank) };
        table.try_every_two();
        table
    }

    fn without_mates(kinds: Vec<Candidate>, blank: Blank) -> Self {
        Self { blank, mates: vec![Vec::new(); kinds.len()], together: Vec::new(), kinds, complete: false }
    }

    pub(crate) fn are_mates(&self, a: usize, b: usize) -> bool {
        match self.together.get(a) {
            Some(row) => row[b / 64] & 1 << (b % 64) != 0,
            None => self.mates[a].binary_search(&(b as u32)).is_ok(),
        }
    }

    fn try_every_two(&mut self) {
        for a in 0..self.kinds.len() {
            for b in a..self.kinds.len() {
                if self.go_together(a, b) {
                    self.join(a, b);
                }
            }
        }
        self.sort();
        self.together = self.mates.iter().map(|mates| bits(mates, self.kinds.len())).collect();
    }

    /// Those whose feet fill what a piece's foot leaves, the widest first.
    fn try_best_mates(&mut self) {
        let mut order: Vec<usize> = (0..self.kinds.len()).collect();
        order.sort_by(|&a, &b| self.kinds[b].foot.total_cmp(&self.kinds[a].foot));
        for a in 0..self.kinds.len() {
            let room = self.blank.width - self.kinds[a].foot - self.blank.kerf + SNUG;
            let first = order.partition_point(|&b| self.kinds[b].foot > room);
            let tried = order[first..].iter().take(TRIED).copied();
            for b in tried.filter(|&b| self.go_together(a, b)).take(BEST_MATES).collect::<Vec<_>>() {
                self.join(a, b);
            }
        }
        self.sort();
    }

    fn join(&mut self, a: usize, b: usize) {
        self.mates[a].push(b as u32);
        if a != b {
            self.mates[b].push(a as u32);
        }
    }

    fn sort(&mut self) {
        for mates in &mut self.mates {
            mates.sort_unstable();
            mates.dedup();
        }
    }

    fn go_together(&self, a: usize, b: usize) -> bool {
        let [one, other] = [&self.kinds[a], &self.kinds[b]];
        let enough = a != b || one.count > 1;
        let feet = one.foot + other.foot + self.blank.kerf <= self.blank.width + SNUG || one.foot.min(other.foot) <= 0.0;
        let narrow = one.is_narrow(&self.blank) && other.is_narrow(&self.blank);
        enough && feet && !narrow && one.area + other.area <= self.blank.area() && may_fit(&[one, other], &self.blank)
    }

    /// As [`may_fit`], for pieces of which every two are mates.
    pub(crate) fn may_fit(&self, pieces: &[usize]) -> bool {
        pieces.len() < 3 || may_fit(&self.candidates(pieces), &self.blank)
    }

    /// Whether a way to cut them from one unit is known, for pieces of which every two are mates.
    pub(crate) fn fits(&self, pieces: &[usize]) -> bool {
        let known = pieces.len() < 2 || pieces.len() == 2 && pieces.iter().all(|&piece| self.kinds[piece].convex);
        known || seats(&self.candidates(pieces), &self.blank).is_some()
    }

    pub(crate) fn candidates(&self, pieces: &[usize]) -> Vec<&Candidate> {
        pieces.iter().map(|&piece| &self.kinds[piece]).collect()
    }
}

fn bits(mates: &[u32], kinds: usize) -> Vec<u64> {
    let mut bits = vec![0; kinds.div_ceil(64)];
    mates.iter().for_each(|&mate| bits[mate as usize / 64] |= 1 << (mate % 64));
    bits
}
