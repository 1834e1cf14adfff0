use geom::{Point, add, scale};
use units::{Area, Length, Pitch};

use crate::{Frame, Place, Point3};

/// A chimney, skylight, pipe or vent as measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Its name, unique in the job.
    pub name: String,
    /// What stands in it.
    pub kind: OpeningKind,
    /// Where its middle is.
    pub spot: Spot,
    /// Across the slope, level, in inches; of a pipe the diameter.
    pub width: f64,
    /// Up the slope, in inches: of what stands upright (chimney, pipe) measured level, of the rest on the slope.
    pub height: f64,
}

/// What stands in an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OpeningKind {
    /// Masonry or a framed chase, upright.
    Chimney,
    /// A window in the slope.
    Skylight,
    /// A round pipe, upright.
    Pipe,
    /// A roof vent, flat on the slope.
    Vent,
}

/// How an opening's middle was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spot {
    /// On a plane, an index in [`crate::Roof::planes`], in the plane's own frame.
    On {
        /// The plane.
        plane: usize,
        /// Across from the plane's left end, up the slope from the roof edge.
        at: Place,
    },
    /// Over a plan point: on the highest plane there.
    Over(Point),
}

/// An opening that has been cut out of the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedOpening {
    /// As measured.
    pub name: String,
    /// What stands in it.
    pub kind: OpeningKind,
    /// The plane that holds its middle; then the one beyond the line that it stands astride of.
    pub planes: Vec<usize>,
    /// Its middle, on the first plane.
    pub at: Place,
    /// Across the slope.
    pub width: Length,
    /// Up the slope, measured on the first plane's slope.
    pub height: Length,
    /// Its corners where it comes through the roof, counter-clockwise seen from above.
    pub corners: Vec<Point3>,
    /// What turns the water round its back.
    pub cricket: Option<Cricket>,
}

/// The small roof behind a chimney: a level ridge square to the chimney's back, a plane each side of it at the pitch of the
/// main slope, and a valley each side where they die into that slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cricket {
    /// Along the chimney's back.
    pub width: Length,
    /// Of its ridge over the slope at the chimney's back: width × pitch / 24.
    pub height: Length,
    /// Its ridge in true length, half the width.
    pub ridge: Length,
    /// Each of its two valleys, in true length.
    pub valley: Length,
    /// Both planes together, on their slopes.
    pub area: Area,
    /// Its planes as indices in [`crate::Roof::planes`], left and right seen facing the slope. They are measured, not laid.
    pub planes: [usize; 2],
}

impl OpeningKind {
    /// The trade's word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chimney => "chimney",
            Self::Skylight => "skylight",
            Self::Pipe => "pipe",
            Self::Vent => "vent",
        }
    }

    /// It stands upright, so that its size is the same seen in plan whatever the pitch.
    const fn is_upright(self) -> bool {
        matches!(self, Self::Chimney | Self::Pipe)
    }
}

impl Opening {
    /// Up the slope, seen in plan, in inches.
    pub(crate) fn run(&self, pitch: Pitch) -> f64 {
        if self.kind.is_upright() { self.height } else { self.height / pitch.slope_factor() }
    }
}

/// The rectangle that an opening takes up in plan, square to the slope of the plane that holds its middle.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Footprint {
    frame: Frame,
    /// u of the left and of the right side.
    pub(crate) across: [f64; 2],
    /// Plan distance of the low and of the high side from the bearing side.
    pub(crate) up: [f64; 2],
}

impl Footprint {
    pub(crate) fn new(opening: &Opening, frame: Frame, [u, v]: Place) -> Self {
        let run = v / frame.pitch.slope_factor();
        let [half_width, half_run] = [opening.width / 2.0, opening.run(frame.pitch) / 2.0];
        Self { frame, across: [u - half_width, u + half_width], up: [run - half_run, run + half_run] }
    }

    /// The plan point so far across and so far up.
    pub(crate) fn point(&self, [u, run]: [f64; 2]) -> Point {
        let Frame { origin, right, .. } = self.frame;
        add([origin[0], origin[1]], add(scale(right, u), scale(self.frame.inward(), run)))
    }

    /// Low left, low right, high right, high left.
    pub(crate) fn corners(&self) -> [Point; 4] {
        let [[left, right], [low, high]] = [self.across, self.up];
        [[left, low], [right, low], [right, high], [left, high]].map(|at| self.point(at))
    }
}
