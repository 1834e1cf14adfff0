//! The plan: plain data from which everything that anyone is shown is made.
//!
//! Its keys in JSON are a contract that other programs rely on. Add freely; change only with [`FORMAT`].

use schemars::JsonSchema;
use serde::Serialize;

use crate::cutting::Cutting;
use crate::{
    Delivery, Details, Guide, Loads, Matched, OffTheMarks, OrderLine, OutOfSquare, Pole, Station, Unmatched, Waste,
};

/// Version of the plan's shape.
pub const FORMAT: u32 = 1;

/// A planned roof. What could not be planned is absent and named in `problems`; the rest is there.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Plan {
    /// [`FORMAT`].
    pub format: u32,
    /// The job's name.
    pub name: String,
    /// Printed name of the covering, and whether its figures are invented.
    pub covering: CoveringUsed,
    /// What is wrong with the job, and what to do.
    pub problems: Vec<Problem>,
    /// Planes and lines.
    pub roof: Roof,
    /// Every unit.
    pub layout: Layout,
    /// Dry-in, vents and the order of work.
    pub details: Details,
    /// What to order.
    pub order: Vec<OrderLine>,
    /// What comes on which day, where the job tells it; over the days it sums to the order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub deliveries: Vec<Delivery>,
    /// Dead loads, pallets and piles.
    pub loads: Loads,
    /// Every rule's outcome.
    pub checks: Vec<Check>,
    /// The wind of the place on this roof, where the job gives what it is reckoned from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wind: Option<Wind>,
    /// Dangers of this very roof, in a sentence each.
    pub cautions: Vec<String>,
}

/// The covering the plan is laid in.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CoveringUsed {
    /// Short name.
    pub sheet: String,
    /// Printed name.
    pub name: String,
    /// The figures are invented and stand for no product.
    pub invented: bool,
    /// Of the field unit, inches.
    pub length_in: f64,
    /// Of the field unit, inches.
    pub width_in: f64,
    /// Space between neighbours, inches.
    pub gap_in: f64,
    /// Nails in each unit.
    pub nails_each: u32,
    /// How far their points must reach into the deck, or through it where it is thinner, inches.
    pub nail_penetration_in: f64,
    /// What units are cut with: `saw`, `score and snap`, `cutter`; empty where the sheet does not tell.
    pub cutting_tool: &'static str,
    /// Lost in each cut, inches.
    pub kerf_in: f64,
    /// Colours of chalk that, as the sheet tells, do not come off the units.
    pub stained_by: Vec<String>,
}

/// Something the person must mend or know.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Problem {
    /// Short unchanging name, `outline-crosses-itself`.
    pub code: String,
    /// Whether something is absent from the plan for it.
    pub severity: Severity,
    /// What is wrong.
    pub says: String,
    /// What to do.
    pub remedy: String,
    /// Its place on the roof and in the file.
    #[serde(rename = "where")]
    pub place: ProblemPlace,
}

/// How bad a [`Problem`] is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Something is absent from the plan.
    Error,
    /// Everything is there; look at this before you build.
    Caution,
}

/// Where a [`Problem`] is.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct ProblemPlace {
    /// The block's name, or nothing.
    pub block: String,
    /// The plane's id, or nothing.
    pub plane: String,
    /// Line of the job file, counted from 1; 0 if unknown.
    pub line: usize,
    /// Path in the job file, `block[0].edges[2]`, by which a door can underline the text.
    pub path: String,
}

/// Planes, lines and their sums.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Roof {
    /// Every plane.
    pub planes: Vec<Plane>,
    /// Every line, counted once.
    pub lines: Vec<Line>,
    /// Walls measured with the roof, the cheeks of dormers; no part of any area of the roof.
    pub walls: Vec<Wall>,
    /// Chimneys, skylights, pipes and vents that were cut out of the planes.
    pub openings: Vec<Opening>,
    /// Sums.
    pub totals: Totals,
    /// Direction of north in plan, degrees clockwise from +y.
    pub north_deg: f64,
}

/// One flat sloping surface.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Plane {
    /// Block and bearing side, or `plane.` and the name of one measured by itself.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Rise in 12.
    pub pitch: f64,
    /// Compass direction the water runs to.
    pub facing_deg: f64,
    /// `outline`, `corners`, or `tape`: a taped plane's place in plan and its height are unknown, and it is drawn beside the
    /// rest.
    pub known_by: &'static str,
    /// True area.
    pub area_sqft: f64,
    /// Rings in space; outer ones counter-clockwise seen from above.
    pub outlines_ft: Vec<Vec<[f64; 3]>>,
    /// Ring by ring, edge by edge: edge `i` of a ring runs from its corner `i` to the next.
    pub edges: Vec<Edge>,
    /// The rings in the plane's own frame, inches: u to the right along the bearing side, v up the slope.
    pub outlines_in: Vec<Vec<[f64; 2]>>,
}

