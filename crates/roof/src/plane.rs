use units::{Area, Pitch};

/// A corner in space: plan x, plan y, height, all in inches from the job's datum.
pub type Point3 = [f64; 3];

/// A place on a plane: `u` to the right along the bearing side, `v` up the surface, in inches.
pub type Place = [f64; 2];

/// One flat sloping surface of the roof. Pieces of one plane that do not touch are one plane with several rings.
#[derive(Debug, Clone, PartialEq)]
pub struct Plane {
    /// Its block and bearing side, `house.0`, or `plane.` and its name if it was measured by itself; it outlives edits of
    /// the rest.
    pub id: String,
    /// What people call it: `house, south`.
    pub name: String,
    /// The block it belongs to; nothing if it was measured by itself.
    pub block: String,
    /// Steepness.
    pub pitch: Pitch,
    /// Compass direction the water runs to, degrees clockwise from north, 0 to 360.
    pub facing_deg: f64,
    /// From what it is known.
    pub known_by: KnownBy,
    /// Where `u` and `v` are counted from.
    pub frame: Frame,
    /// Outer rings run counter-clockwise seen from above, holes clockwise.
    pub rings: Vec<Ring>,
}

/// From what a plane is known, which tells how far its place can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum KnownBy {
    /// Raised from the outline of its block.
    #[default]
    Outline,
    /// Its own corners in space; they and its neighbours' agree as well as they were surveyed.
    Corners,
    /// Tapes on its surface: its shape is known and its place in plan and its height are not. It is drawn beside the rest.
    Tape,
}

impl KnownBy {
    /// `outline`, `corners` or `tape`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Outline => "outline",
            Self::Corners => "corners",
            Self::Tape => "tape",
        }
    }
}

/// A closed boundary of a plane; edge `i` runs from corner `i` to corner `i + 1`, the last to the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// Corners in space.
    pub corners: Vec<Point3>,
    /// One edge a corner.
    pub edges: Vec<Edge>,
}

/// One straight stretch of a plane's boundary.
#[derive(Debug, Clone, PartialEq)]
pub struct Edge {
    /// What a roofer calls it.
    pub kind: EdgeKind,
    /// Index in [`crate::Roof::planes`] of the plane on the other side, if there is one.
    pub meets: Option<usize>,
}

/// The lines of a roof, classified from the geometry alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum EdgeKind {
    /// Level free edge at the low side.
    Eave,
    /// Sloping free edge.
    Rake,
    /// Level and convex.
    Ridge,
    /// Sloped and convex.
    Hip,
    /// Concave, level or sloped.
    Valley,
    /// A wall along the slope.
    Sidewall,
    /// A wall at the top.
    Headwall,
    /// Level line where the pitch changes and both planes fall the same way.
    Break,
    /// Level free edge at the high side.
    HighEdge,
    /// Level line where the plane falls towards a wall.
    DeadValley,
    /// The low side of an opening. Openings' edges are kept apart from walls.
    Sill,
    /// A side of an opening along the slope.
    Side,
    /// The high side of an opening; also where a cricket runs up against its chimney.
    Head,
}

impl EdgeKind {
    /// Every kind.
    pub const ALL: [Self; 13] = [
        Self::Eave,
        Self::Rake,
        Self::Ridge,
        Self::Hip,
        Self::Valley,
        Self::Sidewall,
        Self::Headwall,
        Self::Break,
        Self::HighEdge,
        Self::DeadValley,
        Self::Sill,
        Self::Side,
        Self::Head,
    ];

    /// The trade's word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Eave => "eave",
            Self::Rake => "rake",
            Self::Ridge => "ridge",
            Self::Hip => "hip",
            Self::Valley => "valley",
            Self::Sidewall => "sidewall",
            Self::Headwall => "headwall",
            Self::Break => "break",
            Self::HighEdge => "high edge",
            Self::DeadValley => "dead valley",
            Self::Sill => "sill",
            Self::Side => "side",
            Self::Head => "head",
        }
    }
}

/// The plane's own coordinates, seen facing it from the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Left end of the bearing side, in space.
    pub origin: Point3,
    /// Unit vector in plan, to the right along the bearing side.
    pub right: [f64; 2],
    /// Steepness of the plane.
    pub pitch: Pitch,
}

impl Frame {
    /// Unit vector in plan, square to the bearing side, pointing up the slope: `right` turned left by 90°.
    #[must_use]
    pub fn inward(&self) -> [f64; 2] {
        [-self.right[1], self.right[0]]
    }

    /// The place on the plane above or below a plan point.
    #[must_use]
    pub fn place(&self, x: f64, y: f64) -> Place {
        let [dx, dy] = [x - self.origin[0], y - self.origin[1]];
        let inward = self.inward();
        [dx * self.right[0] + dy * self.right[1], (dx * inward[0] + dy * inward[1]) * self.pitch.slope_factor()]
    }

    /// The point in space at a place on the plane.
    #[must_use]
    pub fn point(&self, [u, v]: Place) -> Point3 {
        let run = v / self.pitch.slope_factor();
        let inward = self.inward();
        [
            self.origin[0] + u * self.right[0] + run * inward[0],
            self.origin[1] + u * self.right[1] + run * inward[1],
            self.origin[2] + run * self.pitch.rise() / 12.0,
        ]
    }
}

impl Plane {
    /// Whether its place in plan and its height are known.
    #[must_use]
    pub fn has_place(&self) -> bool {
        self.known_by != KnownBy::Tape
    }

    /// True area on the slope.
    #[must_use]
    pub fn area(&self) -> Area {
        Area::square_inches(self.plan_area().to_square_inches() * self.pitch.slope_factor())
    }

    /// Area seen in plan.
    #[must_use]
    pub fn plan_area(&self) -> Area {
        let twice: f64 = self.rings.iter().map(|ring| twice_plan_area(&ring.corners)).sum();
        Area::square_inches(twice / 2.0)
    }

    /// The rings in the plane's own coordinates.
    #[must_use]
    pub fn places(&self) -> Vec<Vec<Place>> {
        self.rings.iter().map(|ring| ring.corners.iter().map(|&[x, y, _]| self.frame.place(x, y)).collect()).collect()
    }
}

/// Shoelace sum about the first corner, which keeps roofs far from the datum accurate.
fn twice_plan_area(corners: &[Point3]) -> f64 {
    let Some(&[x0, y0, _]) = corners.first() else { return 0.0 };
    corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(a, b)| (a[0] - x0) * (b[1] - y0) - (b[0] - x0) * (a[1] - y0))
        .sum()
}
