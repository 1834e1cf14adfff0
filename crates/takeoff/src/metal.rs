use details::{Along, Details, Metal, MetalItem, MetalKind, MetalPiece, MetalRun, PipeFlange};
use roof::Roof;
use units::Length;

use crate::nails::length_of_metals;
use crate::order::{packs, sum};
use crate::{CountedPlace, OrderLine, Wanted};

/// What is bent, kind by kind, and the sheets that all of it is cut from, which carry its weight.
pub(crate) fn lines(roof: &Roof, details: &Details) -> Vec<OrderLine> {
    let Some(metal) = &details.metal else { return Vec::new() };
    metal
        .items
        .iter()
        .map(|item| bent(roof, item))
        .chain([sheets(metal), nails(roof, metal, details), sealant(roof, metal)])
        .chain(flanges(roof, metal))
        .collect()
}

/// One place for each run, in the order of the runs: feet of what is laid in lengths, else pieces.
fn bent(roof: &Roof, item: &MetalItem) -> OrderLine {
    let in_lengths = item.kind.is_in_lengths();
    let of_piece = |piece: &MetalPiece| if in_lengths { piece.length.to_feet() } else { 1.0 };
    let places: Vec<CountedPlace> =
        item.runs.iter().map(|run| place(roof, &run.along, run.pieces.iter().map(of_piece).sum())).collect();
    OrderLine {
        id: item.kind.id().into(),
        item: format!("{}, {}", item.kind.name(), blanks(item)),
        quantity: sum(&places),
        unit: if in_lengths { "ft" } else { "pieces" },
        packs: item.pieces().count() as u64,
        pack: "piece bent from the sheets".into(),
        cut_from: numbered(item),
        wanted: match item.kind {
            MetalKind::RidgeMetal | MetalKind::HipMetal => Wanted::WithUnits,
            _ => Wanted::BeforeUnits,
        },
        places,
        ..OrderLine::default()
    }
}

/// Its pieces, run by run, each a pack of its own.
fn numbered(item: &MetalItem) -> Vec<Vec<u32>> {
    let mut next = 0;
    let mut number = |run: &MetalRun| {
        let first = next;
        next += run.pieces.len() as u32;
        (first..next).collect()
    };
    item.runs.iter().map(&mut number).collect()
}

/// Where a run or a flange lies.
fn place(roof: &Roof, along: &Along, quantity: f64) -> CountedPlace {
    let line = along.line.and_then(|line| roof.lines.get(line));
    let planes = line.filter(|_| along.opening.is_none()).map_or_else(|| vec![along.plane], |line| line.planes.clone());
    CountedPlace { at: along.name(roof), quantity, planes, line: along.line, ..CountedPlace::default() }
}

/// `blanks 8" × 10"`, or from the least to the greatest.
fn blanks(item: &MetalItem) -> String {
    let range = |of: fn(&MetalPiece) -> Length| {
        let [least, most] = item.pieces().map(of).fold([Length::feet(1e6), Length::ZERO], |[least, most], is| {
            [if is < least { is } else { least }, if is > most { is } else { most }]
        });
        let [least, most] = [least, most].map(|is| is.to_tape().in_inches());
        if least == most { least } else { format!("{least} to {most}") }
    };
    format!("blanks {} × {}", range(|piece| piece.girth), range(|piece| piece.length))
}

/// Square feet of blanks, kind by kind.
fn sheets(metal: &Metal) -> OrderLine {
    let stock = &metal.stock;
    let area = |piece: &MetalPiece| piece.girth.to_feet() * piece.length.to_feet();
    let place = |item: &MetalItem| CountedPlace {
        at: item.kind.name().into(),
        quantity: item.pieces().map(area).sum(),
        planes: item.runs.iter().map(|run| run.along.plane).collect(),
        ..CountedPlace::default()
    };
    let places: Vec<CountedPlace> = metal.items.iter().map(place).collect();
    let each = stock.weight * (stock.width.to_feet() * stock.length.to_feet());
    OrderLine {
        id: "sheet-metal".into(),
        item: format!("{}, {:.4} in thick", stock.metal.name(), stock.thickness.to_inches()),
        quantity: sum(&places),
        unit: "sq ft",
        packs: metal.sheets.into(),
        pack: format!("sheet of {} × {}", stock.width.in_inches(), stock.length),
        weight: each * f64::from(metal.sheets),
        places,
        ..OrderLine::default()
    }
}

