use earcut::Earcut;
use plan::Unit;
use roof::Point3;

use crate::polygons::polygons;

/// Corners, and indices of the corners of its triangles or lines.
#[derive(Debug, Default)]
pub(super) struct Solid {
    pub(super) corners: Vec<Point3>,
    pub(super) indices: Vec<u32>,
}

type Ring = Vec<[f64; 2]>;

/// A region without thickness, seen from above.
pub(super) fn flat(rings: &[Ring]) -> Solid {
    let mut solid = Solid::default();
    for polygon in polygons(rings) {
        let begins = solid.corners.len() as u32;
        solid.corners.extend(polygon.iter().flat_map(|&ring| &rings[ring]).map(|&[u, v]| [u, v, 0.0]));
        solid.indices.extend(triangles(rings, &polygon).iter().map(|index| begins + index));
    }
    solid
}

/// A straight line.
pub(super) fn segment(ends: [Point3; 2]) -> Solid {
    Solid { corners: ends.to_vec(), indices: vec![0, 1] }
}

/// A piece of a unit: its head lies on the deck, its butt on so many layers of units.
pub(super) fn unit(shape: &[Ring], unit: &Unit, layers: f64) -> Solid {
    let thick = unit.thickness_in;
    let under = |v: f64| layers * thick * (1.0 - v / unit.length_in).clamp(0.0, 1.0);
    let mut solid = Solid::default();
    for polygon in polygons(shape) {
        let corners: Ring = polygon.iter().flat_map(|&ring| shape[ring].iter().copied()).collect();
        let (begins, count) = (solid.corners.len() as u32, corners.len() as u32);
        solid.corners.extend(corners.iter().map(|&[u, v]| [u, v, under(v) + thick]));
        solid.corners.extend(corners.iter().map(|&[u, v]| [u, v, under(v)]));
        let top = triangles(shape, &polygon);
        solid.indices.extend(top.iter().map(|index| begins + index));
        // Seen from below, the other way round.
        solid.indices.extend(top.iter().rev().map(|index| begins + count + index));
        let mut from = begins;
        for &ring in &polygon {
            let size = shape[ring].len() as u32;
            (0..size).for_each(|at| side(&mut solid.indices, [from + at, from + (at + 1) % size], count));
            from += size;
        }
    }
    solid
}

/// The upright rectangle under a side of the top; the bottom has the same corners, so many indices on.
fn side(indices: &mut Vec<u32>, [a, b]: [u32; 2], below: u32) {
    indices.extend([a, a + below, b + below, a, b + below, b]);
}

/// Counter-clockwise, as indices in the corners of an outer ring and its holes, one after the other.
fn triangles(rings: &[Ring], polygon: &[usize]) -> Vec<u32> {
    let corners: Ring = polygon.iter().flat_map(|&ring| rings[ring].iter().copied()).collect();
    let mut holes: Vec<u32> = Vec::new();
    let mut end = 0;
    for &ring in polygon {
        if end > 0 {
            holes.push(end);
        }
        end += rings[ring].len() as u32;
    }
    let mut triangles = Vec::new();
    Earcut::new().earcut(corners.iter().copied(), &holes, &mut triangles);
    triangles.chunks_exact_mut(3).filter(|corner| is_clockwise(&corners, corner)).for_each(<[u32]>::reverse);
    triangles
}

fn is_clockwise(corners: &[[f64; 2]], triangle: &[u32]) -> bool {
    let ring: Vec<[f64; 2]> = triangle.iter().map(|&index| corners[index as usize]).collect();
    geom::polygon::area(&ring) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unit_of(length_in: f64, thickness_in: f64) -> Unit {
        Unit { length_in, width_in: 10.0, thickness_in, ..Unit::default() }
    }

    /// Gauss's theorem: a sixth of the sum of the triple products of all triangles.
    fn volume(solid: &Solid) -> f64 {
        let corner = |index: u32| solid.corners[index as usize];
        let triple = |[a, b, c]: [Point3; 3]| {
            a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
        };
        solid.indices.chunks(3).map(|of| triple([corner(of[0]), corner(of[1]), corner(of[2])])).sum::<f64>() / 6.0
    }

    /// Area times thickness, whatever the slant, and every side is shared by two triangles, once each way.
    #[test]
    fn a_piece_is_closed_and_has_its_volume() {
        let whole = vec![vec![[0.0, 0.0], [10.0, 0.0], [10.0, 18.0], [0.0, 18.0]]];
        let pierced = [whole.clone(), vec![vec![[3.0, 5.0], [3.0, 9.0], [7.0, 9.0], [7.0, 5.0]]]].concat();
        let cut = vec![vec![[0.0, 0.0], [6.0, 0.0], [0.0, 12.0]], vec![[8.0, 0.0], [10.0, 0.0], [10.0, 4.0]]];
        for (shape, area) in [(whole, 180.0), (pierced, 180.0 - 16.0), (cut, 36.0 + 4.0)] {
            let solid = unit(&shape, &unit_of(18.0, 0.25), 2.0);
            assert!((volume(&solid) - area * 0.25).abs() < 1e-9, "{} {area}", volume(&solid));
            let mut sides: Vec<(u32, u32)> =
                solid.indices.chunks(3).flat_map(|t| [(t[0], t[1]), (t[1], t[2]), (t[2], t[0])]).collect();
            let mut back: Vec<(u32, u32)> = sides.iter().map(|&(a, b)| (b, a)).collect();
            sides.sort_unstable();
            back.sort_unstable();
            assert_eq!(sides, back);
        }
    }

    #[test]
    fn a_butt_lies_on_the_units_below_and_a_head_on_the_deck() {
        let solid = unit(&[vec![[0.0, 0.0], [10.0, 0.0], [10.0, 18.0], [0.0, 18.0]]], &unit_of(18.0, 0.25), 2.0);
        let lowest = |v: f64| {
            let at = solid.corners.iter().filter(|corner| (corner[1] - v).abs() < 1e-9).map(|corner| corner[2]);
            at.fold(f64::INFINITY, f64::min)
        };
        assert!((lowest(0.0) - 0.5).abs() < 1e-12 && lowest(18.0).abs() < 1e-12);
    }
}
