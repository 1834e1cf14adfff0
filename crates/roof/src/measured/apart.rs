//! Planes that are one line by their corners and do not quite meet there: each lies nearest to its own corners.

use std::collections::BTreeMap;

use geom::TOLERANCE;

use super::stretch::Stretch;
use super::{EdgeName, Face, MeasuredPlane, problem, told};
use crate::classify::height;
use crate::problem::{MeasuredPart, Problem, Severity};
use crate::{Frame, Point3};

/// Planes no farther off each other, in inches, meet as well as corners can be surveyed.
const MEETING: f64 = 1.0;

/// How far a joint of surveyed planes may lie off either, in inches: each plane may lie an inch off its own corners, the
/// edges an inch from each other, and an inch of edge that is left over at a joint's end is counted with it.
pub(crate) const ONE_LINE: f64 = 4.0;

/// How far a point lies off a plane, square to it, in inches; above zero is above it.
pub(crate) fn off([x, y, z]: Point3, frame: &Frame) -> f64 {
    (z - height(frame, [x, y])) / frame.pitch.slope_factor()
}

/// The place of a joint where one of its planes lies farthest off the other.
#[derive(Debug, Clone, Copy)]
struct Gap {
    /// Indices of faces: the one that has this end, and the other.
    faces: [usize; 2],
    /// Edge of the first.
    name: EdgeName,
    at: Point3,
    off: f64,
}

/// Where a stretch lies farthest off the plane beyond it; nothing for free edges, taped planes and holes.
fn gap(faces: &[Face], stretches: &[Stretch], stretch: &Stretch) -> Option<Gap> {
    let pair = [stretch.face, stretches[stretch.twin?].face];
    let [here, there] = pair.map(|face| &faces[face].plane);
    let name = stretch.name.filter(|_| here.has_place() && there.has_place())?;
    let gap = |place| {
        let at = here.frame.point(place);
        Gap { faces: pair, name, at, off: off(at, &there.frame) }
    };
    stretch.ends.into_iter().map(gap).reduce(wider)
}

/// The first unless the second is wider by more than rounding.
fn wider(first: Gap, second: Gap) -> Gap {
    if second.off.abs() > first.off.abs() + TOLERANCE { second } else { first }
}

/// How far two stretches that are said to be one line lie off each other's planes.
pub(super) fn between(faces: &[Face], pair: [&Stretch; 2]) -> f64 {
    let [a, b] = pair.map(|stretch| &faces[stretch.face].plane.frame);
    let ends = |stretch: &Stretch, own: &Frame, other: &Frame| stretch.ends.map(|place| off(own.point(place), other).abs());
    ends(pair[0], a, b).into_iter().chain(ends(pair[1], b, a)).fold(0.0, f64::max)
}

/// A word for each pair of joined planes that do not meet, at the place where they are farthest apart.
pub(super) fn apart(planes: &[MeasuredPlane], faces: &[Face], stretches: &[Stretch]) -> Vec<Problem> {
    let mut widest: BTreeMap<[usize; 2], Gap> = BTreeMap::new();
    for gap in stretches.iter().filter_map(|stretch| gap(faces, stretches, stretch)) {
        let [a, b] = gap.faces;
        let known = widest.entry([a.min(b), a.max(b)]).or_insert(gap);
        *known = wider(*known, gap);
    }
    widest.into_values().filter(|gap| gap.off.abs() > MEETING).map(|gap| do_not_meet(planes, faces, gap)).collect()
}

fn do_not_meet(planes: &[MeasuredPlane], faces: &[Face], Gap { faces: pair, name, at, off }: Gap) -> Problem {
    let [here, there] = pair.map(|face| faces[face].of);
    let part = match name {
        EdgeName::From(corner) => MeasuredPart::Corner { hole: None, corner },
        name => MeasuredPart::Edge(name),
    };
    let says = format!(
        "and {} do not meet: along its edge {name}, at x = {:.2} ft, y = {:.2} ft, it lies {} {} the surface of the other",
        planes[there].name,
        at[0] / 12.0,
        at[1] / 12.0,
        told(off.abs()),
        if off > 0.0 { "above" } else { "below" }
    );
    let remedy =
        "measure the corners along that line again; if they are right, the deck must be brought to one line there first";
    problem(&planes[here], here, part, ("planes-do-not-meet", Severity::Caution), &says, remedy)
}
