//! Which parts of the paper are taken, so that nothing is written over anything.

use crate::Point;

/// Convex shapes, segments among them, that are to be kept clear of.
#[derive(Clone, Default)]
pub(crate) struct Taken {
    shapes: Vec<Shape>,
}

#[derive(Clone)]
struct Shape {
    corners: Vec<Point>,
    /// Left, top, right, bottom.
    bounds: [f64; 4],
}

impl Taken {
    pub(crate) fn add(&mut self, corners: &[Point]) {
        self.shapes.push(Shape::of(corners));
    }

    /// Those of the shapes that reach into a part of the paper: left, top, right, bottom.
    pub(crate) fn within(&self, bounds: [f64; 4]) -> Self {
        Self { shapes: self.shapes.iter().filter(|shape| touch(shape.bounds, bounds)).cloned().collect() }
    }

    pub(crate) fn join(&mut self, other: Self) {
        self.shapes.extend(other.shapes);
    }

    pub(crate) fn is_clear(&self, corners: &[Point]) -> bool {
        let asked = Shape::of(corners);
        self.shapes.iter().all(|shape| shape.is_apart(&asked))
    }
}

impl Shape {
    fn of(corners: &[Point]) -> Self {
        let nothing = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
        let bounds = corners.iter().fold(nothing, |b, &[x, y]| [b[0].min(x), b[1].min(y), b[2].max(x), b[3].max(y)]);
        Self { corners: corners.to_vec(), bounds }
    }

    fn is_apart(&self, other: &Self) -> bool {
        let (a, b) = (&self.corners, &other.corners);
        !touch(self.bounds, other.bounds) || is_parted_along(a, a, b) || is_parted_along(b, a, b)
    }
}

fn touch(a: [f64; 4], b: [f64; 4]) -> bool {
    a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3]
}

/// Whether a line along some side of `of` parts `a` from `b`. Two convex shapes are apart if such a line exists for a side of one
/// or of the other (separating axes; C. Ericson, Real-Time Collision Detection, 2005, section 5.2.1, from memory, not read).
fn is_parted_along(of: &[Point], a: &[Point], b: &[Point]) -> bool {
    let sides = of.iter().zip(of.iter().cycle().skip(1));
    sides.into_iter().any(|(from, to)| {
        let normal = [from[1] - to[1], to[0] - from[0]];
        let ([a_low, a_high], [b_low, b_high]) = (reach(a, normal), reach(b, normal));
        a_high < b_low || b_high < a_low
    })
}

fn reach(corners: &[Point], along: Point) -> [f64; 2] {
    let values = corners.iter().map(|corner| corner[0] * along[0] + corner[1] * along[1]);
    values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| [low.min(value), high.max(value)])
}

/// Corners of a box about its middle, turned by `turn` degrees clockwise.
pub(crate) fn boxed(middle: Point, [width, height]: [f64; 2], turn: f64) -> [Point; 4] {
    let [sin, cos] = [libm::sin(turn.to_radians()), libm::cos(turn.to_radians())];
    let [a, b] = [width / 2.0, height / 2.0];
    [[-a, -b], [a, -b], [a, b], [-a, b]]
        .map(|[along, across]| [middle[0] + along * cos - across * sin, middle[1] + along * sin + across * cos])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taken(corners: &[Point]) -> Taken {
        let mut taken = Taken::default();
        taken.add(corners);
        taken
    }

    #[test]
    fn a_box_between_two_corners_of_a_slanting_line_is_clear_of_it() {
        let line = taken(&[[0.0, 0.0], [10.0, 10.0]]);
        assert!(line.is_clear(&boxed([8.0, 2.0], [3.0, 3.0], 0.0)));
        assert!(!line.is_clear(&boxed([6.0, 4.5], [3.0, 3.0], 0.0)));
        assert!(line.is_clear(&boxed([6.2, 3.8], [3.0, 3.0], 45.0)));
    }

    #[test]
    fn what_lies_inside_a_box_is_not_clear_of_it() {
        let taken = taken(&boxed([5.0, 5.0], [10.0, 10.0], 30.0));
        assert!(!taken.is_clear(&boxed([5.0, 5.0], [1.0, 1.0], 0.0)));
        assert!(!taken.is_clear(&[[4.0, 5.0], [6.0, 5.0]]));
        assert!(taken.is_clear(&[[20.0, 5.0], [20.0, 6.0]]));
    }
}
