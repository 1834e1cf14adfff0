//! From sheet metal as placed to the plan.

use details as placed;
use roof::Roof;
use units::Length;

use crate::make::id_of;
use crate::{MetalItem, MetalPiece, MetalRun, PipeFlange, SheetMetal};

/// Everything with its plane's id and in plain numbers.
pub(crate) fn metal(roof: &Roof, metal: &placed::Metal) -> SheetMetal {
    let stock = &metal.stock;
    SheetMetal {
        metal: stock.metal.name(),
        thickness_in: stock.thickness.to_inches(),
        sheet_in: [stock.width, stock.length].map(Length::to_inches),
        weight_psf: stock.weight.to_pounds(),
        sheets: metal.sheets,
        bound: metal.bound,
        items: metal.items.iter().map(|of| item(roof, of)).collect(),
        pipes: metal.pipes.iter().map(|of| pipe(roof, of)).collect(),
    }
}

fn pipe(roof: &Roof, pipe: &placed::PipeFlange) -> PipeFlange {
    let opening = pipe.along.opening.and_then(|opening| roof.openings.get(opening));
    PipeFlange {
        opening: opening.map_or_else(String::new, |opening| opening.name.clone()),
        plane: id_of(roof, pipe.along.plane),
        at_in: pipe.at,
        diameter_in: pipe.diameter.to_inches(),
        pitch: pipe.pitch.rise(),
        plate_in: pipe.plate.map(Length::to_inches),
        over: pipe.over,
        under: pipe.under,
    }
}

fn item(roof: &Roof, item: &placed::MetalItem) -> MetalItem {
    let runs = item.runs.iter().map(|of| run(roof, of)).collect();
    MetalItem { id: item.kind.id(), kind: item.kind.name(), runs }
}

fn run(roof: &Roof, run: &placed::MetalRun) -> MetalRun {
    let opening = run.along.opening.and_then(|opening| roof.openings.get(opening));
    MetalRun {
        at: run.along.name(roof),
        plane: id_of(roof, run.along.plane),
        line: run.along.line,
        opening: opening.map(|opening| opening.name.clone()),
        roof_leg_in: run.roof_leg.map(Length::to_inches),
        sealed_joints: run.sealed_joints,
        sealant_in: run.sealant.to_inches(),
        ribbed: run.ribbed,
        face_nails: run.face_nails,
        nails: run.nails,
        pieces: run.pieces.iter().map(piece).collect(),
    }
}

fn piece(piece: &placed::MetalPiece) -> MetalPiece {
    MetalPiece {
        course: piece.course,
        ends_in: piece.ends,
        girth_in: piece.girth.to_inches(),
        length_in: piece.length.to_inches(),
    }
}
