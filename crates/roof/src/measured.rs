//! Planes measured one by one: by tape on the roof, or by their corners in space.

mod apart;
mod beside;
mod fit;
mod quadrilateral;
mod seam;
mod stretch;
mod surveyed;
mod tape;
mod tie;
mod uncut;

use std::collections::BTreeMap;
use std::fmt;

use units::{Area, Length, Pitch};

use crate::build::not_proven;
use crate::problem::{MeasuredPart, Part, Problem, Severity};
use crate::{Built, EdgeKind, Place, Plane, Point3, sanity_check};
pub(crate) use apart::{ONE_LINE, off};
use stretch::Stretch;

/// A plane that was measured itself instead of being raised from an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasuredPlane {
    /// Its name, unlike any other's.
    pub name: String,
    /// What was measured of it.
    pub taken: Taken,
    /// What its edges are, where the person says so.
    pub kinds: BTreeMap<EdgeName, EdgeKind>,
    /// Edges that are the same line as another measured plane's.
    pub meets: BTreeMap<EdgeName, Meeting>,
}

/// How a plane was measured.
#[derive(Debug, Clone, PartialEq)]
pub enum Taken {
    /// Along its edges and across them.
    ByTape(Tape),
    /// By its corners in space.
    ByCorners {
        /// Three or more, in order, either way round.
        outer: Vec<Point3>,
        /// What is cut out of it.
        holes: Vec<Vec<Point3>>,
    },
}

/// A plane of four sides, or three, as taped on the roof: all on the slope, in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tape {
    /// Steepness square to the eave.
    pub pitch: Pitch,
    /// Compass direction the water runs to, degrees clockwise from north.
    pub facing_deg: Option<f64>,
    /// Along the low edge, taken as level.
    pub eave: f64,
    /// Along the upper edge; 0 for a triangle.
    pub top: f64,
    /// From the left end of the eave, seen from the ground, upwards.
    pub left_rake: f64,
    /// From the right end of the eave upwards.
    pub right_rake: f64,
    /// From the lower left to the upper right corner.
    pub diagonal_left: Option<f64>,
    /// From the lower right to the upper left corner.
    pub diagonal_right: Option<f64>,
    /// How far along the eave, from its left end to the right, the upper left corner stands.
    pub left_offset: Option<f64>,
}

/// What people call an edge of a measured plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum EdgeName {
    /// The low edge of a taped plane.
    Eave,
    /// Its right side, seen from the ground.
    Right,
    /// Its upper edge.
    Top,
    /// Its left side.
    Left,
    /// Of a plane given by corners: the edge from this corner, counted from 0, to the next.
    From(usize),
}

impl fmt::Display for EdgeName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Eave => f.write_str("eave"),
            Self::Right => f.write_str("right"),
            Self::Top => f.write_str("top"),
            Self::Left => f.write_str("left"),
            Self::From(corner) => corner.fmt(f),
        }
    }
}

/// The edge of another plane with which an edge is one line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meeting {
    /// The other plane's name.
    pub plane: String,
    /// Its edge.
    pub edge: EdgeName,
}

/// Adds planes measured one by one to a roof. `north_deg` as for [`crate::build`].
///
/// Corner planes stay where they were surveyed, and edges of theirs that lie on each other are joints. A taped plane has
/// no place in plan: it is drawn to scale beside the rest, and [`Plane::known_by`] says so. Edges tied by `meets` are one
/// line, as long as the longer tape, if their lengths agree within 1 in.
#[must_use]
pub fn with_measured(built: Built, planes: &[MeasuredPlane], north_deg: f64) -> Built {
    let Built { mut roof, mut problems } = built;
    if planes.is_empty() {
        return Built { roof, problems };
    }
    let mut faces: Vec<Face> = Vec::new();
    for (index, plane) in planes.iter().enumerate() {
        let mut desk = Desk { plane, index, found: Vec::new() };
        faces.extend(desk.face(north_deg));
        problems.append(&mut desk.found);
    }
    problems.extend(facing_unknown(planes));
    problems.extend(uncut::uncut(planes, &faces, &roof));
    beside::place(&roof, &mut faces);
    let mut stretches = stretch::of_all(&faces, &seam::joints(&faces));
    problems.extend(stretch::contradictions(planes, &faces, &stretches));
    problems.extend(tie::tie(planes, &faces, &mut stretches));
    problems.extend(apart::apart(planes, &faces, &stretches));
    let before = sanity_check(&roof);
    add(&mut roof, faces, &stretches);
    let flaws = sanity_check(&roof).into_iter().filter(|flaw| !before.contains(flaw));
    problems.extend(flaws.map(not_proven));
    Built { roof, problems }
}

/// A measured plane with its corners, before its neighbours are looked at.
struct Face {
    /// Which of the measured planes.
    of: usize,
    /// Without boundaries yet.
    plane: Plane,
    /// Outer ring counter-clockwise, holes clockwise, seen from above.
    rings: Vec<Vec<Corner>>,
}

