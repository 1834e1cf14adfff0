//! Planes measured one by one: as typed, and from that to what is meant.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use reader::{nearest, quoted};
use roof::{EdgeKind, EdgeName, MeasuredPlane, Meeting, Point3, Taken, Tape};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;
use serde::de::{self, Deserializer, Visitor};
use units::{Length, Measure, Pitch};

use super::plane_path;
use super::resolve::{Desk, FARTHEST, MOST_CORNERS, coordinate};

/// No taped line is shorter.
const SHORTEST: Length = Length::inches(1.0);

/// A plane measured by itself: by tape on the roof (pitch, eave, top, both rakes, both diagonals), or by its corners in
/// space. Right and left are those of someone who faces the plane from the ground.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlaneTable {
    /// Its name, unlike any other plane's: "south", "dormer-left".
    pub name: String,
    /// Its pitch, square to the eave. By tape only; corners tell it.
    pub pitch: Option<Pitch>,
    /// The compass direction the water runs to: a wind ("south", "northeast") or degrees clockwise from north. By tape only;
    /// absent is unknown.
    pub facing: Option<Facing>,
    /// Tape along the eave.
    pub eave: Option<Measure>,
    /// Tape along the upper edge; 0 for a triangle.
    pub top: Option<Measure>,
    /// Tape up the left side, whatever it is: rake, hip, valley or wall.
    pub left_rake: Option<Measure>,
    /// Tape up the right side.
    pub right_rake: Option<Measure>,
    /// Tape from the lower left to the upper right corner. One diagonal fixes the plane, both check it.
    pub diagonal_left: Option<Measure>,
    /// Tape from the lower right to the upper left corner.
    pub diagonal_right: Option<Measure>,
    /// Where no diagonal could be taped: how far to the right of the eave's left end the upper left corner stands, along the
    /// eave; below 0 if to the left.
    pub left_offset: Option<Measure>,
    /// Three corners or more in space, [x, y, height], in order, either way round, instead of tapes.
    pub corners: Option<Vec<[Measure; 3]>>,
    /// What is cut out of a plane given by corners: a list of lists of corners.
    #[serde(default)]
    pub holes: Vec<Vec<[Measure; 3]>>,
    /// What its edges are. By tape: left and right (rake unless told: hip, valley, sidewall), top (ridge unless told:
    /// headwall, high edge, break), eave (unless told: break, valley, dead valley). By corners: the edge that leaves corner
    /// 2 is "2"; most follow from the corners, walls do not.
    #[serde(default)]
    pub edges: BTreeMap<String, EdgeWord>,
    /// Edges that are the same line as another measured plane's, counted once: right = "south-2.left".
    #[serde(default)]
    pub meets: BTreeMap<String, String>,
}

/// The trade's word for an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum EdgeWord {
    /// Level free edge at the low side.
    Eave,
    /// Sloping free edge.
    Rake,
    /// Level and convex.
    Ridge,
    /// Sloped and convex.
    Hip,
    /// Concave.
    Valley,
    /// A wall along the slope.
    Sidewall,
    /// A wall at the top.
    Headwall,
    /// Level change of pitch.
    Break,
    /// Level free edge at the high side.
    #[serde(rename = "high edge")]
    HighEdge,
    /// Level line where the plane falls towards a wall.
    #[serde(rename = "dead valley")]
    DeadValley,
}

impl EdgeWord {
    const fn kind(self) -> EdgeKind {
        match self {
            Self::Eave => EdgeKind::Eave,
            Self::Rake => EdgeKind::Rake,
            Self::Ridge => EdgeKind::Ridge,
            Self::Hip => EdgeKind::Hip,
            Self::Valley => EdgeKind::Valley,
            Self::Sidewall => EdgeKind::Sidewall,
            Self::Headwall => EdgeKind::Headwall,
            Self::Break => EdgeKind::Break,
            Self::HighEdge => EdgeKind::HighEdge,
            Self::DeadValley => EdgeKind::DeadValley,
        }
    }
}

/// A compass direction: degrees clockwise from north.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Facing(f64);

const WINDS: [&str; 8] = ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];

struct FacingVisitor;

