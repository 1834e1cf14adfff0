use covering::Wide;
use layout::{Cutting, LaidPlane};

use crate::laying::Laying;
use crate::stock::made_of_offcuts;
use crate::{CountedPlace, OrderLine};

/// Wide units: one for every piece cut from one, less those that are made of offcuts. Nothing where the sheet has none.
pub(crate) fn line(laying: &Laying<'_>, cuttings: &[Cutting]) -> Option<OrderLine> {
    let wide: Wide = laying.covering.wide?;
    let places: Vec<CountedPlace> = laying
        .planes
        .iter()
        .map(|(plane, laid)| CountedPlace { at: plane.name.clone(), quantity: count(laid) as f64 })
        .filter(|place| place.quantity > 0.0)
        .chain(made_of_offcuts(laying, cuttings, false))
        .collect();
    let item = format!("{}, wide unit of {}", laying.covering.name, wide.width.in_inches());
    Some(OrderLine::in_bundles("wide-units", item, places, wide.pack, wide.weight))
}

/// Pieces of one plane that are not from its field unit.
fn count(laid: &LaidPlane) -> u64 {
    laid.counts().pieces() - laid.counts_of(0).pieces()
}
