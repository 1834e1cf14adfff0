//! What is chalked and marked before a unit is nailed, as the plan tells it.

use schemars::JsonSchema;
use serde::Serialize;

/// A height of a plane at which a course line should land.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Station {
    /// `eave`, `sill`, `headwall`, `head`, `top of valleys` and so on.
    pub name: &'static str,
    /// v of the line wanted.
    pub v_in: f64,
    /// A line lands there, within half a mark of the tape.
    pub met: bool,
    /// What is left there of a course; 0 where a line lands.
    pub shows_in: f64,
}

/// The rod marked with every course line, for one rake and one stretch of it. Marks are on the tape, each rounded by itself,
/// from the first butts of the plane.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Pole {
    /// `left`, `right`, or `middle` where no rake passes every course.
    pub side: &'static str,
    /// u of the foot of the edge that it is held against.
    pub u_in: f64,
    /// The top line.
    pub top_in: f64,
    /// Course by course.
    pub marks: Vec<Mark>,
    /// Fixed heights that it passes.
    pub stations: Vec<PoleStation>,
    /// From this side to the first joint in the lowest course of the pole and those that follow in the bond; none in a course of
    /// one piece.
    pub starts_in: Vec<Option<f64>>,
}

/// Marks of one course.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Mark {
    /// Counted from 0 at the eave.
    pub course: usize,
    /// Of the butts.
    pub butt_in: f64,
    /// Of the butts that hang below the line; absent where all lie on it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hang_in: Option<f64>,
    /// Of the heads; absent above the top line, where units are trimmed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub head_in: Option<f64>,
}

/// A fixed height on a pole.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PoleStation {
    /// As for [`Station::name`].
    pub name: &'static str,
    /// Running mark.
    pub mark_in: f64,
}

/// Where caps come to lie: a straight line snapped at this distance from a hip or ridge at both its ends.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Guide {
    /// `hip` or `ridge`.
    pub kind: &'static str,
    /// The hip or ridge itself.
    pub line_in: [[f64; 2]; 2],
    /// Square to it on the surface.
    pub off_in: f64,
}

/// Left and right of a plane whose top line is not parallel to its eave. Pieces are those of level lines up to the higher end;
/// poles have marks of their own.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct OutOfSquare {
    /// From the first butts to the top line.
    pub slopes_in: [f64; 2],
    /// The least at that end.
    pub headlaps_in: [f64; 2],
    /// How far the course lines run apart in 10 ft.
    pub in_10_ft: f64,
}

/// A course whose exposure is no mark of the unit: nobody must lay it by the marks.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct OffTheMarks {
    /// The lowest such course, counted from 0.
    pub course: usize,
    /// What it shows.
    pub exposure_in: f64,
    /// The nearest mark.
    pub mark_in: f64,
}

/// Planes whose courses meet at hips and valleys.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Matched {
    /// Their ids.
    pub planes: Vec<String>,
    /// Of a course, on every plane the same.
    pub rise_in: f64,
    /// Courses more than with every plane by itself.
    pub courses: i64,
    /// Pieces more, about, by area.
    pub pieces: i64,
    /// Planes whose first course is not like the rest.
    pub odd: Vec<OddCourse>,
}

/// A first course that shows more or less than the one over it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct OddCourse {
    /// The plane's id.
    pub plane: String,
    /// What it shows.
    pub shows_in: f64,
    /// What the course over it shows.
    pub usual_in: f64,
    /// Courses more than with the plane by itself.
    pub courses: i64,
}

/// A hip or valley at which courses were to meet and cannot.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Unmatched {
    /// Ids of the two planes.
    pub planes: [String; 2],
    /// `hip` or `valley`.
    pub kind: &'static str,
    /// The constraint that fails.
    pub why: String,
    /// What can be done, the way it was laid first.
    pub ways: Vec<WayOut>,
}

/// What can be done, and what it costs beyond what was laid.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WayOut {
    /// A sentence.
    pub says: String,
    /// Courses more; absent where it depends on what is chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub courses: Option<i64>,
    /// Pieces more, by area; absent where it depends on what is chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pieces: Option<i64>,
}
