//! Regions of the plane with holes: what two have in common, and one less another.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::scale::FixedScaleFloatOverlay;

use crate::{Point, TOLERANCE, distance, off_segment, polygon};

/// Rings: outer ones counter-clockwise, holes clockwise.
pub type Region = Vec<Vec<Point>>;

/// Steps of the fixed grid in one unit: the same for every operation, so that results do not depend on what else is near.
const GRID: f64 = 1_048_576.0;

/// What two regions have in common.
#[must_use]
pub fn common(a: &[Vec<Point>], b: &[Vec<Point>]) -> Region {
    overlay(a, b, OverlayRule::Intersect)
}

/// The first region less the second, which may overlap itself.
#[must_use]
pub fn less(a: &[Vec<Point>], b: &[Vec<Point>]) -> Region {
    overlay(a, b, OverlayRule::Difference)
}

/// What lies in either region.
#[must_use]
pub fn either(a: &[Vec<Point>], b: &[Vec<Point>]) -> Region {
    overlay(a, b, OverlayRule::Union)
}

fn overlay(a: &[Vec<Point>], b: &[Vec<Point>], rule: OverlayRule) -> Region {
    if a.is_empty() {
        return Region::new();
    }
    // The grid refuses only numbers that no roof has; then nothing is left, and the areas no longer add up.
    let shapes = a.to_vec().overlay_with_fixed_scale_as::<i64>(&b.to_vec(), rule, FillRule::NonZero, GRID);
    shapes.unwrap_or_default().into_iter().flatten().map(without_spikes).filter(|ring| !is_sliver(ring)).collect()
}

/// What is narrower than this is what rounding leaves between lines meant to be one.
const NARROW: f64 = 64.0 * TOLERANCE;

/// Whether a ring encloses no more than rounding leaves between lines meant to be one.
#[must_use]
pub fn is_sliver(ring: &[Point]) -> bool {
    let girth: f64 = polygon::sides(ring).map(|(a, b)| distance(a, b)).sum();
    ring.len() < 3 || polygon::area(ring).abs() < NARROW * girth / 2.0
}

/// Takes off corners at which a ring runs back along itself.
fn without_spikes(mut ring: Vec<Point>) -> Vec<Point> {
    let mut at = 0;
    while at < ring.len() && ring.len() > 2 {
        let count = ring.len();
        let [before, here, after] = [ring[(at + count - 1) % count], ring[at], ring[(at + 1) % count]];
        if off_segment(after, before, here) < NARROW || off_segment(before, here, after) < NARROW {
            ring.remove(at);
            at = at.saturating_sub(2);
        } else {
            at += 1;
        }
    }
    ring
}

/// Area of a region.
#[must_use]
pub fn area(region: &[Vec<Point>]) -> f64 {
    region.iter().map(|ring| polygon::area(ring)).sum()
}

/// Whether a point lies in a region.
#[must_use]
pub fn contains(region: &[Vec<Point>], p: Point) -> bool {
    region.iter().filter(|ring| polygon::contains(ring, p)).count() % 2 == 1
}

/// The smallest upright rectangle around a region: least corner, greatest corner.
#[must_use]
pub fn bounds(region: &[Vec<Point>]) -> [Point; 2] {
    let start = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    region
        .iter()
        .flatten()
        .fold(start, |[low, high], p| [[low[0].min(p[0]), low[1].min(p[1])], [high[0].max(p[0]), high[1].max(p[1])]])
}

/// Two heights nearer than this are one.
const LEVEL: f64 = 1e-3;

/// How wide the level sides of a region at a height are, from the leftmost end to the rightmost; 0 where it only has a point
/// there, or nothing.
#[must_use]
pub fn level_width(region: &[Vec<Point>], height: f64) -> f64 {
    let level = region.iter().flatten().filter(|corner| (corner[1] - height).abs() < LEVEL).map(|corner| corner[0]);
    let [least, greatest] = level.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], x| [a.min(x), b.max(x)]);
    (greatest - least).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn level_sides_of_a_trapezium() {
        let region = vec![vec![[1.0, 0.0], [9.0, 0.0], [6.0, 5.0], [4.0, 5.0]]];
        let widths = [0.0, 5.0, 2.0].map(|height| level_width(&region, height));
        assert!(widths.iter().zip([8.0, 2.0, 0.0]).all(|(is, expected)| (is - expected).abs() < 1e-12), "{widths:?}");
    }

    fn square(at: f64, size: f64) -> Region {
        vec![vec![[at, at], [at + size, at], [at + size, at + size], [at, at + size]]]
    }

    #[test]
    fn overlaps_and_remainders() {
        let (a, b) = (square(0.0, 10.0), square(6.0, 10.0));
        assert!((area(&common(&a, &b)) - 16.0).abs() < 1e-6);
        assert!((area(&less(&a, &b)) - 84.0).abs() < 1e-6);
        let ring = less(&a, &square(3.0, 2.0));
        assert_eq!(ring.len(), 2);
        assert!((area(&ring) - 96.0).abs() < 1e-6);
        assert!(contains(&ring, [1.0, 1.0]) && !contains(&ring, [4.0, 4.0]));
        assert_eq!(bounds(&ring), [[0.0, 0.0], [10.0, 10.0]]);
    }

    #[test]
    fn what_lies_in_either_has_no_seam() {
        let joined = either(&square(0.0, 10.0), &[vec![[10.0, 0.0], [10.001, 0.0], [10.001, 10.0], [10.0, 10.0]]]);
        assert_eq!(joined.len(), 1);
        assert!((area(&joined) - 100.01).abs() < 2e-5);
    }

    #[test]
    fn clips_may_overlap_each_other() {
        let clip: Region = [square(0.0, 6.0), square(3.0, 6.0)].concat();
        assert!((area(&less(&square(0.0, 10.0), &clip)) - (100.0 - 36.0 - 36.0 + 9.0)).abs() < 1e-6);
    }

    #[test]
    fn what_rounding_leaves_is_nothing() {
        assert_eq!(less(&square(0.0, 10.0), &square(0.000_001, 10.0)), Region::new());
    }
}
