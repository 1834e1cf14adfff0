//! The plane that lies nearest to measured corners.

use geom::{Point, distance, dot, sub};
use units::Pitch;

use crate::{Frame, Place, Point3};

/// An eave whose ends differ in height by no more was meant to be level, and the frame is laid along it.
const LEVEL_EAVE: f64 = 0.25;
/// And it rises by no more than this for an inch of run.
const LEVEL: f64 = 0.01;

/// A plane in space: a point on it and the unit vector square to it, upwards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fit {
    pub(super) middle: Point3,
    pub(super) normal: Point3,
}

/// The plane with the least sum of squared distances; `None` if the corners lie on one line.
///
/// A plane through three corners to begin with, then regression of what is left, square to the plane, over and over.
pub(super) fn nearest(corners: &[Point3]) -> Option<Fit> {
    let middle: Point3 = std::array::from_fn(|i| corners.iter().map(|c| c[i]).sum::<f64>() / corners.len() as f64);
    let mut normal = first_guess(corners)?;
    for _ in 0..8 {
        normal = unit(tilted(corners, middle, normal)?)?;
    }
    let up = if normal[2] < 0.0 { -1.0 } else { 1.0 };
    Some(Fit { middle, normal: normal.map(|c| c * up) })
}

impl Fit {
    /// Distance off the plane, positive above it.
    pub(super) fn off(&self, p: Point3) -> f64 {
        dot3(minus(p, self.middle), self.normal)
    }

    /// The nearest point on the plane.
    pub(super) fn onto(&self, p: Point3) -> Point3 {
        let off = self.off(p);
        std::array::from_fn(|i| p[i] - off * self.normal[i])
    }

    /// Rise for an inch of run up the slope.
    pub(super) fn slope(&self) -> f64 {
        libm::hypot(self.normal[0], self.normal[1]) / self.normal[2]
    }

    /// Unit vector in plan, up the slope.
    fn uphill(&self) -> Point {
        let run = libm::hypot(self.normal[0], self.normal[1]);
        [-self.normal[0] / run, -self.normal[1] / run]
    }

    /// The frame whose bearing edge starts at a corner.
    pub(super) fn frame(&self, pitch: Pitch, start: Point3) -> Frame {
        let uphill = self.uphill();
        Frame { origin: self.onto(start), right: [uphill[1], -uphill[0]], pitch }
    }

    /// The same plane turned so that a level low edge of the outline is level in it: the longest one,
    /// given with its start.
    pub(super) fn along_its_eave(&self, corners: &[Point3], outer: &[Point3]) -> Option<(Self, Point3)> {
        let [from, to] = self.eave(outer)?;
        Some((self.turned(corners, [from, to]), from))
    }

    fn eave(&self, outer: &[Point3]) -> Option<[Point3; 2]> {
        let run = |[a, b]: &[Point3; 2]| distance([a[0], a[1]], [b[0], b[1]]);
        let is_eave = |edge: &[Point3; 2]| {
            let [a, b] = edge;
            let rise = (b[2] - a[2]).abs();
            let inwards = [a[1] - b[1], b[0] - a[0]];
            rise <= LEVEL_EAVE && rise <= LEVEL * run(edge) && dot(inwards, self.uphill()) > 0.0
        };
        let edges = outer.iter().zip(outer.iter().cycle().skip(1)).map(|(&a, &b)| [a, b]);
        edges.filter(is_eave).reduce(|best, edge| if run(&edge) > run(&best) { edge } else { best })
    }

    /// The nearest plane among those that are level along an edge: the main axis of the corners seen along that edge.
    fn turned(&self, corners: &[Point3], [from, to]: [Point3; 2]) -> Self {
        let along = sub([to[0], to[1]], [from[0], from[1]]);
        let size = libm::hypot(along[0], along[1]);
        let inward = [-along[1] / size, along[0] / size];
        let middle = self.middle;
        let seen = corners.iter().map(|c| [dot(inward, sub([c[0], c[1]], [middle[0], middle[1]])), c[2] - middle[2]]);
        let (rr, rz, zz) = seen.fold((0.0, 0.0, 0.0), |(rr, rz, zz), [r, z]| (rr + r * r, rz + r * z, zz + z * z));
        let angle = libm::atan2(2.0 * rz, rr - zz) / 2.0;
        let (sin, cos) = (libm::sin(angle), libm::cos(angle));
        Self { middle, normal: [-inward[0] * sin, -inward[1] * sin, cos] }
    }
}

/// Places on the plane of points that lie on it.
pub(super) fn places(frame: &Frame, points: &[Point3]) -> Vec<Place> {
    points.iter().map(|p| frame.place(p[0], p[1])).collect()
}

/// The normal tilted so that the corners lie as near as they can, to first order.
fn tilted(corners: &[Point3], middle: Point3, normal: Point3) -> Option<Point3> {
    let (e, f) = square_to(normal)?;
    let seen = corners.iter().map(|&c| {
        let c = minus(c, middle);
        [dot3(c, e), dot3(c, f), dot3(c, normal)]
    });
    let sums =
        seen.fold([0.0; 5], |[pp, pq, qq, pw, qw], [p, q, w]| [pp + p * p, pq + p * q, qq + q * q, pw + p * w, qw + q * w]);
    let [pp, pq, qq, pw, qw] = sums;
    let determinant = pp * qq - pq * pq;
    if determinant <= 1e-9 * pp * qq {
        return None;
    }
    let (a, b) = ((pw * qq - qw * pq) / determinant, (qw * pp - pw * pq) / determinant);
    Some(std::array::from_fn(|i| normal[i] - a * e[i] - b * f[i]))
}

/// Two unit vectors square to a unit vector and to each other.
fn square_to(n: Point3) -> Option<(Point3, Point3)> {
    let aside = if n[2].abs() > 0.7 { [1.0, 0.0, 0.0] } else { [0.0, 0.0, 1.0] };
    let e = unit(cross3(n, aside))?;
    Some((e, cross3(n, e)))
}

/// Square to the widest triangle on the line from the first corner to the farthest: a plane to begin with.
fn first_guess(corners: &[Point3]) -> Option<Point3> {
    let &first = corners.first()?;
    let size = |v: &Point3| dot3(*v, *v);
    let widest = |vectors: &mut dyn Iterator<Item = Point3>| vectors.max_by(|a, b| size(a).total_cmp(&size(b)));
    let base = widest(&mut corners.iter().map(|&c| minus(c, first)))?;
    let across = widest(&mut corners.iter().map(|&c| cross3(base, minus(c, first))))?;
    // A corner off the line by less than a thousandth of an inch tells no plane.
    (size(&across) > 1e-6 * size(&base)).then(|| unit(across)).flatten()
}

fn unit(v: Point3) -> Option<Point3> {
    let size = dot3(v, v).sqrt();
    (size > 0.0 && size.is_finite()).then(|| v.map(|c| c / size))
}

pub(super) fn minus(a: Point3, b: Point3) -> Point3 {
    std::array::from_fn(|i| a[i] - b[i])
}

pub(super) fn dot3(a: Point3, b: Point3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross3(a: Point3, b: Point3) -> Point3 {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}
