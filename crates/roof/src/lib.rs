//! Blocks, planes and lines: from outlines and pitches to true areas and lengths.

mod astride;
mod build;
mod carve;
mod classify;
mod clear;
mod corner;
mod cricket;
mod cut_out;
mod dormer;
mod envelope;
mod fit;
mod measured;
mod opening;
mod outline;
mod overhang;
mod plane;
mod polygons;
mod problem;
mod profile;
mod raise;
mod rings;
mod sanity;
mod seam;
mod side;
mod slope_line;
mod snap;
mod walls;

use units::{Area, Length};

pub use build::{Built, build};
pub use cut_out::cut_out;
pub use dormer::{Dormer, DormerKind, Wall, with_dormers};
pub use measured::{EdgeName, MeasuredPlane, Meeting, Taken, Tape, with_measured};
pub use opening::{Cricket, Opening, OpeningKind, PlacedOpening, Spot};
pub use plane::{Edge, EdgeKind, Frame, KnownBy, Place, Plane, Point3, Ring};
pub use polygons::{bay_outline, turret_outline};
pub use problem::{MeasuredPart, Part, Problem, Severity};
pub use sanity::sanity_check;
pub use side::{Change, Side, SideKind};
pub use walls::{inside_walls, overhangs};

/// One roofed volume as measured: a closed outline with a pitch for every eave side.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Its name, unique in the job.
    pub name: String,
    /// Plan corners in inches, either way round.
    pub outline: Vec<[f64; 2]>,
    /// Whether the outline is the drip line or the walls.
    pub outline_at: OutlineAt,
    /// `sides[i]` runs from corner `i` to corner `i + 1`, the last to the first.
    pub sides: Vec<Side>,
    /// Courtyards, each with sides of its own.
    pub holes: Vec<Hole>,
    /// Height above the job's datum of the planes over the outline, in inches; a side may have its own.
    pub eave_height: f64,
}

/// A courtyard in a block.
#[derive(Debug, Clone, PartialEq)]
pub struct Hole {
    /// Plan corners in inches, either way round.
    pub outline: Vec<[f64; 2]>,
    /// As for a block.
    pub sides: Vec<Side>,
}

/// Which line was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum OutlineAt {
    /// The edges of the roof seen in plan.
    #[default]
    DripLine,
    /// The walls; each side's overhang pushes the roof edge outwards.
    Walls,
}

/// The whole roof.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Roof {
    /// Every plane, in the order of blocks and bearing sides.
    pub planes: Vec<Plane>,
    /// Every line, each once.
    pub lines: Vec<Line>,
    /// What has been cut out of the planes.
    pub openings: Vec<PlacedOpening>,
    /// Area covered, seen in plan.
    pub plan_area: Area,
    /// From the lowest edge to the highest line, in inches.
    pub height: f64,
}

/// A line of the roof, counted once however many planes meet there.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is. Where the surface jumps at a wall the upper and the lower edge are two lines.
    pub kind: EdgeKind,
    /// Its ends in space, inches.
    pub ends: [Point3; 2],
    /// The planes that meet there, one or two, as indices in [`Roof::planes`].
    pub planes: Vec<usize>,
}

impl Line {
    /// True length in space.
    #[must_use]
    pub fn length(&self) -> Length {
        let [a, b] = self.ends;
        Length::inches(libm::sqrt((0..3).map(|i| (b[i] - a[i]) * (b[i] - a[i])).sum()))
    }
}
