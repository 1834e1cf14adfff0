//! Skeletons for comparisons with other programs: one outline a line of JSON in, its figures a line of JSON out.
//!
//! In: `{"rings": [[[x, y], ...], ...], "runs": [[run, ...], ...]}`, the outer ring counter-clockwise, holes clockwise,
//! `runs[i][j]` for the side that leaves corner `j` of ring `i`.
//! Out: `{"top", "area", "volume", "faces"}`, or `{"stuck", "at"}`.

use geom::Point;
use geom::skeleton::{Contour, Rim, Side, Skeleton, Stuck, skeleton};
use serde_json::json;
use std::io::BufRead;

#[derive(serde::Deserialize)]
struct Outline {
    rings: Vec<Vec<Point>>,
    runs: Vec<Vec<f64>>,
}

fn main() -> std::io::Result<()> {
    for line in std::io::stdin().lock().lines() {
        let outline: Outline = serde_json::from_str(&line?)?;
        answer(&figures(&outline));
    }
    Ok(())
}

#[allow(clippy::print_stdout, reason = "it is what the program is for")]
fn answer(figures: &serde_json::Value) {
    println!("{figures}");
}

fn figures(outline: &Outline) -> serde_json::Value {
    match skeleton(&contours(outline), 0.0) {
        Ok(found) => json!({
            "top": found.nodes.iter().map(|node| node[2]).fold(0.0, f64::max),
            "area": over_rings(&found, |[a, b, c]| doubled_area(a, b, c) / 2.0),
            "volume": over_rings(&found, |[a, b, c]| doubled_area(a, b, c) * (a[2] + b[2] + c[2]) / 6.0),
            "faces": found.faces.iter().filter(|face| !face.rings.is_empty()).count(),
        }),
        Err(Stuck::NeverCovered(at)) => json!({ "stuck": "never-covered", "at": at }),
        Err(Stuck::Unresolved(at)) => json!({ "stuck": "unresolved", "at": at }),
    }
}

fn contours(outline: &Outline) -> Vec<Contour> {
    let sides = |runs: &Vec<f64>| runs.iter().map(|&run| Side::running(run)).collect();
    let rings = outline.rings.iter().zip(&outline.runs);
    rings.map(|(corners, runs)| Contour { corners: corners.clone(), sides: sides(runs) }).collect()
}

/// Sums a measure over the triangles that fan out from the first corner of every ring.
fn over_rings(skeleton: &Skeleton, measure: impl Fn([[f64; 3]; 3]) -> f64) -> f64 {
    let rings = skeleton.faces.iter().flat_map(|face| &face.rings);
    let at = |rim: &Rim| skeleton.nodes[rim.node];
    rings.flat_map(|ring| ring.windows(2).map(|two| measure([at(&ring[0]), at(&two[0]), at(&two[1])]))).sum()
}

fn doubled_area(a: [f64; 3], b: [f64; 3], c: [f64; 3]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}
