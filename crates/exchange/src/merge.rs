//! Triangles and other pieces back to the planes they were cut from.

use std::collections::{BTreeMap, BTreeSet};

use roof::Point3;

use crate::raw::Surface;
use crate::ring::{dot, length, normal, sub};

/// Pieces no farther than this off the plane of the largest lie in it, in inches.
const IN_PLANE: f64 = 1.0 / 8.0;

/// A corner as whole steps, to find it again.
type Key = [i64; 3];
/// A side of a ring in the direction in which the ring runs.
type Side = (Key, Key);

/// Joins pieces of one building that share a whole side and lie in one plane. Pieces whose joint outline would touch
/// itself stay as they are. Every ring must run counter-clockwise seen from above, holes clockwise, on multiples of
/// `step`.
pub(crate) fn merged(surfaces: Vec<Surface>, step: f64) -> Vec<Surface> {
    let pieces = Pieces::new(&surfaces, step);
    let mut taken = BTreeSet::new();
    let mut found: BTreeMap<usize, Surface> = BTreeMap::new();
    for seed in by_size(&surfaces) {
        if taken.contains(&seed) {
            continue;
        }
        let region = pieces.region(seed, &taken);
        taken.extend(&region);
        match (region.len(), pieces.outline(&region), region.first()) {
            (2.., Some(rings), Some(&first)) => {
                found.insert(first, Surface { rings, ..surfaces[first].clone() });
            }
            _ => found.extend(region.into_iter().map(|at| (at, surfaces[at].clone()))),
        }
    }
    found.into_values().collect()
}

fn by_size(surfaces: &[Surface]) -> Vec<usize> {
    let sizes: Vec<f64> = surfaces.iter().map(|surface| length(outer_normal(surface))).collect();
    let mut order: Vec<usize> = (0..surfaces.len()).collect();
    order.sort_by(|&a, &b| sizes[b].total_cmp(&sizes[a]).then(a.cmp(&b)));
    order
}

fn outer_normal(surface: &Surface) -> Point3 {
    surface.rings.first().map_or([0.0; 3], |ring| normal(ring))
}

/// Surfaces by their sides.
struct Pieces<'a> {
    surfaces: &'a [Surface],
    sides: Vec<Vec<Side>>,
    corners: BTreeMap<Key, Point3>,
    /// Whose side it is; the first where several claim it.
    owner: BTreeMap<(&'a str, Side), usize>,
}

impl<'a> Pieces<'a> {
    fn new(surfaces: &'a [Surface], step: f64) -> Self {
        let key = |corner: &Point3| corner.map(|at| (at / step).round() as i64);
        let (mut corners, mut owner, mut sides) = (BTreeMap::new(), BTreeMap::new(), Vec::new());
        for (at, surface) in surfaces.iter().enumerate() {
            corners.extend(surface.rings.iter().flatten().map(|corner| (key(corner), *corner)));
            let around = |ring: &Vec<Point3>| {
                let keys: Vec<Key> = ring.iter().map(key).collect();
                keys.iter().copied().zip(keys.iter().copied().cycle().skip(1)).collect::<Vec<Side>>()
            };
            let own: Vec<Side> = surface.rings.iter().flat_map(around).collect();
            own.iter().for_each(|side| {
                owner.entry((surface.part_of.as_str(), *side)).or_insert(at);
            });
            sides.push(own);
        }
        Self { surfaces, sides, corners, owner }
    }

    /// The pieces that can be reached from one over shared sides without leaving its plane.
    fn region(&self, seed: usize, taken: &BTreeSet<usize>) -> BTreeSet<usize> {
        let mut region = BTreeSet::from([seed]);
        // A neighbour along many sides is looked at once.
        let mut seen = region.clone();
        let mut open = vec![seed];
        while let Some(at) = open.pop() {
            for &(from, to) in &self.sides[at] {
                let Some(&next) = self.owner.get(&(self.surfaces[at].part_of.as_str(), (to, from))) else { continue };
                if seen.insert(next) && !taken.contains(&next) && self.in_plane(next, seed) {
                    region.insert(next);
                    open.push(next);
                }
            }
        }
        region
    }

