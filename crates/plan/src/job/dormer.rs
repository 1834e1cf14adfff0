//! Dormers: as typed, and as meant.

use std::collections::BTreeSet;

use reader::quoted;
use roof::{Dormer, DormerKind};
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Measure, Pitch};

use super::file::BlockTable;
use super::resolve::{Desk, FARTHEST};
use super::side::WIDEST_OVERHANG;

/// No dormer is narrower, and no front wall lower.
const SMALLEST: Length = Length::inches(1.0);
/// No dormer is larger.
const LARGEST: Length = Length::feet(200.0);

/// A dormer that stands on a plane. Its roof reaches back until it dies into the slope; its cheeks are measured as walls
/// and are no part of the roof's area.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DormerTable {
    /// Its name, unlike any other dormer's and any block's: "bath dormer".
    pub name: String,
    /// The shape of its roof.
    pub kind: DormerKindWord,
    /// Id of the plane on which it stands, as the plan tells it: "house.0", above a break "house.0/1".
    pub on: String,
    /// From the plane's left end to the dormer's middle, seen facing the plane from the ground.
    pub across: Measure,
    /// Up the slope from the roof edge to the front wall; above a break from the break line.
    pub up: Measure,
    /// Over the cheeks, from wall to wall.
    pub width: Measure,
    /// Height of the front wall from the slope to where the dormer's planes begin, its overhang left aside.
    pub wall_height: Measure,
    /// Of its planes. A shed dormer is less steep than the slope, or it never meets it.
    pub pitch: Pitch,
    /// Past the walls at its eaves, in plan. Absent is unknown, not zero.
    pub overhang: Option<Measure>,
    /// Past the walls at its rakes, in plan. Absent is unknown, not zero. A hip dormer has none.
    pub rake_overhang: Option<Measure>,
}

/// The shape of a dormer's roof.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DormerKindWord {
    /// Two planes and a gable in front.
    Gable,
    /// Three planes.
    Hip,
    /// One plane that falls to the front.
    Shed,
}

/// Path in the job file of a dormer: `dormer[0]`.
#[must_use]
pub fn dormer_path(index: usize) -> String {
    format!("dormer[{index}]")
}

/// The dormers as meant; each mistake is on the desk.
pub(super) fn dormers(desk: &mut Desk, tables: &[DormerTable], blocks: &[BlockTable]) -> Vec<Dormer> {
    let mut names: BTreeSet<&str> = blocks.iter().map(|block| block.name.trim()).collect();
    let mut meant = Vec::new();
    for (index, table) in tables.iter().enumerate() {
        let path = dormer_path(index);
        let name = table.name.trim();
        let named = format!("{path}.name");
        desk.expect(!name.is_empty(), &named, || "the dormer has no name".into(), "Name it: \"bath dormer\".");
        let says = || format!("another dormer or block is called {}", quoted(name));
        desk.expect(names.insert(name), &named, says, "Give each dormer a name of its own.");
        meant.push(dormer(desk, table, &path));
    }
    meant
}

fn dormer(desk: &mut Desk, table: &DormerTable, path: &str) -> Dormer {
    let is_hip = table.kind == DormerKindWord::Hip;
    let says = || "a hip dormer has no rakes".into();
    let rakes = is_hip && table.rake_overhang.is_some();
    desk.expect(!rakes, &format!("{path}.rake_overhang"), says, "Remove it, or write kind = \"gable\".");
    let mut length = |key: &str, value, least, most| desk.length(&format!("{path}.{key}"), value, least, most);
    Dormer {
        name: table.name.trim().into(),
        kind: match table.kind {
            DormerKindWord::Gable => DormerKind::Gable,
            DormerKindWord::Hip => DormerKind::Hip,
            DormerKindWord::Shed => DormerKind::Shed,
        },
        on: table.on.trim().into(),
        across: length("across", table.across, -FARTHEST, FARTHEST),
        up: length("up", table.up, Length::ZERO, FARTHEST),
        width: length("width", table.width, SMALLEST, LARGEST),
        wall_height: length("wall_height", table.wall_height, SMALLEST, LARGEST),
        pitch: table.pitch,
        overhang: table.overhang.map(|value| length("overhang", value, Length::ZERO, WIDEST_OVERHANG)),
        rake_overhang: table.rake_overhang.map(|value| length("rake_overhang", value, Length::ZERO, WIDEST_OVERHANG)),
    }
}
