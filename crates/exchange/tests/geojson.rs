//! Outlines from GeoJSON.

mod common;

use common::{from_lowest, json, on_layer, told};
use exchange::Options;
use serde_json::Value;
use units::LengthUnit;

/// `data/geodesics.json` is made by `oracles/geodesics.py`: lengths of geodesics by Karney's method in PROJ.
#[test]
fn sides_and_areas_agree_with_geodesics() {
    let data: Value = serde_json::from_str(include_str!("data/geodesics.json")).unwrap();
    let numbers = |value: &Value| -> Vec<f64> { value.as_array().unwrap().iter().map(|n| n.as_f64().unwrap()).collect() };
    let cases = data["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 48);
    for case in cases {
        let file = format!("{{\"type\":\"Polygon\",\"coordinates\":[{}]}}", case["outline"]);
        let outline = json(&file, &Options::default()).unwrap().outlines.remove(0);
        let mut sides: Vec<f64> = geom::polygon::sides(&outline.corners).map(|(a, b)| geom::distance(a, b)).collect();
        let mut expected: Vec<f64> = numbers(&case["sides_m"]).iter().map(|metres| metres / 0.0254).collect();
        sides.sort_by(f64::total_cmp);
        expected.sort_by(f64::total_cmp);
        assert_eq!(sides.len(), expected.len());
        // Each end was moved by rounding to sixteenths by at most √2 / 32 in.
        for (is, expected) in sides.iter().zip(&expected) {
            assert!((is - expected).abs() < 2.0 * 2.0_f64.sqrt() / 32.0 + 0.001, "{is} {expected}");
        }
        let expected_area = case["area_sqm"].as_f64().unwrap() / 0.0254 / 0.0254;
        let slack = sides.iter().sum::<f64>() * 2.0_f64.sqrt() / 32.0;
        assert!((geom::polygon::area(&outline.corners) - expected_area).abs() < slack);
    }
}

/// In plan coordinates: an L of 44 by 36 ft with a court, moved, its corners noisy by less than a millimetre.
const L_IN_METRES: &str = r#"{"type":"FeatureCollection","features":[
  {"type":"Feature","id":7,"properties":{"name":"barn"},"geometry":{"type":"MultiPolygon","coordinates":[[
    [[100,200],[106.7056,200.0002],[113.4112,200],[113.4112,207.3152],[105.4864,207.3152],[105.4864,210.9728],[100,210.9728],[100,200]],
    [[101.2192,201.2192],[101.2192,203.048],[103.048,203.048],[103.048,201.2192],[101.2192,201.2192]]]]}},
  {"type":"Feature","id":"b","properties":null,"geometry":{"type":"Polygon","coordinates":[[[120,200],[123.048,200],[123.048,203.048],[120,203.048],[120,200]]]}},
  {"type":"Feature","properties":{},"geometry":null}]}"#;

#[test]
fn plan_coordinates_are_read_when_their_unit_is_told() {
    let found = json(L_IN_METRES, &told(LengthUnit::M)).unwrap();
    assert_eq!(found.outlines.iter().map(|outline| outline.name.as_str()).collect::<Vec<_>>(), ["barn", "b"]);
    let feet = |corners: &[[f64; 2]]| from_lowest(corners).iter().map(|c| c.map(|at| at / 12.0)).collect::<Vec<_>>();
    let barn = &found.outlines[0];
    assert_eq!(feet(&barn.corners), [[0., 0.], [44., 0.], [44., 24.], [18., 24.], [18., 36.], [0., 36.]]);
    assert_eq!(feet(&barn.holes[0]), [[4., 4.], [4., 10.], [10., 10.], [10., 4.]]);
    assert!(
        found.notes.iter().any(|note| note.starts_with("1 repeated corners and corners on straight lines")),
        "{:?}",
        found.notes
    );
}

#[test]
fn plan_coordinates_without_a_unit_are_refused() {
    let refused = json(L_IN_METRES, &Options::default()).unwrap_err();
    assert!(refused.remedy.contains("--units"), "{refused}");
    // These could be degrees; no house is that large.
    let refused = json(&L_IN_METRES.replace("20", "2").replace("10", "1"), &Options::default()).unwrap_err();
    assert!(refused.says.contains("km apart") && refused.remedy.contains("--units"), "{refused}");
}

/// The older GeoJSON of 2008 could name a reference system: here New York Long Island, US survey feet.
#[test]
fn a_named_reference_system_tells_the_unit() {
    let file = |system: &str| {
        format!(
            r#"{{"type":"Polygon","crs":{{"type":"name","properties":{{"name":"{system}"}}}},
            "coordinates":[[[980000,190000],[980100,190000],[980100,190050],[980000,190050],[980000,190000]]]}}"#
        )
    };
    let found = json(&file("urn:ogc:def:crs:EPSG::2263"), &Options::default()).unwrap();
    let far = from_lowest(&found.outlines[0].corners)[2];
    assert!(geom::distance(far, [1200.0, 600.0]) < 1e-9, "{far:?}");
    assert!(json(&file("EPSG:3857"), &Options::default()).unwrap_err().says.contains("web map"));
}

#[test]
fn one_feature_by_name_or_id() {
    for (layer, name) in [("barn", "barn"), ("7", "barn"), ("b", "b")] {
        let options = exchange::Options { units: Some(LengthUnit::M), ..on_layer(layer) };
        let found = json(L_IN_METRES, &options).unwrap();
        assert_eq!(found.outlines.len(), 1);
        assert_eq!(found.outlines[0].name, name);
    }
    let refused = json(L_IN_METRES, &exchange::Options { units: Some(LengthUnit::M), ..on_layer("x") }).unwrap_err();
    assert!(refused.says.contains("barn; b"), "{refused}");
}

#[test]
fn what_is_no_outline_is_refused_with_its_reason() {
    let square = |x: f64| format!("[[[0,0],[{x},0],[{x},{x}],[0,{x}],[0,0]]]");
    let polygon = |coordinates: &str| format!("{{\"type\":\"Polygon\",\"coordinates\":{coordinates}}}");
    for (file, reason) in [
        (String::new(), "empty"),
        ("{}".into(), "`type`"),
        ("[1,2]".into(), "JSON"),
        (r#"{"type":"Point","coordinates":[0,0]}"#.into(), "no polygon"),
        (r#"{"type":"FeatureCollection","features":[]}"#.into(), "no polygon"),
        (polygon("[]"), "no corners"),
        (polygon("[[]]"), "no corners"),
        (polygon("[[[1]]]"), ""),
        (polygon("[[[0,0],[30,0],[60,0],[0,0]]]"), "smaller than a square foot"),
        (polygon("[[[0,0],[30,30],[30,0],[0,20],[0,0]]]"), "crosses"),
        (polygon(&square(1e300)), "no place on Earth"),
        (polygon(&square(20_000.0)), "no house"),
        (polygon(&square(1.0)), "measures only"),
        (polygon("[[[0,0],[1e999,0],[1,1]]]"), "not JSON"),
        (polygon("[[[0,0],[NaN,0],[1,1]]]"), "not JSON"),
        (r#"{"type":"Polygon","coordinates":[[[0,0],[1,"#.into(), "not JSON"),
        (format!("{}{}", "[".repeat(100_000), "]".repeat(100_000)), "not JSON"),
    ] {
        let refused = json(&file, &told(LengthUnit::Ft)).unwrap_err();
        assert!(refused.says.contains(reason) && !refused.remedy.is_empty(), "{reason}: {refused}");
    }
}
