//! Closed outlines: area, direction, and whether they cross themselves.

use crate::{Point, cross, dot, sub};

/// Area, positive for outlines that run counter-clockwise.
#[must_use]
pub fn area(corners: &[Point]) -> f64 {
    let Some(&first) = corners.first() else { return 0.0 };
    sides(corners).map(|(a, b)| cross(sub(a, first), sub(b, first))).sum::<f64>() / 2.0
}

/// The sides in order, each from a corner to the next, the last one back to the first corner.
pub fn sides(corners: &[Point]) -> impl Iterator<Item = (Point, Point)> + Clone + '_ {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

/// Whether a point lies inside, by counting crossings; points on the outline may fall either way.
#[must_use]
pub fn contains(corners: &[Point], p: Point) -> bool {
    sides(corners)
        .filter(|(a, b)| (a[1] > p[1]) != (b[1] > p[1]))
        .filter(|(a, b)| p[0] < a[0] + (p[1] - a[1]) / (b[1] - a[1]) * (b[0] - a[0]))
        .count()
        % 2
        == 1
}

/// Two sides, each as index of outline and of side, that cross or touch though they are not neighbours.
///
/// Sorted by their left ends, so that only sides that overlap in x are compared.
#[must_use]
pub fn first_crossing(outlines: &[&[Point]]) -> Option<[(usize, usize); 2]> {
    let mut spans: Vec<Span> = Vec::new();
    for (outline, corners) in outlines.iter().enumerate() {
        spans.extend(sides(corners).enumerate().map(|(side, (a, b))| Span { outline, side, a, b }));
    }
    spans.sort_by(|s, t| s.left().total_cmp(&t.left()));
    let mut open: Vec<usize> = Vec::new();
    for (index, span) in spans.iter().enumerate() {
        open.retain(|&other| spans[other].right() >= span.left());
        for &other in &open {
            let other = &spans[other];
            if !span.next_to(other, outlines) && touch([span.a, span.b], [other.a, other.b]) {
                let mut found = [(span.outline, span.side), (other.outline, other.side)];
                found.sort_unstable();
                return Some(found);
            }
        }
        open.push(index);
    }
    None
}

/// The first corner at which the outline turns back on itself: its two sides lie on each other.
#[must_use]
pub fn first_fold(corners: &[Point]) -> Option<usize> {
    (0..corners.len()).find(|&at| {
        let before = sub(corners[at], corners[(at + corners.len() - 1) % corners.len()]);
        let after = sub(corners[(at + 1) % corners.len()], corners[at]);
        let size = (dot(before, before) * dot(after, after)).sqrt();
        dot(before, after) < 0.0 && cross(before, after).abs() <= 1e-9 * size
    })
}

struct Span {
    outline: usize,
    side: usize,
    a: Point,
    b: Point,
}

impl Span {
    fn left(&self) -> f64 {
        self.a[0].min(self.b[0])
    }

    fn right(&self) -> f64 {
        self.a[0].max(self.b[0])
    }

    fn next_to(&self, other: &Self, outlines: &[&[Point]]) -> bool {
        let count = outlines[self.outline].len();
        let apart = self.side.abs_diff(other.side);
        self.outline == other.outline && (apart <= 1 || apart + 1 == count)
    }
}

fn touch([a, b]: [Point; 2], [c, d]: [Point; 2]) -> bool {
    let overlap = |i: usize| a[i].min(b[i]) <= c[i].max(d[i]) && c[i].min(d[i]) <= a[i].max(b[i]);
    let side = |p: Point, q: Point, r: Point| cross(sub(q, p), sub(r, p));
    overlap(0) && overlap(1) && side(a, b, c) * side(a, b, d) <= 0.0 && side(c, d, a) * side(c, d, b) <= 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [Point; 4] = [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]];

    #[test]
    fn area_has_the_sign_of_the_direction() {
        let mut square = SQUARE;
        assert!((area(&square) - 4.0).abs() < 1e-12);
        square.reverse();
        assert!((area(&square) + 4.0).abs() < 1e-12);
    }

    #[test]
    fn crossings_are_found_and_neighbours_are_not() {
        assert_eq!(first_crossing(&[&SQUARE]), None);
        let bow = [[0.0, 0.0], [2.0, 2.0], [2.0, 0.0], [0.0, 2.0]];
        assert_eq!(first_crossing(&[&bow]), Some([(0, 0), (0, 2)]));
        let inner = [[0.5, 0.5], [0.5, 1.0], [1.0, 1.0]];
        assert_eq!(first_crossing(&[&SQUARE, &inner]), None);
        let poking = [[0.5, 0.5], [0.5, 1.0], [3.0, 1.0]];
        assert!(first_crossing(&[&SQUARE, &poking]).is_some());
    }

    #[test]
    fn a_spike_is_a_fold() {
        assert_eq!(first_fold(&SQUARE), None);
        assert_eq!(first_fold(&[[0.0, 0.0], [4.0, 0.0], [2.0, 0.0], [2.0, 2.0]]), Some(1));
    }

    #[test]
    fn inside_and_outside() {
        assert!(contains(&SQUARE, [1.0, 1.5]));
        assert!(!contains(&SQUARE, [3.0, 1.5]));
    }
}
