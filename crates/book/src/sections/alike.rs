//! Planes laid alike, as those of a turret are, share a sheet: whatever is printed of one holds for all.

use plan::{LaidPlane, Plan, Plane};
use serde_json::{Value, json};

/// Numbers that differ by less are one on paper, where a mark of the tape is 1/16 in: inches, feet, degrees, square feet.
const ONE_ON_PAPER: f64 = 1e-3;

/// Ids of the laid planes in the order of the plan, those alike together.
pub(crate) fn alike(plan: &Plan) -> Vec<Vec<String>> {
    let mut kinds: Vec<(Value, Vec<String>)> = Vec::new();
    let plane = |laid: &LaidPlane| plan.roof.planes.iter().find(|plane| plane.id == laid.id);
    for (plane, laid) in plan.layout.planes.iter().filter_map(|laid| Some((plane(laid)?, laid))) {
        let told = told(plan, plane, laid);
        match kinds.iter_mut().find(|(kind, _)| agree(kind, &told)) {
            Some((_, ids)) => ids.push(laid.id.clone()),
            None => kinds.push((told, vec![laid.id.clone()])),
        }
    }
    kinds.into_iter().map(|(_, ids)| ids).collect()
}

/// Everything that a sheet may tell of a plane but its name. As JSON, so that a new value of the plan is compared without being
/// listed here. An opening has a number and a name of its own, so its plane is like no other.
fn told(plan: &Plan, plane: &Plane, laid: &LaidPlane) -> Value {
    let is_opened = plan.roof.openings.iter().any(|opening| opening.planes.contains(&plane.id));
    let own = is_opened.then_some(&plane.id);
    json!([own, plane.pitch, plane.area_sqft, outlines(plane), unnamed(laid)])
}

type Corner = [f64; 2];

/// Every ring with the edges that begin at its corners.
fn outlines(plane: &Plane) -> Vec<Vec<Value>> {
    let mut edges = plane.edges.iter().map(|edge| json!([edge.kind, edge.length_ft]));
    let told = |ring: &Vec<Corner>| {
        let edges: Vec<Value> = edges.by_ref().take(ring.len()).collect();
        let mut told: Vec<Value> = ring.iter().zip(edges).map(|(corner, edge)| json!([corner, edge])).collect();
        let start = lowest_left(ring).min(told.len());
        told.rotate_left(start);
        told
    };
    plane.outlines_in.iter().map(told).collect()
}

/// Without what no sheet tells: its id, and where nails go, which is chosen again for each plane where it does not matter.
fn unnamed(laid: &LaidPlane) -> LaidPlane {
    let mut laid = LaidPlane { id: String::new(), ..laid.clone() };
    let LaidPlane { laid_in, cuts, .. } = &mut laid;
    laid_in.iter_mut().for_each(|ring| turned(ring));
    for cut in cuts {
        cut.nails_in.clear();
        cut.parts_in.iter_mut().for_each(|ring| turned(ring));
    }
    laid
}

/// The same ring from its lowest corner on.
fn turned(ring: &mut [Corner]) {
    let start = lowest_left(ring);
    ring.rotate_left(start);
}

/// Of the corners at the bottom the leftmost.
fn lowest_left(ring: &[Corner]) -> usize {
    let low = ring.iter().map(|corner| corner[1]).fold(f64::INFINITY, f64::min);
    let at_bottom = ring.iter().enumerate().filter(|(_, corner)| corner[1] < low + ONE_ON_PAPER);
    at_bottom.min_by(|(_, a), (_, b)| a[0].total_cmp(&b[0])).map_or(0, |(at, _)| at)
}

fn agree(a: &Value, b: &Value) -> bool {
    match (a, b) {
        (Value::Number(a), Value::Number(b)) => {
            a == b || matches!((a.as_f64(), b.as_f64()), (Some(a), Some(b)) if (a - b).abs() < ONE_ON_PAPER)
        }
        (Value::Array(a), Value::Array(b)) => a.len() == b.len() && a.iter().zip(b).all(|(a, b)| agree(a, b)),
        (Value::Object(a), Value::Object(b)) => {
            a.len() == b.len() && a.iter().all(|(key, a)| b.get(key).is_some_and(|b| agree(a, b)))
        }
        (a, b) => a == b,
    }
}