/// One stretch of a plane's boundary.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Edge {
    /// `eave`, `rake`, `ridge`, `hip`, `valley`, `sidewall`, `headwall`, `break`, `high edge`, `dead valley`; of openings
    /// `sill`, `side`, `head`.
    pub kind: &'static str,
    /// True length.
    pub length_ft: f64,
    /// Id of the plane on the other side, or nothing.
    pub meets: String,
}

/// A line of the roof.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Line {
    /// As for [`Edge::kind`].
    pub kind: &'static str,
    /// True length.
    pub length_ft: f64,
    /// Its ends in space.
    pub ends_ft: [[f64; 3]; 2],
    /// Ids of the planes that meet there.
    pub planes: Vec<String>,
}

/// A wall measured with the roof.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Wall {
    /// `bath dormer, left cheek`, seen facing it from the ground.
    pub name: String,
    /// Of one side.
    pub area_sqft: f64,
}

/// A chimney, skylight, pipe or vent, cut out of the roof.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Opening {
    /// As measured.
    pub name: String,
    /// `chimney`, `skylight`, `pipe` or `vent`.
    pub kind: &'static str,
    /// Id of the plane that holds its middle; then of the one beyond the line that it stands astride of.
    pub planes: Vec<String>,
    /// Up the slope of the first plane to its middle.
    pub up_in: f64,
    /// From the first plane's left end to its middle.
    pub across_in: f64,
    /// Across the slope.
    pub width_in: f64,
    /// Up the first plane's slope, on the slope whatever the kind.
    pub height_in: f64,
    /// Its corners where it comes through the roof, counter-clockwise seen from above.
    pub outline_ft: Vec<[f64; 3]>,
    /// The small roof that turns water round a chimney's back.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cricket: Option<Cricket>,
}

/// A cricket: a level ridge square to the chimney's back, and a plane and a valley each side of it.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Cricket {
    /// Along the chimney's back.
    pub width_in: f64,
    /// Of its ridge over the slope at the chimney's back: width × pitch / 24.
    pub height_in: f64,
    /// Of its ridge.
    pub ridge_in: f64,
    /// True length of each of its two valleys.
    pub valley_in: f64,
    /// Both planes together, on their slopes.
    pub area_sqft: f64,
    /// Ids of its planes, left and right seen facing the slope. They are measured, not laid.
    pub planes: Vec<String>,
}

/// Sums over the roof; lines are true lengths, counted once.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Totals {
    /// True area.
    pub area_sqft: f64,
    /// Area seen in plan.
    pub plan_area_sqft: f64,
    /// Level free edges at the low side.
    pub eave_ft: f64,
    /// Sloping free edges.
    pub rake_ft: f64,
    /// Level and convex.
    pub ridge_ft: f64,
    /// Sloped and convex.
    pub hip_ft: f64,
    /// Concave.
    pub valley_ft: f64,
    /// Walls along the slope.
    pub sidewall_ft: f64,
    /// Walls at the top.
    pub headwall_ft: f64,
    /// Level changes of pitch.
    pub break_ft: f64,
    /// Level free edges at the high side.
    pub high_edge_ft: f64,
    /// Level lines where a plane falls towards a wall.
    pub dead_valley_ft: f64,
    /// Low sides of openings, which are no walls.
    pub opening_sill_ft: f64,
    /// Sides of openings along the slope.
    pub opening_side_ft: f64,
    /// High sides of openings, the backs of chimneys against their crickets among them.
    pub opening_head_ft: f64,
    /// From the lowest edge to the highest line.
    pub height_ft: f64,
}

/// Every unit of the roof.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Layout {
    /// Plane by plane.
    pub planes: Vec<LaidPlane>,
    /// Field pieces on the roof.
    pub pieces: u64,
    /// Whole units among them.
    pub whole: u64,
    /// Cut pieces among them.
    pub cut: u64,
    /// Field units from which the pieces are cut.
    pub stock: u64,
    /// A proven lower bound on `stock`.
    pub stock_bound: u64,
    /// Planes whose courses meet at hips and valleys, where that was asked for.
    pub matched: Vec<Matched>,
    /// Hips and valleys at which they were to meet and cannot.
    pub unmatched: Vec<Unmatched>,
    /// Which unit gives which pieces.
    pub cutting: Vec<Cutting>,
    /// What is lost of the units of each sheet, and why.
    pub waste: Vec<Waste>,
}

