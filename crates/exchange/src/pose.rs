//! How a plane stands in space.

use plan::{Plane, Roof};
use roof::Point3;

use crate::ring::cross;

/// A plane's own frame in space, inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pose {
    /// Where u and v are 0.
    pub(crate) origin: Point3,
    /// Along u; of length 1, as the next two.
    pub(crate) right: Point3,
    /// Along v.
    pub(crate) up: Point3,
    /// Out of the roof.
    pub(crate) out: Point3,
}

impl Pose {
    /// From pitch and direction, and a corner that the plan tells in both. `None` if the plane has no corner.
    pub(crate) fn of(roof: &Roof, plane: &Plane) -> Option<Self> {
        let (sin, cos) = libm::sincos((plane.facing_deg + roof.north_deg).to_radians());
        let slope = libm::hypot(12.0, plane.pitch);
        let right = [-cos, sin, 0.0];
        let up = [-sin * 12.0 / slope, -cos * 12.0 / slope, plane.pitch / slope];
        let corner = plane.outlines_ft.first()?.first()?.map(|at| at * 12.0);
        let [u, v] = *plane.outlines_in.first()?.first()?;
        let origin = std::array::from_fn(|axis| corner[axis] - u * right[axis] - v * up[axis]);
        Some(Self { origin, right, up, out: cross(right, up) })
    }
}
