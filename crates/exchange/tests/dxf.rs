//! Outlines and planes from DXF. The drawings in `data` are made by `oracles/dxf_houses.py` with another program's
//! writer: a gable house of 40 by 28 ft at 8/12, an L of 44 by 36 ft, and a ring of 10 ft radius, 1,000 ft to the east,
//! 2,000 ft to the north and 100 ft up.

mod common;

use common::{area, dxf, from_lowest, on_layer, told};
use exchange::{ImportFormat, Imported, Options, read};
use units::LengthUnit;

const R12: &[u8] = include_bytes!("data/r12.dxf");
const R2000: &[u8] = include_bytes!("data/r2000.dxf");
const R2018: &[u8] = include_bytes!("data/r2018.dxf");

/// Release 12 does not tell its unit; it is drawn in feet.
fn layer_of_each(layer: &str) -> Vec<Imported> {
    let feet = Options { units: Some(LengthUnit::Ft), ..on_layer(layer) };
    [(R12, &feet), (R2000, &on_layer(layer)), (R2018, &on_layer(layer))]
        .into_iter()
        .map(|(bytes, options)| read(bytes, ImportFormat::Dxf, options).expect("a good drawing"))
        .collect()
}

#[test]
fn the_outline_is_the_same_in_every_release_and_unit() {
    for found in layer_of_each("OUTLINE") {
        assert_eq!(found.outlines.len(), 1);
        let corners: Vec<_> = from_lowest(&found.outlines[0].corners).iter().map(|c| c.map(|at| at / 12.0)).collect();
        assert_eq!(corners, [[0., 0.], [44., 0.], [44., 24.], [18., 24.], [18., 36.], [0., 36.]]);
        assert!(found.notes.iter().any(|note| note.contains("polylines that are not closed (1)")), "{:?}", found.notes);
    }
}

/// Each slope is 40 ft by 14 ft of run at 8/12.
#[test]
fn faces_and_triangles_are_the_two_slopes() {
    let slope = 40.0 * 14.0 * (1.0_f64 + (8.0 / 12.0) * (8.0 / 12.0)).sqrt();
    for found in layer_of_each("FACES").into_iter().chain(layer_of_each("TRIANGLES")) {
        assert_eq!(found.planes.len(), 2);
        // Rounding moves a corner by √3 / 20,000 ft at most; the slopes are 114 ft around.
        assert!(found.planes.iter().all(|plane| (area(plane) - slope).abs() < 0.01));
        let low = from_lowest(&found.planes[0].corners)[0];
        assert!(low.iter().all(|at| at.abs() < 1e-9), "{low:?}");
    }
}

/// A circle of 10 ft radius has 314.159 sq ft and its chords lie inside it, by less than 1/16 in.
#[test]
fn bulges_become_sides_within_a_sixteenth() {
    for found in layer_of_each("RING") {
        let corners = &found.outlines[0].corners;
        assert!(corners.iter().all(|c| (geom::distance(*c, [120.0; 2]) - 120.0).abs() < 1.0 / 16.0));
        let area = geom::polygon::area(corners) / 144.0;
        let circle = std::f64::consts::PI * 100.0;
        assert!(area < circle + 0.1 && area > circle - 20.0 * std::f64::consts::PI / 12.0 / 16.0, "{area}");
        assert!(found.notes.iter().any(|note| note.starts_with("2 arcs")), "{:?}", found.notes);
    }
}

#[test]
fn without_a_layer_or_a_unit_it_is_refused() {
    let refused = read(R2000, ImportFormat::Dxf, &Options::default()).unwrap_err();
    for layer in ["OUTLINE (1)", "FACES (2)", "TRIANGLES (4)", "RING (1)"] {
        assert!(refused.says.contains(layer), "{refused}");
    }
    let refused = read(R2000, ImportFormat::Dxf, &on_layer("roof")).unwrap_err();
    assert!(refused.says.contains("roof") && refused.says.contains("FACES (2)"), "{refused}");
    let refused = read(R12, ImportFormat::Dxf, &on_layer("OUTLINE")).unwrap_err();
    assert!(refused.says.contains("unit") && refused.remedy.contains("--units"), "{refused}");
}

