//! Chains classified stretches into the closed rings of a plane.

use std::collections::BTreeMap;

use geom::{Point, TOLERANCE, cross, dot, sub};

use crate::build::Bound;
use crate::corner::Corners;
use crate::snap::is_straight;
use crate::{Edge, Frame, Place, Ring};

/// Ends of stretches nearer than this are one corner.
const WELD: f64 = 32.0 * TOLERANCE;

/// The rings of a plane, each beginning at the left end of its lowest edge.
pub(crate) fn chain(bounds: &[Bound], frame: &Frame) -> Vec<Ring> {
    let ends = Ends::of(bounds);
    // A stretch so short that its ends are one corner is left out.
    let mut used: Vec<bool> = (0..bounds.len()).map(|index| ends.start[index] == ends.end[index]).collect();
    let mut rings = Vec::new();
    for first in 0..bounds.len() {
        if !used[first] {
            let ring = walk(first, bounds, &ends, &mut used);
            rings.extend(finish(&ring, bounds, frame));
        }
    }
    rings
}

/// Which stretches begin at which corner.
struct Ends {
    leaving: BTreeMap<usize, Vec<usize>>,
    start: Vec<usize>,
    end: Vec<usize>,
}

impl Ends {
    fn of(bounds: &[Bound]) -> Self {
        let points: Vec<Point> = bounds.iter().flat_map(|bound| [bound.from, bound.to]).collect();
        let corners = Corners::of(&points, WELD).of;
        let (start, end) = corners.chunks_exact(2).map(|ends| (ends[0], ends[1])).unzip();
        let mut ends = Self { leaving: BTreeMap::new(), start, end };
        for (index, &corner) in ends.start.iter().enumerate() {
            ends.leaving.entry(corner).or_default().push(index);
        }
        ends
    }
}

fn walk(first: usize, bounds: &[Bound], ends: &Ends, used: &mut [bool]) -> Vec<usize> {
    let mut ring = vec![first];
    used[first] = true;
    loop {
        let last = *ring.last().unwrap_or(&first);
        if ends.end[last] == ends.start[first] {
            return ring;
        }
        let leaving = ends.leaving.get(&ends.end[last]).map_or(&[][..], Vec::as_slice);
        let next = leaving
            .iter()
            .copied()
            .filter(|&next| !used[next])
            .min_by(|&a, &b| clockwise(&bounds[last], &bounds[a]).total_cmp(&clockwise(&bounds[last], &bounds[b])));
        let Some(next) = next else { return ring };
        used[next] = true;
        ring.push(next);
    }
}

/// Angle clockwise from the way back to the way on: the least keeps rings that touch at a corner apart.
fn clockwise(arriving: &Bound, leaving: &Bound) -> f64 {
    let (back, on) = (sub(arriving.from, arriving.to), sub(leaving.to, leaving.from));
    let angle = libm::atan2(-cross(back, on), dot(back, on));
    if angle <= 0.0 { angle + std::f64::consts::TAU } else { angle }
}

/// Joins stretches that run on straight and turns the ring to begin at the left end of its lowest edge.
fn finish(ring: &[usize], bounds: &[Bound], frame: &Frame) -> Option<Ring> {
    let mut joined: Vec<Bound> = Vec::new();
    for bound in ring.iter().map(|&index| bounds[index]) {
        match joined.last_mut() {
            Some(last) if runs_on(last, &bound) => last.to = bound.to,
            _ => joined.push(bound),
        }
    }
    if joined.len() > 3 && joined.last().is_some_and(|last| runs_on(last, &joined[0])) {
        let last = joined.pop()?;
        joined[0].from = last.from;
    }
    let place = |bound: &Bound| frame.place(bound.from[0], bound.from[1]);
    let lowest = (0..joined.len()).min_by(|&a, &b| {
        let key = |at: usize| place(&joined[at]).map(|c| (c / WELD).round());
        let (a, b) = (key(a), key(b));
        a[1].total_cmp(&b[1]).then(a[0].total_cmp(&b[0]))
    })?;
    joined.rotate_left(lowest);
    let mut places: Vec<Place> = joined.iter().map(place).collect();
    (0..2).for_each(|axis| align(&mut places, axis));
    let corners = places.into_iter().map(|place| frame.point(place)).collect();
    let edges = joined.iter().map(|bound| Edge { kind: bound.kind, meets: bound.meets }).collect();
    Some(Ring { corners, edges })
}

/// Corners as far up the plane, or as far along it, as each other but for rounding are exactly so: else one eave of a plane would
/// lie a hair over another, and units be cut for it.
fn align(places: &mut [Place], axis: usize) {
    let mut known = vec![0.0];
    for place in places {
        match known.iter().find(|&&value: &&f64| (value - place[axis]).abs() < WELD) {
            Some(&value) => place[axis] = value,
            None => known.push(place[axis]),
        }
    }
}

fn runs_on(last: &Bound, next: &Bound) -> bool {
    last.kind == next.kind && last.meets == next.meets && is_straight([last.from, last.to, next.to])
}