impl Visitor<'_> for FacingVisitor {
    type Value = Facing;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a wind such as \"south\" or \"northeast\", or degrees clockwise from north, -360 to 360")
    }

    fn visit_f64<E: de::Error>(self, degrees: f64) -> Result<Facing, E> {
        let sound = (-360.0..=360.0).contains(&degrees);
        if sound { Ok(Facing(degrees)) } else { Err(E::custom("no direction from -360 to 360 degrees")) }
    }

    fn visit_i64<E: de::Error>(self, degrees: i64) -> Result<Facing, E> {
        self.visit_f64(degrees as f64)
    }

    fn visit_u64<E: de::Error>(self, degrees: u64) -> Result<Facing, E> {
        self.visit_f64(degrees as f64)
    }

    fn visit_str<E: de::Error>(self, word: &str) -> Result<Facing, E> {
        let wind = WINDS.iter().position(|&wind| wind == word.trim().to_lowercase());
        wind.map(|eighths| Facing(45.0 * eighths as f64)).ok_or_else(|| E::custom("not one of the eight winds"))
    }
}

impl<'de> Deserialize<'de> for Facing {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(FacingVisitor)
    }
}

impl JsonSchema for Facing {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Facing".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "One of the eight winds (\"south\", \"northeast\") or degrees clockwise from north.",
            "oneOf": [{ "enum": WINDS }, { "type": "number", "minimum": -360, "maximum": 360 }]
        })
    }
}

