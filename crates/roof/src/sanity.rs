//! One check that re-proves what every roof must be.

use std::collections::BTreeMap;

use geom::{Point, cross, distance, polygon, sub};

use crate::classify::{JOINED, height};
use crate::measured::{ONE_LINE, off};
use crate::{KnownBy, Plane, Point3, Roof};

/// How far, in inches, two tapes of one line may differ.
const TAPED: f64 = 1.0;

/// Everything about the roof that cannot be; empty for a sound roof.
///
/// Rings are closed, simple and run the right way; every joint is as long from one side as from the other and at one
/// height on both planes; every line of the roof is one of the planes' edges. Joints of measured planes are held to what was
/// allowed when they were joined. Two tapes of one line agree within an inch, and a taped plane has no height to be held to.
/// Each end of a surveyed joint lies within 4 in of the other plane; where it is more than one, `planes-do-not-meet` says so.
#[must_use]
pub fn sanity_check(roof: &Roof) -> Vec<String> {
    let mut flaws: Vec<String> = roof.planes.iter().flat_map(plane_flaws).collect();
    flaws.extend(joint_flaws(roof));
    flaws.extend(line_flaws(roof));
    flaws
}

fn flat(corners: &[[f64; 3]]) -> Vec<Point> {
    corners.iter().map(|corner| [corner[0], corner[1]]).collect()
}

fn plane_flaws(plane: &Plane) -> Vec<String> {
    let mut flaws = Vec::new();
    let rings: Vec<Vec<Point>> = plane.rings.iter().map(|ring| flat(&ring.corners)).collect();
    if rings.iter().map(|ring| polygon::area(ring)).sum::<f64>() <= 0.0 {
        flaws.push(format!("{} has no area", plane.id));
    }
    for (ring, corners) in plane.rings.iter().zip(&rings) {
        if corners.len() < 3 || corners.len() != ring.edges.len() {
            flaws.push(format!("{} has a ring of {} corners and {} edges", plane.id, corners.len(), ring.edges.len()));
        }
        if let Some((a, b)) = crossing(corners) {
            flaws.push(format!("{} crosses itself at edges {a} and {b}", plane.id));
        }
        if ring.corners.iter().any(|&[x, y, z]| (height(&plane.frame, [x, y]) - z).abs() > JOINED) {
            flaws.push(format!("{} is not flat", plane.id));
        }
    }
    flaws
}

/// Two edges that cross; a ring may touch itself.
fn crossing(corners: &[Point]) -> Option<(usize, usize)> {
    let edges: Vec<(Point, Point)> = polygon::sides(corners).collect();
    let off = |(a, b): (Point, Point), p: Point| cross(sub(b, a), sub(p, a)) / distance(a, b);
    let parted = |line: (Point, Point), (a, b): (Point, Point)| {
        let (a, b) = (off(line, a), off(line, b));
        a.abs() > JOINED && b.abs() > JOINED && a * b < 0.0
    };
    let pairs = (0..edges.len()).flat_map(|a| (a + 1..edges.len()).map(move |b| (a, b)));
    pairs.into_iter().find(|&(a, b)| parted(edges[a], edges[b]) && parted(edges[b], edges[a]))
}

/// Length of the joint between two planes, seen from each.
fn joint_flaws(roof: &Roof) -> Vec<String> {
    let mut flaws = Vec::new();
    let mut seen: BTreeMap<(usize, usize), Seen> = BTreeMap::new();
    for (index, plane) in roof.planes.iter().enumerate() {
        for ring in &plane.rings {
            let ends = ring.corners.iter().zip(ring.corners.iter().cycle().skip(1));
            for ((a, b), edge) in ends.zip(&ring.edges) {
                let Some(other) = edge.meets else { continue };
                let side = if index < other { 1.0 } else { -1.0 };
                let joint = seen.entry((index.min(other), index.max(other))).or_default();
                joint.difference += side * joint_length(roof, [index, other], [*a, *b]);
                joint.edges += 1;
                if [*a, *b].into_iter().any(|corner| !lies_on(roof, corner, [index, other])) {
                    flaws.push(format!("{} and {} do not meet at one height", plane.id, roof.planes[other].id));
                }
            }
        }
    }
    flaws.extend(seen.iter().filter(|(pair, joint)| joint.difference.abs() > joint.allowed(roof, **pair)).map(
        |((a, b), joint)| {
            format!("the joint of {} and {} differs by {} in", roof.planes[*a].id, roof.planes[*b].id, joint.difference)
        },
    ));
    flaws
}

