//! The boundary of every measured plane, stretch by stretch.

use std::collections::BTreeMap;

use geom::Point;

use super::seam::{EdgeAt, Joint, TOGETHER};
use super::{EdgeName, Face, MeasuredPlane, problem};
use crate::build::{Bound, join_lines};
use crate::classify::{Across, kind};
use crate::problem::{MeasuredPart, Problem, Severity};
use crate::rings::chain;
use crate::{EdgeKind, Frame, Line, Place, Ring};

/// A straight part of a plane's boundary with one neighbour or none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    pub(super) face: usize,
    pub(super) name: Option<EdgeName>,
    /// On the plane.
    pub(super) ends: [Place; 2],
    pub(super) kind: EdgeKind,
    /// The same line seen from the other plane.
    pub(super) twin: Option<usize>,
}

impl Stretch {
    /// True length: places are on the surface.
    pub(super) fn length(&self) -> f64 {
        geom::distance(self.ends[0], self.ends[1])
    }
}

/// All stretches in the order of faces, rings and edges.
pub(super) fn of_all(faces: &[Face], joints: &[Joint]) -> Vec<Stretch> {
    let parts = Parts::of(joints);
    let mut stretches = Vec::new();
    let mut first_seen: BTreeMap<usize, usize> = BTreeMap::new();
    for (index, face) in faces.iter().enumerate() {
        for (ring, corners) in face.rings.iter().enumerate() {
            for (at, (corner, next)) in corners.iter().zip(corners.iter().cycle().skip(1)).enumerate() {
                let length = geom::distance(corner.at, next.at);
                for (part, joint) in parts.along((index, ring, at), length) {
                    let ends = part.map(|part| on(corner.at, next.at, part));
                    let twin = joint.and_then(|joint| first_seen.insert(joint, stretches.len()));
                    let kind = corner.kind.unwrap_or_else(|| free_kind(&face.plane.frame, ends));
                    stretches.push(Stretch { face: index, name: corner.name, ends, kind, twin });
                }
            }
        }
    }
    pair(faces, &mut stretches);
    stretches
}

fn on(a: Place, b: Place, part: f64) -> Place {
    match part {
        0.0 => a,
        1.0 => b,
        _ => [a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])],
    }
}

fn in_plan(frame: &Frame, at: Place) -> Point {
    let [x, y, _] = frame.point(at);
    [x, y]
}

fn free_kind(frame: &Frame, ends: [Place; 2]) -> EdgeKind {
    let [a, b] = ends.map(|at| in_plan(frame, at));
    kind(frame, a, b, Across::Open)
}

/// Tells the first of two stretches of its twin, and both what they are.
fn pair(faces: &[Face], stretches: &mut [Stretch]) {
    for second in 0..stretches.len() {
        let Some(first) = stretches[second].twin.filter(|&first| first < second) else { continue };
        let frame = |stretch: usize| &faces[stretches[stretch].face].plane.frame;
        let [a, b] = stretches[first].ends.map(|at| in_plan(frame(first), at));
        let kind = kind(frame(first), a, b, Across::Plane(frame(second)));
        stretches[first].twin = Some(second);
        stretches[first].kind = kind;
        stretches[second].kind = kind;
    }
}

/// Joints by edge.
struct Parts(BTreeMap<EdgeAt, Vec<([f64; 2], usize)>>);

impl Parts {
    fn of(joints: &[Joint]) -> Self {
        let mut parts: BTreeMap<EdgeAt, Vec<([f64; 2], usize)>> = BTreeMap::new();
        for (index, joint) in joints.iter().enumerate() {
            for (edge, part) in joint.edges.into_iter().zip(joint.parts) {
                parts.entry(edge).or_default().push((part, index));
            }
        }
        parts.values_mut().for_each(|parts| parts.sort_by(|a, b| a.0[0].total_cmp(&b.0[0])));
        Self(parts)
    }

    /// The parts of an edge from end to end, with their joints. Gaps and overlaps too small to be real are closed.
    fn along(&self, edge: EdgeAt, length: f64) -> Vec<([f64; 2], Option<usize>)> {
        let mut all = Vec::new();
        let mut reached = 0.0;
        for &([from, to], joint) in self.0.get(&edge).map_or(&[][..], Vec::as_slice) {
            if (from - reached) * length > TOGETHER {
                all.push(([reached, from], None));
                reached = from;
            }
            all.push(([reached, to.max(reached)], Some(joint)));
            reached = to.max(reached);
        }
        if reached < 1.0 {
            all.push(([reached, 1.0], None));
        }
        all
    }
}

/// The rings of a face; `base` is the number of planes before the measured ones.
pub(super) fn rings(stretches: &[Stretch], face: usize, base: usize, frame: &Frame) -> Vec<Ring> {
    let bound = |stretch: &Stretch| {
        let [from, to] = stretch.ends.map(|at| in_plan(frame, at));
        let meets = stretch.twin.map(|twin| base + stretches[twin].face);
        Bound { from, to, kind: stretch.kind, meets }
    };
    let bounds: Vec<Bound> = stretches.iter().filter(|stretch| stretch.face == face).map(bound).collect();
    chain(&bounds, frame)
}

/// Every line once, a joint as long as the longer of its two sides.
pub(super) fn lines(stretches: &[Stretch], faces: &[Face], base: usize) -> Vec<Line> {
    let counted = |&index: &usize| match stretches[index].twin {
        Some(twin) => (stretches[index].length(), twin) > (stretches[twin].length(), index),
        None => true,
    };
    let line = |index: usize| {
        let stretch = &stretches[index];
        let other = stretch.twin.map(|twin| base + stretches[twin].face);
        let mut planes: Vec<usize> = std::iter::once(base + stretch.face).chain(other).collect();
        planes.sort_unstable();
        let ends = stretch.ends.map(|at| faces[stretch.face].plane.frame.point(at));
        Line { kind: stretch.kind, ends, planes }
    };
    join_lines((0..stretches.len()).filter(counted).map(line).collect())
}

/// Edges that are not what the person calls them: the corners of both planes tell what a joint is.
pub(super) fn contradictions(planes: &[MeasuredPlane], faces: &[Face], stretches: &[Stretch]) -> Vec<Problem> {
    let contradicts = |stretch: &&Stretch| stretch.twin.is_some();
    let found = stretches.iter().filter(contradicts).filter_map(|stretch| {
        let index = faces[stretch.face].of;
        let name = stretch.name?;
        let told = planes[index].kinds.get(&name).filter(|&&told| told != stretch.kind)?;
        let says = format!("calls its edge {name} a {}, but the corners make it a {}", told.name(), stretch.kind.name());
        let of = ("edge-is-another", Severity::Caution);
        let remedy = "look at the corners on both sides, or leave the word out";
        Some(problem(&planes[index], index, MeasuredPart::Edge(name), of, &says, remedy))
    });
    found.collect()
}
