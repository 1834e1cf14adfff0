use layout::Cutting;

use crate::laying::Laying;
use crate::stock::made_of_offcuts;
use crate::{CountedPlace, OrderLine};

/// Field units: one for every piece that is one or is cut from one, less those that are made of offcuts.
pub(crate) fn line(laying: &Laying<'_>, cuttings: &[Cutting]) -> OrderLine {
    let covering = laying.covering;
    let on_plane = laying
        .planes
        .iter()
        .map(|(plane, laid)| CountedPlace { at: plane.name.clone(), quantity: laid.counts_of(0).pieces() as f64 });
    let places: Vec<CountedPlace> = on_plane.chain(made_of_offcuts(laying, cuttings, true)).collect();
    OrderLine::in_bundles("field-units", covering.name.clone(), places, covering.pack, covering.unit.weight)
}
