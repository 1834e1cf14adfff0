use crate::Number;

/// A point or a vector of the plane.
pub type Point<N = f64> = [N; 2];

/// `a + b`.
#[inline]
#[must_use]
pub fn add<N: Number>(a: Point<N>, b: Point<N>) -> Point<N> {
    [a[0] + b[0], a[1] + b[1]]
}

/// `a - b`.
#[inline]
#[must_use]
pub fn sub<N: Number>(a: Point<N>, b: Point<N>) -> Point<N> {
    [a[0] - b[0], a[1] - b[1]]
}

/// `a` times `by`.
#[inline]
#[must_use]
pub fn scale<N: Number>(a: Point<N>, by: N) -> Point<N> {
    [a[0] * by, a[1] * by]
}

/// Scalar product.
#[inline]
#[must_use]
pub fn dot<N: Number>(a: Point<N>, b: Point<N>) -> N {
    a[0] * b[0] + a[1] * b[1]
}

/// Positive when `b` lies to the left of `a`.
#[inline]
#[must_use]
pub fn cross<N: Number>(a: Point<N>, b: Point<N>) -> N {
    a[0] * b[1] - a[1] * b[0]
}

/// Distance between two points.
#[inline]
#[must_use]
pub fn distance<N: Number>(a: Point<N>, b: Point<N>) -> N {
    let d = sub(a, b);
    dot(d, d).square_root()
}

/// Distance of a point from the segment between `a` and `b`.
#[must_use]
pub fn off_segment(p: Point, a: Point, b: Point) -> f64 {
    let along = sub(b, a);
    let share = (dot(sub(p, a), along) / dot(along, along).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    distance(p, add(a, scale(along, share)))
}
