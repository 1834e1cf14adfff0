//! What goes under and around the units, as the plan tells it.

use schemars::JsonSchema;
use serde::Serialize;

use crate::SheetMetal;

/// Dry-in, vents and the order of work.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Details {
    /// What must be seen before what; only the steps that this roof needs.
    pub order_of_work: Vec<Step>,
    /// What lies on what, from the deck up. A fire class belongs to such a list as a whole.
    pub layers: Vec<Layers>,
    /// Why there is, or is not, an ice barrier along the eaves.
    pub ice_barrier: String,
    /// How far it reaches along every eave that has one.
    pub eaves: Vec<EaveBarrier>,
    /// Edge metal and goods from rolls, strip by strip, in the order in which they are laid.
    pub rolls: Vec<Rolls>,
    /// What is bent from sheets, piece by piece; absent where nothing needs it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub metal: Option<SheetMetal>,
    /// How long nails must be, sheet by sheet and use by use.
    pub nails: Vec<NailNeed>,
    /// What lets the attic breathe; absent where the job does not describe it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub vents: Option<Vents>,
    /// What could not be placed, and what to tell so that it can.
    pub missing: Vec<Missing>,
}

/// A stage of the work.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Step {
    /// Unchanging short name, `dry-in`.
    pub id: &'static str,
    /// What is done.
    pub title: &'static str,
    /// Nothing that waits for it is begun before it is seen and signed.
    pub hold_point: bool,
    /// Ids of the steps that must be done before.
    pub after: Vec<&'static str>,
    /// What must be seen, a sentence each.
    pub see: Vec<String>,
    /// Who looks.
    pub who: &'static str,
    /// The photo to take.
    pub photo: String,
}

/// The layers of some planes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Layers {
    /// Ids of the planes.
    pub planes: Vec<String>,
    /// From the deck up.
    pub layers: Vec<Layer>,
    /// Fire tests of the sheet, each with the layers it was burnt on from the deck up, to be compared with these.
    pub fire: Vec<String>,
}

/// One layer.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Layer {
    /// `deck`, `ice barrier`, `underlayment`, `interlayment` or `units`.
    pub kind: &'static str,
    /// What it is made of.
    pub name: String,
    /// How many times it lies over itself, laps apart.
    pub times: u32,
    /// It covers only a part of the plane.
    pub in_part: bool,
}

/// How far the ice barrier reaches up the slope from one eave.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct EaveBarrier {
    /// Index in the roof's lines.
    pub line: usize,
    /// Id of the plane that rises from the eave.
    pub plane: String,
    /// What is asked for.
    pub needed_in: f64,
    /// What whole courses give.
    pub laid_in: f64,
}

/// All that is cut from one kind of roll, or from lengths of edge metal.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Rolls {
    /// `drip edge`, `ice barrier`, `underlayment` or `interlayment`.
    pub kind: &'static str,
    /// Id of the covering whose sheet asks for it, or nothing.
    pub sheet: String,
    /// Printed name.
    pub name: String,
    /// Of a roll; 0 of edge metal.
    pub width_in: f64,
    /// Of a roll or a piece of edge metal.
    pub length_in: f64,
    /// Over the strip below.
    pub side_lap_in: f64,
    /// Of a piece over the one before it.
    pub end_lap_in: f64,
    /// Rolls that the strips are cut from.
    pub count: u32,
    /// No way of cutting these strips needs fewer.
    pub bound: u32,
    /// In the order in which they are laid.
    pub strips: Vec<Strip>,
}

/// A strip at its place.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Strip {
    /// `house, south, course 3`.
    pub at: String,
    /// One for every plane that it lies on, not cut to the plane's outline.
    pub patches: Vec<Patch>,
    /// Along the roll, without end laps.
    pub length_in: f64,
    /// From its left end, or its foot.
    pub pieces: Vec<Piece>,
    /// Nails of edge metal, or what holds a sheet until units are laid.
    pub fasteners: u32,
    /// Edge metal that is laid over the underlayment.
    pub over_underlayment: bool,
}

/// A rectangle on a plane, in the plane's own frame; of edge metal a line.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Patch {
    /// The plane's id.
    pub plane: String,
    /// From and to across the slope.
    pub u_in: [f64; 2],
    /// From and to up the slope.
    pub v_in: [f64; 2],
    /// Its corners, counter-clockwise seen from above.
    pub corners_in: [[f64; 2]; 4],
}

/// A piece of a strip.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Piece {
    /// Which roll, counted from 0.
    pub roll: u32,
    /// Where on the strip it begins.
    pub from_in: f64,
    /// Cut length.
    pub length_in: f64,
}

/// Nails of one use and one sheet.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct NailNeed {
    /// `units and starters`, `caps`, `caps over the ridge vent` or `metal`.
    pub holds: &'static str,
    /// Id of the covering; empty for metal.
    pub sheet: String,
    /// What they pass above the deck, from the head down.
    pub passes: Vec<Passed>,
    /// Everything that they pass and what they must take of the deck.
    pub least_in: f64,
    /// So long that no point shows; absent where none may be seen, or the deck's thickness is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub most_in: Option<f64>,
    /// The shortest nail in steps of a quarter inch that is long enough.
    pub take_in: f64,
    /// The job's own nail, where it tells one for this use.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub given_in: Option<f64>,
}

/// A layer that a nail passes.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Passed {
    /// `caps`, `units`, `metal`, `underlayment` or `interlayment`.
    pub what: &'static str,
    /// How many layers lie there.
    pub layers: u32,
    /// All of them together, where the nail goes through.
    pub thickness_in: f64,
}

/// What lets the attic breathe. NFA is net free area.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Vents {
    /// Attic floor.
    pub floor_sqft: f64,
    /// NFA is the floor over this: 150 or 300.
    pub share: u32,
    /// Why this share.
    pub why: String,
    /// NFA in all.
    pub needed_sqin: f64,
    /// Of it in the upper part: least and most.
    pub upper_sqin: [f64; 2],
    /// Of it at the eaves.
    pub lower_sqin: f64,
    /// NFA that the ridges give.
    pub ridge_gives_sqin: f64,
    /// Every ridge that is vented.
    pub ridges: Vec<RidgeRun>,
    /// To be cut out of the deck at the ridge, in all.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub slot_in: Option<f64>,
    /// Soffit vent needed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub soffit_ft: Option<f64>,
    /// Eaves there are.
    pub eaves_ft: f64,
    /// What falls short and what to do.
    pub notes: Vec<String>,
}

/// A ridge with its vent.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct RidgeRun {
    /// Index in the roof's lines.
    pub line: usize,
    /// Where slot and vent begin, from the line's first end.
    pub from_in: f64,
    /// Where they end.
    pub to_in: f64,
    /// Laid from the first end on.
    pub sections: u32,
}

/// Something that the job does not tell.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Missing {
    /// What is not placed for it.
    pub what: String,
    /// What is missing.
    pub says: String,
    /// What to tell.
    pub remedy: String,
}
