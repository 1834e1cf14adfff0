use details::{DryIn, FastenerGrid, Kind, Lies, Rolls, Strip};
use roof::Roof;

use crate::order::{packs, sum};
use crate::{CountedPlace, OrderLine};

/// Rolls and edge metal that one sheet asks for, and the fasteners that hold its underlayment; with no sheet, what the job
/// asks for.
pub(crate) fn lines(roof: &Roof, dry_in: &DryIn, sheet: &str) -> Vec<OrderLine> {
    let of_sheet = || dry_in.rolls.iter().filter(|rolls| rolls.sheet == sheet);
    let fastened = of_sheet().filter(|rolls| rolls.kind == Kind::Underlayment);
    let fasteners = dry_in.fasteners.iter().flat_map(|grid| fastened.clone().map(|rolls| fasteners(roof, rolls, grid)));
    of_sheet().map(|rolls| line(roof, rolls)).chain(fasteners).collect()
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
    CountedPlace { at: strip.name(roof), quantity, planes: strip.patches.iter().map(|patch| patch.plane).collect(), line }
}

const fn id(kind: Kind) -> &'static str {
    match kind {
        Kind::DripEdge => "drip-edge",
        Kind::IceBarrier => "ice-barrier",
        Kind::Underlayment => "underlayment",
        Kind::Interlayment => "interlayment",
    }
}

fn fasteners(roof: &Roof, rolls: &Rolls, grid: &FastenerGrid) -> OrderLine {
    let places: Vec<CountedPlace> =
        rolls.strips.iter().map(|strip| place(roof, strip, f64::from(strip.fasteners))).collect();
    let quantity = sum(&places);
    OrderLine {
        id: "underlayment-fasteners".into(),
        item: format!("fasteners with caps for {}", rolls.roll.name),
        quantity,
        unit: "fasteners",
        packs: packs(quantity, f64::from(grid.box_count)),
        pack: format!("box of {}", grid.box_count),
        places,
        ..OrderLine::default()
    }
}
