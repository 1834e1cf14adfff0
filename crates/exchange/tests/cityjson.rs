//! Roof surfaces and footprints from CityJSON. The houses are invented.

mod common;

use common::{area, from_lowest, json, on_layer, told};
use exchange::Options;
use serde_json::{Value, json as value};
use units::LengthUnit;

/// A gable house of 12 by 9 m, eaves at 3 m, ridge at 6 m along its length; millimetres in the file. Face by face: ground,
/// two slopes, two gables, two walls.
fn shell() -> Value {
    value!([
        [[0, 3, 2, 1]],
        [[4, 5, 9, 8]],
        [[6, 7, 8, 9]],
        [[5, 1, 2, 6, 9]],
        [[7, 3, 0, 4, 8]],
        [[0, 1, 5, 4]],
        [[2, 3, 7, 6]]
    ])
}

fn vertices() -> Value {
    let (low, eave) = ([[0, 0], [12_000, 0], [12_000, 9000], [0, 9000]], 3000);
    let at = |height: i32| low.map(|[x, y]| [x, y, height]);
    value!([at(0).as_slice(), &at(eave), &[[0, 4500, 6000], [12_000, 4500, 6000]]].concat())
}

fn geometry() -> Value {
    let surfaces = value!([{"type": "GroundSurface"}, {"type": "RoofSurface"}, {"type": "WallSurface"}]);
    value!({"type": "Solid", "lod": "2.2", "boundaries": [shell()],
            "semantics": {"surfaces": surfaces, "values": [[0, 1, 1, 2, 2, 2, 2]]}})
}

fn head(system: &str) -> Value {
    value!({"type": "CityJSON", "version": "2.0", "CityObjects": {}, "vertices": [],
            "metadata": {"referenceSystem": system},
            "transform": {"scale": [0.001, 0.001, 0.001], "translate": [155_000.0, 463_000.0, 12.5]}})
}

/// Metres, with a building whose geometry is its part's.
fn house() -> Value {
    let mut file = head("https://www.opengis.net/def/crs/EPSG/0/7415");
    file["vertices"] = vertices();
    file["CityObjects"] = value!({
        "house": {"type": "Building", "children": ["part"], "geometry": []},
        "part": {"type": "BuildingPart", "parents": ["house"], "geometry": [geometry()]},
        "tree": {"type": "SolitaryVegetationObject", "geometry": [{"type": "GeometryInstance"}]}
    });
    file
}

/// Each slope is 12 m by √(4.5² + 3²) m.
#[test]
fn roof_surfaces_become_planes() {
    let found = json(&house().to_string(), &Options::default()).unwrap();
    assert_eq!(
        found.planes.iter().map(|plane| plane.name.as_str()).collect::<Vec<_>>(),
        ["house, plane 1", "house, plane 2"]
    );
    let slope = 12.0 * (4.5_f64 * 4.5 + 9.0).sqrt() / 0.3048 / 0.3048;
    assert!(found.planes.iter().all(|plane| (area(plane) - slope).abs() < 0.01));
    let eave = 3000.0 / 25.4;
    let low = from_lowest(&found.planes[0].corners)[0];
    assert!(low[0].abs() < 1e-9 && low[1].abs() < 1e-9 && (low[2] - eave).abs() < 0.001, "{low:?}");
}

#[test]
fn the_ground_becomes_an_outline() {
    let found = json(&house().to_string(), &Options::default()).unwrap();
    assert_eq!(found.outlines.len(), 1);
    let outline = &found.outlines[0];
    assert!(outline.has_planes);
    assert!((outline.eave_height - 3000.0 / 25.4).abs() <= 1.0 / 32.0);
    // 39 ft 4-7/16 in and 29 ft 6-5/16 in, as a tape shows 12 m and 9 m.
    let far = from_lowest(&outline.corners)[2];
    assert!(geom::distance(far, [472.4375, 354.3125]) < 1e-9, "{far:?}");
}

/// CityJSONSeq: the head, then a line a building with corners of its own.
#[test]
fn lines_of_features_are_read() {
    let feature = |id: &str, east: i32| {
        let mut corners = vertices();
        corners
            .as_array_mut()
            .unwrap()
            .iter_mut()
            .for_each(|corner| corner[0] = (corner[0].as_i64().unwrap() + i64::from(east)).into());
        value!({"type": "CityJSONFeature", "id": id, "vertices": corners,
                "CityObjects": {id: {"type": "Building", "geometry": [geometry()]}}})
    };
    let text = format!("{}\n{}\n{}\n", head("urn:ogc:def:crs:EPSG::28992"), feature("a", 0), feature("b", 30_000));
    let found = json(&text, &Options::default()).unwrap();
    assert_eq!((found.planes.len(), found.outlines.len()), (4, 2));
    let only = json(&text, &on_layer("b")).unwrap();
    assert_eq!((only.planes.len(), only.outlines[0].name.as_str()), (2, "b"));
    let refused = json(&text, &on_layer("c")).unwrap_err();
    assert!(refused.says.contains("a; b"), "{refused}");
    let refused = json(&feature("a", 0).to_string(), &Options::default()).unwrap_err();
    assert!(refused.says.contains("first line"), "{refused}");
}