/// A corner of a [`Face`] with the edge that leaves it.
#[derive(Debug, Clone, Copy)]
struct Corner {
    /// On the plane, in its own frame.
    at: Place,
    /// As measured in space, which may lie a little off the plane.
    measured: Point3,
    /// Of the edge from here to the next corner; edges of holes have none.
    name: Option<EdgeName>,
    /// What the person says the edge is, or what it is by custom.
    kind: Option<EdgeKind>,
}

/// What is found while one plane is worked out.
struct Desk<'a> {
    plane: &'a MeasuredPlane,
    index: usize,
    found: Vec<Problem>,
}

impl Desk<'_> {
    fn face(&mut self, north_deg: f64) -> Option<Face> {
        match &self.plane.taken {
            Taken::ByTape(tape) => tape::face(self, tape, north_deg),
            Taken::ByCorners { outer, holes } => surveyed::face(self, outer, holes, north_deg),
        }
    }

    fn caution(&mut self, code: &'static str, at: MeasuredPart, says: &str, remedy: impl Into<String>) {
        self.found.push(problem(self.plane, self.index, at, (code, Severity::Caution), says, remedy));
    }

    fn error(&mut self, code: &'static str, at: MeasuredPart, says: &str, remedy: impl Into<String>) {
        self.found.push(problem(self.plane, self.index, at, (code, Severity::Error), says, remedy));
    }

    fn bare_plane(&self, frame: crate::Frame, facing_deg: f64, known_by: crate::KnownBy) -> Plane {
        Plane {
            id: format!("plane.{}", self.plane.name),
            name: self.plane.name.clone(),
            block: String::new(),
            pitch: frame.pitch,
            facing_deg,
            known_by,
            frame,
            rings: Vec::new(),
        }
    }

    fn very_steep(&mut self, pitch: Pitch, at: MeasuredPart) {
        if pitch.rise() > crate::raise::VERY_STEEP {
            let says = format!("is pitched {pitch}, steeper than 40/12");
            self.caution("very-steep", at, &says, "measure it again; a surface this steep is usually clad as a wall");
        }
    }
}

fn problem(
    plane: &MeasuredPlane,
    index: usize,
    at: MeasuredPart,
    (code, severity): (&'static str, Severity),
    says: &str,
    remedy: impl Into<String>,
) -> Problem {
    let says = format!("{} {says}", plane.name);
    Problem {
        code,
        severity,
        block: plane.name.clone(),
        part: Part::Measured { plane: index, at },
        says,
        remedy: remedy.into(),
    }
}

fn facing_unknown(planes: &[MeasuredPlane]) -> Option<Problem> {
    let unknown = |plane: &MeasuredPlane| matches!(&plane.taken, Taken::ByTape(tape) if tape.facing_deg.is_none());
    let names: Vec<&str> = planes.iter().filter(|plane| unknown(plane)).map(|plane| plane.name.as_str()).collect();
    let first = planes.iter().position(unknown)?;
    let says = format!("{}: which way it faces is not told, so it is shown as facing south", names.join(", "));
    let remedy = "write facing = \"west\", or the degrees clockwise from north";
    let at = MeasuredPart::Whole;
    let found = problem(&planes[first], first, at, ("facing-unknown", Severity::Caution), "", remedy);
    Some(Problem { says, ..found })
}

/// Gives the planes their boundaries and the roof its new planes, lines and sums.
fn add(roof: &mut crate::Roof, faces: Vec<Face>, stretches: &[Stretch]) {
    let base = roof.planes.len();
    roof.lines.extend(stretch::lines(stretches, &faces, base));
    for (index, face) in faces.into_iter().enumerate() {
        let rings = stretch::rings(stretches, index, base, &face.plane.frame);
        roof.planes.push(Plane { rings, ..face.plane });
    }
    let added: Area = roof.planes[base..].iter().map(Plane::plan_area).sum();
    roof.plan_area = Area::square_inches(roof.plan_area.to_square_inches() + added.to_square_inches());
    roof.height = height(&roof.planes);
}

/// From the lowest edge to the highest line of the planes whose place is known; at least the rise of any other.
fn height(planes: &[Plane]) -> f64 {
    let range = |heights: &mut dyn Iterator<Item = f64>| {
        let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| (low.min(z), high.max(z)));
        (high - low).max(0.0)
    };
    let heights =
        |plane: &Plane| -> Vec<f64> { plane.rings.iter().flat_map(|ring| &ring.corners).map(|corner| corner[2]).collect() };
    let (taped, placed): (Vec<&Plane>, Vec<&Plane>) = planes.iter().partition(|plane| !plane.has_place());
    let together = range(&mut placed.into_iter().flat_map(heights));
    taped.into_iter().map(|plane| range(&mut heights(plane).into_iter())).fold(together, f64::max)
}

/// A length as it is called out.
fn told(inches: f64) -> Length {
    Length::inches(inches)
}
