//! A plane seen by whoever rolls a sheet out on it.

use geom::region::{Region, common, either};
use roof::{EdgeKind, Line, Place, Plane};

use crate::Patch;

/// Parts of a band narrower than this, in, are rounding.
const NIL: f64 = 1e-3;

/// A plane's outline in its own frame: outer rings counter-clockwise, holes clockwise.
pub(crate) fn region(plane: &Plane) -> Region {
    plane.places()
}

/// The outline carried on past its edges, each by what `past` gives for its kind.
pub(crate) fn carried(plane: &Plane, past: impl Fn(EdgeKind) -> f64) -> Region {
    let added: Region = edges(plane)
        .map(|([from, to], kind)| (beside([from, to], -past(kind)), past(kind)))
        .filter(|(_, past)| *past > NIL)
        .map(|(corners, _)| corners.to_vec())
        .collect();
    either(&region(plane), &added)
}

/// Every edge of a plane, the plane on its left, with what a roofer calls it.
pub(crate) fn edges(plane: &Plane) -> impl Iterator<Item = ([Place; 2], EdgeKind)> + '_ {
    let rings = plane.places().into_iter().zip(&plane.rings);
    rings.flat_map(|(places, ring)| {
        let kinds: Vec<_> = ring.edges.iter().map(|edge| edge.kind).collect();
        geom::polygon::sides(&places).map(|(a, b)| [a, b]).zip(kinds).collect::<Vec<_>>()
    })
}

/// The ends of a line on a plane. A taped plane is drawn beside the rest; there its own edge of the same kind stands in.
pub(crate) fn ends_on(plane: &Plane, line: &Line) -> [Place; 2] {
    let length = line.length().to_inches();
    let off = |ends: &[Place; 2]| (geom::distance(ends[0], ends[1]) - length).abs();
    let own = || edges(plane).filter(|(_, kind)| *kind == line.kind).map(|(ends, _)| ends);
    let nearest = own().min_by(|a, b| off(a).total_cmp(&off(b))).filter(|_| !plane.has_place());
    nearest.unwrap_or_else(|| line.ends.map(|[x, y, _]| plane.frame.place(x, y)))
}

/// The rectangle along a line, so wide to its left; to its right if `width` is negative. Counter-clockwise.
pub(crate) fn beside([from, to]: [Place; 2], width: f64) -> [Place; 4] {
    let length = geom::distance(from, to).max(f64::MIN_POSITIVE);
    let left = geom::scale([from[1] - to[1], to[0] - from[0]], width / length);
    let [from_out, to_out] = [geom::add(from, left), geom::add(to, left)];
    if width < 0.0 { [from_out, to_out, to, from] } else { [from, to, to_out, from_out] }
}

/// A rectangle with its sides across and up the slope.
pub(crate) fn upright([left, right]: [f64; 2], [low, high]: [f64; 2]) -> [Place; 4] {
    [[left, low], [right, low], [right, high], [left, high]]
}

impl Patch {
    pub(crate) fn upright(plane: usize, u: [f64; 2], v: [f64; 2]) -> Self {
        Self { plane, corners: upright(u, v) }
    }
}

/// From and to across the slope of every stretch of a region between two heights. Parts one above the other are one.
pub(crate) fn stretches(region: &Region, u: [f64; 2], v: [f64; 2]) -> Vec<[f64; 2]> {
    extents(region, &upright(u, v), 0)
}

/// As [`stretches`], up the slope between two sides.
pub(crate) fn rises(region: &Region, u: [f64; 2], v: [f64; 2]) -> Vec<[f64; 2]> {
    extents(region, &upright(u, v), 1)
}

fn extents(region: &Region, window: &[Place; 4], axis: usize) -> Vec<[f64; 2]> {
    let seen = common(region, &[window.to_vec()]);
    let mut parts: Vec<[f64; 2]> =
        seen.iter().filter(|ring| geom::polygon::area(ring) > 0.0).map(|ring| range(ring, axis)).collect();
    parts.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut joined: Vec<[f64; 2]> = Vec::new();
    for [from, to] in parts {
        match joined.last_mut().filter(|last| from <= last[1] + NIL) {
            Some(last) => last[1] = last[1].max(to),
            None => joined.push([from, to]),
        }
    }
    joined.retain(|[from, to]| to - from > NIL);
    joined
}

/// Least and greatest of a ring on an axis.
pub(crate) fn range(ring: &[Place], axis: usize) -> [f64; 2] {
    let values = ring.iter().map(|place| place[axis]);
    values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| [low.min(value), high.max(value)])
}

/// Least and greatest of a region up the slope; none of nothing.
pub(crate) fn height(region: &Region) -> Option<[f64; 2]> {
    let all: Vec<Place> = region.iter().flatten().copied().collect();
    (!all.is_empty()).then(|| range(&all, 1))
}

/// Wider than any roof, in.
pub(crate) const ANYWHERE: [f64; 2] = [-1e7, 1e7];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_band_is_parted_only_by_what_stands_all_through_it() {
        let plane: Region = vec![
            upright([0.0, 100.0], [0.0, 50.0]).to_vec(),
            upright([40.0, 50.0], [10.0, 30.0]).into_iter().rev().collect(),
        ];
        assert_eq!(stretches(&plane, ANYWHERE, [0.0, 20.0]).len(), 1);
        let parted = stretches(&plane, ANYWHERE, [12.0, 28.0]);
        assert_eq!(parted.len(), 2);
        assert!((parted[0][1] - 40.0).abs() < 1e-5 && (parted[1][0] - 50.0).abs() < 1e-5);
        assert!(stretches(&plane, ANYWHERE, [60.0, 70.0]).is_empty());
    }

    #[test]
    fn beside_a_line_is_to_its_left() {
        let eave = [[0.0, 0.0], [10.0, 0.0]];
        assert_eq!(beside(eave, 3.0), [[0.0, 0.0], [10.0, 0.0], [10.0, 3.0], [0.0, 3.0]]);
        let [low, high] = range(&beside(eave, -3.0), 1);
        assert!((low + 3.0).abs() < 1e-12 && high.abs() < 1e-12);
        assert!(geom::polygon::area(&beside(eave, -3.0)) > 0.0);
    }
}
