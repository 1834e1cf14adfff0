//! What came of measuring courses while the roof is laid, as it is told.

use schemars::JsonSchema;
use serde::Serialize;

use crate::{Mark, Pole, Problem};

/// Courses of a roof spread anew from readings on it. Courses are counted from 0 at the eave, as in the plan; sentences count
/// from 1, as the papers do. Inches; of two figures the first is the left end's.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Relay {
    /// [`crate::FORMAT`].
    pub format: u32,
    /// The job's name.
    pub name: String,
    /// What is wrong with the job.
    pub problems: Vec<Problem>,
    /// The planes that were measured.
    pub planes: Vec<RelaidPlane>,
}

impl Relay {
    /// The courses of every plane that was measured reach its top line within their limits.
    #[must_use]
    pub fn has_room(&self) -> bool {
        self.planes.iter().all(|plane| plane.outcome != Outcome::NoRoom)
    }
}

/// A plane that was measured.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct RelaidPlane {
    /// The plane's id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// The highest course that was read.
    pub course: usize,
    /// Where it lies by the plan.
    pub planned_in: [f64; 2],
    /// What is laid, reading by reading from the lowest up.
    pub laid: Vec<LaidSoFar>,
    /// What came of it.
    pub outcome: Outcome,
    /// Why there is no room: what stands in the way of each number of courses.
    pub in_the_way: Vec<String>,
    /// What can be done where there is no room.
    pub ways: Vec<String>,
    /// The courses above; none where there is no room.
    pub courses: Vec<NewCourse>,
    /// The top line.
    pub top_in: [f64; 2],
    /// Courses more than planned.
    pub more_courses: i64,
    /// About how many pieces more, by area.
    pub more_pieces: i64,
    /// How much lower and how much higher the course that was read could lie before so many courses no longer do.
    pub room_in: [f64; 2],
    /// The plan's poles with the new marks of the courses above.
    pub poles: Vec<Pole>,
    /// Planes whose courses no longer meet these at a hip or a valley.
    pub neighbours: Vec<PartedNeighbour>,
    /// What to look at, in a sentence each.
    pub cautions: Vec<String>,
}

/// What came of a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// The course lies on its marks: nothing changes.
    AsPlanned,
    /// The courses above have new marks.
    Spread,
    /// No number of courses reaches the top line within the limits.
    NoRoom,
}

/// The courses between two readings.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct LaidSoFar {
    /// The course that was read.
    pub course: usize,
    /// From the pole's zero to its butts.
    pub read_in: [f64; 2],
    /// How much higher it lies than planned.
    pub drift_in: [f64; 2],
    /// What the courses since the reading below show on the mean.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shows_in: Option<[f64; 2]>,
}

/// A course with its new line.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct NewCourse {
    /// Counted from 0 at the eave.
    pub course: usize,
    /// From the pole's zero to its butts, exactly.
    pub butts_in: [f64; 2],
    /// To the next butts or the top line.
    pub shows_in: [f64; 2],
}

/// A plane beyond a hip or valley that no longer meets.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PartedNeighbour {
    /// The plane's id.
    pub plane: String,
    /// How far the lines now lie above the neighbour's, at most; below, if negative.
    pub off_in: f64,
    /// What spreading it anew too would do.
    pub says: String,
    /// It would keep its limits.
    pub keeps_limits: bool,
    /// Its marks if it is spread anew too, from its own zero.
    pub marks: Vec<Mark>,
}
