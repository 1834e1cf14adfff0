//! One check that re-proves what every roof must be.

use std::collections::BTreeMap;

use geom::{Point, cross, distance, polygon, sub};

use crate::classify::{JOINED, height};
use crate::{Plane, Roof};

/// Everything about the roof that cannot be; empty for a sound roof.
///
/// Rings are closed, simple and run the right way; every joint is as long from one side as from the other and at one
/// height on both planes; every line of the roof is one of the planes' edges.
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
    let mut seen: BTreeMap<(usize, usize), f64> = BTreeMap::new();
    for (index, plane) in roof.planes.iter().enumerate() {
        for ring in &plane.rings {
            let ends = ring.corners.iter().zip(ring.corners.iter().cycle().skip(1));
            for ((a, b), edge) in ends.zip(&ring.edges) {
                let Some(other) = edge.meets else { continue };
                let side = if index < other { 1.0 } else { -1.0 };
                *seen.entry((index.min(other), index.max(other))).or_default() +=
                    side * distance([a[0], a[1]], [b[0], b[1]]);
                if [a, b].iter().any(|c| (height(&roof.planes[other].frame, [c[0], c[1]]) - c[2]).abs() > 2.0 * JOINED) {
                    flaws.push(format!("{} and {} do not meet at one height", plane.id, roof.planes[other].id));
                }
            }
        }
    }
    flaws.extend(seen.iter().filter(|(_, difference)| difference.abs() > JOINED).map(|((a, b), difference)| {
        format!("the joint of {} and {} differs by {difference} in", roof.planes[*a].id, roof.planes[*b].id)
    }));
    flaws
}

/// Sums of the lines against sums of the edges, joints counted once.
fn line_flaws(roof: &Roof) -> Vec<String> {
    crate::EdgeKind::ALL
        .into_iter()
        .filter_map(|kind| {
            let lines: f64 = roof.lines.iter().filter(|line| line.kind == kind).map(|line| line.length().to_inches()).sum();
            let edges: f64 = roof.planes.iter().map(|plane| edge_length(plane, kind)).sum();
            ((lines - edges).abs() > 0.1).then(|| format!("{} lines sum to {lines} in, edges to {edges} in", kind.name()))
        })
        .collect()
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
