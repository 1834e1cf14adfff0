//! Which edges of surveyed planes lie on each other in space.

use std::collections::BTreeMap;

use super::Face;
use super::fit::{dot3, minus};
use crate::{KnownBy, Point3};

/// Edges no farther apart are one line: surveyed corners are no better.
pub(super) const TOGETHER: f64 = 1.0;

/// An edge: which face, ring and corner it leaves from.
pub(super) type EdgeAt = (usize, usize, usize);

/// A stretch that two edges share, as parts of each edge from 0 at its start to 1 at its end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Joint {
    pub(super) edges: [EdgeAt; 2],
    pub(super) parts: [[f64; 2]; 2],
}

#[derive(Debug, Clone, Copy)]
struct EdgeLine {
    at: EdgeAt,
    ends: [Point3; 2],
    length: f64,
}

/// Every joint, each once. No stretch of an edge is in two joints: where three edges lie on each other the longest joint
/// is made first.
pub(super) fn joints(faces: &[Face]) -> Vec<Joint> {
    let edges = edges(faces);
    let mut found: Vec<(f64, Joint)> = Vec::new();
    for (index, a) in edges.iter().enumerate() {
        // Sorted by their least x, so that those after the first beyond reach are beyond reach too.
        let near = edges[index + 1..].iter().take_while(|b| least_x(b) <= a.ends[0][0].max(a.ends[1][0]) + TOGETHER);
        found.extend(near.filter_map(|b| shared(a, b)));
    }
    found.sort_by(|(a, first), (b, second)| b.total_cmp(a).then(first.edges.cmp(&second.edges)));
    let mut taken: BTreeMap<EdgeAt, Vec<[f64; 2]>> = BTreeMap::new();
    found.retain(|(_, joint)| take(&mut taken, joint));
    let mut joints: Vec<Joint> = found.into_iter().map(|(_, joint)| joint).collect();
    joints.sort_by_key(|joint| joint.edges);
    joints
}

fn least_x(edge: &EdgeLine) -> f64 {
    edge.ends[0][0].min(edge.ends[1][0])
}

fn edges(faces: &[Face]) -> Vec<EdgeLine> {
    let mut edges = Vec::new();
    for (face, of) in faces.iter().enumerate().filter(|(_, face)| face.plane.known_by == KnownBy::Corners) {
        for (ring, corners) in of.rings.iter().enumerate() {
            for (corner, (a, b)) in corners.iter().zip(corners.iter().cycle().skip(1)).enumerate() {
                let along = minus(b.measured, a.measured);
                let length = dot3(along, along).sqrt();
                edges.push(EdgeLine { at: (face, ring, corner), ends: [a.measured, b.measured], length });
            }
        }
    }
    edges.sort_by(|a, b| least_x(a).total_cmp(&least_x(b)).then(a.at.cmp(&b.at)));
    edges
}

/// What two edges of different planes share, with its length. Both planes lie on their edges' left, so neighbours' edges
/// run against each other.
fn shared(a: &EdgeLine, b: &EdgeLine) -> Option<(f64, Joint)> {
    if a.at.0 == b.at.0 || dot3(minus(a.ends[1], a.ends[0]), minus(b.ends[1], b.ends[0])) >= 0.0 {
        return None;
    }
    let (a, b) = if a.at < b.at { (a, b) } else { (b, a) };
    let on_a = [part(a, b.ends[1]), part(a, b.ends[0])].map(|part| snapped(part, a.length));
    let on_b = [part(b, a.ends[1]), part(b, a.ends[0])].map(|part| snapped(part, b.length));
    let apart = |t: f64, s: f64| {
        let between = minus(point(a, t), point(b, s));
        dot3(between, between).sqrt()
    };
    let length = (on_a[1] - on_a[0]) * a.length;
    let joined = length > 2.0 * TOGETHER && apart(on_a[0], on_b[1]) <= TOGETHER && apart(on_a[1], on_b[0]) <= TOGETHER;
    joined.then_some((length, Joint { edges: [a.at, b.at], parts: [on_a, on_b] }))
}

/// Where along an edge a point lies, as a part of its length.
fn part(edge: &EdgeLine, p: Point3) -> f64 {
    dot3(minus(p, edge.ends[0]), minus(edge.ends[1], edge.ends[0])) / (edge.length * edge.length)
}

/// Onto the edge, and onto its ends if that is near enough.
fn snapped(part: f64, length: f64) -> f64 {
    let near = TOGETHER / length;
    if part <= near {
        0.0
    } else if part >= 1.0 - near {
        1.0
    } else {
        part
    }
}

fn point(edge: &EdgeLine, part: f64) -> Point3 {
    let [from, to] = edge.ends;
    std::array::from_fn(|i| from[i] + part * (to[i] - from[i]))
}

fn take(taken: &mut BTreeMap<EdgeAt, Vec<[f64; 2]>>, joint: &Joint) -> bool {
    let overlaps = |[from, to]: [f64; 2], &[other_from, other_to]: &[f64; 2]| {
        to.min(other_to) - from.max(other_from) > 0.5 * (to - from).min(other_to - other_from)
    };
    let sides = || joint.edges.into_iter().zip(joint.parts);
    let free = sides().all(|(edge, part)| taken.get(&edge).is_none_or(|all| !all.iter().any(|other| overlaps(part, other))));
    if free {
        sides().for_each(|(edge, part)| taken.entry(edge).or_default().push(part));
    }
    free
}