/// What is seen of a joint from both sides.
#[derive(Default)]
struct Seen {
    difference: f64,
    /// From both sides.
    edges: u32,
}

impl Seen {
    fn allowed(&self, roof: &Roof, (a, b): (usize, usize)) -> f64 {
        if is_raised(roof, [a, b]) { JOINED } else { f64::from(self.edges) / 2.0 * length_allowed(roof, [a, b]) }
    }
}

fn is_raised(roof: &Roof, pair: [usize; 2]) -> bool {
    pair.iter().all(|&plane| roof.planes[plane].known_by == KnownBy::Outline)
}

/// Whether a corner of the first plane lies on the second, as nearly as the planes are known.
fn lies_on(roof: &Roof, corner: Point3, pair: [usize; 2]) -> bool {
    let other = &roof.planes[pair[1]].frame;
    if is_raised(roof, pair) {
        (height(other, [corner[0], corner[1]]) - corner[2]).abs() <= 2.0 * JOINED
    } else {
        !is_placed(roof, pair) || off(corner, other).abs() <= ONE_LINE
    }
}

fn is_placed(roof: &Roof, pair: [usize; 2]) -> bool {
    pair.iter().all(|&plane| roof.planes[plane].has_place())
}

/// By how much the two sides of a measured line may differ in length.
fn length_allowed(roof: &Roof, pair: [usize; 2]) -> f64 {
    // Each end of a surveyed line may lie as far as that from the same end on the other plane.
    if is_placed(roof, pair) { 2.0 * ONE_LINE } else { TAPED }
}

/// In plan, as the same line lies there on both planes; in space where a plane has no place in plan.
fn joint_length(roof: &Roof, pair: [usize; 2], [a, b]: [Point3; 2]) -> f64 {
    if is_placed(roof, pair) {
        distance([a[0], a[1]], [b[0], b[1]])
    } else {
        libm::sqrt((0..3).map(|i| (b[i] - a[i]) * (b[i] - a[i])).sum())
    }
}

/// Sums of the lines against sums of the edges, joints counted once.
fn line_flaws(roof: &Roof) -> Vec<String> {
    crate::EdgeKind::ALL
        .into_iter()
        .filter_map(|kind| {
            let lines: f64 = roof.lines.iter().filter(|line| line.kind == kind).map(|line| line.length().to_inches()).sum();
            let edges: f64 = roof.planes.iter().map(|plane| edge_length(plane, kind)).sum();
            ((lines - edges).abs() > 0.1 + unlike(roof, kind))
                .then(|| format!("{} lines sum to {lines} in, edges to {edges} in", kind.name()))
        })
        .collect()
}

/// A measured joint is counted as long as the longer of its sides, edges here as long as the mean.
fn unlike(roof: &Roof, kind: crate::EdgeKind) -> f64 {
    let of_kind = roof.lines.iter().filter(|line| line.kind == kind);
    let pairs = of_kind.filter_map(|line| <[usize; 2]>::try_from(line.planes.as_slice()).ok());
    pairs.filter(|&pair| !is_raised(roof, pair)).map(|pair| length_allowed(roof, pair) / 2.0).sum()
}

fn edge_length(plane: &Plane, kind: crate::EdgeKind) -> f64 {
    let mut sum = 0.0;
    for ring in &plane.rings {
        let ends = ring.corners.iter().zip(ring.corners.iter().cycle().skip(1));
        for ((a, b), edge) in ends.zip(&ring.edges).filter(|(_, edge)| edge.kind == kind) {
            let share = if edge.meets.is_some() { 0.5 } else { 1.0 };
            sum += share * libm::sqrt((0..3).map(|i| (b[i] - a[i]) * (b[i] - a[i])).sum());
        }
    }
    sum
}
