use plan::{CutUnit, Cutting, Plan};

use super::desk::{Desk, Done, Look};
use crate::cut_row::{CutRow, cut_from, cut_rows};

const HEADS: [(&str, f64); 15] = [
    ("Cut from", 34.0),
    ("Piece", 7.0),
    ("Bin", 6.0),
    ("Bevel, degrees", 9.0),
    ("Leans", 7.0),
    ("Butt, in", 9.0),
    ("Head, in", 9.0),
    ("Widest, in", 9.0),
    ("Length, in", 9.0),
    ("Made", 16.0),
    ("Plane", 24.0),
    ("Cut", 6.0),
    ("First course", 8.0),
    ("Last course", 8.0),
    ("Pieces", 8.0),
];

pub(super) fn write(desk: &mut Desk, plan: &Plan) -> Done {
    desk.line(Look::Title, &format!("{}: cut list", plan.name))?;
    desk.line(
        Look::Words,
        "In the order of the saw. Bevel: between the cut and the course line. Lengths in inches and sixteenths.",
    )?;
    desk.next_row();
    desk.heads(&HEADS)?;
    desk.freeze()?;
    let (first, rows) = (desk.here(), cut_rows(plan));
    rows.iter().try_for_each(|row| write_row(desk, row))?;
    desk.words(0, Look::Sum, "All pieces")?;
    let pieces: u64 = rows.iter().map(|row| row.place.count).sum();
    desk.formula(14, Look::Sum, &format!("=SUM(O{first}:O{})", desk.here() - 1), pieces as f64)
}

fn write_row(desk: &mut Desk, row: &CutRow) -> Done {
    let CutRow { cutting, number, kind, place, plane } = row;
    desk.words(0, Look::Words, &cut_from(cutting))?;
    desk.number(1, Look::Number, *number as f64)?;
    desk.words(2, Look::Words, &kind.bin)?;
    desk.number(3, Look::Number, kind.bevel_deg)?;
    desk.words(4, Look::Words, kind.hand)?;
    for (column, inches) in (5..).zip([kind.butt_in, kind.head_in, kind.width_in, kind.height_in]) {
        desk.number(column, Look::Inches, inches)?;
    }
    desk.words(9, Look::Words, &kind.made.join(" "))?;
    desk.words(10, Look::Words, plane)?;
    desk.number(11, Look::Number, f64::from(place.cut) + 1.0)?;
    for (column, course) in (12..).zip(place.courses) {
        desk.number(column, Look::Number, course as f64 + 1.0)?;
    }
    desk.number(14, Look::Number, place.count as f64)?;
    desk.next_row();
    Ok(())
}

pub(super) fn has_offcuts(plan: &Plan) -> bool {
    plan.layout.cutting.iter().any(|cutting| several(cutting).next().is_some())
}

/// Units that give more than one piece.
fn several(cutting: &Cutting) -> impl Iterator<Item = &CutUnit> {
    cutting.units.iter().filter(|unit| unit.pieces.len() > 1)
}

pub(super) fn write_offcuts(desk: &mut Desk, plan: &Plan) -> Done {
    desk.line(Look::Title, &format!("{}: offcuts", plan.name))?;
    desk.line(Look::Words, "Units that give more than one piece, by the numbers of the cut list, left to right.")?;
    desk.next_row();
    desk.heads(&[("Cut from", 34.0), ("Units", 8.0), ("Each gives pieces", 60.0)])?;
    desk.freeze()?;
    for cutting in &plan.layout.cutting {
        for unit in several(cutting) {
            desk.words(0, Look::Words, &cut_from(cutting))?;
            desk.number(1, Look::Number, unit.count as f64)?;
            desk.words(2, Look::Words, &pieces(unit))?;
            desk.next_row();
        }
    }
    Ok(())
}

fn pieces(unit: &CutUnit) -> String {
    let piece = |piece: &plan::Cutout| {
        let turned = if piece.turned { " head for tail" } else { "" };
        format!("{}{turned}", piece.kind + 1)
    };
    unit.pieces.iter().map(piece).collect::<Vec<_>>().join(" + ")
}
