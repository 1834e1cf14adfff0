use covering::Underlayment;
use roof::Plane;
use units::Area;

use crate::laying::Laying;
use crate::order::{packs, sum};
use crate::{CountedPlace, OrderLine};

/// What one roll covers, once: (width − top lap) × (length − end lap). Each strip hides the top lap of the strip below,
/// and each roll loses one end lap.
///
/// Laid double, strips advance by half of that width, so a roll covers half as much: every place lies under two strips,
/// and the strip two below still reaches a top lap past the edge above it.
#[must_use]
pub fn roll_coverage(roll: &Underlayment) -> Area {
    let net = |whole: units::Length, lap: units::Length| (whole - lap).to_inches();
    Area::square_inches(net(roll.width, roll.top_lap) * net(roll.length, roll.end_lap))
}

/// Underlayment over whole planes, counted in single layers.
pub(crate) fn line(laying: &Laying<'_>) -> OrderLine {
    let roll = &laying.covering.underlayment;
    let places: Vec<CountedPlace> = laying
        .planes
        .iter()
        .map(|(plane, _)| CountedPlace {
            at: plane.name.clone(),
            quantity: plane.area().to_square_feet() * layers(roll, plane),
        })
        .collect();
    let quantity = sum(&places);
    let packs = packs(quantity, roll_coverage(roll).to_square_feet());
    OrderLine {
        id: "underlayment".into(),
        item: roll.name.clone(),
        quantity,
        unit: "sq ft",
        packs,
        pack: format!("roll of {} × {}", roll.width.in_inches(), roll.length),
        weight: roll.weight * packs as f64,
        estimate: "area on the slope and laps; offcuts and turn-ups count when strips are laid".into(),
        places,
    }
}

fn layers(roll: &Underlayment, plane: &Plane) -> f64 {
    if roll.double_below.is_some_and(|below| plane.pitch < below) { 2.0 } else { 1.0 }
}
