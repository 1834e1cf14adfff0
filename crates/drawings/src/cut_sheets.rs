//! The papers of the saw on the ground: every kind of piece of the whole roof, then which units give several.

use plan::{CutKind, CutPlace, CutUnit, Cutting, Plan};

use crate::Scene;
use crate::listing::{Listing, scenes};
use crate::setting_out::{in_inches, surface_name};

/// Degrees on a saw's scale are read to this.
const DEGREES_SHOWN: usize = 1;

/// The cut list of the whole roof, sorted for the saw: bevel, hand, width. As many papers as it takes; none where nothing is
/// cut.
#[must_use]
pub fn cut_sheets(plan: &Plan) -> Vec<Scene> {
    let cuttings = plan.layout.cutting.iter().filter(|cutting| !cutting.kinds.is_empty());
    let tables: Vec<Listing> = cuttings.flat_map(|cutting| [pieces(plan, cutting), units(cutting)]).collect();
    scenes(&tables, &plan.name, "Cut list")
}

fn pieces(plan: &Plan, cutting: &Cutting) -> Listing {
    let pieces: u64 = cutting.kinds.iter().map(|kind| kind.count).sum();
    Listing {
        title: "Pieces in the order of the saw",
        headings: vec![
            "Piece", "Bin", "Bevel", "Leans", "Butt", "Head", "Widest", "Length", "Pieces", "Made", "Plane", "Cut",
            "Courses", "There",
        ],
        rows: cutting.kinds.iter().enumerate().flat_map(|(index, kind)| kind_rows(plan, index, kind)).collect(),
        summary: format!("{} of {pieces} pieces to cut", of_kinds(cutting.kinds.len())),
    }
}

fn of_kinds(count: usize) -> String {
    if count == 1 { "1 kind".into() } else { format!("{count} kinds") }
}

/// One row for each cut of a plane; what they share stands in the first.
fn kind_rows(plan: &Plan, index: usize, kind: &CutKind) -> Vec<Vec<String>> {
    let shared = [
        (index + 1).to_string(),
        kind.bin.clone(),
        format!("{:.*}°", DEGREES_SHOWN, kind.bevel_deg),
        kind.hand.to_owned(),
        in_inches(kind.butt_in),
        in_inches(kind.head_in),
        in_inches(kind.width_in),
        in_inches(kind.height_in),
        kind.count.to_string(),
        kind.made.join(" "),
    ];
    let row = |(at, place): (usize, &CutPlace)| {
        let shown = shared.iter().map(|cell| if at == 0 { cell.clone() } else { String::new() });
        shown.chain(place_cells(plan, place)).collect()
    };
    kind.places.iter().enumerate().map(row).collect()
}

fn place_cells(plan: &Plan, place: &CutPlace) -> [String; 4] {
    let [first, last] = place.courses.map(|course| course + 1);
    let courses = if first == last { first.to_string() } else { format!("{first}-{last}") };
    [surface_name(plan, &place.plane), (place.cut + 1).to_string(), courses, place.count.to_string()]
}

/// The units that give more than one piece, left to right; every other piece takes a unit.
fn units(cutting: &Cutting) -> Listing {
    Listing {
        title: "Offcuts",
        headings: vec!["Units", "Each gives pieces"],
        rows: cutting.units.iter().filter(|unit| unit.pieces.len() > 1).map(unit_row).collect(),
        summary: format!("{} units, at least {}", cutting.stock, cutting.stock_bound),
    }
}

fn unit_row(unit: &CutUnit) -> Vec<String> {
    let piece = |piece: &plan::Cutout| {
        let turned = if piece.turned { " head for tail" } else { "" };
        format!("{}{turned}", piece.kind + 1)
    };
    vec![unit.count.to_string(), unit.pieces.iter().map(piece).collect::<Vec<_>>().join(" + ")]
}
