//! Whether outlines keep clear of each other.

use geom::{Point, cross, off_segment, polygon, sub};

/// Two lines nearer than this, in inches, touch: no tape and no saw tells them apart.
pub(crate) const CLEAR: f64 = 1.0 / 16.0;

pub(crate) type Segment = (Point, Point);

/// Whether two segments cross or come nearer than [`CLEAR`].
pub(crate) fn touch((a, b): Segment, (c, d): Segment) -> bool {
    let side = |from: Point, to: Point, p: Point| cross(sub(to, from), sub(p, from));
    let crosses = side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
    let off = [off_segment(a, c, d), off_segment(b, c, d), off_segment(c, a, b), off_segment(d, a, b)];
    crosses || off.into_iter().any(|off| off < CLEAR)
}

/// Whether two outlines overlap or touch.
pub(crate) fn overlap(a: &[Point], b: &[Point]) -> bool {
    polygon::sides(a).any(|side| polygon::sides(b).any(|other| touch(side, other)))
        || a.first().is_some_and(|&p| polygon::contains(b, p))
        || b.first().is_some_and(|&p| polygon::contains(a, p))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, size: f64) -> [Point; 4] {
        [[x, 0.0], [x + size, 0.0], [x + size, size], [x, size]]
    }

    #[test]
    fn outlines_that_overlap_touch_or_lie_inside() {
        assert!(overlap(&square(0.0, 10.0), &square(9.0, 10.0)));
        assert!(overlap(&square(0.0, 10.0), &square(10.0, 10.0)));
        assert!(overlap(&square(0.0, 10.0), &[[4.0, 4.0], [5.0, 4.0], [4.0, 5.0]]));
        assert!(!overlap(&square(0.0, 10.0), &square(10.125, 10.0)));
    }

    #[test]
    fn segments_that_cross_touch() {
        assert!(touch(([0.0, 0.0], [9.0, 9.0]), ([0.0, 9.0], [9.0, 0.0])));
        assert!(!touch(([0.0, 0.0], [4.0, 4.0]), ([0.0, 9.0], [9.0, 0.0])));
    }
}
