use crate::laying::Laying;
use crate::order::{packs, sum};
use crate::{CountedPlace, OrderLine};

/// Field units: one for every piece on the roof, cut or whole.
pub(crate) fn line(laying: &Laying<'_>) -> OrderLine {
    let covering = laying.covering;
    let places: Vec<CountedPlace> = laying
        .planes
        .iter()
        .map(|(plane, laid)| CountedPlace { at: plane.name.clone(), quantity: laid.counts().pieces() as f64 })
        .collect();
    let quantity = sum(&places);
    let in_one = f64::from(covering.pack.count);
    let packs = packs(quantity, in_one);
    OrderLine {
        id: "field-units".into(),
        item: covering.name.clone(),
        quantity,
        unit: "pieces",
        packs,
        pack: format!("bundle of {}", covering.pack.count),
        weight: covering.unit.weight * (packs as f64 * in_one),
        estimate: String::new(),
        places,
    }
}
