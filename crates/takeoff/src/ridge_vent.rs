use details::Vents;
use roof::Roof;

use crate::order::sum;
use crate::{CountedPlace, OrderLine, Wanted};

/// Sections of vent, ridge by ridge; none where no ridge vent is described.
pub(crate) fn line(roof: &Roof, vents: Option<&Vents>) -> Option<OrderLine> {
    let vents = vents?;
    let section = vents.section?;
    let place = |run: &details::RidgeRun| {
        let line = roof.lines.get(run.line)?;
        Some(CountedPlace::along(roof, run.line, line, f64::from(run.sections)))
    };
    let places: Vec<CountedPlace> = vents.ridges.iter().filter_map(place).collect();
    let quantity = sum(&places);
    Some(OrderLine {
        id: "ridge-vent".into(),
        item: "ridge vent".into(),
        quantity,
        unit: "sections",
        packs: quantity as u64,
        in_pack: Some(1.0),
        wanted: Wanted::WithUnits,
        pack: format!("section of {section}"),
        places,
        ..OrderLine::default()
    })
}
