//! The job file as it is typed. The JSON Schema is made from these types, so their comments explain every key.

use schemars::JsonSchema;
use serde::Deserialize;
use units::{LengthUnit, Measure, Pitch};

use super::opening::OpeningTable;

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
    pub block: Vec<BlockTable>,
    /// Chimneys, skylights, pipes and vents.
    #[serde(default)]
    pub opening: Vec<OpeningTable>,
    /// What the units are nailed to.
    pub deck: Option<DeckTable>,
    /// What the units are fastened with.
    pub fastener: Option<FastenerTable>,
    /// Where the house stands.
    pub site: Option<SiteTable>,
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
    /// Corners in plan, [x, y], either way round. +y is north unless the site says otherwise.
    pub outline: Vec<[Measure; 2]>,
    /// Courtyards.
    #[serde(default)]
    pub holes: Vec<HoleTable>,
    /// Height of the planes over the outline above the job's datum. Absent: 0.
    pub eave_height: Option<Measure>,
    /// One for each side: the first runs from the first corner to the second, the last from the last corner to the first.
    pub edges: Vec<EdgeTable>,
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

/// What happens along one side: exactly one of eave, gable and wall.
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
}

/// What a deck is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DeckKind {
    /// Plywood.
    Plywood,
    /// Oriented strand board.
    Osb,
    /// Boards laid close.
    Boards,
    /// Boards or battens with spaces between.
    SpacedBoards,
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
    /// Driven by hand or by gun.
    pub drive: Option<Drive>,
}

/// The shape of a fastener.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FastenerKind {
    /// Nail with a smooth shank.
    SmoothNail,
    /// Nail with a ringed shank.
    RingNail,
    /// Screw.
    Screw,
}

/// The metal of a fastener.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Metal {
    /// Copper.
    Copper,
    /// Bronze.
    Bronze,
    /// Stainless steel.
    StainlessSteel,
    /// Steel dipped in hot zinc.
    HotDipGalvanized,
    /// Aluminium.
    Aluminum,
}

/// How a fastener is driven.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Drive {
    /// By hammer.
    Hand,
    /// By nail gun.
    Gun,
}

/// Where the house stands.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SiteTable {
    /// Direction of north in plan, degrees clockwise from +y, -360 to 360. Absent: 0, +y is north.
    pub north_deg: Option<f64>,
}
