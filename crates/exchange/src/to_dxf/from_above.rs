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
    let rings: Vec<Vec<[f64; 2]>> =
        plane.outlines_ft.iter().map(|ring| in_inches(ring).iter().map(|&[x, y, _]| [x, y]).collect()).collect();
    let Some((at, room)) = roomiest(&rings) else { return };
    let height = fitting(&plane.name, room, NAME);
    model.text(NAMES, at, height, Anchor::Middle, &plane.name);
    let pitch = (plane.pitch * 100.0).round() / 100.0;
    model.text(NAMES, [at[0], at[1] - 1.5 * height], height, Anchor::Middle, &format!("{pitch}/12"));
}

/// Heights that are tried for a name, parts of the whole, the best first.
const LEVELS: [f64; 5] = [0.5, 0.4, 0.6, 0.3, 0.7];
/// How much longer a stretch must be than one at a better height.
const LONGER: f64 = 1.2;

/// The middle of a long level stretch inside a region, near the middle of its height, and the stretch's length.
fn roomiest(rings: &[Vec<[f64; 2]>]) -> Option<([f64; 2], f64)> {
    let [[_, low], [_, high]] = geom::region::bounds(rings);
    let stretches = LEVELS.iter().map(|part| low + (high - low) * part).flat_map(|y| {
        let mut xs: Vec<f64> =
            rings.iter().flat_map(|ring| polygon::sides(ring)).filter_map(|side| crossing(side, y)).collect();
        xs.sort_by(f64::total_cmp);
        xs.chunks_exact(2).map(|pair| ([(pair[0] + pair[1]) / 2.0, y], pair[1] - pair[0])).collect::<Vec<_>>()
    });
    stretches.reduce(|best, next| if next.1 > LONGER * best.1 { next } else { best })
}

/// Where a side passes a height.
fn crossing((a, b): ([f64; 2], [f64; 2]), y: f64) -> Option<f64> {
    ((a[1] > y) != (b[1] > y)).then(|| a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]))
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
