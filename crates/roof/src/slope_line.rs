//! The line in which an upright plane along the fall cuts the roof, upwards from a place on a plane.

use geom::{Point, polygon};

use crate::{EdgeKind, Plane, Roof};

/// Nearer than this to an edge is on it.
const HAIR: f64 = 1e-6;

/// A straight piece of the line; level distances and heights are counted from its beginning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stretch {
    pub(crate) from: f64,
    pub(crate) to: f64,
    /// Height at `from`.
    height: f64,
    /// Rise per inch.
    slope: f64,
}

/// From the place `u`, `v` on a plane up to where the slope ends; on beyond breaks of the pitch.
pub(crate) fn slope_line(roof: &Roof, plane: &Plane, u: f64, v: f64) -> Vec<Stretch> {
    let mut line: Vec<Stretch> = Vec::new();
    let mut next = Some((plane, u, v));
    while let Some((plane, u, v)) = next {
        let Some((top, beyond)) = way_out(plane, u, v) else { break };
        let (from, height) = line.last().map_or((0.0, 0.0), |last| (last.to, last.height_at(last.to)));
        let slope = plane.pitch.rise() / 12.0;
        line.push(Stretch { from, to: from + (top - v) / plane.pitch.slope_factor(), height, slope });
        let [x, y, _] = plane.frame.point([u, top]);
        next = beyond.filter(|_| line.len() < roof.planes.len()).map(|other| {
            let plane = &roof.planes[other];
            let [u, v] = plane.frame.place(x, y);
            (plane, u, v)
        });
    }
    line
}

/// Where a line up the slope leaves a plane, and over a break the plane beyond.
fn way_out(plane: &Plane, u: f64, v: f64) -> Option<(f64, Option<usize>)> {
    let places = plane.places();
    let rings = plane.rings.iter().zip(&places);
    let edges = rings.flat_map(|(ring, places)| ring.edges.iter().zip(polygon::sides(places)));
    let crossed = edges.filter_map(|(edge, ends)| Some((height_on(ends, u).filter(|&top| top > v + HAIR)?, edge)));
    let (top, edge) = crossed.min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some((top, edge.meets.filter(|_| edge.kind == EdgeKind::Break)))
}

/// How far below a place, level, the eave of its plane lies, if an eave is what lies below it.
pub(crate) fn run_to_eave(plane: &Plane, u: f64, v: f64) -> Option<f64> {
    let places = plane.places();
    let rings = plane.rings.iter().zip(&places);
    let edges = rings.flat_map(|(ring, places)| ring.edges.iter().zip(polygon::sides(places)));
    let crossed = edges.filter_map(|(edge, ends)| Some((height_on(ends, u).filter(|&low| low < v + HAIR)?, edge)));
    let (low, edge) = crossed.max_by(|a, b| a.0.total_cmp(&b.0))?;
    (edge.kind == EdgeKind::Eave).then(|| (v - low).max(0.0) / plane.pitch.slope_factor())
}

/// v where an edge crosses the line at `u`.
fn height_on((a, b): (Point, Point), u: f64) -> Option<f64> {
    ((a[0] > u) != (b[0] > u)).then(|| a[1] + (u - a[0]) / (b[0] - a[0]) * (b[1] - a[1]))
}

impl Stretch {
    fn height_at(&self, x: f64) -> f64 {
        self.height + (x - self.from) * self.slope
    }

    /// Where this stretch first reaches a line given by its height at 0 and its rise per inch.
    pub(crate) fn meets(&self, [height, slope]: [f64; 2]) -> Option<f64> {
        let above = |x: f64| height + slope * x - self.height_at(x);
        let (start, end) = (above(self.from), above(self.to));
        (end <= 0.0)
            .then(|| if start <= 0.0 { self.from } else { self.from + (self.to - self.from) * start / (start - end) })
    }

    /// Area between this stretch and a line above it, as far as `limit`.
    pub(crate) fn area_below(&self, top: [f64; 2], limit: f64) -> f64 {
        let end = self.meets(top).unwrap_or(self.to).min(limit);
        let above = |x: f64| top[0] + top[1] * x - self.height_at(x);
        (end - self.from).max(0.0) * (above(self.from) + above(end)).max(0.0) / 2.0
    }
}