/// A plane by tape that still lacks a measure: nothing can be made of it, and the rest of the job can be planned.
#[derive(Debug, Clone, PartialEq)]
pub struct UnfinishedPlane {
    /// Which of the file's planes.
    pub index: usize,
    /// As in the file.
    pub name: String,
    /// Its pitch, if told.
    pub pitch: Option<Pitch>,
    /// Keys of the five measures without which there is no plane, save the pitch, with what was taped.
    pub needed: [(&'static str, Option<Length>); 4],
}

impl UnfinishedPlane {
    /// Keys of what is missing, in the order of the file's description.
    #[must_use]
    pub fn lacks(&self) -> Vec<&'static str> {
        let tapes = self.needed.iter().filter(|(_, tape)| tape.is_none()).map(|&(key, _)| key);
        self.pitch.is_none().then_some("pitch").into_iter().chain(tapes).collect()
    }
}

pub(super) fn planes(desk: &mut Desk, tables: &[PlaneTable]) -> Vec<MeasuredPlane> {
    names_differ(desk, tables);
    tables.iter().enumerate().filter_map(|(index, table)| plane(desk, table, &plane_path(index))).collect()
}

/// Planes of which [`planes`] can make nothing yet.
pub(super) fn unfinished(desk: &mut Desk, tables: &[PlaneTable]) -> Vec<UnfinishedPlane> {
    let begun = tables.iter().enumerate().filter(|(_, table)| table.corners.is_none() && lacks_a_measure(table));
    let unfinished = begun.map(|(index, table)| {
        let mut tape = |(key, value): (&'static str, Option<Measure>)| {
            let least = if key == "top" { Length::ZERO } else { SHORTEST };
            (key, value.map(|value| desk.length(&format!("{}.{key}", plane_path(index)), value, least, FARTHEST)))
        };
        let [eave, top, left, right, ..] = tapes(table);
        let needed = [tape(eave), tape(top), tape(left), tape(right)];
        UnfinishedPlane { index, name: table.name.trim().into(), pitch: table.pitch, needed }
    });
    unfinished.collect()
}

fn lacks_a_measure(table: &PlaneTable) -> bool {
    table.pitch.is_none() || [table.eave, table.top, table.left_rake, table.right_rake].contains(&None)
}

fn names_differ(desk: &mut Desk, tables: &[PlaneTable]) {
    let mut names = BTreeSet::new();
    for (index, table) in tables.iter().enumerate() {
        let path = format!("{}.name", plane_path(index));
        let name = table.name.trim();
        desk.expect(!name.is_empty(), &path, || "the plane has no name".into(), "Name it: \"south\", \"dormer-left\".");
        let says = || format!("two planes are called {}", quoted(name));
        desk.expect(names.insert(name), &path, says, "Give each plane a name of its own.");
    }
}

fn plane(desk: &mut Desk, table: &PlaneTable, path: &str) -> Option<MeasuredPlane> {
    let taken = match &table.corners {
        Some(corners) => by_corners(desk, table, corners, path),
        None => Taken::ByTape(by_tape(desk, table, path)?),
    };
    let edges = Edges::of(&taken);
    let kinds = table.edges.iter().filter_map(|(key, word)| edges.kind(desk, key, word.kind(), path));
    let kinds = kinds.collect();
    let meets = table.meets.iter().filter_map(|(key, to)| edges.meeting(desk, key, to, path)).collect();
    Some(MeasuredPlane { name: table.name.trim().into(), taken, kinds, meets })
}

/// Keys of a plane by tape with what stands in the file.
fn tapes(table: &PlaneTable) -> [(&'static str, Option<Measure>); 7] {
    [
        ("eave", table.eave),
        ("top", table.top),
        ("left_rake", table.left_rake),
        ("right_rake", table.right_rake),
        ("diagonal_left", table.diagonal_left),
        ("diagonal_right", table.diagonal_right),
        ("left_offset", table.left_offset),
    ]
}

fn by_corners(desk: &mut Desk, table: &PlaneTable, corners: &[[Measure; 3]], path: &str) -> Taken {
    let mut taped: Vec<&str> = tapes(table).iter().filter(|(_, tape)| tape.is_some()).map(|&(key, _)| key).collect();
    taped.extend(table.pitch.map(|_| "pitch"));
    taped.extend(table.facing.map(|_| "facing"));
    for key in taped {
        let says = format!("{key} and corners tell the same thing");
        desk.mistake(&format!("{path}.{key}"), says, "Give a plane by its corners or by its tapes, not by both.");
    }
    let outer = ring(desk, corners, &format!("{path}.corners"));
    let holes = table.holes.iter().enumerate();
    let holes = holes.map(|(index, hole)| ring(desk, hole, &format!("{path}.holes[{index}]"))).collect();
    Taken::ByCorners { outer, holes }
}

fn ring(desk: &mut Desk, corners: &[[Measure; 3]], path: &str) -> Vec<Point3> {
    let count = corners.len();
    let says = || format!("{count} corners, where 3 is the least and {MOST_CORNERS} the most");
    let remedy = "List every corner once, [x, y, height], all the way round.";
    desk.expect((3..=MOST_CORNERS).contains(&count), path, says, remedy);
    let mut at = |corner: usize, axis: usize, value| coordinate(desk, value, &format!("{path}[{corner}][{axis}]"));
    corners.iter().enumerate().map(|(corner, &[x, y, z])| [at(corner, 0, x), at(corner, 1, y), at(corner, 2, z)]).collect()
}

/// `None` if a tape that must be there is not: the plane is [`unfinished`].
fn by_tape(desk: &mut Desk, table: &PlaneTable, path: &str) -> Option<Tape> {
    let says = || "only a plane given by corners has holes".into();
    let remedy = "Take the holes out, or give the plane by its corners.";
    desk.expect(table.holes.is_empty(), &format!("{path}.holes"), says, remedy);
    let tape = |desk: &mut Desk, key: &str, value: Measure, least: Length| {
        desk.length(&format!("{path}.{key}"), value, least, FARTHEST).to_inches()
    };
    let top = tape(desk, "top", table.top?, Length::ZERO);
    let says = || format!("a top of {} is none", Length::inches(top));
    desk.expect(top <= 0.0 || top >= 1.0, &format!("{path}.top"), says, "Write top = 0 for a triangle.");
    one_thing_once(desk, table, is_triangle(top), path);
    Some(Tape {
        pitch: table.pitch?,
        facing_deg: table.facing.map(|Facing(degrees)| degrees),
        eave: tape(desk, "eave", table.eave?, SHORTEST),
        top,
        left_rake: tape(desk, "left_rake", table.left_rake?, SHORTEST),
        right_rake: tape(desk, "right_rake", table.right_rake?, SHORTEST),
        diagonal_left: table.diagonal_left.map(|value| tape(desk, "diagonal_left", value, SHORTEST)),
        diagonal_right: table.diagonal_right.map(|value| tape(desk, "diagonal_right", value, SHORTEST)),
        left_offset: table.left_offset.map(|value| tape(desk, "left_offset", value, -FARTHEST)),
    })
}

fn is_triangle(top: f64) -> bool {
    top.abs() <= 0.0
}

/// What is known already must not be told again in another way.
fn one_thing_once(desk: &mut Desk, table: &PlaneTable, is_triangle: bool, path: &str) {
    let diagonals = [("diagonal_left", table.diagonal_left), ("diagonal_right", table.diagonal_right)];
    let is_braced = diagonals.iter().any(|(_, tape)| tape.is_some());
    for (key, _) in diagonals.iter().filter(|(_, tape)| tape.is_some() && is_triangle) {
        desk.mistake(&format!("{path}.{key}"), "a triangle has no diagonals", "Remove it; its three sides are enough.");
    }
    if table.left_offset.is_some() && (is_braced || is_triangle) {
        let says = if is_braced { "a diagonal tells already how the plane stands" } else { "a triangle needs no offset" };
        desk.mistake(&format!("{path}.left_offset"), says, "Remove the offset.");
    }
}

/// The edges that a plane has.
struct Edges {
    /// Of a plane by corners.
    corners: Option<usize>,
    has_top: bool,
}

impl Edges {
    fn of(taken: &Taken) -> Self {
        match taken {
            Taken::ByTape(tape) => Self { corners: None, has_top: !is_triangle(tape.top) },
            Taken::ByCorners { outer, .. } => Self { corners: Some(outer.len()), has_top: false },
        }
    }

    fn name(&self, key: &str) -> Option<EdgeName> {
        let is_own = |name: &EdgeName| match (*name, self.corners) {
            (EdgeName::From(corner), Some(count)) => corner < count,
            (EdgeName::From(_), None) | (_, Some(_)) => false,
            (EdgeName::Top, None) => self.has_top,
            (_, None) => true,
        };
        edge_name(key).filter(is_own)
    }

    fn own(&self, desk: &mut Desk, key: &str, path: &str) -> Option<EdgeName> {
        let found = self.name(key);
        if found.is_none() {
            let remedy = match (self.corners, self.has_top) {
                (Some(count), _) => format!("Its edges are \"0\" to \"{}\", by the corner they leave.", count.max(1) - 1),
                (None, true) => "Its edges are eave, right, top and left.".into(),
                (None, false) => "Its edges are eave, right and left.".into(),
            };
            desk.mistake(path, format!("this plane has no edge {}", quoted(key)), &remedy);
        }
        found
    }

    fn kind(&self, desk: &mut Desk, key: &str, kind: EdgeKind, path: &str) -> Option<(EdgeName, EdgeKind)> {
        let path = format!("{path}.edges.{key}");
        let name = self.own(desk, key, &path)?;
        let possible = possible(name);
        let says = || format!("no {} is a {}", place(name), kind.name());
        let words: Vec<&str> = possible.iter().map(|kind| kind.name()).collect();
        desk.expect(possible.contains(&kind), &path, says, &format!("It is one of {}.", words.join(", ")));
        Some((name, kind))
    }

    fn meeting(&self, desk: &mut Desk, key: &str, to: &str, path: &str) -> Option<(EdgeName, Meeting)> {
        let path = format!("{path}.meets.{key}");
        let name = self.own(desk, key, &path)?;
        let found = to.rsplit_once('.').and_then(|(plane, edge)| Some((plane.trim(), edge_name(edge)?)));
        let Some((plane, edge)) = found else {
            let edge = to.rsplit_once('.').and_then(|(plane, edge)| Some((plane, nearest(edge, EDGES)?)));
            let remedy = match edge {
                Some((plane, edge)) => format!("Did you mean {}?", quoted(&format!("{plane}.{edge}"))),
                None => "Write the other plane's name, a dot, and its edge: \"south-2.left\".".into(),
            };
            desk.mistake(&path, format!("{} names no edge of a plane", quoted(to)), &remedy);
            return None;
        };
        Some((name, Meeting { plane: plane.into(), edge }))
    }
}

const EDGES: [&str; 4] = ["eave", "right", "top", "left"];

fn edge_name(key: &str) -> Option<EdgeName> {
    match key.trim() {
        "eave" => Some(EdgeName::Eave),
        "right" => Some(EdgeName::Right),
        "top" => Some(EdgeName::Top),
        "left" => Some(EdgeName::Left),
        number => number.parse().ok().map(EdgeName::From),
    }
}

fn place(name: EdgeName) -> &'static str {
    match name {
        EdgeName::Eave => "low edge",
        EdgeName::Left | EdgeName::Right => "side",
        EdgeName::Top => "upper edge",
        EdgeName::From(_) => "edge",
    }
}

/// What an edge can be by where it lies.
fn possible(name: EdgeName) -> &'static [EdgeKind] {
    match name {
        EdgeName::Eave => &[EdgeKind::Eave, EdgeKind::Break, EdgeKind::Valley, EdgeKind::DeadValley],
        EdgeName::Left | EdgeName::Right => &[EdgeKind::Rake, EdgeKind::Hip, EdgeKind::Valley, EdgeKind::Sidewall],
        EdgeName::Top => &[EdgeKind::Ridge, EdgeKind::Headwall, EdgeKind::HighEdge, EdgeKind::Break],
        EdgeName::From(_) => &[
            EdgeKind::Eave,
            EdgeKind::Rake,
            EdgeKind::Ridge,
            EdgeKind::Hip,
            EdgeKind::Valley,
            EdgeKind::Sidewall,
            EdgeKind::Headwall,
            EdgeKind::Break,
            EdgeKind::HighEdge,
            EdgeKind::DeadValley,
        ],
    }
}
