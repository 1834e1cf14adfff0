use roof::EdgeKind;

/// Planes whose courses meet at their hips and valleys.
#[derive(Debug, Clone, PartialEq)]
pub struct Matched {
    /// Indices in `roof.planes`, ascending.
    pub planes: Vec<usize>,
    /// Of a course, inches: the exposure times the sine of the plane's angle, on every plane the same.
    pub rise: f64,
    /// How many courses more than with every plane by itself.
    pub courses: i64,
    /// About how many pieces more, by area.
    pub pieces: i64,
    /// Planes whose first butts lie off the common lines.
    pub odd: Vec<OddCourse>,
}

/// A first course that shows more or less than the one above it by more than the sight limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OddCourse {
    /// Index in `roof.planes`.
    pub plane: usize,
    /// What the first course shows, inches.
    pub shows: f64,
    /// What the course above it shows, inches.
    pub usual: f64,
    /// How many courses more than with the plane by itself.
    pub courses: i64,
}

/// A hip or valley at which courses were to meet and cannot.
#[derive(Debug, Clone, PartialEq)]
pub struct Unmatched {
    /// Indices in `roof.planes`, ascending.
    pub planes: [usize; 2],
    /// [`EdgeKind::Hip`] or [`EdgeKind::Valley`].
    pub kind: EdgeKind,
    /// What stands in the way.
    pub why: Why,
    /// What can be done, the one first as which it was laid.
    pub ways: Vec<WayOut>,
}

/// The constraint that fails.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Why {
    /// A plane measured by tape alone has no known height.
    HeightUnknown,
    /// The greatest exposure of one plane rises less than the least of another, inches of rise per course.
    NoCommonRise {
        /// Of the flatter one.
        greatest: f64,
        /// Of the steeper one.
        least: f64,
    },
}

/// What can be done, and what it costs beyond what was laid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WayOut {
    /// What is done.
    pub remedy: Remedy,
    /// Courses more; `None` where it depends on what is chosen.
    pub courses: Option<i64>,
    /// Pieces more, by area; `None` where it depends on what is chosen.
    pub pieces: Option<i64>,
}

/// How courses that cannot meet are brought to an end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Remedy {
    /// Caps cover the hip, and its two sides need not meet.
    CapHip,
    /// The valley stays open, and its two sides need not meet.
    OpenValley,
    /// The steeper plane is laid below the sheet's least exposure, which is a preference.
    ShorterExposure {
        /// Index in `roof.planes`.
        plane: usize,
        /// Inches.
        exposure: f64,
    },
    /// A unit whose least exposure on the steeper plane is no more than this, and its greatest on the flatter one no less.
    OtherUnit {
        /// Index in `roof.planes`.
        plane: usize,
        /// Inches.
        least: f64,
    },
}
