use details::Vents;
use roof::Roof;
use units::Mass;

use crate::caps::name;
use crate::order::sum;
use crate::{CountedPlace, OrderLine};

/// Sections of vent, ridge by ridge; none where no ridge vent is described.
pub(crate) fn line(roof: &Roof, vents: Option<&Vents>) -> Option<OrderLine> {
    let vents = vents?;
    let section = vents.section?;
    let place = |run: &details::RidgeRun| {
        let at = roof.lines.get(run.line).map_or_else(String::new, |line| name(roof, line));
        CountedPlace { at, quantity: f64::from(run.sections) }
    };
    let places: Vec<CountedPlace> = vents.ridges.iter().map(place).collect();
    let quantity = sum(&places);
    Some(OrderLine {
        id: "ridge-vent".into(),
        item: "ridge vent".into(),
        quantity,
        unit: "sections",
        packs: quantity as u64,
        pack: format!("section of {section}"),
        weight: Mass::pounds(0.0),
        estimate: String::new(),
        places,
    })
}
