//! Random widths: what the sheet mixes, and which width is wanted next so that the laid shares come near the sheet's.

use covering::{Bond, Covering};

use crate::Fault;

/// How far chance may set a width before or after its turn, pieces: without it the widths would follow each other in a
/// pattern that is seen.
const CHANCE: f64 = 1.5;

/// So few pieces more or less of a width are no fault of the mix, however small the plane.
const FEW: f64 = 4.0;

/// The mix of a sheet and what of it is laid on a plane.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Mix {
    /// Ascending; the first units of the plane are of these.
    pub(crate) widths: Vec<f64>,
    /// Part of all pieces.
    shares: Vec<f64>,
    /// Pieces laid, by width.
    laid: Vec<u32>,
    /// How far each width is behind its share, the one most wanted first.
    ranks: Vec<(f64, usize)>,
    /// Of the generator.
    state: u64,
}

impl Mix {
    /// `None` where the sheet's units have one width.
    pub(crate) fn of(covering: &Covering) -> Option<Self> {
        let is_random = covering.bond(None) == Bond::Random && !covering.bonds.widths.is_empty();
        let [widths, shares] = [0, 1].map(|which| {
            let of = covering.bonds.widths.iter().map(|mixed| [mixed.width.to_inches(), mixed.share][which]);
            of.collect::<Vec<f64>>()
        });
        is_random.then(|| Self { laid: vec![0; widths.len()], widths, shares, ranks: Vec::new(), state: 0 })
    }

    /// Ranks the widths anew.
    pub(crate) fn rank(&mut self) {
        let next = f64::from(self.laid.iter().sum::<u32>() + 1);
        self.ranks.clear();
        for width in 0..self.widths.len() {
            let behind = self.shares[width] * next - f64::from(self.laid[width]) + CHANCE * self.chance();
            self.ranks.push((behind, width));
        }
        self.ranks.sort_by(|a, b| b.0.total_cmp(&a.0));
    }

    /// The numbers of the widths as they were ranked, the one most wanted first.
    pub(crate) fn ranked(&self) -> impl Iterator<Item = usize> + '_ {
        self.ranks.iter().map(|&(_, width)| width)
    }

    /// A piece is cut from a unit, or is no longer; of no width of the mix it does not count.
    pub(crate) fn count(&mut self, unit: usize, lays: bool) {
        if let Some(laid) = self.laid.get_mut(unit) {
            *laid = if lays { *laid + 1 } else { laid.saturating_sub(1) };
        }
    }

    /// What the shares came out as.
    pub(crate) fn faults(&self, covering: &Covering) -> Vec<Fault> {
        let all = f64::from(self.laid.iter().sum::<u32>());
        let within = covering.bonds.share_within.max(FEW / all.max(1.0));
        let each = covering.bonds.widths.iter().zip(&self.laid);
        let each = each.map(|(mixed, &laid)| (mixed, f64::from(laid) / all.max(1.0)));
        each.filter(|(mixed, is)| (mixed.share - is).abs() > within)
            .map(|(mixed, is)| Fault::MixNotKept { width: mixed.width, is, share: mixed.share })
            .collect()
    }

    /// From 0 to 1, ever the same row of figures: splitmix64, Steele, Lea and Flood, Fast Splittable Pseudorandom Number
    /// Generators (2014), from memory, not read.
    fn chance(&mut self) -> f64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.state;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Arithmetic: of 100 pieces laid one by one as they are wanted, each width has its share within two.
    #[test]
    fn shares_come_near_the_stated_ones() {
        let shares = vec![0.2, 0.5, 0.3];
        let mut mix =
            Mix { widths: vec![6.0, 8.0, 10.0], shares: shares.clone(), laid: vec![0; 3], ranks: Vec::new(), state: 0 };
        for _ in 0..100 {
            mix.rank();
            let next = mix.ranked().next();
            mix.count(next.expect("there are three"), true);
        }
        for (laid, share) in mix.laid.iter().zip(shares) {
            assert!((f64::from(*laid) - share * 100.0).abs() <= 2.0, "{:?}", mix.laid);
        }
    }
}
