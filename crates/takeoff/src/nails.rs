use covering::Covering;
use details::{Details, NailHolds, NailNeed};
use layout::{LaidPlane, Run};
use roof::Roof;
use units::Mass;

use crate::laying::Laying;
use crate::order::{packs, sum};
use crate::starters;
use crate::{CountedPlace, OrderLine, Wanted};

/// Nails of field pieces: those of a cut one as the layout places them, and as many as in a whole one where it cannot.
fn of_pieces(laid: &LaidPlane, each: u32) -> u64 {
    let nails = |run: &Run| match run.cut.and_then(|cut| laid.cuts.get(cut as usize)).map_or(0, |cut| cut.nails.len()) {
        0 => u64::from(each),
        placed => placed as u64,
    };
    laid.courses.iter().flat_map(|course| &course.runs).map(|run| u64::from(run.count) * nails(run)).sum()
}

/// Nails of field pieces and starters, plane by plane; of caps, line by line; and of caps over a ridge vent, which are longer.
pub(crate) fn lines(roof: &Roof, laying: &Laying<'_>, caps: &OrderLine, details: &Details) -> [OrderLine; 3] {
    let covering = laying.covering;
    let on_plane = laying.planes.iter().map(|(_, laid)| {
        let field = of_pieces(laid, covering.nails.each);
        let starters = starters::pieces(laying, laid) * u64::from(covering.starter.nails);
        CountedPlace::on_plane(roof, laid.plane, (field + starters) as f64)
    });
    let is_vented = |place: &CountedPlace| {
        let vented = details.vents.iter().flat_map(|vents| &vents.ridges);
        place.line.is_some_and(|line| vented.clone().any(|ridge| ridge.line == line))
    };
    let of_caps = |vented: bool| {
        let own = caps.places.iter().filter(move |place| is_vented(place) == vented);
        let nails = |place: &CountedPlace| CountedPlace {
            quantity: place.quantity * f64::from(covering.cap.nails),
            ..place.clone()
        };
        own.map(nails).collect()
    };
    let need = |holds: NailHolds| details.nails.iter().find(|need| need.holds == holds && need.sheet == covering.id);
    [
        line("nails", covering, "", need(NailHolds::Units), on_plane.collect()),
        line("cap-nails", covering, " caps", need(NailHolds::Caps), of_caps(false)),
        line("ridge-vent-nails", covering, " caps over the ridge vent", need(NailHolds::CapsOverVent), of_caps(true)),
    ]
}

/// Of the nails that are ordered, as it follows what they are for.
fn length(need: Option<&NailNeed>) -> String {
    let length = need.map(|need| need.given.unwrap_or(need.take));
    length.map_or_else(String::new, |length| format!(", {}", length.in_inches()))
}

/// Of nails of edge and sheet metal.
pub(crate) fn length_of_metals(details: &Details) -> String {
    length(details.nails.iter().find(|need| need.holds == NailHolds::Metal))
}

fn line(id: &str, covering: &Covering, what: &str, need: Option<&NailNeed>, places: Vec<CountedPlace>) -> OrderLine {
    let (quantity, in_box) = (sum(&places), f64::from(covering.nails.box_count));
    let boxes = packs(quantity, in_box);
    let length = length(need);
    // Only the job can tell how many weigh a pound.
    let per_pound = need.and_then(|need| need.per_pound);
    OrderLine {
        id: id.into(),
        item: format!("nails for {}{what}{length}", covering.name),
        quantity,
        unit: "nails",
        packs: boxes,
        pack: format!("box of {}", covering.nails.box_count),
        in_pack: Some(in_box),
        wanted: Wanted::WithUnits,
        weight: per_pound.map_or(Mass::pounds(0.0), |per_pound| Mass::pounds(boxes as f64 * in_box / per_pound)),
        places,
        ..OrderLine::default()
    }
}