/// One plane with its units, inches in the plane's own frame.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct LaidPlane {
    /// The plane's id.
    pub id: String,
    /// v of the first butts, the pole's zero.
    pub first_butt_in: f64,
    /// v of the top line.
    pub top_in: f64,
    /// How far units that hang do so below their course line; 0 where butts lie straight.
    pub step_in: f64,
    /// Where the joints of all courses meet if they are prolonged, where units are cut narrower towards the peak of a turret; absent
    /// where joints run straight up. What is told of joints and places along a course is at its butts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub peak_in: Option<[f64; 2]>,
    /// Of the strip under the starters, so that the first course lies like the rest; absent for tapered units.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cant_in: Option<f64>,
    /// Courses of one length, from the longest at the eave up; empty where all units have one length.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lengths: Vec<GradedCourses>,
    /// Starters that lie over each other along every low edge.
    pub starter_layers: u32,
    /// From eave to ridge.
    pub courses: Vec<Course>,
    /// Shapes of cut pieces; a run's `cut` is an index here.
    pub cuts: Vec<Cut>,
    /// The kinds of units that pieces are cut from: the field unit, or all widths of a mix; then the wide unit. A run's `unit` is an index here.
    pub units: Vec<Unit>,
    /// The boundary the units are cut to.
    pub laid_in: Vec<Vec<[f64; 2]>>,
    /// The under-eave course.
    pub starters: Vec<Starters>,
    /// Heights at which a course line should land, from the lowest up.
    pub stations: Vec<Station>,
    /// One for every rake and stretch.
    pub poles: Vec<Pole>,
    /// Lines to be snapped along the edges of caps.
    pub guides: Vec<Guide>,
    /// Where left and right rafters differ.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub out_of_square: Option<OutOfSquare>,
    /// Where the exposure is no mark of the unit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off_the_marks: Option<OffTheMarks>,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Course {
    /// v of the butts.
    pub butt_in: f64,
    /// To the next butts, or to the top line.
    pub exposure_in: f64,
    /// From butt to head of its units.
    pub length_in: f64,
    /// How far the units cover those two courses below them, three at triple lap.
    pub headlap_in: f64,
    /// From and to, for every unbroken row of pieces.
    pub spans_in: Vec<[f64; 2]>,
    /// u of the middle of each gap between neighbours, ascending.
    pub joints_in: Vec<f64>,
    /// Equal neighbouring pieces, left to right.
    pub runs: Vec<Run>,
}

/// Courses of one length on a graduated plane, and how the first of them lies to the longer ones below.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct GradedCourses {
    /// From butt to head.
    pub length_in: f64,
    /// At the butt.
    pub thickness_in: f64,
    /// The lowest, counted from 0 at the eave.
    pub first_course: usize,
    /// How many.
    pub courses: usize,
    /// From the heads of the course below to the lowest one's; absent at the eave.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub heads_apart_in: Option<f64>,
    /// Over the last course of the longer units; absent at the eave, and where no course reaches it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub headlap_in: Option<f64>,
}

/// Equal neighbouring pieces of a course.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Run {
    /// Left side of the first unit before cutting.
    pub left_in: f64,
    /// Of each unit before cutting.
    pub width_in: f64,
    /// From one unit's left side to the next one's.
    pub step_in: f64,
    /// How many.
    pub count: u32,
    /// Index in [`LaidPlane::cuts`]; none for whole units.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<u32>,
    /// Index in [`LaidPlane::units`]; left out for the first.
    #[serde(skip_serializing_if = "is_first_unit")]
    pub unit: u32,
    /// The first unit that hangs by `step_in`, 0 or 1, and every other one after it; absent where none does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hangs: Option<u32>,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn is_first_unit(unit: &u32) -> bool {
    *unit == 0
}

/// A kind of unit.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Unit {
    /// From butt to head.
    pub length_in: f64,
    /// Along the course.
    pub width_in: f64,
    /// At the butt.
    pub thickness_in: f64,
    /// It is the sheet's wide unit.
    pub wide: bool,
    /// Nails of a whole one, from its lower left corner; empty where the sheet does not say where they go.
    pub nails_in: Vec<[f64; 2]>,
}

