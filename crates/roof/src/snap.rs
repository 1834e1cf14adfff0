//! Puts the pieces of the roof on common corners.
//!
//! Where several hips all but meet, as under the peak of a turret taped to a sixteenth, planes end in tails of any width down to
//! nothing, and where blocks cut each other what is too narrow to be real is left out. Each piece by itself would be told
//! differently from its neighbour. So corners of any pieces that are one but for a hair become the same point, and an edge that
//! passes a corner within a hair is led through it: every part of a boundary is then either shared from corner to corner or not
//! shared at all.

use std::collections::BTreeMap;

use geom::region::Region;
use geom::{Point, TOLERANCE, dot, off_segment, sub};

use crate::corner::Corners;

/// The hair, in inches: twice the width below which the overlay of regions leaves a part out, as a pointed part is twice as wide
/// at its end as on the whole.
pub(crate) const HAIR: f64 = 128.0 * TOLERANCE;

/// The pieces on common corners. Parts narrower than a hair are folded to lines, there and back.
pub(crate) fn snap(pieces: &[Region]) -> Vec<Region> {
    let (points, numbered) = different(pieces);
    let corner = Corners::of(&points, HAIR).of;
    let mut by_x: Vec<usize> = (0..points.len()).filter(|&at| corner[at] == at).collect();
    by_x.sort_by(|&a, &b| points[a][0].total_cmp(&points[b][0]).then(a.cmp(&b)));
    let corners = Ordered { points: &points, by_x };
    let ring = |ring: &Vec<usize>| {
        let ends = ring.iter().zip(ring.iter().cycle().skip(1)).map(|(&a, &b)| [corner[a], corner[b]]);
        ends.filter(|[a, b]| a != b).flat_map(|ends| corners.along(ends)).collect()
    };
    numbered.iter().map(|rings| rings.iter().map(ring).filter(|ring: &Vec<Point>| !ring.is_empty()).collect()).collect()
}

/// Every point once, and the rings of every piece as numbers of points.
fn different(pieces: &[Region]) -> (Vec<Point>, Vec<Vec<Vec<usize>>>) {
    let mut points: Vec<Point> = Vec::new();
    let mut known: BTreeMap<[u64; 2], usize> = BTreeMap::new();
    let mut number = |p: &Point| {
        *known.entry(p.map(f64::to_bits)).or_insert_with(|| {
            points.push(*p);
            points.len() - 1
        })
    };
    let rings = pieces.iter().map(|rings| rings.iter().map(|ring| ring.iter().map(&mut number).collect()).collect());
    let numbered = rings.collect();
    (points, numbered)
}

/// Corners, to be looked up from left to right.
struct Ordered<'a> {
    points: &'a [Point],
    by_x: Vec<usize>,
}

impl Ordered<'_> {
    /// The corners along an edge in order, its end left out; the same from both sides.
    fn along(&self, [from, to]: [usize; 2]) -> Vec<Point> {
        let [a, b] = [from.min(to), from.max(to)].map(|end| self.points[end]);
        let mut passed: Vec<(f64, Point)> = self
            .in_reach([a, b])
            .filter(|&at| at != from && at != to)
            .map(|at| self.points[at])
            .filter(|&p| off_segment(p, a, b) <= HAIR)
            .map(|p| (dot(sub(b, a), sub(p, a)), p))
            .collect();
        passed.sort_by(|(p, _), (q, _)| p.total_cmp(q));
        if from > to {
            passed.reverse();
        }
        std::iter::once(self.points[from]).chain(passed.into_iter().map(|(_, p)| p)).collect()
    }

    /// The corners in the upright rectangle around an edge.
    fn in_reach(&self, [a, b]: [Point; 2]) -> impl Iterator<Item = usize> {
        let low = [0, 1].map(|axis: usize| a[axis].min(b[axis]) - HAIR);
        let high = [0, 1].map(|axis: usize| a[axis].max(b[axis]) + HAIR);
        let start = self.by_x.partition_point(|&at| self.points[at][0] < low[0]);
        let near = self.by_x[start..].iter().copied().take_while(move |&at| self.points[at][0] <= high[0]);
        near.filter(move |&at| (low[1]..=high[1]).contains(&self.points[at][1]))
    }
}

/// How far, in inches, a corner may lie off the straight line past it and still be no corner: well below a hair, so that many in a
/// row can't take away a part that is wider than one.
const STRAIGHT: f64 = 8.0 * TOLERANCE;

/// Whether a way from corner to corner to corner is straight.
pub(crate) fn is_straight([a, corner, b]: [Point; 3]) -> bool {
    dot(sub(corner, a), sub(b, corner)) > 0.0 && off_segment(corner, a, b) <= STRAIGHT
}
