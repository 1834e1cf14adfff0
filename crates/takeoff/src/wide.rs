use layout::{Cutting, UnitKind};
use roof::Roof;
use units::Length;

use crate::field::{id, kinds, of_own_length, places};
use crate::laying::Laying;
use crate::{CountedPlace, OrderLine};

/// Wide units, a line for each length: one for every piece cut from one, less those that are made of offcuts. Nothing where
/// the sheet has none.
pub(crate) fn lines(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting]) -> Vec<OrderLine> {
    let Some(wide) = laying.covering.wide else { return Vec::new() };
    let kinds = kinds(laying, true);
    let item = format!("{}, wide unit", laying.covering.name);
    let line = |&kind: &UnitKind| {
        let places = places(roof, laying, cuttings, kind);
        let places: Vec<CountedPlace> =
            places.into_iter().filter(|place| place.quantity + place.from_offcuts > 0.0).collect();
        let weight = wide.weight * of_own_length(laying, kind);
        let line = OrderLine::in_bundles(&id("wide-units", kind, &kinds, false), item.clone(), places, wide.pack, weight);
        line.sized(wide.width, Length::inches(kind.length))
    };
    kinds.iter().map(line).collect()
}
