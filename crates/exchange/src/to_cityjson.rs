//! The planes as CityJSON 2.0: "CityJSON Specifications", CityJSON team and Open Geospatial Consortium (OGC Community Standard
//! 20-072): one building with the roof surfaces of LoD 2, without walls, which a plan does not know. Metres on the job's own axes; a
//! job knows no place on Earth, so there is no reference system.

use std::collections::BTreeMap;

use plan::{Plan, Plane};
use serde::Serialize;

use crate::polygons::polygons;
use crate::refused::Refused;

/// Steps in a metre of the whole numbers that corners are written in: hundredths of a millimetre.
const STEPS: f64 = 1e5;

#[derive(Serialize)]
struct Document<'a> {
    r#type: &'static str,
    version: &'static str,
    transform: Transform,
    metadata: Metadata<'a>,
    #[serde(rename = "CityObjects")]
    objects: BTreeMap<&'static str, Building<'a>>,
    vertices: Vec<Corner>,
}

#[derive(Serialize)]
struct Transform {
    scale: [f64; 3],
    translate: [f64; 3],
}

#[derive(Serialize)]
struct Metadata<'a> {
    title: &'a str,
    #[serde(rename = "geographicalExtent")]
    extent: [f64; 6],
}

#[derive(Serialize)]
struct Building<'a> {
    r#type: &'static str,
    attributes: Attributes<'a>,
    geometry: [Geometry<'a>; 1],
}

#[derive(Serialize)]
struct Attributes<'a> {
    name: &'a str,
    roof_area_sqft: f64,
}

#[derive(Serialize)]
struct Geometry<'a> {
    r#type: &'static str,
    lod: &'static str,
    /// Surfaces of rings of indices in the vertices, the outer ring first, counter-clockwise seen from outside.
    boundaries: Vec<Vec<Vec<usize>>>,
    semantics: Semantics<'a>,
}

#[derive(Serialize)]
struct Semantics<'a> {
    surfaces: Vec<RoofSurface<'a>>,
    values: Vec<usize>,
}

#[derive(Serialize)]
struct RoofSurface<'a> {
    r#type: &'static str,
    id: &'a str,
    name: &'a str,
    pitch: f64,
    facing_deg: f64,
    area_sqft: f64,
    known_by: &'a str,
}

type Corner = [i64; 3];

pub(crate) fn model(plan: &Plan) -> Result<Vec<u8>, Refused> {
    if plan.roof.planes.is_empty() {
        return Err(Refused::new("the roof has no planes", "Mend what the problems of the plan name."));
    }
    let mut corners = Corners::default();
    let (mut boundaries, mut values) = (Vec::new(), Vec::new());
    for (index, plane) in plan.roof.planes.iter().enumerate() {
        for polygon in polygons(&plane.outlines_in) {
            boundaries.push(polygon.iter().map(|&ring| corners.ring(&plane.outlines_ft[ring])).collect());
            values.push(index);
        }
    }
    let semantics = Semantics { surfaces: plan.roof.planes.iter().map(surface).collect(), values };
    let geometry = Geometry { r#type: "MultiSurface", lod: "2", boundaries, semantics };
    let attributes = Attributes { name: &plan.name, roof_area_sqft: rounded(plan.roof.totals.area_sqft) };
    let document = Document {
        r#type: "CityJSON",
        version: "2.0",
        transform: Transform { scale: [1.0 / STEPS; 3], translate: [0.0; 3] },
        metadata: Metadata { title: &plan.name, extent: corners.extent() },
        objects: [("roof", Building { r#type: "Building", attributes, geometry: [geometry] })].into(),
        vertices: corners.all,
    };
    let unwritten =
        |error: serde_json::Error| Refused::new(format!("the model cannot be written: {error}"), "Report the job file.");
    serde_json::to_string(&document).map(|text| (text + "\n").into_bytes()).map_err(unwritten)
}

fn surface(plane: &Plane) -> RoofSurface<'_> {
    RoofSurface {
        r#type: "RoofSurface",
        id: &plane.id,
        name: &plane.name,
        pitch: rounded(plane.pitch),
        facing_deg: rounded(plane.facing_deg),
        area_sqft: rounded(plane.area_sqft),
        known_by: plane.known_by,
    }
}

/// Corners, each once.
#[derive(Default)]
struct Corners {
    all: Vec<Corner>,
    known: BTreeMap<Corner, usize>,
}

impl Corners {
    /// Without corners that rounding makes one.
    fn ring(&mut self, ring: &[[f64; 3]]) -> Vec<usize> {
        let mut indices: Vec<usize> = ring.iter().map(|&feet| self.index(feet)).collect();
        indices.dedup();
        if indices.len() > 1 && indices.first() == indices.last() {
            indices.pop();
        }
        indices
    }

    fn index(&mut self, feet: [f64; 3]) -> usize {
        let corner = feet.map(|at| (at * 0.3048 * STEPS).round() as i64);
        *self.known.entry(corner).or_insert_with(|| {
            self.all.push(corner);
            self.all.len() - 1
        })
    }

    /// Least and greatest corner, metres.
    fn extent(&self) -> [f64; 6] {
        let of = |axis: usize| self.all.iter().map(move |corner| corner[axis]);
        let metres = |steps: Option<i64>| steps.unwrap_or_default() as f64 / STEPS;
        std::array::from_fn(|at| if at < 3 { metres(of(at).min()) } else { metres(of(at - 3).max()) })
    }
}

/// To a thousandth.
fn rounded(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0 + 0.0
}
