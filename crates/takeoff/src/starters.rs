use layout::LaidPlane;
use roof::Roof;

use crate::laying::Laying;
use crate::{CountedPlace, OrderLine};

/// Starters along eaves, breaks and other level low edges, as the layout has them.
pub(crate) fn line(roof: &Roof, laying: &Laying<'_>) -> OrderLine {
    let starter = laying.covering.starter;
    let places: Vec<CountedPlace> = laying
        .planes
        .iter()
        .map(|(_, laid)| CountedPlace::on_plane(roof, laid.plane, pieces(laying, laid) as f64))
        .filter(|place| place.quantity > 0.0)
        .collect();
    let item = format!("{}, starter", laying.covering.name);
    let line = OrderLine::in_bundles("starters", item, places, starter.pack, starter.weight);
    match starter.height {
        Some(height) => line.sized(starter.width, height),
        None => line,
    }
}

/// Starters of one plane, in all layers that the sheet asks for.
pub(crate) fn pieces(laying: &Laying<'_>, laid: &LaidPlane) -> u64 {
    let along: u64 = laid.starters.iter().map(|row| u64::from(row.count)).sum();
    along * u64::from(laying.covering.starter.layers)
}
