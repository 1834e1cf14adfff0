use geom::polygon;
use plan::{Plan, Plane};
use roof::Point3;

use super::layer::{COURTYARD, HOLES, NAMES, OPENINGS, OUTLINE, PLANES, of_line};
use super::model::{Anchor, Model, fitting};
use crate::roof_outline::roof_outline;

/// Height of the names, inches.
const NAME: f64 = 8.0;

/// The roof at its heights: seen from above it is the roof plan.
pub(super) fn draw(model: &mut Model, plan: &Plan) {
    for ring in roof_outline(plan) {
        model.ring(if polygon::area(&ring) > 0.0 { OUTLINE } else { COURTYARD }, &ring);
    }
    for plane in &plan.roof.planes {
        for (ring, flat) in plane.outlines_ft.iter().zip(&plane.outlines_in) {
            model.ring_in_space(if polygon::area(flat) > 0.0 { PLANES } else { HOLES }, &in_inches(ring));
        }
        name(model, plane);
    }
    for line in &plan.roof.lines {
        model.line(of_line(line.kind), line.ends_ft.map(to_inches));
    }
    for opening in &plan.roof.openings {
        let corners = in_inches(&opening.outline_ft);
        model.ring_in_space(OPENINGS, &corners);
        let [[left, low], [right, _]] = around(&corners);
        let height = fitting(&opening.name, right - left, NAME);
        model.text(OPENINGS, [(left + right) / 2.0, low - height], height, Anchor::Middle, &opening.name);
    }
}

fn name(model: &mut Model, plane: &Plane) {
    let Some(ring) = plane.outlines_ft.first() else { return };
    let [[left, low], [right, high]] = around(&in_inches(ring));
    let (at, height) = ([(left + right) / 2.0, (low + high) / 2.0], fitting(&plane.name, right - left, NAME));
    model.text(NAMES, at, height, Anchor::Middle, &plane.name);
    let pitch = (plane.pitch * 100.0).round() / 100.0;
    model.text(NAMES, [at[0], at[1] - 1.5 * height], height, Anchor::Middle, &format!("{pitch}/12"));
}

/// Lower left and upper right corner in plan.
fn around(corners: &[Point3]) -> [[f64; 2]; 2] {
    geom::region::bounds(&[corners.iter().map(|&[x, y, _]| [x, y]).collect()])
}

fn in_inches(ring: &[Point3]) -> Vec<Point3> {
    ring.iter().copied().map(to_inches).collect()
}

fn to_inches(corner: Point3) -> Point3 {
    corner.map(|at| at * 12.0)
}