#[test]
fn a_told_unit_wins_and_the_difference_is_said() {
    let options = Options { units: Some(LengthUnit::Ft), ..on_layer("OUTLINE") };
    let found = read(R2000, ImportFormat::Dxf, &options).unwrap();
    assert!(found.notes.iter().any(|note| note.contains("says metres; feet was told")), "{:?}", found.notes);
}

/// Group codes and values of a drawing in inches.
fn drawing(entities: &str) -> String {
    let head = "0 SECTION 2 HEADER 9 $INSUNITS 70 1 0 ENDSEC 0 SECTION 2 ENTITIES";
    format!("{head} {entities} 0 ENDSEC 0 EOF").split_whitespace().map(|word| format!("{word}\n")).collect()
}

#[test]
fn a_polyline_seen_from_below_is_mirrored() {
    // An extrusion of 0, 0, -1 has its x to the left (arbitrary axis algorithm of the DXF reference).
    let corners = "10 0 20 0 10 -100 20 0 10 -100 20 50 10 0 20 80";
    let found = dxf(&drawing(&format!("0 LWPOLYLINE 8 0 70 1 {corners} 230 -1")), &Options::default()).unwrap();
    assert_eq!(from_lowest(&found.outlines[0].corners), [[0., 0.], [100., 0.], [100., 50.], [0., 80.]]);
}

#[test]
fn a_closed_line_in_space_is_a_plane_if_it_slopes() {
    let polyline = |rise: i32| {
        let corner = |x: i32, y: i32, z: i32| format!("0 VERTEX 10 {x} 20 {y} 30 {z} 70 32");
        let corners = [corner(0, 0, 0), corner(300, 0, 0), corner(300, 90, rise), corner(0, 90, rise)].join(" ");
        dxf(&drawing(&format!("0 POLYLINE 8 0 70 9 {corners} 0 SEQEND")), &Options::default()).unwrap()
    };
    let (level, sloping) = (polyline(0), polyline(120));
    assert_eq!((level.outlines.len(), level.planes.len()), (1, 0));
    assert_eq!((sloping.outlines.len(), sloping.planes.len()), (0, 1));
    // 300 by 150 in: 3, 4, 5.
    assert!((area(&sloping.planes[0]) - 312.5).abs() < 1e-3);
}

#[test]
fn what_is_no_drawing_is_refused_with_its_reason() {
    let square = |size: &str| format!("0 LWPOLYLINE 8 0 70 1 10 0 20 0 10 {size} 20 0 10 {size} 20 {size} 10 0 20 {size}");
    for (file, reason) in [
        (String::new(), "unit"),
        ("hello\nworld\n".into(), "line 1"),
        ("0\nSECTION\n2\n".into(), "middle of a pair"),
        (drawing(""), "no closed polyline"),
        (drawing(&square("nan")), "line"),
        (drawing(&square("1e999")), "line"),
        (drawing(&square("1e40")), "no place on Earth"),
        (drawing(&square("9")), "measures only"),
        (drawing("0 LWPOLYLINE 8 0 70 1 10 0 20 0 42 1 10 1e8 20 0"), "straight sides"),
        (drawing("0 POLYLINE 8 0 70 64 0 VERTEX 70 128 71 1 72 2 73 3 0 SEQEND"), "corner 1 of 0"),
        (drawing("0 INSERT 8 0 2 house 10 0 20 0"), "explode"),
        (drawing("0 3DFACE 8 0"), "measures only"),
        ("\0\0".into(), "text"),
    ] {
        let refused = dxf(&file, &Options::default()).unwrap_err();
        assert!(refused.says.contains(reason) && !refused.remedy.is_empty(), "{reason}: {refused}");
    }
    assert!(dxf(&drawing(&square("300")), &told(LengthUnit::In)).is_ok());
}