/// The shape of a cut piece, from the unit's lower left corner.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct Cut {
    /// What is left of the unit; more than one part where an edge cuts a unit in two.
    pub parts_in: Vec<Vec<[f64; 2]>>,
    /// Greatest width along the course.
    pub width_in: f64,
    /// Of what is left.
    pub area_sqin: f64,
    /// `left` or `right`: the side of its longest slanted cut, seen facing the plane. The offcut of a left hip's piece fits
    /// a right valley of equal angle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hand: Option<&'static str>,
    /// Its cut edges.
    pub bevels: Vec<Bevel>,
    /// Which sides must be the unit's own.
    pub made: Made,
    /// Where its nails go; empty where it cannot be nailed or the sheet does not say.
    pub nails_in: Vec<[f64; 2]>,
}

/// A cut edge of a piece.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Bevel {
    /// The edge of the roof that cut it, as for [`Edge::kind`].
    pub kind: &'static str,
    /// Between the cut and the course line: 0 along the course, 90 straight up the slope.
    pub angle_deg: f64,
    /// Which way the cut looks: `left`, `right`, `up`, `down`.
    pub facing: &'static str,
    /// From the unit's lower left corner; the piece lies on its left.
    pub ends_in: [[f64; 2]; 2],
}

/// Sides of a piece that must be the unit's own, as it was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct Made {
    /// It has some of the butt.
    pub butt: bool,
    /// Its left side meets a neighbour or the sky.
    pub left: bool,
    /// Its right side does.
    pub right: bool,
}

/// The under-eave course along one level low edge.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Starters {
    /// v of the butts.
    pub butt_in: f64,
    /// From butt to head.
    pub height_in: f64,
    /// Ends of the edge.
    pub span_in: [f64; 2],
    /// Left side of the first starter before cutting.
    pub left_in: f64,
    /// From one starter's left side to the next one's.
    pub step_in: f64,
    /// How many.
    pub count: u32,
}

/// Wind on the roof by zones: 1 the field, 2 the edges, 3 the corners. A licensed engineer decides.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Wind {
    /// `ASCE 7-16`.
    pub standard: &'static str,
    /// Basic wind, miles an hour.
    pub mph: f64,
    /// `B`, `C` or `D`.
    pub exposure: &'static str,
    /// Mean height of the roof.
    pub mean_roof_height_ft: f64,
    /// Velocity pressure.
    pub velocity_pressure_psf: f64,
    /// Width of the zones along the edges.
    pub zone_width_ft: f64,
    /// Planes whose coefficients are known.
    pub planes: Vec<WindOnPlane>,
}

/// Pressures on the components of one plane at 10 sq ft and allowable stress.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct WindOnPlane {
    /// The plane's id.
    pub plane: String,
    /// Pull in zones 1, 2 and 3; negative.
    pub zones_psf: [f64; 3],
    /// Push.
    pub inward_psf: f64,
}

/// A rule's outcome.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Check {
    /// The rule's name, `headlap-too-short`.
    pub rule: &'static str,
    /// The fault in words.
    pub title: &'static str,
    /// `code`, `maker` or `practice`.
    pub kind: &'static str,
    /// What part of the work it is about.
    pub family: &'static str,
    /// Everything measured keeps the rule; at `attention`, that what it rests on was not read is all there is to look at.
    pub kept: bool,
    /// Of a code: the edition that the job names.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edition: Option<&'static str>,
    /// `pass`, `fail`, `attention` or `not-applicable`.
    pub outcome: &'static str,
    /// Why somebody accepts what was found; the outcome stays.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub silenced: Option<String>,
    /// The figures in one sentence.
    pub says: String,
    /// What to do.
    pub remedy: &'static str,
    /// Path in the job file of what the remedy changes: `fastener.length`.
    pub about: &'static str,
    /// What it endangers: `leak`, `warranty`, `code`, `safety`.
    pub endangers: Vec<&'static str>,
    /// Where the rule comes from.
    pub source: String,
    /// The source was read, not remembered; of a code, in the edition that the job names.
    pub read_source: bool,
    /// Path in the job file of what it is about, or of the first place.
    pub path: String,
    /// Line of that path in the job file, or of the nearest that stands there, counted from 1.
    pub line: usize,
    /// Places on the roof.
    #[serde(rename = "where")]
    pub places: Vec<CheckedPlace>,
}

/// A place a check points at.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct CheckedPlace {
    /// The plane's id.
    pub plane: String,
    /// Counted from 0 at the eave.
    pub course: usize,
    /// Along the course.
    pub u_in: f64,
    /// Up the slope.
    pub v_in: f64,
    /// Path in the job file of the plane, or of the opening.
    pub path: String,
    /// Its line, counted from 1.
    pub line: usize,
}