/// What every run takes of something, where it takes any.
fn of_runs(roof: &Roof, metal: &Metal, takes: impl Fn(&MetalRun) -> f64) -> Vec<CountedPlace> {
    let runs = metal.items.iter().flat_map(|item| item.runs.iter().map(move |run| (item.kind, run)));
    let place = |(kind, run): (MetalKind, &MetalRun)| {
        let place = place(roof, &run.along, takes(run));
        CountedPlace { at: format!("{}, {}", kind.name(), place.at), ..place }
    };
    runs.map(place).filter(|place| place.quantity > 0.0).collect()
}

/// Feet of bead, and the tubes that give them.
fn sealant(roof: &Roof, metal: &Metal) -> OrderLine {
    let places = of_runs(roof, metal, |run| run.sealant.to_feet());
    let quantity = sum(&places);
    let from_tube = metal.sealant.from_tube().to_feet();
    OrderLine {
        id: "sealant".into(),
        item: format!("sealant for {}, {} bead", metal.stock.metal.name(), metal.sealant.bead.in_inches()),
        quantity,
        unit: "ft",
        packs: packs(quantity, from_tube),
        in_pack: Some(from_tube),
        wanted: Wanted::BeforeUnits,
        pack: format!("tube of {} fl oz, {from_tube:.0} ft", metal.sealant.tube_fl_oz),
        places,
        ..OrderLine::default()
    }
}

/// Nails of every run that is nailed.
fn nails(roof: &Roof, metal: &Metal, details: &Details) -> OrderLine {
    let in_box = details.nail_box;
    let places = of_runs(roof, metal, |run| f64::from(run.nails));
    let quantity = sum(&places);
    OrderLine {
        id: "metal-nails".into(),
        item: format!("nails for {}{}", metal.stock.metal.name(), length_of_metals(details)),
        quantity,
        unit: "nails",
        packs: packs(quantity, f64::from(in_box.max(1))),
        in_pack: Some(f64::from(in_box.max(1))),
        wanted: Wanted::BeforeUnits,
        pack: format!("box of {in_box}"),
        places,
        ..OrderLine::default()
    }
}

/// Flanges of one diameter and pitch are one line; where there are several, diameter and pitch follow the line's id.
fn flanges(roof: &Roof, metal: &Metal) -> Vec<OrderLine> {
    let size = |pipe: &PipeFlange| (pipe.diameter.to_tape().in_inches(), pipe.pitch.to_string());
    let mut sizes: Vec<_> = metal.pipes.iter().map(size).collect();
    sizes.sort();
    sizes.dedup();
    let several = sizes.len() > 1;
    let line = |of: (String, String)| {
        let own = metal.pipes.iter().filter(|pipe| size(pipe) == of);
        let places: Vec<CountedPlace> = own.map(|pipe| place(roof, &pipe.along, 1.0)).collect();
        let (diameter, pitch) = of;
        let id = if several { format!("pipe-flanges:{diameter}-{pitch}") } else { "pipe-flanges".into() };
        OrderLine {
            id,
            item: format!("pipe flange for {diameter} pipe at {pitch}"),
            quantity: sum(&places),
            unit: "pieces",
            packs: places.len() as u64,
            pack: "piece".into(),
            in_pack: Some(1.0),
            wanted: Wanted::BeforeUnits,
            places,
            ..OrderLine::default()
        }
    };
    sizes.into_iter().map(line).collect()
}
