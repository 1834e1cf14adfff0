use layout::{Cutting, UnitKind};

use crate::CountedPlace;
use crate::laying::Laying;

/// Units from which the pieces are cut, field units and wide ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Stock {
    /// Units to take.
    pub units: u64,
    /// No way of cutting needs fewer.
    pub bound: u64,
}

/// Of all sheets and kinds of unit: none is cut from another.
#[must_use]
pub fn stock(cuttings: &[Cutting]) -> Stock {
    let units = cuttings.iter().map(Cutting::stock).sum();
    Stock { units, bound: cuttings.iter().map(|cutting| cutting.bound).sum() }
}

/// The pieces from one kind of unit of a sheet that are made of what others leave, as so many units less.
pub(crate) fn made_of_offcuts(laying: &Laying<'_>, cuttings: &[Cutting], kind: UnitKind) -> Option<CountedPlace> {
    let of_sheet = cuttings.iter().filter(|cutting| cutting.sheet == laying.covering.id && cutting.unit == kind);
    let saved: u64 = of_sheet.map(|cutting| cutting.pieces() - cutting.stock()).sum();
    let places = || CountedPlace { at: "made of offcuts".into(), quantity: -(saved as f64), ..CountedPlace::default() };
    (saved > 0).then(places)
}
