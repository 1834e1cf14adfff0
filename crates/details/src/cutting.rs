//! Cutting strips from rolls: what is left of one roll begins the next strip, lapped at the end.
//!
//! A strip is one piece, or several that lap; a remainder serves whichever strip it fits. Several orders of cutting are
//! tried and the one that needs the fewest rolls, then the fewest pieces, is kept.

use crate::Piece;

/// A strip to be cut.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Want {
    /// In inches.
    pub(crate) length: f64,
    /// Where it begins, on a scale that it shares with its neighbours.
    pub(crate) start: f64,
    /// Wants beside it, whose end laps must stay off its own.
    pub(crate) beside: Vec<usize>,
}

/// What strips are cut from, in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stock {
    /// Of a whole roll.
    pub(crate) length: f64,
    /// Of a piece over the one before it.
    pub(crate) lap: f64,
    /// Least distance between end laps of neighbours; where it cannot be kept, it is not.
    pub(crate) offset: f64,
}

/// Pieces of every want, and how many rolls they come from.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Cutting {
    pub(crate) pieces: Vec<Vec<Piece>>,
    pub(crate) rolls: u32,
    /// No way of cutting needs fewer.
    pub(crate) bound: u32,
}

/// A length less than this, in, is rounding.
const NIL: f64 = 1e-6;

/// Pieces of a lapped strip are at least so many laps long.
const LEAST_LAPS: f64 = 4.0;

impl Stock {
    fn least_piece(&self) -> f64 {
        (LEAST_LAPS * self.lap).min(self.length / 2.0)
    }
}

/// Cuts all wants. A roll must be more than twice as long as its lap.
pub(crate) fn cut(wants: &[Want], stock: Stock) -> Cutting {
    if wants.is_empty() || stock.length <= 2.0 * stock.lap {
        return Cutting::default();
    }
    let as_laid: Vec<usize> = (0..wants.len()).collect();
    let mut longest_first = as_laid.clone();
    longest_first.sort_by(|&a, &b| wants[b].length.total_cmp(&wants[a].length).then(a.cmp(&b)));
    let tries = [(&as_laid, false), (&longest_first, false), (&as_laid, true), (&longest_first, true)];
    let cuttings = tries.map(|(order, laps)| Bench::new(wants, stock, laps).cut(order));
    let best =
        cuttings.into_iter().min_by_key(|cutting| (cutting.rolls, cutting.pieces.iter().map(Vec::len).sum::<usize>()));
    Cutting { bound: bound(wants, stock), ..best.unwrap_or_default() }
}

/// A strip longer than a roll is of several pieces, each of which but the first loses a lap; all pieces together are no
/// longer than the rolls that they come from.
fn bound(wants: &[Want], stock: Stock) -> u32 {
    let with_laps = |want: &Want| {
        let joints = ((want.length - stock.length - NIL) / (stock.length - stock.lap)).ceil().max(0.0);
        want.length + joints * stock.lap
    };
    let all: f64 = wants.iter().map(with_laps).sum();
    (all / stock.length * (1.0 - 1e-9)).ceil() as u32
}

/// Rolls and remainders while strips are cut.
struct Bench<'a> {
    wants: &'a [Want],
    stock: Stock,
    /// Remainders too short for a whole strip are used too.
    laps: bool,
    pieces: Vec<Vec<Piece>>,
    /// Number of the roll and what is left of it.
    left: Vec<(u32, f64)>,
    rolls: u32,
}

impl<'a> Bench<'a> {
    fn new(wants: &'a [Want], stock: Stock, laps: bool) -> Self {
        Self { wants, stock, laps, pieces: vec![Vec::new(); wants.len()], left: Vec::new(), rolls: 0 }
    }

    fn cut(mut self, order: &[usize]) -> Cutting {
        for &want in order {
            let mut covered = 0.0;
            while covered < self.wants[want].length - NIL {
                covered = self.next_piece(want, covered);
            }
        }
        Cutting { pieces: self.pieces, rolls: self.rolls, bound: 0 }
    }

