//! The plan as GeoJSON, CityJSON and glTF, and back again where there is a way back.

mod common;
#[path = "common/houses.rs"]
mod houses;

use common::{area, from_lowest, json, told};
use exchange::{ExportFormat, Options, write};
use houses::{example, examples, planned};
use plan::Plan;
use serde_json::Value;
use units::LengthUnit;

fn text(plan: &Plan, format: ExportFormat) -> String {
    String::from_utf8(write(plan, None, format).expect("an export")).expect("UTF-8")
}

/// The outline as it stands in the job file; the import knows the unit from the file.
#[test]
fn an_outline_comes_back_from_geojson_by_itself() {
    let found = json(&text(&planned(example("chimney")), ExportFormat::GeoJson), &Options::default()).unwrap();
    assert_eq!(found.outlines.len(), 1);
    let feet: Vec<[f64; 2]> =
        from_lowest(&found.outlines[0].corners).iter().map(|corner| corner.map(|at| at / 12.0)).collect();
    assert_eq!(feet, [[0., 0.], [44., 0.], [44., 28.], [0., 28.]]);
    assert!(found.outlines[0].holes.is_empty(), "openings are no courtyards");
}

/// RFC 7946, section 3.1.6: a ring is closed and has four positions or more; an outer one is counter-clockwise.
#[test]
fn rings_follow_the_right_hand_rule() {
    for (name, plan) in examples() {
        let map: Value = serde_json::from_str(&text(&plan, ExportFormat::GeoJson)).unwrap();
        let features = map["features"].as_array().unwrap();
        let of = |kind: &str| features.iter().filter(|feature| feature["properties"]["kind"] == kind).count();
        assert_eq!(of("plane"), plan.roof.planes.len(), "{name}");
        assert_eq!(of("hip"), plan.roof.lines.iter().filter(|line| line.kind == "hip").count(), "{name}");
        for feature in features {
            let coordinates = &feature["geometry"]["coordinates"];
            let polygons: Vec<&Value> = match feature["geometry"]["type"].as_str().unwrap() {
                "Polygon" => vec![coordinates],
                "MultiPolygon" => coordinates.as_array().unwrap().iter().collect(),
                _ => continue,
            };
            for rings in polygons {
                for (at, ring) in rings.as_array().unwrap().iter().enumerate() {
                    let corners: Vec<[f64; 2]> =
                        ring.as_array().unwrap().iter().map(|p| [p[0].as_f64().unwrap(), p[1].as_f64().unwrap()]).collect();
                    assert!(corners.len() >= 4 && corners.first() == corners.last(), "{name}");
                    let sense = geom::polygon::area(&corners[1..]) > 0.0;
                    assert_eq!(sense, at == 0, "{name}: {}", feature["id"]);
                }
            }
        }
    }
}

/// Where nothing tells the unit, nothing is guessed.
#[test]
fn a_null_reference_system_without_a_unit_is_refused() {
    let map = text(&planned(example("gable")), ExportFormat::GeoJson).replace("\"units\":\"m\",", "");
    assert!(json(&map, &Options::default()).unwrap_err().remedy.contains("--units"));
    assert!(json(&map, &told(LengthUnit::M)).is_ok());
}

#[test]
fn planes_come_back_from_cityjson() {
    for (name, plan) in examples() {
        let found = json(&text(&plan, ExportFormat::CityJson), &told(LengthUnit::M)).unwrap();
        let total: f64 = found.planes.iter().map(area).sum();
        assert!((total - plan.roof.totals.area_sqft).abs() < 0.05, "{name}: {total} {}", plan.roof.totals.area_sqft);
        if name == "hip" || name == "ell" {
            let mut back: Vec<f64> = found.planes.iter().map(area).collect();
            let mut sent: Vec<f64> = plan.roof.planes.iter().map(|plane| plane.area_sqft).collect();
            back.sort_by(f64::total_cmp);
            sent.sort_by(f64::total_cmp);
            assert_eq!(back.len(), sent.len(), "{name}");
            assert!(back.iter().zip(&sent).all(|(is, expected)| (is - expected).abs() < 0.02), "{name}: {back:?} {sent:?}");
        }
    }
}

/// The JSON chunk and the binary chunk, by the specification of glTF 2.0, section 4.4.
fn chunks(bytes: &[u8]) -> (Value, &[u8]) {
    let number = |at: usize| u32::from_le_bytes(bytes[at..at + 4].try_into().expect("four bytes")) as usize;
    assert_eq!((&bytes[..4], number(4), number(8)), (b"glTF".as_slice(), 2, bytes.len()));
    let json = number(12);
    assert_eq!(&bytes[16..20], b"JSON");
    let binary = 20 + json;
    assert_eq!((&bytes[binary + 4..binary + 8], binary + 8 + number(binary)), (b"BIN\0".as_slice(), bytes.len()));
    (serde_json::from_slice(&bytes[20..20 + json]).expect("JSON"), &bytes[binary + 8..])
}

