use schemars::JsonSchema;
use serde::Deserialize;
use units::{LengthUnit, Measure, Pitch};

use crate::conditions::{ChalkGroup, MovementGroup, StorageGroup, TemperaturesGroup, TestedGroup, Wood};
use crate::{BondGroup, CuttingGroup, Lap, Material, RidgeMetalGroup};

/// The data sheet of one covering as it is typed. Copy a generic one and type in the maker's figures; the maker's own
/// sheet always rules.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SheetFile {
    /// Version of the shape of the file: 1.
    pub format: u32,
    /// Short name for job files: small letters, digits and hyphens.
    pub id: String,
    /// Printed name.
    pub name: String,
    /// The unit of bare lengths in this file.
    #[serde(default = "inches")]
    pub units: LengthUnit,
    /// True where the figures are invented and stand for no product; every paper then says so.
    pub invented: bool,
    /// The field unit.
    pub unit: UnitGroup,
    /// A wider unit of the same length, from which pieces are cut where a field unit leaves a sliver.
    pub wide: Option<WideGroup>,
    /// How units lie over each other and beside each other.
    pub lap: LapGroup,
    /// Other bonds than the lap's own, random widths, staggered butts, graduated lengths. Absent: none of these.
    pub bond: Option<BondGroup>,
    /// What is allowed by pitch: one for each band, from the lowest pitch up, without gaps between them.
    pub exposure: Vec<ExposureGroup>,
    /// How far units reach past the roof's edges and stay off its lines, on the surface, square to the edge.
    pub edges: EdgesGroup,
    /// The course under the first.
    pub starter: StarterGroup,
    /// The unit that covers hips and ridges.
    pub cap: CapGroup,
    /// Metal that covers ridges or hips instead of caps. Absent: caps do.
    pub ridge_metal: Option<RidgeMetalGroup>,
    /// Nails of field units.
    pub nails: NailsGroup,
    /// The roll laid over the whole deck.
    pub underlayment: UnderlaymentGroup,
    /// How field units are packed.
    pub pack: PackGroup,
    /// Of wood: how it was made.
    pub wood: Option<Wood>,
    /// How a unit moves with warmth.
    pub movement: Option<MovementGroup>,
    /// When units may be stored and laid.
    pub temperatures: Option<TemperaturesGroup>,
    /// By what the covering was tested.
    pub tested: Option<TestedGroup>,
    /// Chalk for lines on the units.
    pub chalk: Option<ChalkGroup>,
    /// How units are stored and stacked.
    pub storage: Option<StorageGroup>,
    /// How field units may be cut. Absent: nothing is made of offcuts, as the sheet does not say how.
    pub cutting: Option<CuttingGroup>,
}

fn inches() -> LengthUnit {
    LengthUnit::In
}

/// The field unit.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnitGroup {
    /// What it is made of.
    pub material: Material,
    /// Up the slope, from butt to head.
    pub length: Measure,
    /// Along the course.
    pub width: Measure,
    /// At the butt.
    pub thickness: Measure,
    /// True where the unit thins to nothing at its head.
    #[serde(default)]
    pub tapered: bool,
    /// Exposures marked on the unit itself.
    #[serde(default)]
    pub marks: Vec<Measure>,
    /// Of one unit, pounds.
    pub weight_lb: f64,
    /// Where these figures come from.
    pub source: String,
}

/// A wider unit of the same length: a slate and a half, a tile and a half.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WideGroup {
    /// Along the course, more than the field unit's.
    pub width: Measure,
    /// Of one, pounds.
    pub weight_lb: f64,
    /// How many in one pack.
    pub pack: u32,
    /// Where these figures come from.
    pub source: String,
}

/// How units lie over each other and beside each other.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LapGroup {
    /// The lap rule.
    pub rule: Lap,
    /// Space left between neighbours for movement.
    pub gap: Measure,
    /// Least distance along the course from a joint to the nearest joint of the course below.
    pub joint_offset: Measure,
    /// A cut piece narrower than this at its widest is too small to fasten and to last.
    pub least_piece: Measure,
    /// Below this pitch the unit itself must not lie: lapped over the one below, it lies flatter than its deck.
    pub least_true_pitch: Option<Pitch>,
    /// Where these figures come from.
    pub source: String,
}

