//! The outline of the whole roof in plan.

use geom::region::{Region, either};
use plan::{Opening, Plan, Plane};
use roof::Point3;

use crate::ring::simplified;

/// Corners nearer than this to a straight side are none, inches: a quarter of a tape mark.
const STRAIGHT: f64 = 1.0 / 64.0;

/// What the planes whose place is known cover in plan, with the chimneys, skylights and pipes in them, inches: outer rings
/// counter-clockwise, holes clockwise.
pub(crate) fn roof_outline(plan: &Plan) -> Region {
    let placed: Vec<&Plane> = plan.roof.planes.iter().filter(|plane| plane.known_by != "tape").collect();
    let has_place = |opening: &&Opening| placed.iter().any(|plane| opening.planes.first() == Some(&plane.id));
    let openings = plan.roof.openings.iter().filter(has_place).map(|opening| vec![seen(&opening.outline_ft)]);
    let planes = placed.iter().map(|plane| plane.outlines_ft.iter().map(|ring| seen(ring)).collect::<Region>());
    let covered = planes.chain(openings).reduce(|covered, next| either(&covered, &next)).unwrap_or_default();
    covered.iter().map(|ring| straightened(ring)).filter(|ring| ring.len() > 2).collect()
}

/// The sense of the ring stays.
fn straightened(ring: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let flat: Vec<[f64; 3]> = ring.iter().map(|&[x, y]| [x, y, 0.0]).collect();
    simplified(&flat, STRAIGHT).into_iter().map(|[x, y, _]| [x, y]).collect()
}

/// From above, inches.
fn seen(ring: &[Point3]) -> Vec<[f64; 2]> {
    ring.iter().map(|&[x, y, _]| [x * 12.0, y * 12.0]).collect()
}
