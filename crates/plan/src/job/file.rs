//! The job file as it is typed. The JSON Schema is made from these types, so their comments explain every key.

use checks::{DeckKind, Drive, FastenerKind, Metal};
use covering::SheetFile;
use schemars::JsonSchema;
use serde::Deserialize;
use units::{LengthUnit, Measure, Pitch};

use super::attic::AtticTable;
use super::dormer::DormerTable;
use super::dry_in::{DeckJoints, DryInTable};
use super::laying::LayingTable;
use super::measured::PlaneTable;
use super::metal::{FlashingTable, MetalTable};
use super::opening::OpeningTable;
use super::order::OrderTable;
use super::pricing::PriceTable;
use super::setting_out::SettingOutTable;
use super::silence::SilenceTable;
use super::site::SiteTable;
use super::stage::StageTable;

/// A roof as measured, and what it is to be covered with.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JobFile {
    /// Version of the shape of the file: 1.
    pub format: u32,
    /// Name of the job, printed on every paper.
    pub name: String,
    /// The unit of bare lengths in this file.
    #[serde(default)]
    pub units: LengthUnit,
    /// What the roof is covered with.
    pub covering: CoveringTable,
    /// Roofed volumes; several make a house.
    #[serde(default)]
    pub block: Vec<BlockTable>,
    /// Dormers that stand on the planes of the blocks.
    #[serde(default)]
    pub dormer: Vec<DormerTable>,
    /// Chimneys, skylights, pipes and vents.
    #[serde(default)]
    pub opening: Vec<OpeningTable>,
    /// Planes measured one by one, by tape or by their corners.
    #[serde(default)]
    pub plane: Vec<PlaneTable>,
    /// How the courses are set out, where the sheet leaves it open.
    pub setting_out: Option<SettingOutTable>,
    /// What the units are nailed to.
    pub deck: Option<DeckTable>,
    /// What the units are fastened with.
    pub fastener: Option<FastenerTable>,
    /// Where the house stands.
    pub site: Option<SiteTable>,
    /// The day on which the units are laid.
    pub laying: Option<LayingTable>,
    /// Findings that somebody has looked at and accepts.
    #[serde(default)]
    pub silence: Vec<SilenceTable>,
    /// What is laid under the units, and how.
    pub dry_in: Option<DryInTable>,
    /// The sheet from which flashings and valleys are bent.
    pub metal: Option<MetalTable>,
    /// How flashings and valleys are bent, lapped and held.
    pub flashing: Option<FlashingTable>,
    /// The space under the roof that is to be vented.
    pub attic: Option<AtticTable>,
    /// What is ordered beyond the count, and when it comes.
    pub order: Option<OrderTable>,
    /// How units are staged on the roof.
    pub stage: Option<StageTable>,
    /// What is to be priced: rates and options.
    pub price: Option<PriceTable>,
    /// Covering sheets of your own, kept in this file. One with the id of a sheet that ships takes its place in this job.
    #[serde(default)]
    pub sheet: Vec<SheetFile>,
}

/// What the roof is covered with.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CoveringTable {
    /// Id of a sheet in the catalogue, or the path of a sheet of your own: "my-slate.toml".
    pub sheet: String,
}

/// One roofed volume: a closed outline with a pitch for every eave side.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BlockTable {
    /// Its name, unlike any other block's: "house", "porch".
    pub name: String,
    /// Whether the outline is the drip line (the roof's edges seen in plan) or the walls; at the walls each side's
    /// overhang pushes the roof edge outwards.
    #[serde(default)]
    pub outline_at: OutlineAtWord,
    /// Corners in plan, [x, y], either way round. +y is north unless the site says otherwise. Every block has an outline, or
    /// is a turret or a bay.
    #[serde(default)]
    pub outline: Vec<[Measure; 2]>,
    /// Instead of an outline: a regular polygon.
    pub turret: Option<TurretTable>,
    /// Instead of an outline: half a regular polygon against a wall.
    pub bay: Option<BayTable>,
    /// Courtyards.
    #[serde(default)]
    pub holes: Vec<HoleTable>,
    /// Height of the planes over the outline above the job's datum. Absent: 0.
    pub eave_height: Option<Measure>,
    /// One for each side: the first runs from the first corner to the second, the last from the last corner to the first.
    /// For a turret or a bay one may stand for all; a bay's wall is not counted.
    pub edges: Vec<EdgeTable>,
}

/// A regular polygon. Its first side faces down the plan, towards -y; the others follow counter-clockwise.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TurretTable {
    /// Its middle in plan, [x, y].
    pub center: [Measure; 2],
    /// How many sides: 3 to 24.
    pub sides: u32,
    /// From a side to the opposite one; for an odd number twice the distance from the middle to a side.
    pub across: Measure,
}

