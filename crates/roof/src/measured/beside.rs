//! A place on paper for planes that have none in plan.

use super::Face;
use crate::{Point3, Roof};

/// Between the roof and what is drawn beside it, in inches: no dormer stands so far off.
const BETWEEN: f64 = 120.0;

/// Moves taped planes into a row to the right of everything that has a place, each as it faces.
pub(super) fn place(roof: &Roof, faces: &mut [Face]) {
    let placed = roof.planes.iter().flat_map(|plane| &plane.rings).flat_map(|ring| ring.corners.iter().copied());
    let surveyed = faces.iter().filter(|face| face.plane.has_place()).flat_map(corners);
    let (low, high) = extent(placed.chain(surveyed));
    let floor = low.map(|least| if least.is_finite() { least } else { 0.0 });
    let mut left = if high[0].is_finite() { high[0] + BETWEEN } else { 0.0 };
    for face in faces.iter_mut().filter(|face| !face.plane.has_place()) {
        let (low, high) = extent(corners(face));
        let origin = &mut face.plane.frame.origin;
        let start = [left, floor[1], floor[2]];
        *origin = std::array::from_fn(|i| origin[i] + start[i] - low[i]);
        left += high[0] - low[0] + BETWEEN;
    }
}

fn corners(face: &Face) -> impl Iterator<Item = Point3> + '_ {
    face.rings.iter().flatten().map(|corner| face.plane.frame.point(corner.at))
}

fn extent(corners: impl Iterator<Item = Point3>) -> (Point3, Point3) {
    corners.fold(([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]), |(low, high), corner| {
        (std::array::from_fn(|i| low[i].min(corner[i])), std::array::from_fn(|i| high[i].max(corner[i])))
    })
}