    /// Lays one more piece and gives how far the strip then reaches.
    fn next_piece(&mut self, want: usize, covered: f64) -> f64 {
        let from = if covered > 0.0 { covered - self.stock.lap } else { 0.0 };
        let needed = self.wants[want].length - from;
        if let Some(at) = self.shortest_that_holds(needed) {
            return self.take(want, at, from, needed);
        }
        if let Some((at, length)) = self.longest_that_helps(want, from) {
            return self.take(want, at, from, length);
        }
        self.left.push((self.rolls, self.stock.length));
        self.rolls += 1;
        let at = self.left.len() - 1;
        let whole = needed.min(self.stock.length);
        let length = if needed <= self.stock.length + NIL { whole } else { self.legal(want, from, whole).unwrap_or(whole) };
        self.take(want, at, from, length)
    }

    fn take(&mut self, want: usize, at: usize, from: f64, length: f64) -> f64 {
        let (roll, left) = &mut self.left[at];
        self.pieces[want].push(Piece { roll: *roll, from, length });
        *left -= length;
        if *left < NIL {
            self.left.remove(at);
        }
        from + length
    }

    fn shortest_that_holds(&self, needed: f64) -> Option<usize> {
        let holding = self.left.iter().enumerate().filter(|(_, (_, left))| *left >= needed - NIL);
        holding.min_by(|(_, a), (_, b)| a.1.total_cmp(&b.1)).map(|(at, _)| at)
    }

    /// The longest remainder of which a legal piece can be made.
    fn longest_that_helps(&self, want: usize, from: f64) -> Option<(usize, f64)> {
        let too_long = self.wants[want].length - from > self.stock.length + NIL;
        if !self.laps && !too_long {
            return None;
        }
        let made = self.left.iter().enumerate().filter_map(|(at, &(_, left))| Some((at, self.legal(want, from, left)?)));
        made.max_by(|(_, a), (_, b)| a.total_cmp(b))
    }

    /// The longest piece of at most `most` after which the strip goes on: neither it nor the rest is too short, and its
    /// end keeps off the end laps beside it.
    fn legal(&self, want: usize, from: f64, most: f64) -> Option<f64> {
        let Want { length, start, .. } = self.wants[want];
        let least = self.stock.least_piece();
        let mut end = (from + most).min(length - least + self.stock.lap);
        let taken = self.ends_beside(want);
        while let Some(other) = taken.iter().find(|&&other| (start + end - other).abs() < self.stock.offset - NIL) {
            end = other - self.stock.offset - start;
        }
        (end - from >= least.max(self.stock.lap + NIL)).then_some(end - from)
    }

