use details::{Details, Kind, Lies, Rolls, Strip};
use roof::Roof;

use crate::nails::length_of_metals;
use crate::order::{packs, sum};
use crate::{CountedPlace, OrderLine, Wanted};

/// Rolls and edge metal that one sheet asks for, and what holds them; with no sheet, what the job asks for.
pub(crate) fn lines(roof: &Roof, details: &Details, sheet: &str) -> Vec<OrderLine> {
    let dry_in = &details.dry_in;
    let of_sheet = || dry_in.rolls.iter().filter(|rolls| rolls.sheet == sheet);
    let fastened = of_sheet().filter(|rolls| rolls.kind == Kind::Underlayment);
    let fasteners = dry_in.fasteners.iter().flat_map(|grid| {
        let held = |rolls: &Rolls| OrderLine {
            id: "underlayment-fasteners".into(),
            item: format!("fasteners with caps for {}", rolls.roll.name),
            unit: "fasteners",
            ..held(roof, rolls, grid.box_count)
        };
        fastened.clone().map(held)
    });
    let nails = of_sheet().filter(|rolls| rolls.kind == Kind::DripEdge).map(|rolls| OrderLine {
        id: "drip-edge-nails".into(),
        item: format!("nails for {}{}", rolls.roll.name, length_of_metals(details)),
        unit: "nails",
        ..held(roof, rolls, details.nail_box)
    });
    of_sheet().map(|rolls| line(roof, rolls)).chain(fasteners).chain(nails).collect()
}

/// One place for each strip, in the order of the strips; rolls as they are cut.
fn line(roof: &Roof, rolls: &Rolls) -> OrderLine {
    let roll = &rolls.roll;
    let places: Vec<CountedPlace> = rolls.strips.iter().map(|strip| place(roof, strip, strip.cut_length() / 12.0)).collect();
    OrderLine {
        id: id(rolls.kind).into(),
        item: roll.name.clone(),
        quantity: sum(&places),
        unit: "ft",
        packs: rolls.count.into(),
        pack: match rolls.kind {
            Kind::DripEdge => format!("piece of {}", roll.length),
            _ => format!("roll of {} × {}", roll.width.in_inches(), roll.length),
        },
        weight: roll.weight * f64::from(rolls.count),
        cut_from: rolls.strips.iter().map(|strip| strip.pieces.iter().map(|piece| piece.roll).collect()).collect(),
        wanted: Wanted::BeforeUnits,
        places,
        ..OrderLine::default()
    }
}

/// Where a strip lies.
fn place(roof: &Roof, strip: &Strip, quantity: f64) -> CountedPlace {
    let line = match strip.lies {
        Lies::Line { line } => Some(line),
        Lies::Eave { .. } | Lies::Course { .. } | Lies::Opening { .. } => None,
    };
    let planes = strip.patches.iter().map(|patch| patch.plane).collect();
    CountedPlace { at: strip.name(roof), quantity, planes, line, ..CountedPlace::default() }
}

const fn id(kind: Kind) -> &'static str {
    match kind {
        Kind::DripEdge => "drip-edge",
        Kind::IceBarrier => "ice-barrier",
        Kind::Underlayment => "underlayment",
        Kind::Interlayment => "interlayment",
    }
}

/// What holds the strips, strip by strip.
fn held(roof: &Roof, rolls: &Rolls, in_box: u32) -> OrderLine {
    let places: Vec<CountedPlace> =
        rolls.strips.iter().map(|strip| place(roof, strip, f64::from(strip.fasteners))).collect();
    let quantity = sum(&places);
    let in_pack = f64::from(in_box.max(1));
    OrderLine {
        quantity,
        packs: packs(quantity, in_pack),
        pack: format!("box of {in_box}"),
        in_pack: Some(in_pack),
        wanted: Wanted::BeforeUnits,
        places,
        ..OrderLine::default()
    }
}