    fn in_plane(&self, piece: usize, seed: usize) -> bool {
        let up = outer_normal(&self.surfaces[seed]);
        let Some(&origin) = self.surfaces[seed].rings.first().and_then(|ring| ring.first()) else { return false };
        let off = |corner: &Point3| (dot(sub(*corner, origin), up) / length(up)).abs();
        self.surfaces[piece].rings.iter().flatten().all(|corner| off(corner) <= IN_PLANE)
    }

    /// What is left when sides that are walked both ways cancel: one outer ring, then holes.
    fn outline(&self, region: &BTreeSet<usize>) -> Option<Vec<Vec<Point3>>> {
        let sides: Vec<Side> = region.iter().flat_map(|&at| self.sides[at].iter().copied()).collect();
        let both: BTreeSet<Side> = sides.iter().copied().collect();
        let border: Vec<Side> = sides.iter().copied().filter(|&(from, to)| !both.contains(&(to, from))).collect();
        let mut next: BTreeMap<Key, Key> = border.iter().copied().collect();
        if both.len() < sides.len() || next.len() < border.len() {
            return None;
        }
        let mut rings = Vec::new();
        while let Some((&start, _)) = next.first_key_value() {
            rings.push(self.follow(start, &mut next)?);
        }
        rings.sort_by_key(|ring| normal(ring)[2] < 0.0);
        let outer = rings.iter().filter(|ring| normal(ring)[2] > 0.0).count();
        (outer == 1).then_some(rings)
    }

    fn follow(&self, start: Key, next: &mut BTreeMap<Key, Key>) -> Option<Vec<Point3>> {
        let (mut ring, mut at) = (Vec::new(), start);
        while let Some(to) = next.remove(&at) {
            ring.push(*self.corners.get(&at)?);
            at = to;
        }
        (at == start).then_some(ring)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece(part_of: &str, corners: &[Point3]) -> Surface {
        Surface { part_of: part_of.into(), name: "p".into(), rings: vec![corners.to_vec()] }
    }

    const FOUR: [Point3; 4] = [[0.0, 0.0, 0.0], [40.0, 0.0, 0.0], [40.0, 30.0, 20.0], [0.0, 30.0, 20.0]];

    fn pick(corners: [usize; 3]) -> Vec<Point3> {
        corners.iter().map(|&at| FOUR[at]).collect()
    }

    #[test]
    fn two_triangles_are_one_plane() {
        let joined = merged(vec![piece("a", &pick([0, 1, 2])), piece("a", &pick([0, 2, 3]))], 1.0);
        assert_eq!(joined.len(), 1);
        let mut corners = joined[0].rings[0].clone();
        let first = corners.iter().position(|corner| crate::ring::distance(*corner, FOUR[0]) < 1e-9).unwrap();
        corners.rotate_left(first);
        assert_eq!(corners, FOUR);
    }

    #[test]
    fn two_slopes_and_two_houses_stay_apart() {
        let other_slope = piece("a", &[FOUR[3], FOUR[2], [40.0, 60.0, 0.0], [0.0, 60.0, 0.0]]);
        assert_eq!(merged(vec![piece("a", &FOUR), other_slope], 1.0).len(), 2);
        assert_eq!(merged(vec![piece("a", &pick([0, 1, 2])), piece("b", &pick([0, 2, 3]))], 1.0).len(), 2);
    }

    /// Four pieces round a square hole.
    #[test]
    fn a_ring_of_pieces_has_a_hole() {
        let at = |x: f64, y: f64| [x, y, 0.0];
        let (outer, inner) =
            ([at(0., 0.), at(30., 0.), at(30., 30.), at(0., 30.)], [at(9., 9.), at(20., 9.), at(20., 20.), at(9., 20.)]);
        let pieces = (0..4).map(|i| piece("a", &[outer[i], outer[(i + 1) % 4], inner[(i + 1) % 4], inner[i]])).collect();
        let joined = merged(pieces, 1.0);
        assert_eq!(joined.len(), 1);
        let areas: Vec<f64> = joined[0].rings.iter().map(|ring| normal(ring)[2] / 2.0).collect();
        assert_eq!(areas, [900.0, -121.0]);
    }

    #[test]
    fn the_same_piece_twice_stays_two() {
        assert_eq!(merged(vec![piece("a", &FOUR), piece("a", &FOUR)], 1.0).len(), 2);
    }
}