/// Half a regular polygon against a wall, a side in front.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BayTable {
    /// Where its outline leaves the wall, [x, y]. The bay stands out to the right of the way from here to `to`. The sides
    /// follow in that order.
    pub from: [Measure; 2],
    /// Where its outline comes back to the wall, [x, y].
    pub to: [Measure; 2],
    /// Sides of the whole polygon, an even number from 4 to 24. Of 6 the half has three sides and corners at the wall; of 8
    /// it has five, of which the outer two are half as long and stand square to the wall.
    pub sides: u32,
}

/// A courtyard.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HoleTable {
    /// Corners in plan, [x, y], either way round.
    pub outline: Vec<[Measure; 2]>,
    /// As for a block.
    pub edges: Vec<EdgeTable>,
}

/// Which line was measured.
#[derive(Debug, Clone, Copy, Default, Deserialize, JsonSchema)]
pub enum OutlineAtWord {
    /// The roof's edges seen in plan.
    #[default]
    #[serde(rename = "drip line")]
    DripLine,
    /// The walls.
    #[serde(rename = "walls")]
    Walls,
}

impl serde::Serialize for OutlineAtWord {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(match self {
            Self::DripLine => "drip line",
            Self::Walls => "walls",
        })
    }
}

/// What happens along one side: exactly one of eave, gable and wall, and what changes further up.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EdgeTable {
    /// A roof plane rises from this side at this pitch.
    pub eave: Option<Pitch>,
    /// true: a vertical end with a rake; no plane rises from here.
    pub gable: Option<bool>,
    /// true: like a gable, but it stands against another block's wall; it has no overhang.
    pub wall: Option<bool>,
    /// How far the roof edge stands out past the wall, in plan. Absent is unknown, not zero.
    pub overhang: Option<Measure>,
    /// Of an eave that lies higher or lower than the block's, as on a saltbox: height of its plane over the outline, above
    /// the job's datum. Absent: the block's.
    pub eave_height: Option<Measure>,
    /// Of an eave: where the pitch changes further up, from the lowest to the highest. A gambrel and a mansard get less
    /// steep, a bell-cast eave gets steeper.
    #[serde(default)]
    pub breaks: Vec<BreakTable>,
    /// Of an eave: the hip ends at this height and a small gable stands on it (gablet). Measured as a break's rise.
    pub gable_from: Option<Measure>,
    /// Of a gable: it ends at this height and a hip begins (half hip), at the pitch of `pitch`. Measured as a break's rise.
    pub hip_from: Option<Measure>,
    /// With `hip_from`: the pitch of the hip.
    pub pitch: Option<Pitch>,
}

/// Where the pitch of a side changes.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BreakTable {
    /// Height above the eave height of this side; an overhang does not move it.
    pub rise: Measure,
    /// From here up.
    pub pitch: Pitch,
}

/// What the units are nailed to.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DeckTable {
    /// What it is made of.
    pub kind: Option<DeckKind>,
    /// Its thickness.
    pub thickness: Option<Measure>,
    /// Whether its underside is seen from below at the eaves, so that no nail point may show.
    pub exposed_soffit: Option<bool>,
    /// Of spaced boards: from the middle of one to the next, up the slope.
    pub board_centers: Option<Measure>,
    /// Specific gravity of its wood, such as 0.50.
    pub gravity: Option<f64>,
    /// Weight of covering that the framing was designed for, pounds a square foot of slope.
    pub covering_load_psf: Option<f64>,
    /// Snow that the framing was designed for, pounds a square foot of plan.
    pub snow_load_psf: Option<f64>,
    /// Live load that the framing was designed for, pounds a square foot of plan: people, tools and piles while the roof is
    /// laid.
    pub live_load_psf: Option<f64>,
    /// Weight of the old covering that comes off, pounds a square foot of slope.
    pub old_psf: Option<f64>,
    /// How joints between its sheets are held.
    pub joints: Option<DeckJoints>,
    /// Old coverings that lie on it and come off.
    pub old_layers: Option<u32>,
    /// Whether it was found flat.
    pub flat: Option<bool>,
    /// Whether it was found sound.
    pub sound: Option<bool>,
    /// Whether it was found dry.
    pub dry: Option<bool>,
    /// Whether water was seen to run off everywhere.
    pub drains: Option<bool>,
}

/// What the units are fastened with.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FastenerTable {
    /// Its shape.
    pub kind: Option<FastenerKind>,
    /// Its metal.
    pub metal: Option<Metal>,
    /// From under the head to the point.
    pub length: Option<Measure>,
    /// Diameter of the shank.
    pub shank: Option<Measure>,
    /// How many weigh a pound, as the box tells. Absent: nails are ordered without a weight.
    pub per_lb: Option<f64>,
    /// Driven by hand or by gun.
    pub drive: Option<Drive>,
}
