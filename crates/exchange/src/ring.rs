//! One closed line of corners: what matters of it.

use std::ops::Range;

use roof::Point3;

/// Leaves out repeated corners and corners on straight stretches: everything left out lies within `tolerance` of what
/// stays. Nothing is left of a ring without extent.
///
/// Douglas and Peucker, "Algorithms for the reduction of the number of points required to represent a digitized line",
/// Cartographica 10, 1973, begun at two corners that are certainly corners: the farthest from any corner, and the
/// farthest from that one.
pub(crate) fn simplified(ring: &[Point3], tolerance: f64) -> Vec<Point3> {
    let Some(&first) = ring.first() else { return Vec::new() };
    let start = farthest(ring, first);
    let turned: Vec<Point3> = (0..ring.len()).map(|at| ring[(start + at) % ring.len()]).chain([ring[start]]).collect();
    let end = farthest(&turned, turned[0]);
    if distance(turned[0], turned[end]) <= tolerance {
        return Vec::new();
    }
    let mut keeps = vec![false; turned.len()];
    keeps[0] = true;
    keeps[end] = true;
    let mut open: Vec<Range<usize>> = vec![0..end, end..turned.len() - 1];
    while let Some(stretch) = open.pop() {
        if let Some(at) = worst(&turned, &stretch, tolerance) {
            keeps[at] = true;
            open.extend([stretch.start..at, at..stretch.end]);
        }
    }
    turned.iter().zip(keeps).filter_map(|(&corner, kept)| kept.then_some(corner)).collect()
}

/// Leaves out corners that lie nearer than `least` to the one before.
pub(crate) fn spaced(ring: Vec<Point3>, least: f64) -> Vec<Point3> {
    let mut kept: Vec<Point3> = Vec::with_capacity(ring.len());
    for corner in ring {
        if kept.last().is_none_or(|&last| distance(last, corner) >= least) {
            kept.push(corner);
        }
    }
    while kept.len() > 1 && distance(kept[0], kept[kept.len() - 1]) < least {
        kept.pop();
    }
    kept
}

fn farthest(ring: &[Point3], from: Point3) -> usize {
    let far = |&a: &usize, &b: &usize| distance(ring[a], from).total_cmp(&distance(ring[b], from));
    // The first of several.
    (0..ring.len()).rev().max_by(far).unwrap_or_default()
}

/// The corner inside a stretch that is farthest from its chord, if that is too far to leave it out.
fn worst(ring: &[Point3], stretch: &Range<usize>, tolerance: f64) -> Option<usize> {
    let off = |at: usize| off_segment(ring[at], ring[stretch.start], ring[stretch.end]);
    let inside = stretch.start + 1..stretch.end;
    inside.map(|at| (at, off(at))).max_by(|a, b| a.1.total_cmp(&b.1)).filter(|&(_, off)| off > tolerance).map(|(at, _)| at)
}

fn off_segment(p: Point3, a: Point3, b: Point3) -> f64 {
    let (along, to) = (sub(b, a), sub(p, a));
    let size = dot(along, along);
    let part = if size > 0.0 { (dot(to, along) / size).clamp(0.0, 1.0) } else { 0.0 };
    distance(to, along.map(|d| d * part))
}

/// Vector of twice the area, standing on the side from which the ring runs counter-clockwise (Newell's sums).
pub(crate) fn normal(ring: &[Point3]) -> Point3 {
    let Some(&first) = ring.first() else { return [0.0; 3] };
    let mut sum = [0.0; 3];
    for (&a, &b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        let part = cross(sub(a, first), sub(b, first));
        sum = [sum[0] + part[0], sum[1] + part[1], sum[2] + part[2]];
    }
    sum
}

pub(crate) fn sub(a: Point3, b: Point3) -> Point3 {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(crate) fn dot(a: Point3, b: Point3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(crate) fn cross(a: Point3, b: Point3) -> Point3 {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(crate) fn length(a: Point3) -> f64 {
    libm::sqrt(dot(a, a))
}

pub(crate) fn distance(a: Point3, b: Point3) -> f64 {
    length(sub(a, b))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn repeated_and_straight_corners_go() {
        // Begun in the middle of a side, with a corner typed twice and the first again at the end.
        let ring =
            [[5.0, 0.0], [10.0, 0.0], [10.0, 0.0], [10.0, 8.0], [3.0, 8.0], [0.0, 8.0], [0.0, 0.0], [5.0, 0.0]].map(at_zero);
        let mut kept = simplified(&ring, 1e-6);
        kept.sort_by(|a, b| a.partial_cmp(b).unwrap());
        assert_eq!(kept, [[0.0, 0.0], [0.0, 8.0], [10.0, 0.0], [10.0, 8.0]].map(at_zero));
    }

    #[test]
    fn of_corners_all_but_at_one_place_the_first_stays() {
        let ring = [[0.0, 0.0], [9.0, 0.0], [9.0, 0.05], [9.0, 8.0], [0.0, 8.0], [0.0, 0.07], [0.03, 0.03]].map(at_zero);
        let kept = [[0.0, 0.0], [9.0, 0.0], [9.0, 8.0], [0.0, 8.0]].map(at_zero);
        assert_eq!(spaced(ring.to_vec(), 0.1), kept);
    }

    #[test]
    fn nothing_is_left_of_a_point() {
        assert!(simplified(&[[1.0, 2.0, 3.0]; 5], 0.1).is_empty());
        assert!(simplified(&[], 0.1).is_empty());
    }

    #[test]
    fn the_normal_of_a_slope_of_4_in_3() {
        // 6 along x, 3 across, 4 up: 6 × 5 in area.
        let ring = [[0.0, 0.0, 0.0], [6.0, 0.0, 0.0], [6.0, 3.0, 4.0], [0.0, 3.0, 4.0]];
        assert!(distance(normal(&ring), [0.0, -48.0, 36.0]) < 1e-12);
        assert!((length(normal(&ring)) / 2.0 - 30.0).abs() < 1e-12);
    }

    fn at_zero([x, y]: [f64; 2]) -> Point3 {
        [x, y, 0.0]
    }

    proptest! {
        #[test]
        fn what_is_left_out_is_near_what_stays(
            ring in prop::collection::vec(prop::array::uniform3(-50.0..50.0f64), 0..40), tolerance in 0.01..20.0f64,
        ) {
            let kept = simplified(&ring, tolerance);
            prop_assert!(kept.iter().all(|corner| ring.contains(corner)));
            let off = |p: Point3| {
                kept.iter().zip(kept.iter().cycle().skip(1)).map(|(&a, &b)| off_segment(p, a, b)).fold(f64::MAX, f64::min)
            };
            prop_assert!(kept.is_empty() || ring.iter().all(|&corner| off(corner) <= tolerance + 1e-9));
        }
    }
}
