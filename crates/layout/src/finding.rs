use roof::{EdgeKind, Place};
use units::Length;

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
    /// Too little of the piece is left for its nails: too near its edges, or through the metal of a valley.
    CannotBeNailed,
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
    /// A course shows an exposure that is no mark of the unit: it must not be laid by the marks.
    OffTheMarks {
        /// What it shows.
        is: Length,
        /// The nearest mark.
        mark: Length,
    },
    /// Random widths came out in other shares than the sheet's mix.
    MixNotKept {
        /// Which.
        width: Length,
        /// Part of all pieces as laid.
        is: f64,
        /// The sheet's.
        share: f64,
    },
    /// Units were to narrow towards a peak, but no two hips meet in one here, or the sheet's units are too narrow to lean so far.
    NotTapered,
    /// Course lines run apart from the eave to the top line.
    OutOfParallel {
        /// In 10 ft.
        is: Length,
        /// What is not seen, in 10 ft.
        most: Length,
    },
    /// The first course over a higher eave or a break is a strip narrower than half the least exposure.
    NarrowStrip {
        /// The edge at that height.
        kind: EdgeKind,
        /// What the strip shows.
        is: Length,
        /// Half the least exposure.
        least: Length,
    },
}
