//! Small plans made by hand, so that a drawing can be looked at without planning a roof.

use plan::{Course, CoveringUsed, Cut, Details, Edge, FORMAT, LaidPlane, Layout, Plan, Plane, Roof, Run, Starters};

pub(crate) type Place = [f64; 2];

const LENGTH: f64 = 18.0;
const WIDTH: f64 = 12.0;
const GAP: f64 = 0.25;

/// A plane with one outline, counter-clockwise from the left end of its eave, and what each edge is.
pub(crate) struct Shape {
    pub(crate) name: &'static str,
    pub(crate) corners: Vec<Place>,
    pub(crate) kinds: Vec<&'static str>,
    pub(crate) exposure: f64,
}

/// Eave, rake, ridge, rake; feet.
pub(crate) fn gable(width: f64, slope: f64) -> Shape {
    let (right, top) = (width * 12.0, slope * 12.0);
    Shape {
        name: "house, south",
        corners: vec![[0.0, 0.0], [right, 0.0], [right, top], [0.0, top]],
        kinds: vec!["eave", "rake", "ridge", "rake"],
        exposure: 7.1,
    }
}

/// Eave, hip, ridge, valley; feet.
pub(crate) fn hip_and_valley() -> Shape {
    Shape {
        name: "wing, east",
        corners: vec![[0.0, 0.0], [258.5, 0.0], [150.0, 130.0], [-40.0, 130.0], [-40.0, 54.0]],
        kinds: vec!["eave", "hip", "ridge", "rake", "valley"],
        exposure: 7.25,
    }
}

pub(crate) fn plan(shape: &Shape) -> Plan {
    let edges = shape.kinds.iter().enumerate().map(|(index, &kind)| edge(shape, index, kind)).collect();
    let laid = lay(shape);
    let plane = Plane {
        id: "house.0".into(),
        name: shape.name.into(),
        pitch: 8.0,
        facing_deg: 180.0,
        known_by: "outline",
        area_sqft: area(&shape.corners) / 144.0,
        outlines_ft: vec![],
        edges,
        outlines_in: vec![shape.corners.clone()],
    };
    Plan {
        format: FORMAT,
        name: "Made by hand".into(),
        covering: covering(),
        problems: vec![],
        roof: Roof { planes: vec![plane], ..Roof::default() },
        layout: Layout { planes: vec![laid], ..Layout::default() },
        details: Details::default(),
        order: vec![],
        deliveries: vec![],
        loads: plan::Loads::default(),
        checks: vec![],
        wind: None,
        cautions: vec![],
    }
}

fn covering() -> CoveringUsed {
    CoveringUsed {
        sheet: "made-by-hand".into(),
        name: "Slate made by hand".into(),
        invented: true,
        length_in: LENGTH,
        width_in: WIDTH,
        gap_in: GAP,
        nails_each: 2,
        nail_penetration_in: 0.75,
        cutting_tool: "saw",
        kerf_in: 0.125,
        stained_by: vec![],
    }
}

fn edge(shape: &Shape, index: usize, kind: &'static str) -> Edge {
    let (a, b) = (shape.corners[index], shape.corners[(index + 1) % shape.corners.len()]);
    Edge { kind, length_ft: libm::hypot(b[0] - a[0], b[1] - a[1]) / 12.0, meets: String::new() }
}

fn lay(shape: &Shape) -> LaidPlane {
    let laid: Vec<Place> = shape.corners.iter().map(|&[u, v]| [u, if v == 0.0 { -1.0 } else { v }]).collect();
    let high = laid.iter().map(|corner| corner[1]).fold(0.0, f64::max);
    let top = high - 3.0;
    let count = ((top + 1.0) / shape.exposure).ceil() as usize;
    let exposure = (top + 1.0) / count as f64;
    let mut cuts = Vec::new();
    let courses = (0..count).map(|index| course(&laid, index, exposure, &mut cuts)).collect();
    let right = shape.corners[1][0];
    let starters = vec![Starters {
        butt_in: -1.0,
        height_in: LENGTH - exposure,
        span_in: [0.0, right],
        left_in: -3.0,
        step_in: WIDTH + GAP,
        count: ((right + 3.0) / (WIDTH + GAP)).ceil() as u32,
    }];
    LaidPlane {
        id: "house.0".into(),
        first_butt_in: -1.0,
        top_in: top,
        courses,
        cuts,
        laid_in: vec![laid],
        starters,
        ..LaidPlane::default()
    }
}