    /// Where pieces beside a strip end under the next one, from the right to the left.
    fn ends_beside(&self, want: usize) -> Vec<f64> {
        let ends = self.wants[want].beside.iter().flat_map(|&other| {
            let pieces = &self.pieces[other];
            let inner = pieces.iter().take(pieces.len().saturating_sub(1));
            inner.map(move |piece| self.wants[other].start + piece.from + piece.length)
        });
        let mut ends: Vec<f64> = ends.collect();
        ends.sort_by(|a, b| b.total_cmp(a));
        ends
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn wants(lengths: &[f64]) -> Vec<Want> {
        let want = |(at, &length): (usize, &f64)| Want {
            length,
            start: 0.0,
            beside: [at.checked_sub(1), Some(at + 1)].into_iter().flatten().filter(|&at| at < lengths.len()).collect(),
        };
        lengths.iter().enumerate().map(want).collect()
    }

    /// The fewest rolls that any cutting with end laps anywhere can need, for few strips.
    ///
    /// Strips and rolls that share pieces hang together. A group of strips hanging on `q` rolls has at least `q` - 1 end
    /// laps, so it needs the least `q` with `q` × roll ≥ sum + (`q` - 1) × lap; laying one strip after the other reaches
    /// that. The best way to part the strips into such groups is found by trying all.
    fn fewest(lengths: &[f64], stock: Stock) -> u32 {
        let all = (1usize << lengths.len()) - 1;
        let of_group = |set: usize| {
            let sum: f64 = (0..lengths.len()).filter(|at| set >> at & 1 == 1).map(|at| lengths[at]).sum();
            ((sum - stock.lap - 1e-6) / (stock.length - stock.lap)).ceil().max(1.0) as u32
        };
        let mut best = vec![0u32; all + 1];
        for set in 1..=all {
            best[set] = of_group(set);
            let mut part = (set - 1) & set;
            while part > 0 {
                best[set] = best[set].min(of_group(part) + best[set & !part]);
                part = (part - 1) & set;
            }
        }
        best[all]
    }

    fn sound(wants: &[Want], stock: Stock, cutting: &Cutting) -> Result<(), TestCaseError> {
        let mut used = vec![0.0; cutting.rolls as usize];
        for (want, pieces) in wants.iter().zip(&cutting.pieces) {
            prop_assert!(pieces[0].from.abs() < 1e-9);
            let last = pieces[pieces.len() - 1];
            prop_assert!((last.from + last.length - want.length).abs() < 1e-5);
            for pair in pieces.windows(2) {
                prop_assert!((pair[0].from + pair[0].length - stock.lap - pair[1].from).abs() < 1e-6);
            }
            for piece in pieces {
                prop_assert!(piece.length > 0.0);
                used[piece.roll as usize] += piece.length;
            }
        }
        prop_assert!(used.iter().all(|&used| used > 0.0 && used <= stock.length + 1e-5), "{used:?}");
        Ok(())
    }

    #[test]
    fn three_strips_of_a_third_take_one_roll_and_no_lap() {
        let cutting = cut(&wants(&[288.0; 3]), Stock { length: 864.0, lap: 6.0, offset: 72.0 });
        assert_eq!((cutting.rolls, cutting.bound), (1, 1));
        assert!(cutting.pieces.iter().all(|pieces| pieces.len() == 1));
    }

    #[test]
    fn a_remainder_begins_the_next_strip() {
        // Two strips of 40 ft from rolls of 72 ft, then a third: 120 ft and one lap or two are in two rolls.
        let cutting = cut(&wants(&[480.0; 3]), Stock { length: 864.0, lap: 6.0, offset: 72.0 });
        assert_eq!((cutting.rolls, cutting.bound), (2, 2));
    }

    #[test]
    fn end_laps_of_neighbours_stay_apart() {
        let wants = wants(&[1200.0; 6]);
        let stock = Stock { length: 864.0, lap: 6.0, offset: 72.0 };
        let cutting = cut(&wants, stock);
        for (want, pieces) in wants.iter().zip(&cutting.pieces) {
            for other in want.beside.iter().map(|&other| &cutting.pieces[other]) {
                let ends = |pieces: &[Piece]| -> Vec<f64> {
                    pieces[..pieces.len() - 1].iter().map(|piece| piece.from + piece.length).collect()
                };
                assert!(ends(pieces).iter().all(|a| ends(other).iter().all(|b| (a - b).abs() >= 72.0 - 1e-6)));
            }
        }
    }

    proptest! {
        #[test]
        fn rolls_lie_between_the_bound_and_one_more_than_the_fewest(
            lengths in proptest::collection::vec(20.0..1400.0f64, 1..9),
        ) {
            let stock = Stock { length: 864.0, lap: 6.0, offset: 0.0 };
            let wants = wants(&lengths);
            let cutting = cut(&wants, stock);
            sound(&wants, stock, &cutting)?;
            let fewest = fewest(&lengths, stock);
            prop_assert!(cutting.bound <= fewest && fewest <= cutting.rolls);
            prop_assert!(cutting.rolls <= fewest + 1, "{} of {fewest}", cutting.rolls);
        }

        #[test]
        fn neighbours_may_cost_a_roll_but_never_a_strip(
            lengths in proptest::collection::vec(5.0..3000.0f64, 1..40),
            lap in 0.0..12.0f64,
        ) {
            let stock = Stock { length: 600.0, lap, offset: 72.0 };
            let wants = wants(&lengths);
            let cutting = cut(&wants, stock);
            sound(&wants, stock, &cutting)?;
            prop_assert!(cutting.bound <= cutting.rolls);
        }
    }
}