#[test]
fn the_scene_has_a_node_for_every_piece() {
    for (name, plan) in examples() {
        let bytes = write(&plan, None, ExportFormat::Gltf).unwrap();
        let (scene, binary) = chunks(&bytes);
        let nodes = scene["nodes"].as_array().unwrap();
        let is_piece = |node: &&Value| {
            node["name"]
                .as_str()
                .unwrap()
                .split_once('.')
                .is_some_and(|(a, b)| (a.parse::<u32>().is_ok(), b.parse::<u32>().is_ok()) == (true, true))
        };
        let pieces: Vec<&Value> = nodes.iter().filter(is_piece).collect();
        assert_eq!(pieces.len() as u64, plan.layout.pieces, "{name}");
        let mesh_of = |node: &Value| &scene["meshes"][usize::try_from(node["mesh"].as_u64().unwrap()).unwrap()];
        let whole = pieces.iter().filter(|node| mesh_of(node)["name"] == "unit").count();
        assert_eq!(whole as u64, plan.layout.whole, "{name}");
        assert_eq!(scene["buffers"][0]["byteLength"], binary.len(), "{name}");
    }
}

/// A corner of a plane, carried through all nodes by hand, is where the plan has it: metres, y up, z to the south.
#[test]
fn planes_stand_where_they_stand_on_the_house() {
    let plan = planned(example("hip"));
    let bytes = write(&plan, None, ExportFormat::Gltf).unwrap();
    let (scene, binary) = chunks(&bytes);
    for plane in &plan.roof.planes {
        let node = scene["nodes"].as_array().unwrap().iter().find(|node| node["name"] == plane.name.as_str()).unwrap();
        let matrix: Vec<f64> = node["matrix"].as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect();
        let deck = &scene["nodes"][usize::try_from(node["children"][0].as_u64().unwrap()).unwrap()];
        let mesh = &scene["meshes"][usize::try_from(deck["mesh"].as_u64().unwrap()).unwrap()];
        let accessor =
            &scene["accessors"][usize::try_from(mesh["primitives"][0]["attributes"]["POSITION"].as_u64().unwrap()).unwrap()];
        let offset = usize::try_from(accessor["byteOffset"].as_u64().unwrap()).unwrap();
        for (at, feet) in plane.outlines_ft[0].iter().enumerate() {
            let local: [f64; 3] = std::array::from_fn(|axis| {
                let from = offset + 12 * at + 4 * axis;
                f64::from(f32::from_le_bytes(binary[from..from + 4].try_into().unwrap()))
            });
            let inches: [f64; 3] = std::array::from_fn(|axis| {
                (0..3).map(|of| matrix[4 * of + axis] * local[of]).sum::<f64>() + matrix[12 + axis]
            });
            assert!(
                (0..3).all(|axis| (inches[axis] - feet[axis] * 12.0).abs() < 1e-3),
                "{}: {inches:?} {feet:?}",
                plane.name
            );
        }
    }
    // A quarter turn about x, by the quaternion's definition: z becomes y, y becomes -z.
    let root = scene["scenes"][0]["nodes"][0].as_u64().unwrap();
    let root = &scene["nodes"][usize::try_from(root).unwrap()];
    let turn: Vec<f64> = root["rotation"].as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect();
    assert!((turn[0] + 0.5_f64.sqrt()).abs() < 1e-12 && (turn[3] - 0.5_f64.sqrt()).abs() < 1e-12);
    assert_eq!(root["scale"], serde_json::json!([0.0254, 0.0254, 0.0254]));
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let formats = [
        ExportFormat::Dxf,
        ExportFormat::Gltf,
        ExportFormat::GeoJson,
        ExportFormat::CityJson,
        ExportFormat::Json,
        ExportFormat::Xlsx,
    ];
    for format in formats {
        let write = || write(&planned(example("chimney")), None, format).unwrap();
        assert!(write() == write(), "{format:?}");
    }
}

#[test]
fn a_roof_without_planes_is_refused_with_what_to_do() {
    let plan = houses::nothing();
    for format in [ExportFormat::Dxf, ExportFormat::Gltf, ExportFormat::GeoJson, ExportFormat::CityJson] {
        assert!(write(&plan, None, format).unwrap_err().remedy.ends_with('.'), "{format:?}");
    }
    assert!(write(&plan, None, ExportFormat::Json).is_ok());
}
