//! Setting out: every course, joint, piece and cut of one plane.

use roof::Place;
use units::Length;

/// The units of the whole roof, plane by plane in the roof's order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Layout {
    /// One for every plane that is laid.
    pub planes: Vec<LaidPlane>,
}

/// One plane with its units. All numbers are inches in the plane's own frame.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidPlane {
    /// Index in `roof.planes`.
    pub plane: usize,
    /// v of the first butt: the pole's zero.
    pub first_butt: f64,
    /// v of the top line: ridge less the cap's cover, wall less the apron, and so on.
    pub top: f64,
    /// From eave to ridge.
    pub courses: Vec<Course>,
    /// The boundary that units are cut to: outer rings counter-clockwise, holes clockwise.
    pub laid: Vec<Vec<Place>>,
    /// Shapes of cut pieces, each once; runs point here.
    pub cuts: Vec<Cut>,
    /// The course under the first, along every level low edge.
    pub starters: Vec<Starters>,
    /// What could not be cured, with its place.
    pub findings: Vec<Finding>,
    /// Sum of the areas of cut pieces, sq in.
    pub cut_area: f64,
}

/// One row of units.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// v of the butts.
    pub butt: f64,
    /// To the next course's butts, or to the top line.
    pub exposure: f64,
    /// Pieces from left to right.
    pub runs: Vec<Run>,
}

/// Equal neighbouring pieces of a course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Run {
    /// Left side of the first unit before cutting.
    pub left: f64,
    /// Width of each unit before cutting.
    pub width: f64,
    /// From one unit's left side to the next one's: width + gap.
    pub step: f64,
    /// How many.
    pub count: u32,
    /// `None` for whole units, else the index in [`LaidPlane::cuts`].
    pub cut: Option<u32>,
    /// This run starts right after its left neighbour with a joint between; false at the start of a span.
    pub joint_before: bool,
}

/// The shape of a cut piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// What is left of the unit, counter-clockwise, from the unit's lower left corner, inches.
    /// More than one part where an edge cuts a unit in two.
    pub parts: Vec<Vec<Place>>,
    /// Sq in.
    pub area: f64,
    /// Greatest width along the course at any height.
    pub width: f64,
}

/// The starter course along one level low edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Starters {
    /// v of the butts, flush with the first course's.
    pub butt: f64,
    /// From butt to head.
    pub height: f64,
    /// Left end of the edge.
    pub from: f64,
    /// Right end of the edge.
    pub to: f64,
    /// u of the left side of the first starter before cutting.
    pub left: f64,
    /// From one starter's left side to the next one's.
    pub step: f64,
    /// How many.
    pub count: u32,
}

/// What could not be cured, with its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finding {
    /// What it is.
    pub fault: Fault,
    /// Course, counted from 0 at the eave.
    pub course: usize,
    /// Where on the plane.
    pub at: Place,
}

/// Faults that the layout leaves for a person to decide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fault {
    /// The piece's widest level is narrower than the sheet's least piece.
    PieceTooSmall {
        /// Its width.
        is: Length,
        /// The sheet's.
        least: Length,
    },
    /// A joint nearer than the sheet's least offset to a joint of a course it must miss.
    JointOverJoint {
        /// The distance.
        is: Length,
        /// The sheet's.
        least: Length,
    },
    /// The last course shows less than the least exposure.
    ShortTopCourse {
        /// What shows below the top line.
        is: Length,
        /// The least exposure.
        least: Length,
    },
}

impl Run {
    /// Left sides of the units, before cutting.
    pub fn lefts(&self) -> impl Iterator<Item = f64> + use<> {
        let Self { left, step, count, .. } = *self;
        (0..count).map(move |index| left + f64::from(index) * step)
    }
}

impl Course {
    /// Pieces in the course.
    #[must_use]
    pub fn pieces(&self) -> u64 {
        self.runs.iter().map(|run| u64::from(run.count)).sum()
    }
}

impl LaidPlane {
    /// Field pieces, whole units among them, cut pieces.
    #[must_use]
    pub fn counts(&self) -> Counts {
        let mut counts = Counts::default();
        for run in self.courses.iter().flat_map(|course| &course.runs) {
            let count = u64::from(run.count);
            if run.cut.is_some() { counts.cut += count } else { counts.whole += count }
        }
        counts
    }
}

/// How many pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Whole units.
    pub whole: u64,
    /// Every piece that is not whole, head trims included.
    pub cut: u64,
}

impl Counts {
    /// All pieces.
    #[must_use]
    pub const fn pieces(self) -> u64 {
        self.whole + self.cut
    }
}
