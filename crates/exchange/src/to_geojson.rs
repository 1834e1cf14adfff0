//! The roof in plan as GeoJSON, RFC 7946: "The GeoJSON Format", IETF, 2016. A job knows no place on Earth, so positions are metres
//! on the job's own x and y, which section 4 leaves to those who agree on it: `crs` is null, which in the format's version of 2008
//! (section 3) says that nothing can be assumed of the reference system, and `units` tells the unit.

use plan::{Line, Opening, Plan, Plane};
use roof::Point3;
use serde::Serialize;

use crate::polygons::polygons;
use crate::refused::Refused;
use crate::roof_outline::roof_outline;

#[derive(Serialize)]
struct Collection<'a> {
    r#type: &'static str,
    name: &'a str,
    crs: Option<()>,
    units: &'static str,
    features: Vec<Feature<'a>>,
}

#[derive(Serialize)]
struct Feature<'a> {
    r#type: &'static str,
    id: String,
    properties: Properties<'a>,
    geometry: Geometry,
}

/// What is not told of a kind is left out.
#[derive(Serialize, Default)]
struct Properties<'a> {
    /// `outline`, `plane`, `opening`, or the kind of a line.
    kind: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    name: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pitch: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    facing_deg: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    known_by: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    area_sqft: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    length_ft: Option<f64>,
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    planes: &'a [String],
}

#[derive(Serialize)]
#[serde(tag = "type", content = "coordinates")]
enum Geometry {
    LineString(Vec<Position>),
    Polygon(Vec<Vec<Position>>),
    MultiPolygon(Vec<Vec<Vec<Position>>>),
}

/// Metres; two or three numbers.
type Position = Vec<f64>;

/// To a ten-thousandth of a millimetre, in which every sixteenth of an inch is exact.
const STEPS: f64 = 1e7;

pub(crate) fn map(plan: &Plan) -> Result<Vec<u8>, Refused> {
    if plan.roof.planes.is_empty() {
        return Err(Refused::new("the roof has no planes", "Mend what the problems of the plan name."));
    }
    let planes = plan.roof.planes.iter().map(plane);
    let lines = plan.roof.lines.iter().enumerate().map(|(index, of)| line(index, of));
    let openings = plan.roof.openings.iter().enumerate().map(|(index, of)| opening(index, of));
    let features = outlines(plan).into_iter().chain(planes).chain(lines).chain(openings).collect();
    let collection = Collection { r#type: "FeatureCollection", name: &plan.name, crs: None, units: "m", features };
    let unwritten =
        |error: serde_json::Error| Refused::new(format!("the map cannot be written: {error}"), "Report the job file.");
    serde_json::to_string(&collection).map(|text| (text + "\n").into_bytes()).map_err(unwritten)
}

/// One for every part of the roof that stands by itself.
fn outlines(plan: &Plan) -> Vec<Feature<'_>> {
    let rings = roof_outline(plan);
    let flat = |ring: &[[f64; 2]]| closed(ring.iter().map(|&[x, y]| vec![metres(x), metres(y)]));
    let feature = |(index, polygon): (usize, Vec<usize>)| Feature {
        r#type: "Feature",
        id: if index == 0 { "outline".into() } else { format!("outline {}", index + 1) },
        properties: Properties { kind: OUTLINE, name: &plan.name, ..Properties::default() },
        geometry: Geometry::Polygon(polygon.iter().map(|&ring| flat(&rings[ring])).collect()),
    };
    polygons(&rings).into_iter().enumerate().map(feature).collect()
}

/// What [`crate::from_geojson`] takes by itself out of such a file.
pub(crate) const OUTLINE: &str = "outline";

fn plane(plane: &Plane) -> Feature<'_> {
    let part = |polygon: &Vec<usize>| polygon.iter().map(|&ring| in_space(&plane.outlines_ft[ring])).collect();
    Feature {
        r#type: "Feature",
        id: plane.id.clone(),
        properties: Properties {
            kind: "plane",
            name: &plane.name,
            pitch: Some(rounded(plane.pitch)),
            facing_deg: Some(rounded(plane.facing_deg)),
            known_by: Some(plane.known_by),
            area_sqft: Some(rounded(plane.area_sqft)),
            ..Properties::default()
        },
        geometry: Geometry::MultiPolygon(polygons(&plane.outlines_in).iter().map(part).collect()),
    }
}

fn line(index: usize, line: &Line) -> Feature<'_> {
    Feature {
        r#type: "Feature",
        id: format!("line {index}"),
        properties: Properties {
            kind: line.kind,
            length_ft: Some(rounded(line.length_ft)),
            planes: &line.planes,
            ..Properties::default()
        },
        geometry: Geometry::LineString(line.ends_ft.iter().map(|&end| position(end)).collect()),
    }
}

fn opening(index: usize, opening: &Opening) -> Feature<'_> {
    Feature {
        r#type: "Feature",
        id: format!("opening {index}"),
        properties: Properties { kind: opening.kind, name: &opening.name, planes: &opening.planes, ..Properties::default() },
        geometry: Geometry::Polygon(vec![in_space(&opening.outline_ft)]),
    }
}

fn in_space(ring: &[Point3]) -> Vec<Position> {
    closed(ring.iter().map(|&corner| position(corner)))
}

/// The first position again at the end.
fn closed(ring: impl Iterator<Item = Position>) -> Vec<Position> {
    let mut ring: Vec<Position> = ring.collect();
    ring.extend(ring.first().cloned());
    ring
}

fn position(feet: Point3) -> Position {
    feet.iter().map(|at| metres(at * 12.0)).collect()
}

fn metres(inches: f64) -> f64 {
    (inches * 0.0254 * STEPS).round() / STEPS + 0.0
}

/// To a thousandth.
fn rounded(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0 + 0.0
}
