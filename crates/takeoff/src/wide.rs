use covering::Wide;
use layout::Cutting;
use roof::Roof;

use crate::field::{kinds, places};
use crate::laying::Laying;
use crate::{CountedPlace, OrderLine};

/// Wide units: one for every piece cut from one, less those that are made of offcuts. Nothing where the sheet has none.
pub(crate) fn line(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting]) -> Option<OrderLine> {
    let wide: Wide = laying.covering.wide?;
    let all = kinds(laying, true).into_iter().flat_map(|kind| places(roof, laying, cuttings, kind));
    let places: Vec<CountedPlace> = all.filter(|place| place.quantity + place.from_offcuts > 0.0).collect();
    let item = format!("{}, wide unit", laying.covering.name);
    let line = OrderLine::in_bundles("wide-units", item, places, wide.pack, wide.weight);
    Some(line.sized(wide.width, laying.covering.unit.length))
}
