use crate::laying::Laying;
use crate::{CountedPlace, OrderLine};

/// Field units: one for every piece on the roof, cut or whole.
pub(crate) fn line(laying: &Laying<'_>) -> OrderLine {
    let covering = laying.covering;
    let places: Vec<CountedPlace> = laying
        .planes
        .iter()
        .map(|(plane, laid)| CountedPlace { at: plane.name.clone(), quantity: laid.counts().pieces() as f64 })
        .collect();
    OrderLine::in_bundles("field-units", covering.name.clone(), places, covering.pack, covering.unit.weight)
}
