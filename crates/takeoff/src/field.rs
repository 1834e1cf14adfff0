use crate::laying::Laying;
use crate::{CountedPlace, OrderLine};

/// Field units: one for every piece that is one or is cut from one.
pub(crate) fn line(laying: &Laying<'_>) -> OrderLine {
    let covering = laying.covering;
    let places: Vec<CountedPlace> = laying
        .planes
        .iter()
        .map(|(plane, laid)| CountedPlace { at: plane.name.clone(), quantity: laid.counts_of(0).pieces() as f64 })
        .collect();
    OrderLine::in_bundles("field-units", covering.name.clone(), places, covering.pack, covering.unit.weight)
}