#[test]
fn a_coarse_building_gives_its_lowest_level_ring() {
    let mut file = house();
    file["CityObjects"] = value!({"block": {"type": "Building", "geometry": [
        {"type": "Solid", "lod": 1, "boundaries": [[[[4, 5, 6, 7]], [[0, 3, 2, 1]], [[0, 1, 5, 4]]]]}
    ]}});
    let found = json(&file.to_string(), &Options::default()).unwrap();
    assert_eq!((found.planes.len(), found.outlines.len()), (0, 1));
    assert!(!found.outlines[0].has_planes);
    assert!(found.notes.iter().any(|note| note.contains("Only the footprint") && note.contains("block")));
}

#[test]
fn one_bad_building_does_not_hide_the_others() {
    let mut file = house();
    let mut bad = geometry();
    bad["boundaries"][0][0][0][0] = value!(99);
    file["CityObjects"]["bad"] = value!({"type": "Building", "geometry": [bad]});
    let found = json(&file.to_string(), &Options::default()).unwrap();
    assert_eq!(found.planes.len(), 2);
    assert!(found.notes.iter().any(|note| note.contains("a corner that the file does not have: bad")), "{:?}", found.notes);
}

/// Found by changing files at random: without this the job file would hold nothing.
#[test]
fn a_footprint_whose_roof_is_no_use_stays_a_block() {
    let mut file = house();
    file["CityObjects"]["part"]["geometry"][0]["semantics"]["values"] = value!([[0, 2, 2, 1, 1, 2, 2]]);
    let found = json(&file.to_string(), &Options::default()).unwrap();
    assert_eq!((found.planes.len(), found.outlines[0].has_planes), (0, false));
    assert!(found.notes.iter().any(|note| note.contains("it is a wall: house, plane 1")), "{:?}", found.notes);
}

#[test]
fn a_plane_with_a_hole_keeps_it() {
    let mut file = house();
    // A level roof with a light well of 3 by 3 m.
    file["vertices"] = value!([
        [0, 0, 0],
        [9000, 0, 0],
        [9000, 9000, 0],
        [0, 9000, 0],
        [3000, 3000, 0],
        [3000, 6000, 0],
        [6000, 6000, 0],
        [6000, 3000, 0]
    ]);
    file["CityObjects"] = value!({"h": {"type": "Building", "geometry": [{"type": "MultiSurface", "lod": "2",
        "boundaries": [[[0, 1, 2, 3], [4, 5, 6, 7]]], "semantics": {"surfaces": [{"type": "RoofSurface"}], "values": [0]}}]}});
    let found = json(&file.to_string(), &Options::default()).unwrap();
    assert_eq!(found.planes[0].holes.len(), 1);
    assert!((area(&found.planes[0]) - 72.0 / 0.3048 / 0.3048).abs() < 0.01);
}

#[test]
fn a_file_without_a_known_unit_is_refused() {
    let with = |system: Value| {
        let mut file = house();
        file["metadata"] = system;
        file.to_string()
    };
    for system in [value!(null), value!({}), value!({"referenceSystem": "EPSG:1"}), value!({"referenceSystem": "EPSG:3857"})]
    {
        let refused = json(&with(system.clone()), &Options::default()).unwrap_err();
        assert!(refused.remedy.contains("--units"), "{refused}");
        assert_eq!(json(&with(system), &told(LengthUnit::M)).unwrap().planes.len(), 2);
    }
}

#[test]
fn what_is_no_city_is_refused_with_its_reason() {
    let changed = |key: &str, to: Value| {
        let mut file = house();
        file[key] = to;
        file.to_string()
    };
    let part = |geometry: Value| changed("CityObjects", value!({"a": {"type": "Building", "geometry": geometry}}));
    let deep = (0..120).fold(value!(1), |inner, _| value!([inner]));
    for (file, reason) in [
        (changed("version", value!("0.9")), "version \"0.9\""),
        (changed("version", value!(null)), "version"),
        (changed("CityObjects", value!({})), "no building"),
        (changed("CityObjects", value!([])), "not JSON as it should be"),
        (changed("vertices", value!([[1, 2]])), "not JSON as it should be"),
        (changed("vertices", value!([])), "does not have"),
        (changed("transform", value!({"scale": [1e300, 1, 1], "translate": [0, 0, 0]})), "no place on Earth"),
        (part(value!([])), "neither roof surfaces nor"),
        (part(value!([{"type": "Solid", "lod": "2", "boundaries": 5}])), "not lists"),
        (part(value!([{"type": "Solid", "lod": "2", "boundaries": deep}])), "not"),
        (part(value!([{"type": "MultiPoint", "lod": "2", "boundaries": [1]}])), "neither roof surfaces nor"),
    ] {
        let refused = json(&file, &Options::default()).unwrap_err();
        assert!(refused.says.contains(reason) && !refused.remedy.is_empty(), "{reason}: {refused}");
    }
}
