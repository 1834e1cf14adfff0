//! An outline from what was typed: legs with a direction and a length, and a new length for a side that is there.

use axum::Json;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::{LengthUnit, Measure};

use crate::answer::{Body, Refusal};
use crate::typed::{typed, written};

/// No outline has more legs.
const MOST_LEGS: usize = 2000;

/// An outline as it is walked round.
#[derive(Deserialize, JsonSchema)]
pub(crate) struct Walk {
    /// The unit of bare lengths.
    units: LengthUnit,
    /// The first corner, [x, y].
    from: [String; 2],
    /// In order.
    legs: Vec<Leg>,
}

/// One side of an outline.
#[derive(Deserialize, JsonSchema)]
struct Leg {
    /// Degrees in plan, counter-clockwise from +x.
    toward_deg: f64,
    /// As typed.
    length: String,
}

/// Where the legs lead.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Walked {
    /// The first corner and the end of each leg, [x, y], as the job file has them.
    corners: Vec<[String; 2]>,
    /// From the last corner back to the first, to the tape's sixteenth.
    back: String,
}

/// A new length for one side of an outline.
#[derive(Deserialize, JsonSchema)]
pub(crate) struct Stretch {
    /// The unit of bare lengths.
    units: LengthUnit,
    /// Corners as the job file has them.
    outline: Vec<[Measure; 2]>,
    /// Which side: it runs from the corner of this number to the next.
    side: usize,
    /// As typed.
    length: String,
}

pub(crate) async fn walk(Body(walk): Body<Walk>) -> Result<Json<Walked>, Refusal> {
    if walk.legs.len() > MOST_LEGS {
        return Err(Refusal::bad(format!("{} legs, where {MOST_LEGS} is the most", walk.legs.len()), "Close the outline."));
    }
    let mut at = [inches(&walk.from[0], walk.units)?, inches(&walk.from[1], walk.units)?];
    let first = at;
    let mut corners = vec![at.map(written)];
    for leg in &walk.legs {
        let length = positive(&leg.length, walk.units)?;
        let [right, up] = direction(leg.toward_deg);
        at = [at[0] + right * length, at[1] + up * length];
        corners.push(at.map(written));
    }
    Ok(Json(Walked { corners, back: units::Length::inches(libm::hypot(first[0] - at[0], first[1] - at[1])).to_string() }))
}

/// The side gets the length; its far end and the next side move along, and the side after that gives way.
pub(crate) async fn stretch(Body(stretch): Body<Stretch>) -> Result<Json<Vec<[String; 2]>>, Refusal> {
    let length = positive(&stretch.length, stretch.units)?;
    let mut corners: Vec<[f64; 2]> =
        stretch.outline.iter().map(|corner| corner.map(|axis| axis.in_unit(stretch.units).to_inches())).collect();
    let count = corners.len();
    if count < 3 || stretch.side >= count {
        return Err(Refusal::bad("there is no such side", "Choose a side of the outline."));
    }
    let [from, to] = [corners[stretch.side], corners[(stretch.side + 1) % count]];
    let [across, up] = [to[0] - from[0], to[1] - from[1]];
    let old = libm::hypot(across, up);
    if old <= 0.0 {
        return Err(Refusal::bad(
            "this side has no direction: both its ends are at one place",
            "Move one of its corners first.",
        ));
    }
    let by = [across, up].map(|part| part / old * (length - old));
    for corner in [stretch.side + 1, stretch.side + 2] {
        let corner = &mut corners[corner % count];
        *corner = [corner[0] + by[0], corner[1] + by[1]];
    }
    Ok(Json(corners.into_iter().map(|corner| corner.map(written)).collect()))
}

fn inches(text: &str, unit: LengthUnit) -> Result<f64, Refusal> {
    let remedy = "Type feet and inches such as 24' 9-1/2\", or 24 9-1/2, or a length with its unit.";
    typed(text, unit).map(units::Length::to_inches).map_err(|says| Refusal::bad(says, remedy))
}

fn positive(text: &str, unit: LengthUnit) -> Result<f64, Refusal> {
    let inches = inches(text, unit)?;
    if inches > 0.0 {
        Ok(inches)
    } else {
        Err(Refusal::bad("a side has a length above 0", "Turn the direction round instead."))
    }
}

/// Exact along the axes.
fn direction(degrees: f64) -> [f64; 2] {
    match degrees.rem_euclid(360.0) {
        0.0 => [1.0, 0.0],
        90.0 => [0.0, 1.0],
        180.0 => [-1.0, 0.0],
        270.0 => [0.0, -1.0],
        other => [libm::cos(other.to_radians()), libm::sin(other.to_radians())],
    }
}
