use layout::{LaidPlane, Run};
use roof::Roof;

use crate::laying::Laying;
use crate::order::{packs, sum};
use crate::starters::along;
use crate::{CountedPlace, OrderLine};

/// Nails of field pieces: those of a cut one as the layout places them, and as many as in a whole one where it cannot.
fn of_pieces(laid: &LaidPlane, each: u32) -> u64 {
    let nails = |run: &Run| match run.cut.and_then(|cut| laid.cuts.get(cut as usize)).map_or(0, |cut| cut.nails.len()) {
        0 => u64::from(each),
        placed => placed as u64,
    };
    laid.courses.iter().flat_map(|course| &course.runs).map(|run| u64::from(run.count) * nails(run)).sum()
}

/// Nails of field pieces and starters, plane by plane, and of caps, line by line.
pub(crate) fn line(roof: &Roof, laying: &Laying<'_>, caps: &OrderLine) -> OrderLine {
    let covering = laying.covering;
    let on_plane = laying.planes.iter().map(|(_, laid)| {
        let field = of_pieces(laid, covering.nails.each);
        let starters = along(laid) * u64::from(covering.starter.nails);
        CountedPlace::on_plane(roof, laid.plane, (field + starters) as f64)
    });
    let of_caps = caps
        .places
        .iter()
        .map(|place| CountedPlace { quantity: place.quantity * f64::from(covering.cap.nails), ..place.clone() });
    let places: Vec<CountedPlace> = on_plane.chain(of_caps).collect();
    let quantity = sum(&places);
    OrderLine {
        id: "nails".into(),
        item: format!("nails for {}", covering.name),
        quantity,
        unit: "nails",
        packs: packs(quantity, f64::from(covering.nails.box_count)),
        pack: format!("box of {}", covering.nails.box_count),
        in_pack: Some(covering.nails.box_count),
        places,
        ..OrderLine::default()
    }
}
