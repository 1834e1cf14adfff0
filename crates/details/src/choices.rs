use units::{Area, Length, Temperature};

use crate::{Edition, Roll, SheetMetal};

/// Where the house stands; what was not told is unknown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Climate {
    /// Mean temperature of the winter, which is that of January.
    pub winter: Option<Temperature>,
    /// The place asks for an ice barrier, or does not, whatever the temperature.
    pub ice_barrier: Option<bool>,
    /// The residential code that is adopted.
    pub code: Option<Edition>,
    /// Climate zone of the energy code, 1 to 8.
    pub zone: Option<u32>,
}

/// What the roof is laid on; what was not told is unknown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Deck {
    /// Printed kind, `plywood`.
    pub kind: Option<&'static str>,
    /// Its thickness.
    pub thickness: Option<Length>,
    /// How joints of the sheets between rafters are held: `framing`, `blocking`, `clips`.
    pub joints: Option<&'static str>,
    /// Old coverings that lie on it.
    pub old_layers: Option<u32>,
    /// It was found flat.
    pub flat: Option<bool>,
    /// It was found sound.
    pub sound: Option<bool>,
    /// It was found dry.
    pub dry: Option<bool>,
    /// Water was seen to run off everywhere.
    pub drains: Option<bool>,
}

/// What is laid under the units, and how.
#[derive(Debug, Clone, PartialEq)]
pub struct DryInChoices {
    /// Roll of the ice barrier.
    pub ice_barrier: Roll,
    /// How far the barrier reaches past the wall, level.
    pub past_wall: Length,
    /// From which face of the wall it is measured; unknown: the longer.
    pub wall_face: Option<WallFace>,
    /// Thickness of the outside walls.
    pub wall_thickness: Option<Length>,
    /// Overhang of eaves for which none is known.
    pub overhang: Option<Length>,
    /// A width of barrier centred on every valley; unknown: where the site asks for a barrier.
    pub at_valleys: Option<bool>,
    /// A width along every rake; unknown: as for valleys.
    pub at_rakes: Option<bool>,
    /// A width round every opening; unknown: as for valleys.
    pub round_openings: Option<bool>,
    /// How far the underlayment laps over the barrier.
    pub over_barrier: Length,
    /// Least distance between end laps of neighbouring courses.
    pub end_lap_offset: Length,
    /// How far courses are carried over hips, ridges, valleys and breaks onto the next plane, and up walls.
    pub carried_over: Length,
    /// Roll of the interlayment between shakes.
    pub interlayment: Roll,
    /// Length of drip edge; its width is nil.
    pub drip_edge: Roll,
    /// Nails along drip edge are so far apart at most.
    pub drip_edge_nails: Length,
    /// Drip edge of eaves is laid over the underlayment.
    pub drip_edge_over_at_eaves: bool,
    /// Drip edge of rakes is laid over the underlayment.
    pub drip_edge_over_at_rakes: bool,
    /// Of the drip edge; unknown where it was not told.
    pub drip_edge_metal: Option<SheetMetal>,
    /// Of one layer of underlayment or interlayment.
    pub thickness: Length,
    /// Fasteners of the underlayment.
    pub fasteners: FastenerGrid,
}

/// A face of the outside wall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WallFace {
    /// Towards the weather.
    Outer,
    /// Towards the room.
    Inner,
}

/// Where fasteners of the underlayment go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FastenerGrid {
    /// Apart along side and end laps.
    pub at_laps: Length,
    /// Apart in the field between, both ways.
    pub in_field: Length,
    /// Sold in one box.
    pub box_count: u32,
}

/// The attic and its vents.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Attic {
    /// Of its floor; unknown: inside the wall lines.
    pub area: Option<Area>,
    /// A class I or II vapour retarder lies on the warm-in-winter side of the ceiling.
    pub vapor_retarder: Option<bool>,
    /// Vents are shared between ridge and eaves as the edition asks.
    pub balanced: Option<bool>,
    /// The vent along the ridge.
    pub ridge_vent: Option<RidgeVent>,
    /// The vent along the soffit.
    pub soffit_vent: Option<SoffitVent>,
}

/// A vent along the ridge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RidgeVent {
    /// NFA of a foot.
    pub nfa_per_foot: Area,
    /// Of one section.
    pub section: Length,
    /// Kept closed at each end of a ridge.
    pub end: Length,
    /// What stands at the peak.
    pub framing: Option<Framing>,
}

/// What stands at the peak.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Framing {
    /// Rafters against a board of this thickness.
    RidgeBoard(Length),
    /// Trusses, which leave the peak open.
    Truss,
}

/// A vent along the soffit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoffitVent {
    /// NFA of a foot.
    pub nfa_per_foot: Area,
}
