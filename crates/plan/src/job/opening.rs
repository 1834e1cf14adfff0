//! Chimneys, skylights, pipes and vents: as typed, and as meant.

use std::collections::BTreeSet;

use reader::quoted;
use roof::OpeningKind;
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Measure};

use super::resolve::{Desk, FARTHEST, coordinate};

/// No opening is smaller.
const SMALLEST: Length = Length::inches(0.5);
/// No opening is larger.
const LARGEST: Length = Length::feet(60.0);

/// A chimney, skylight, pipe or vent that is cut out of the roof. Its middle is placed either on a plane (`plane`, `up` and
/// `across`) or by a plan point (`at`).
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OpeningTable {
    /// Its name, unlike any other opening's: "kitchen chimney".
    pub name: String,
    /// What stands in it. A chimney wider than 30 in that does not stand at the ridge gets a cricket.
    pub kind: OpeningKindWord,
    /// Id of the plane that holds its middle, as the plan tells it: "house.0".
    pub plane: Option<String>,
    /// With `plane`: up the slope from the roof edge to its middle.
    pub up: Option<Measure>,
    /// With `plane`: across to its middle from the plane's left end, seen facing the plane from the ground.
    pub across: Option<Measure>,
    /// Plan point over its middle, [x, y], in the coordinates of the outlines; the highest plane there is meant.
    pub at: Option<[Measure; 2]>,
    /// Of a chimney, skylight or vent: level, across the slope, to the outside of what comes through the roof.
    pub width: Option<Measure>,
    /// Of a chimney, skylight or vent: up the slope. A chimney stands upright and is measured level, as seen in plan; a
    /// skylight and a vent are measured on the slope.
    pub height: Option<Measure>,
    /// Of a pipe: its outside diameter. Units are cut square round it.
    pub diameter: Option<Measure>,
}

/// What stands in an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum OpeningKindWord {
    /// Masonry or a framed chase, upright.
    Chimney,
    /// A window in the slope.
    Skylight,
    /// A round pipe, upright.
    Pipe,
    /// A roof vent, flat on the slope.
    Vent,
}

/// An opening as meant; whether it fits the roof is seen when there is one.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredOpening {
    /// Its name, unique in the job.
    pub name: String,
    /// What stands in it.
    pub kind: OpeningKind,
    /// How its middle was measured.
    pub spot: MeasuredSpot,
    /// Across the slope; of a pipe the diameter.
    pub width: Length,
    /// Up the slope: of a chimney and a pipe level, of the rest on the slope.
    pub height: Length,
}

/// How an opening's middle was measured.
#[derive(Debug, Clone, PartialEq)]
pub enum MeasuredSpot {
    /// On a plane.
    On {
        /// The plane's id as typed.
        plane: String,
        /// From the plane's left end.
        across: Length,
        /// Up the slope from the roof edge.
        up: Length,
    },
    /// By a plan point, inches.
    Over([f64; 2]),
}

/// Path in the job file of an opening: `opening[0]`.
#[must_use]
pub fn opening_path(index: usize) -> String {
    format!("opening[{index}]")
}

/// All that could be meant; each mistake is on the desk.
pub(super) fn openings(desk: &mut Desk, tables: &[OpeningTable]) -> Vec<MeasuredOpening> {
    let mut names = BTreeSet::new();
    let mut meant = Vec::new();
    for (index, table) in tables.iter().enumerate() {
        let path = opening_path(index);
        let name = table.name.trim();
        let named = format!("{path}.name");
        desk.expect(!name.is_empty(), &named, || "the opening has no name".into(), "Name it: \"kitchen chimney\".");
        let says = || format!("two openings are called {}", quoted(name));
        desk.expect(names.insert(name), &named, says, "Give each opening a name of its own.");
        meant.extend(opening(desk, table, &path));
    }
    meant
}

fn opening(desk: &mut Desk, table: &OpeningTable, path: &str) -> Option<MeasuredOpening> {
    let (spot, size) = (spot(desk, table, path), size(desk, table, path));
    let [width, height] = size?;
    let kind = match table.kind {
        OpeningKindWord::Chimney => OpeningKind::Chimney,
        OpeningKindWord::Skylight => OpeningKind::Skylight,
        OpeningKindWord::Pipe => OpeningKind::Pipe,
        OpeningKindWord::Vent => OpeningKind::Vent,
    };
    Some(MeasuredOpening { name: table.name.trim().into(), kind, spot: spot?, width, height })
}

fn spot(desk: &mut Desk, table: &OpeningTable, path: &str) -> Option<MeasuredSpot> {
    const ONE_OF: &str = "Write either plane = \"house.0\" with up and across, or at = [x, y].";
    match (&table.plane, table.up, table.across, table.at) {
        (Some(plane), Some(up), Some(across), None) => Some(MeasuredSpot::On {
            plane: plane.trim().into(),
            across: desk.length(&format!("{path}.across"), across, -FARTHEST, FARTHEST),
            up: desk.length(&format!("{path}.up"), up, -FARTHEST, FARTHEST),
        }),
        (None, None, None, Some(at)) => {
            let axes = [0, 1].map(|axis| coordinate(desk, at[axis], &format!("{path}.at[{axis}]")));
            Some(MeasuredSpot::Over(axes))
        }
        (None, None, None, None) => {
            desk.mistake(path, "this opening has no place", ONE_OF);
            None
        }
        (_, _, _, Some(_)) => {
            desk.mistake(&format!("{path}.at"), "this opening is placed in two ways", ONE_OF);
            None
        }
        _ => {
            desk.mistake(path, "a place on a plane takes plane, up and across", ONE_OF);
            None
        }
    }
}

/// Width and height.
fn size(desk: &mut Desk, table: &OpeningTable, path: &str) -> Option<[Length; 2]> {
    let mut length = |key: &str, value| desk.length(&format!("{path}.{key}"), value, SMALLEST, LARGEST);
    match (table.kind, table.width, table.height, table.diameter) {
        (OpeningKindWord::Pipe, None, None, Some(diameter)) => Some([length("diameter", diameter); 2]),
        (OpeningKindWord::Pipe, ..) => {
            desk.mistake(path, "a pipe has a diameter, and no width and height", "Write diameter = \"4 in\".");
            None
        }
        (_, Some(width), Some(height), None) => Some([length("width", width), length("height", height)]),
        _ => {
            let says = "this opening has a width and a height, and no diameter";
            desk.mistake(path, says, "Write width = \"24 in\", across the slope, and height = \"46 in\", up the slope.");
            None
        }
    }
}
