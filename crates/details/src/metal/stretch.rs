//! Stretches of a plane's boundary along which metal lies.

use geom::Point;
use roof::{EdgeKind, Place, Plane, Roof};

use super::Along;
use crate::Given;
use crate::surface::edges;

/// Places nearer than this, in, are one.
const SAME: f64 = 1e-3;

/// A straight stretch of a covered plane's boundary, the plane on its left; edges of one kind in one line are one stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stretch {
    pub(crate) along: Along,
    pub(crate) kind: EdgeKind,
    pub(crate) ends: [Place; 2],
}

impl Stretch {
    /// Lower end first.
    pub(crate) fn upward(&self) -> [Place; 2] {
        let [from, to] = self.ends;
        if from[1] <= to[1] { [from, to] } else { [to, from] }
    }

    /// u of the stretch at a height, which is kept within its ends.
    pub(crate) fn u_at(&self, v: f64) -> f64 {
        let [low, high] = self.upward();
        let share = ((v - low[1]) / (high[1] - low[1]).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        low[0] + (high[0] - low[0]) * share
    }

    /// Whether two stretches meet at a place.
    pub(crate) fn ends_at(&self, at: Place) -> bool {
        self.ends.iter().any(|&end| geom::distance(end, at) < SAME)
    }
}

/// Every stretch of a kind on covered planes.
pub(crate) fn stretches(given: &Given<'_>, kind: EdgeKind) -> Vec<Stretch> {
    given.covered().flat_map(|(index, plane, _)| on_plane(given.roof, index, plane, kind)).collect()
}

/// Every stretch of a kind on one plane.
pub(crate) fn on_plane(roof: &Roof, index: usize, plane: &Plane, kind: EdgeKind) -> Vec<Stretch> {
    let mut joined: Vec<[Place; 2]> = Vec::new();
    for (ends, _) in edges(plane).filter(|&(ends, of)| of == kind && geom::distance(ends[0], ends[1]) > SAME) {
        // A ring may begin in the middle of a stretch.
        let before = joined.iter().position(|&other| goes_on(other, ends));
        let after = joined.iter().position(|&other| goes_on(ends, other));
        match (before, after) {
            (Some(before), Some(after)) if before != after => {
                joined[before][1] = joined[after][1];
                joined.remove(after);
            }
            (Some(before), _) => joined[before][1] = ends[1],
            (None, Some(after)) => joined[after][0] = ends[0],
            (None, None) => joined.push(ends),
        }
    }
    let opening_edge = matches!(kind, EdgeKind::Sill | EdgeKind::Side | EdgeKind::Head);
    let stretch = |ends: [Place; 2]| Stretch {
        along: Along {
            plane: index,
            line: line_of(roof, index, plane, kind, ends),
            opening: opening_edge.then(|| opening_of(roof, index, plane, ends)).flatten(),
        },
        kind,
        ends,
    };
    joined.into_iter().map(stretch).collect()
}

/// The second stretch begins where the first ends and runs the same way.
fn goes_on([from, to]: [Place; 2], [next, end]: [Place; 2]) -> bool {
    let [a, b] = [geom::sub(to, from), geom::sub(end, next)];
    let turn = a[0] * b[1] - a[1] * b[0];
    let ahead = a[0] * b[0] + a[1] * b[1];
    geom::distance(to, next) < SAME && ahead > 0.0 && turn.abs() < SAME * ahead.max(1.0)
}

/// The line of the roof nearest to a stretch; on a taped plane, which has no place, the one most alike in length.
fn line_of(roof: &Roof, index: usize, plane: &Plane, kind: EdgeKind, ends: [Place; 2]) -> Option<usize> {
    let off = |line: &roof::Line| {
        let there = line.ends.map(|[x, y, _]| plane.frame.place(x, y));
        if plane.has_place() {
            let middle = |[a, b]: [Place; 2]| geom::scale(geom::add(a, b), 0.5);
            geom::distance(middle(there), middle(ends))
        } else {
            (line.length().to_inches() - geom::distance(ends[0], ends[1])).abs()
        }
    };
    let lines = roof.lines.iter().enumerate().filter(|(_, line)| line.kind == kind && line.planes.contains(&index));
    lines.min_by(|(_, a), (_, b)| off(a).total_cmp(&off(b))).map(|(line, _)| line)
}

fn opening_of(roof: &Roof, index: usize, plane: &Plane, ends: [Place; 2]) -> Option<usize> {
    let reaches = |opening: &roof::PlacedOpening| {
        let corners: Vec<Point> = opening.corners.iter().map(|&[x, y, _]| plane.frame.place(x, y)).collect();
        let near = |end: Place| geom::polygon::sides(&corners).any(|(a, b)| geom::off_segment(end, a, b) < SAME);
        opening.planes.contains(&index) && ends.into_iter().all(near)
    };
    roof.openings.iter().position(reaches)
}