fn course(laid: &[Place], index: usize, exposure: f64, cuts: &mut Vec<Cut>) -> Course {
    let butt = -1.0 + exposure * index as f64;
    let step = WIDTH + GAP;
    let first = -10.0 * step - if index.is_multiple_of(2) { 0.0 } else { step / 2.0 };
    let mut runs: Vec<Run> = Vec::new();
    for unit in 0..10_000 {
        let left = first + step * f64::from(unit);
        if left > 100_000.0 {
            break;
        }
        let part = clipped(laid, left, butt);
        if area(&part) < 1.0 {
            continue;
        }
        let cut = (area(&part) < WIDTH * LENGTH - 1e-6).then(|| cut_index(part, cuts));
        match runs.last_mut() {
            Some(run) if run.cut == cut => run.count += 1,
            _ => runs.push(Run { left_in: left, width_in: WIDTH, step_in: step, count: 1, cut, unit: 0, hangs: None }),
        }
    }
    let joints_in = joints(&runs, step);
    let ends = ends(laid, butt + 0.01);
    Course {
        butt_in: butt,
        exposure_in: exposure,
        length_in: LENGTH,
        headlap_in: LENGTH - 2.0 * exposure,
        spans_in: vec![ends],
        joints_in,
        runs,
    }
}

fn joints(runs: &[Run], step: f64) -> Vec<f64> {
    let lefts = runs.iter().flat_map(|run| (0..run.count).map(|unit| run.left_in + f64::from(unit) * step));
    lefts.skip(1).map(|left| left - GAP / 2.0).collect()
}

fn ends(laid: &[Place], v: f64) -> Place {
    let sides = laid.iter().zip(laid.iter().cycle().skip(1));
    let crossing =
        sides.filter(|(a, b)| (a[1] > v) != (b[1] > v)).map(|(a, b)| a[0] + (b[0] - a[0]) * (v - a[1]) / (b[1] - a[1]));
    crossing.fold([f64::INFINITY, f64::NEG_INFINITY], |[left, right], u| [left.min(u), right.max(u)])
}

fn cut_index(part: Vec<Place>, cuts: &mut Vec<Cut>) -> u32 {
    let same = |cut: &Cut| {
        cut.parts_in[0].len() == part.len()
            && cut.parts_in[0].iter().zip(&part).all(|(a, b)| libm::hypot(a[0] - b[0], a[1] - b[1]) < 1e-6)
    };
    let index = cuts.iter().position(same).unwrap_or_else(|| {
        let us = part.iter().map(|corner| corner[0]);
        let width_in = us.clone().fold(0.0, f64::max) - us.fold(f64::INFINITY, f64::min);
        cuts.push(Cut { width_in, area_sqin: area(&part), parts_in: vec![part], ..Cut::default() });
        cuts.len() - 1
    });
    index as u32
}

/// What a convex outline leaves of the unit at a place, from the unit's corner.
fn clipped(laid: &[Place], left: f64, butt: f64) -> Vec<Place> {
    let mut part = vec![[0.0, 0.0], [WIDTH, 0.0], [WIDTH, LENGTH], [0.0, LENGTH]];
    for (a, b) in laid.iter().zip(laid.iter().cycle().skip(1)) {
        let inside = |[u, v]: Place| (b[0] - a[0]) * (v + butt - a[1]) - (b[1] - a[1]) * (u + left - a[0]);
        let mut kept = Vec::new();
        for (&p, &q) in part.iter().zip(part.iter().cycle().skip(1)) {
            let (here, there) = (inside(p), inside(q));
            if here >= 0.0 {
                kept.push(p);
            }
            if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
                let t = here / (here - there);
                kept.push([p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t]);
            }
        }
        part = kept;
    }
    part
}

fn area(ring: &[Place]) -> f64 {
    ring.iter().zip(ring.iter().cycle().skip(1)).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>() / 2.0
}
