//! The plan as DXF, read pair by pair, and by the import.

mod common;
#[path = "common/houses.rs"]
mod houses;

use common::{area, dxf, from_lowest, on_layer};
use exchange::{ExportFormat, write};
use houses::{example, examples, planned};
use plan::Plan;

fn drawing(plan: &Plan) -> String {
    // Code page 1252; above 127 only names are not ASCII.
    let bytes = write(plan, None, ExportFormat::Dxf).expect("an export");
    bytes.into_iter().map(char::from).collect()
}

/// How many entities of a kind stand on a layer.
fn count(drawing: &str, kind: &str, layer: &str) -> usize {
    let lines: Vec<&str> = drawing.lines().collect();
    assert!(lines.len().is_multiple_of(2));
    let pairs: Vec<(&str, &str)> = lines.chunks(2).map(|pair| (pair[0], pair[1])).collect();
    let layer_of = |at: usize| pairs[at..].iter().find(|pair| pair.0 == "8").map_or("", |pair| pair.1);
    (0..pairs.len()).filter(|&at| pairs[at] == ("0", kind) && layer_of(at) == layer).count()
}

#[test]
fn every_piece_is_drawn_once() {
    for (name, plan) in examples() {
        let drawing = drawing(&plan);
        assert_eq!(count(&drawing, "LWPOLYLINE", "FLAT-WHOLE") as u64, plan.layout.whole, "{name}");
        let laid = || plan.layout.planes.iter();
        let parts: usize = laid()
            .flat_map(|laid| laid.courses.iter().flat_map(|course| &course.runs).map(move |run| (laid, run)))
            .filter_map(|(laid, run)| Some(laid.cuts[run.cut? as usize].parts_in.len() * run.count as usize))
            .sum();
        assert_eq!(count(&drawing, "LWPOLYLINE", "FLAT-CUT"), parts, "{name}");
        let numbers = count(&drawing, "TEXT", "FLAT-NUMBER");
        assert_eq!(numbers as u64, plan.layout.cut, "{name}");
        let marks: usize = laid().flat_map(|laid| &laid.poles).map(|pole| pole.marks.len()).sum();
        assert_eq!(count(&drawing, "TEXT", "FLAT-MARK"), marks, "{name}");
        let of = |kind: &str| plan.roof.lines.iter().filter(|line| line.kind == kind).count();
        assert_eq!(
            ["EAVE", "HIP", "VALLEY"].map(|layer| count(&drawing, "LINE", layer)),
            ["eave", "hip", "valley"].map(of),
            "{name}"
        );
    }
}

/// Outlines as they stand in the job files; of the hip roof, the walls with 16 in all round.
#[test]
fn the_outline_comes_back() {
    let [far, high] = [47.25 + 2.0 * 16.0 / 12.0, 29.0 + 5.0 / 12.0 + 2.0 * 16.0 / 12.0];
    let (top, wing) = (24.75, 17.0 + 4.0 / 12.0);
    let right = 44.0 + 3.5 / 12.0;
    let houses: [(&str, Vec<[f64; 2]>); 3] = [
        ("chimney", vec![[0., 0.], [44., 0.], [44., 28.], [0., 28.]]),
        ("hip", vec![[0., 0.], [far, 0.], [far, high], [0., high]]),
        ("ell", vec![[0., 0.], [right, 0.], [right, top], [wing, top], [wing, 36. + 2. / 12.], [0., 36. + 2. / 12.]]),
    ];
    for (name, corners) in houses {
        let found = dxf(&drawing(&planned(example(name))), &on_layer("OUTLINE")).unwrap();
        assert_eq!(found.outlines.len(), 1, "{name}");
        assert!(found.outlines[0].holes.is_empty(), "{name}");
        let feet: Vec<[f64; 2]> =
            from_lowest(&found.outlines[0].corners).iter().map(|corner| corner.map(|at| at / 12.0)).collect();
        assert_eq!(feet.len(), corners.len(), "{name}: {feet:?}");
        // The import rounds to 1/16 in.
        let off = feet.iter().flatten().zip(corners.iter().flatten()).map(|(is, expected)| (is - expected).abs());
        assert!(off.fold(0.0, f64::max) <= 1.0 / 32.0 / 12.0 + 1e-9, "{name}: {feet:?}");
    }
}

/// Of roofs without openings: the import knows no holes in planes of a drawing.
#[test]
fn the_planes_come_back() {
    for name in ["gable", "hip", "ell", "manor"] {
        let plan = planned(example(name));
        let found = dxf(&drawing(&plan), &on_layer("PLANES")).unwrap();
        let area: f64 = found.planes.iter().map(area).sum();
        assert!((area - plan.roof.totals.area_sqft).abs() < 0.05, "{name}: {area} {}", plan.roof.totals.area_sqft);
    }
}

/// A name with line ends in it could otherwise end the entity and begin another.
#[test]
fn names_stay_in_their_place() {
    let plan =
        planned(&example("gable").replacen("name        = \"house\"", "name = \"0\\nEOF\\n  0\\nCIRCLE 50%%d ×\"", 1));
    let drawing = drawing(&plan);
    assert!(plan.roof.planes[0].name.contains('\n'), "the test has its name");
    assert!(drawing.contains('×') && drawing.ends_with("0\nEOF\n") && !drawing.contains("\nCIRCLE"));
    assert!(dxf(&drawing, &on_layer("OUTLINE")).is_ok());
}
