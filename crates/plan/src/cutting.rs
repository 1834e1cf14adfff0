use geom::region::level_width;
use layout::{CutUnit as Sawn, Cutting as Laid, Kept, Layout, PieceKind};
use roof::Roof;
use schemars::JsonSchema;
use serde::Serialize;

use crate::make::id_of;

/// How the pieces of one sheet and one kind of unit are cut.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Cutting {
    /// The covering sheet's short name.
    pub sheet: String,
    /// Of the unit, from butt to head.
    pub length_in: f64,
    /// Of the unit, along the course.
    pub width_in: f64,
    /// Pieces that are whole units.
    pub whole: u64,
    /// Units to take, whole ones among them.
    pub stock: u64,
    /// A proven lower bound on `stock`.
    pub stock_bound: u64,
    /// The cut pieces, equal ones together, in the order of the saw.
    pub kinds: Vec<CutKind>,
    /// Units that are cut, alike ones together; each cut piece is in one of them.
    pub units: Vec<CutUnit>,
}

/// Equal cut pieces.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CutKind {
    /// The bin that it is put into: one for each setting of the saw.
    pub bin: String,
    /// Between the cut and the course line, degrees: 0 for a level cut, 90 for an upright one.
    pub bevel_deg: f64,
    /// Which way the cut leans as it rises, seen as the piece lies on the roof: `left` or `right`; empty where it does not.
    pub hand: &'static str,
    /// Along its level low side; 0 where it ends in a point.
    pub butt_in: f64,
    /// Along its level high side; 0 where it ends in a point.
    pub head_in: f64,
    /// Of the box around it.
    pub width_in: f64,
    /// Of the box around it.
    pub height_in: f64,
    /// Sq in.
    pub area_sqin: f64,
    /// How many.
    pub count: u64,
    /// Edges that must be the unit's own: `butt`, `left`, `right`.
    pub made: Vec<&'static str>,
    /// Its outline from the lower left corner of the box around it; a clockwise part is a hole.
    pub parts_in: Vec<Vec<[f64; 2]>>,
    /// Where they lie.
    pub places: Vec<CutPlace>,
}

/// Some of a plane's cut pieces.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CutPlace {
    /// The plane's id.
    pub plane: String,
    /// Index in the plane's `cuts`.
    pub cut: u32,
    /// The lowest and the highest course in which that cut lies, counted from 0 at the eave.
    pub courses: [usize; 2],
    /// How many.
    pub count: u64,
}

/// Units that are cut alike.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CutUnit {
    /// How many.
    pub count: u64,
    /// What each gives, left to right.
    pub pieces: Vec<Cutout>,
}

/// A piece in the unit that it is cut from.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Cutout {
    /// Index in [`Cutting::kinds`].
    pub kind: usize,
    /// Lower left corner of the box around it, from the unit's lower left corner.
    pub at_in: [f64; 2],
    /// It lies head for tail.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub turned: bool,
}

/// What is told of how the pieces are cut.
pub(crate) fn cuttings(roof: &Roof, laying: &Layout, cuttings: &[Laid]) -> Vec<Cutting> {
    let cutting = |cutting: &Laid| Cutting {
        sheet: cutting.sheet.clone(),
        length_in: cutting.unit.length,
        width_in: cutting.unit.width,
        whole: cutting.whole,
        stock: cutting.stock(),
        stock_bound: cutting.bound,
        kinds: cutting.kinds.iter().map(|kind| cut_kind(roof, laying, kind)).collect(),
        units: cutting.units.iter().map(cut_unit).collect(),
    };
    cuttings.iter().map(cutting).collect()
}

fn cut_kind(roof: &Roof, laying: &Layout, kind: &PieceKind) -> CutKind {
    let place = |origin: &layout::Origin| CutPlace {
        plane: id_of(roof, origin.plane),
        cut: origin.cut,
        courses: courses(laying, origin),
        count: origin.count,
    };
    CutKind {
        bin: kind.bin.clone(),
        bevel_deg: kind.saw.bevel,
        hand: kind.saw.hand.name(),
        butt_in: level_width(&kind.parts, 0.0),
        head_in: level_width(&kind.parts, kind.height),
        width_in: kind.width,
        height_in: kind.height,
        area_sqin: kind.area,
        count: kind.count,
        made: made(kind.kept),
        parts_in: kind.parts.clone(),
        places: kind.from.iter().map(place).collect(),
    }
}

fn made(kept: Kept) -> Vec<&'static str> {
    let edges = [(kept.butt, "butt"), (kept.left, "left"), (kept.right, "right")];
    edges.into_iter().filter(|edge| edge.0).map(|edge| edge.1).collect()
}

fn courses(laying: &Layout, origin: &layout::Origin) -> [usize; 2] {
    let laid = laying.planes.iter().find(|laid| laid.plane == origin.plane);
    let courses = laid.map_or(&[][..], |laid| &laid.courses);
    let has = |course: &layout::Course| course.runs.iter().any(|run| run.cut == Some(origin.cut));
    let first = courses.iter().position(has).unwrap_or_default();
    [first, courses.iter().rposition(has).unwrap_or(first)]
}

fn cut_unit(unit: &Sawn) -> CutUnit {
    let cutout = |piece: &layout::Cutout| Cutout { kind: piece.kind, at_in: piece.at, turned: piece.turned };
    CutUnit { count: unit.count, pieces: unit.pieces.iter().map(cutout).collect() }
}
