use roof::{Place, Roof};
use units::{Length, Mass};

/// All that is laid from one kind of roll, or from lengths of edge metal.
#[derive(Debug, Clone, PartialEq)]
pub struct Rolls {
    /// What it is.
    pub kind: Kind,
    /// Id of the covering whose sheet asks for it; empty where the job does.
    pub sheet: String,
    /// One roll.
    pub roll: Roll,
    /// In the order in which they are laid.
    pub strips: Vec<Strip>,
    /// Rolls that the strips are cut from.
    pub count: u32,
    /// No way of cutting these strips needs fewer.
    pub bound: u32,
}

/// What is laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Edge metal of eaves and rakes.
    DripEdge,
    /// Self-adhered sheet.
    IceBarrier,
    /// Sheet over the whole deck.
    Underlayment,
    /// Sheet between courses of shakes.
    Interlayment,
}

/// A roll as it is sold; of edge metal a length.
#[derive(Debug, Clone, PartialEq)]
pub struct Roll {
    /// Printed name, generic.
    pub name: String,
    /// Across.
    pub width: Length,
    /// Along.
    pub length: Length,
    /// Over the strip below.
    pub side_lap: Length,
    /// At an end, over the piece before.
    pub end_lap: Length,
    /// Of one.
    pub weight: Mass,
}

/// One strip at its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Along what it lies.
    pub lies: Lies,
    /// Where: one patch for every plane that it lies on, not cut to the plane's outline.
    pub patches: Vec<Patch>,
    /// Along the roll, in inches, without end laps.
    pub length: f64,
    /// What it is made of, from its left end or its foot on; neighbours lap by the roll's end lap.
    pub pieces: Vec<Piece>,
    /// Nails of edge metal; of underlayment the fasteners that hold it until units are laid; none for what sticks by itself.
    pub fasteners: u32,
    /// Edge metal that is laid over the underlayment; all else lies under it, or is it.
    pub over_underlayment: bool,
}

/// Along what a strip lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lies {
    /// Along an eave, the course counted from 0 at the edge.
    Eave {
        /// Counted from the edge.
        course: u32,
    },
    /// Across the slope, the course counted from 0 at the lowest.
    Course {
        /// Counted from the lowest.
        course: u32,
    },
    /// Along a line of the roof, an index in [`roof::Roof::lines`].
    Line {
        /// Which.
        line: usize,
    },
    /// Round an opening, an index in [`roof::Roof::openings`].
    Opening {
        /// Which.
        opening: usize,
    },
}

/// A rectangle on a plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// Index in [`roof::Roof::planes`].
    pub plane: usize,
    /// Its corners, counter-clockwise seen from above.
    pub corners: [Place; 4],
}

/// A piece of a strip, cut from a roll.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Which roll, counted from 0.
    pub roll: u32,
    /// Where on the strip it begins, in inches.
    pub from: f64,
    /// Cut length, in inches.
    pub length: f64,
}

impl Kind {
    /// The trade's word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::DripEdge => "drip edge",
            Self::IceBarrier => "ice barrier",
            Self::Underlayment => "underlayment",
            Self::Interlayment => "interlayment",
        }
    }
}

impl Patch {
    /// From and to across the slope.
    #[must_use]
    pub fn u(&self) -> [f64; 2] {
        self.range(0)
    }

    /// From and to up the slope.
    #[must_use]
    pub fn v(&self) -> [f64; 2] {
        self.range(1)
    }

    fn range(&self, axis: usize) -> [f64; 2] {
        let values = self.corners.iter().map(|corner| corner[axis]);
        let range = values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| [low.min(value), high.max(value)]);
        // An edge of the frame is 0, not -0.
        range.map(|value| value + 0.0)
    }
}

impl Strip {
    /// Where it lies, in words: `house, south, course 3`, `valley, house, south / wing, east`, `round kitchen chimney`.
    #[must_use]
    pub fn name(&self, roof: &Roof) -> String {
        let name_of = |plane: usize| roof.planes.get(plane).map_or("", |plane| plane.name.as_str());
        let plane = self.patches.first().map_or("", |patch| name_of(patch.plane));
        match self.lies {
            Lies::Eave { course } => format!("eave, {plane}, course {}", course + 1),
            Lies::Course { course } => format!("{plane}, course {}", course + 1),
            Lies::Line { line } => roof.lines.get(line).map_or_else(String::new, |line| {
                let planes: Vec<&str> = line.planes.iter().map(|&plane| name_of(plane)).collect();
                format!("{}, {}", line.kind.name(), planes.join(" / "))
            }),
            Lies::Opening { opening } => {
                format!("round {}", roof.openings.get(opening).map_or("", |opening| opening.name.as_str()))
            }
        }
    }

    /// Of all its pieces, in inches: its length and the end laps.
    #[must_use]
    pub fn cut_length(&self) -> f64 {
        self.pieces.iter().map(|piece| piece.length).sum()
    }

    /// Along a line of the roof.
    pub(crate) fn along(line: usize, patches: Vec<Patch>, length: f64) -> Self {
        let lies = Lies::Line { line };
        Self { lies, patches, length, pieces: Vec::new(), fasteners: 0, over_underlayment: false }
    }

    /// Across the slope between two heights.
    pub(crate) fn across(lies: Lies, plane: usize, u: [f64; 2], v: [f64; 2]) -> Self {
        let patches = vec![Patch::upright(plane, u, v)];
        Self { lies, patches, length: u[1] - u[0], pieces: Vec::new(), fasteners: 0, over_underlayment: false }
    }
}
