use crate::EdgeName;

/// Something about a roof that the person must mend or know, with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Short unchanging name of the kind of problem, `outline-crosses-itself`.
    pub code: &'static str,
    /// Whether the block could not be built, or was built and needs a look.
    pub severity: Severity,
    /// The block, or the measured plane.
    pub block: String,
    /// What of the block it is about.
    pub part: Part,
    /// What is wrong, in one sentence.
    pub says: String,
    /// What to do.
    pub remedy: String,
}

/// How bad a [`Problem`] is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Severity {
    /// The block is absent from the roof.
    Error,
    /// The block is there; look at this before you build.
    Caution,
}

/// The part of a block that a [`Problem`] is about; `hole` is `None` for the outer outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// All of it.
    Whole,
    /// One corner of an outline.
    Corner {
        /// Which courtyard.
        hole: Option<usize>,
        /// Index in the outline.
        corner: usize,
    },
    /// One side of an outline.
    Side {
        /// Which courtyard.
        hole: Option<usize>,
        /// Index of the side.
        side: usize,
    },
    /// An opening.
    Opening {
        /// Index in the list of openings.
        opening: usize,
    },
    /// Of a plane measured by itself.
    Measured {
        /// Index among the measured planes.
        plane: usize,
        /// What of it.
        at: MeasuredPart,
    },
}

/// The part of a measured plane that a [`Problem`] is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MeasuredPart {
    /// All of it.
    Whole,
    /// One figure, by its key in the job file.
    Key(&'static str),
    /// One corner.
    Corner {
        /// Which hole.
        hole: Option<usize>,
        /// Index among the corners.
        corner: usize,
    },
    /// What an edge is said to be.
    Edge(EdgeName),
    /// What an edge is said to meet.
    Meets(EdgeName),
}
