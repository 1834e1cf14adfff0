use covering::Wide;
use layout::{Cutting, LaidPlane};
use roof::Roof;

use crate::laying::Laying;
use crate::stock::made_of_offcuts;
use crate::{CountedPlace, OrderLine};

/// Wide units: one for every piece cut from one, less those that are made of offcuts. Nothing where the sheet has none.
pub(crate) fn line(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting]) -> Option<OrderLine> {
    let wide: Wide = laying.covering.wide?;
    let places: Vec<CountedPlace> = laying
        .planes
        .iter()
        .map(|(_, laid)| CountedPlace::on_plane(roof, laid.plane, count(laid) as f64))
        .filter(|place| place.quantity > 0.0)
        .chain(made_of_offcuts(laying, cuttings, false))
        .collect();
    let item = format!("{}, wide unit", laying.covering.name);
    let line = OrderLine::in_bundles("wide-units", item, places, wide.pack, wide.weight);
    Some(line.sized(wide.width, laying.covering.unit.length))
}

/// Pieces of one plane that are not from its field unit.
fn count(laid: &LaidPlane) -> u64 {
    laid.counts().pieces() - laid.counts_of(0).pieces()
}
