use std::iter::Sum;
use std::ops::Add;

use covering::Covering;
use layout::LaidPlane;

/// Field units from which the pieces are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Stock {
    /// Units to take: one for every piece, as long as offcuts are not used.
    pub units: u64,
    /// No way of cutting needs fewer.
    pub bound: u64,
}

impl Add for Stock {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { units: self.units + other.units, bound: self.bound + other.bound }
    }
}

impl Sum for Stock {
    fn sum<I: Iterator<Item = Self>>(stocks: I) -> Self {
        stocks.fold(Self::default(), Add::add)
    }
}

/// Stock of planes that are all laid in one sheet.
///
/// The bound: a whole piece takes a unit of its own; cut pieces, however many come from one unit and from whichever
/// plane, together have no more area than the units they are cut from, so there are at least ⌈area / unit's area⌉ of
/// those. Saw kerfs only add. Equal cut shapes are kept once and agree to 2^-16 in, some 1e-5 of a unit's area at most:
/// so much is taken off, which keeps it a bound.
#[must_use]
pub fn stock<'a>(planes: impl Iterator<Item = &'a LaidPlane>, covering: &Covering) -> Stock {
    let unit = covering.unit.length.to_inches() * covering.unit.width.to_inches();
    let (mut units, mut whole, mut area) = (0, 0, 0.0);
    for plane in planes {
        let counts = plane.counts_of(0);
        units += counts.pieces();
        whole += counts.whole;
        area += plane.cut_area;
    }
    Stock { units, bound: whole + (area / unit * (1.0 - 1e-5)).ceil() as u64 }
}
