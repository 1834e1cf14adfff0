//! How a sheet lets its units be cut.

use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Measure};

use crate::SheetFile;
use crate::desk::Desk;

/// How field units may be cut. Always: the same face up, the same way up, and a made butt stays a made butt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CuttingRules {
    /// What cuts them.
    pub tool: CuttingTool,
    /// Lost between two pieces of one unit.
    pub kerf: Length,
    /// Where a side that is laid as the unit made it must be a made one, also in a piece from an offcut.
    pub made_sides: MadeSides,
    /// A narrower offcut is not worth keeping.
    pub least_offcut: Length,
    /// The unit is even from butt to head, so that a piece without a butt may come from any height of it.
    pub even: bool,
    /// An offcut may be turned head for tail: its head is as good as its butt.
    pub turned: bool,
}

/// What cuts units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum CuttingTool {
    /// A saw with a blade for the material.
    Saw,
    /// A scored line, then snapped.
    ScoreAndSnap,
    /// A slate cutter or shears.
    Cutter,
}

impl CuttingTool {
    /// `saw`, `score and snap`, `cutter`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Saw => "saw",
            Self::ScoreAndSnap => "score and snap",
            Self::Cutter => "cutter",
        }
    }
}

/// Where the sides of a piece must be made ones if they are laid so.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum MadeSides {
    /// Where a side meets a neighbour, and where it meets the sky.
    Everywhere,
    /// Only where no neighbour lies beside it: at a rake or a wall.
    Outside,
    /// A cut side is as good as a made one.
    #[default]
    Nowhere,
}

/// How field units may be cut, and what may be made of offcuts. Always: the same face up, the same way up, and where a butt
/// shows it is a made one.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CuttingGroup {
    /// What cuts them.
    pub tool: CuttingTool,
    /// Lost between two pieces of one unit; 0 where a scored line is snapped.
    pub kerf: Measure,
    /// Where a side that is laid as the unit made it must be a made one, also in a piece from an offcut.
    pub made_sides: MadeSides,
    /// A narrower offcut is not worth keeping.
    pub least_offcut: Measure,
    /// True where offcuts may be turned head for tail: only for units that do not taper and whose heads are as well made as
    /// their butts.
    #[serde(default)]
    pub turned: bool,
    /// Where this comes from.
    pub source: String,
}

pub(crate) fn cutting(desk: &mut Desk, sheet: &SheetFile, group: &CuttingGroup) -> CuttingRules {
    let says = || "a unit that thins to nothing at its head has no second butt there".to_string();
    desk.expect(!(group.turned && sheet.unit.tapered), "cutting.turned", says, "Write turned = false.");
    CuttingRules {
        tool: group.tool,
        kerf: desk.nil_or_more("cutting.kerf", group.kerf),
        made_sides: group.made_sides,
        least_offcut: desk.nil_or_more("cutting.least_offcut", group.least_offcut),
        even: !sheet.unit.tapered,
        turned: group.turned,
    }
}