/// What is allowed from one pitch up to the next band.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExposureGroup {
    /// Lowest pitch of the band; it belongs to the band.
    pub from_pitch: Pitch,
    /// Pitch at which the band ends; it belongs to the next band. Absent in the last band: up to any pitch.
    pub to_pitch: Option<Pitch>,
    /// Least exposure: a preference.
    pub least: Measure,
    /// Greatest exposure: a limit.
    pub greatest: Measure,
    /// Least headlap: length less twice the exposure, or three times at triple lap.
    pub headlap: Measure,
    /// Where these figures come from.
    pub source: String,
}

/// Edges of the roof.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EdgesGroup {
    /// Past the drip line at eaves.
    pub eave_projection: Measure,
    /// Past the rake.
    pub rake_projection: Measure,
    /// Least clear distance off walls.
    pub off_walls: Measure,
    /// Clear width of an open valley at its top, both sides together; 0 for a closed one. Absent: 4 in.
    pub valley_clear: Option<Measure>,
    /// How much wider an open valley is 8 ft further down. Absent: 1 in.
    pub valley_growth: Option<Measure>,
    /// How far units lie over the metal of an open valley. Absent: 4 in.
    pub valley_flange: Option<Measure>,
    /// Least distance of a nail from the metal of a valley. Absent: 0.
    pub valley_nails_off: Option<Measure>,
    /// How far the metal of a high edge covers the units.
    pub high_edge_metal: Measure,
    /// The leg of an apron flashing over the units below a wall.
    pub apron_leg: Measure,
    /// Width of the vent slot at a ridge, both sides together; 0 where none is cut.
    pub ridge_slot: Measure,
    /// True where a unit narrowed at a rake keeps its made side outside and turns its cut side to the neighbour.
    #[serde(default)]
    pub made_at_rakes: bool,
    /// Where these figures come from.
    pub source: String,
}

/// The course under the first.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StarterGroup {
    /// From butt to head of a piece of its own. Absent: cut to first exposure + headlap.
    pub height: Option<Measure>,
    /// Along the course.
    pub width: Measure,
    /// Least distance between its joints and the first course's.
    pub joint_offset: Measure,
    /// How many layers lie under the first course. Absent: one, or two at triple lap, so that the first course too lies
    /// over two layers.
    pub layers: Option<u32>,
    /// Nails in each.
    pub nails: u32,
    /// Of one starter, pounds.
    pub weight_lb: f64,
    /// Starters in one pack.
    pub pack: u32,
    /// Where these figures come from.
    pub source: String,
}

/// The unit that covers hips and ridges.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CapGroup {
    /// Along the line.
    pub length: Measure,
    /// Greatest exposure along the line.
    pub exposure: Measure,
    /// How far it reaches down the plane each side of the line, on the surface.
    pub cover: Measure,
    /// The same at hips. Absent: as at ridges.
    pub hip_cover: Option<Measure>,
    /// Nails in each, both sides together.
    pub nails: u32,
    /// Of one cap, pounds.
    pub weight_lb: f64,
    /// Caps in one pack.
    pub pack: u32,
    /// Where these figures come from.
    pub source: String,
}

/// Nails of field units.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct NailsGroup {
    /// In each unit.
    pub each: u32,
    /// Into the deck, or through it.
    pub penetration: Measure,
    /// How many thicknesses of unit the nail passes.
    pub through_units: u32,
    /// Nails in one box.
    pub box_count: u32,
    /// With `up`: where the nails go, from each side of the unit.
    pub side: Option<Measure>,
    /// With `side`: where the nails go, up from the butt.
    pub up: Option<Measure>,
    /// Least distance along the course from a nail to a joint of the course above.
    pub off_joint: Option<Measure>,
    /// Where these figures come from.
    pub source: String,
}

/// The roll laid over the whole deck.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnderlaymentGroup {
    /// Printed name.
    pub name: String,
    /// Of the roll.
    pub width: Measure,
    /// Of the roll.
    pub length: Measure,
    /// Over the strip below.
    pub top_lap: Measure,
    /// At a roll's end.
    pub end_lap: Measure,
    /// Below this pitch two layers are laid. Absent: always one.
    pub double_below: Option<Pitch>,
    /// Of one roll, pounds.
    pub weight_lb: f64,
    /// Where these figures come from.
    pub source: String,
}

/// How field units are packed.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PackGroup {
    /// Units in one pack.
    pub count: u32,
    /// Percent of the units that break in handling and cutting, 0 to 50. Absent: an invented figure stands for it, and the
    /// order says so.
    pub breakage_percent: Option<f64>,
    /// Where this comes from.
    pub source: String,
}
