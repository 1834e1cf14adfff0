//! The roof against computations that share no code with it.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod oracles;

use oracles::{convex_height, inside, rectilinear_height};
use proptest::prelude::*;
use roof::{Block, OutlineAt, Plane, Roof, Side, SideKind, build, sanity_check};
use units::Pitch;

type Corner = [f64; 2];

fn block(outline: &[Corner], sides: Vec<Side>) -> Block {
    Block {
        name: "house".into(),
        outline: outline.to_vec(),
        outline_at: OutlineAt::DripLine,
        sides,
        holes: vec![],
        eave_height: 0.0,
    }
}

fn side(rise: f64) -> Side {
    let kind = if rise > 0.0 { SideKind::Eave(Pitch::per_12(rise).unwrap()) } else { SideKind::Gable };
    Side::new(kind)
}

fn sound(outline: &[Corner], rises: &[f64]) -> Roof {
    let built = build(&[block(outline, rises.iter().map(|&rise| side(rise)).collect())], 0.0);
    assert!(built.problems.is_empty(), "{:?} {outline:?} {rises:?}", built.problems);
    assert_eq!(sanity_check(&built.roof), Vec::<String>::new(), "{outline:?} {rises:?}");
    built.roof
}

/// Plan area of the part of a plane that is higher than a height, by clipping its rings at the level line.
fn area_above(plane: &Plane, height: f64) -> f64 {
    plane.rings.iter().map(|ring| shoelace(&higher(&ring.corners, height))).sum()
}

fn higher(corners: &[[f64; 3]], height: f64) -> Vec<Corner> {
    let mut kept = Vec::new();
    for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
        if a[2] >= height {
            kept.push([a[0], a[1]]);
        }
        if (a[2] >= height) != (b[2] >= height) {
            let at = (height - a[2]) / (b[2] - a[2]);
            kept.push([a[0] + at * (b[0] - a[0]), a[1] + at * (b[1] - a[1])]);
        }
    }
    kept
}

fn shoelace(corners: &[Corner]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>() / 2.0
}

/// Data made by iterated mitred erosion over GEOS 3.14.1 through shapely 2.2.0 (oracles/erosion.py), good to 1e-9.
#[test]
fn level_sets_are_those_of_iterated_erosion() {
    let data: serde_json::Value = serde_json::from_str(include_str!("data/erosion.json")).unwrap();
    for case in data["cases"].as_array().unwrap() {
        let outline: Vec<Corner> = serde_json::from_value(case["outline"].clone()).unwrap();
        let number = |value: &serde_json::Value| value.as_f64().unwrap();
        let roof = sound(&outline, &vec![number(&case["pitch"]); outline.len()]);
        let (whole, top) = (number(&case["area_sqin"]), number(&case["top_in"]));
        assert!((roof.height - top).abs() < 1e-4, "{}: {} {top}", case["name"], roof.height);
        for level in case["levels"].as_array().unwrap() {
            let is: f64 = roof.planes.iter().map(|plane| area_above(plane, number(&level["height_in"]))).sum();
            let should = number(&level["area_sqin"]);
            assert!((is - should).abs() < 1e-7 * whole, "{}: {is} {should}", case["name"]);
        }
    }
}

/// The plane over a plan point, and its height there.
fn height_at(roof: &Roof, [x, y]: Corner) -> Option<f64> {
    let flat = |ring: &roof::Ring| ring.corners.iter().map(|corner| [corner[0], corner[1]]).collect::<Vec<Corner>>();
    let over = |plane: &&Plane| plane.rings.iter().filter(|ring| inside(&flat(ring), [x, y])).count() % 2 == 1;
    roof.planes.iter().find(over).map(|plane| {
        let [_, v] = plane.frame.place(x, y);
        plane.frame.point([0.0, v])[2]
    })
}

/// Towers of cells side by side: outlines with sides along the axes and no two lines the same.
fn rectilinear() -> impl Strategy<Value = Vec<Corner>> {
    prop::collection::vec((40.0f64..200.0, 60.0f64..300.0, -50.0f64..50.0), 1..6)
        .prop_map(|columns| {
            let (mut below, mut above, mut x) = (vec![], vec![], 0.0);
            for (width, top, bottom) in columns {
                below.extend([[x, bottom], [x + width, bottom]]);
                above.extend([[x, top], [x + width, top]]);
                x += width;
            }
            below.extend(above.into_iter().rev());
            below
        })
        // A jog of less than a tape mark is one corner typed twice.
        .prop_filter("jogs", |outline| {
            outline.iter().zip(&outline[1..]).all(|(a, b)| (a[0] - b[0]).abs().max((a[1] - b[1]).abs()) > 0.1)
        })
}

fn convex() -> impl Strategy<Value = Vec<Corner>> {
    prop::collection::vec(0.0f64..std::f64::consts::TAU, 4..12).prop_filter_map("three corners well apart", |mut angles| {
        angles.sort_by(f64::total_cmp);
        angles.dedup_by(|a, b| *a - *b < 0.05);
        let corners: Vec<Corner> = angles.iter().map(|&a| [300.0 * libm::cos(a), 220.0 * libm::sin(a)]).collect();
        (corners.len() >= 3).then_some(corners)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(1000), ..ProptestConfig::default() })]

    #[test]
    fn one_pitch_over_square_corners(
        outline in rectilinear(),
        rise in 3.0f64..20.0,
        spots in prop::collection::vec((0.0f64..1.0, 0.0f64..1.0), 12),
    ) {
        let roof = sound(&outline, &vec![rise; outline.len()]);
        let width = outline.iter().map(|corner| corner[0]).fold(0.0, f64::max);
        for (s, t) in spots {
            let spot = [s * width, 350.0 * t - 50.0];
            let should = rectilinear_height(&outline, rise / 12.0, spot);
            // A hair from the outline a spot may fall to either side; further in, a plane must be there.
            if should > 0.01 {
                let height = height_at(&roof, spot).unwrap_or(f64::NAN);
                // Sides within 1/10,000 in of one line are put on it.
                prop_assert!((height - should).abs() < 1e-4 * rise / 12.0 + 1e-6, "{} {} {:?}", height, should, spot);
            }
        }
    }

    #[test]
    fn any_pitches_and_gables_over_convex_outlines(
        outline in convex(),
        rises in prop::collection::vec(prop_oneof![4 => 3.0f64..20.0, 1 => Just(0.0)], 12),
        spots in prop::collection::vec((-1.0f64..1.0, -1.0f64..1.0), 12),
    ) {
        let mut rises = rises[..outline.len()].to_vec();
        rises[0] = 8.0;
        let built = build(&[block(&outline, rises.iter().map(|&rise| side(rise)).collect())], 0.0);
        prop_assert!(built.problems.is_empty(), "{:?}", built.problems);
        prop_assert_eq!(sanity_check(&built.roof), Vec::<String>::new());
        let slopes: Vec<Option<f64>> = rises.iter().map(|&rise| (rise > 0.0).then_some(rise / 12.0)).collect();
        for (s, t) in spots {
            let spot = [300.0 * s, 220.0 * t];
            if inside(&outline, spot) {
                let height = height_at(&built.roof, spot).unwrap_or(f64::NAN);
                let should = convex_height(&outline, &slopes, spot);
                prop_assert!((height - should).abs() < 1e-6, "{} {} {:?}", height, should, spot);
            }
        }
    }

    #[test]
    fn mixed_sides_over_square_corners_are_sound_or_refused(
        outline in rectilinear(),
        rises in prop::collection::vec(prop_oneof![2 => Just(8.0), 1 => Just(12.0), 2 => Just(0.0)], 24),
    ) {
        let mut rises = rises[..outline.len()].to_vec();
        rises[0] = 8.0;
        let built = build(&[block(&outline, rises.iter().map(|&rise| side(rise)).collect())], 0.0);
        prop_assert_eq!(sanity_check(&built.roof), Vec::<String>::new());
        match built.problems.first() {
            None => {
                let covered: f64 = built.roof.planes.iter().map(|plane| plane.plan_area().to_square_inches()).sum();
                // What the skeleton certifies: its points may lie off by the tolerance, all along the outline.
                let girth: f64 = outline.iter().zip(outline.iter().cycle().skip(1)).map(|(a, b)| libm::hypot(b[0] - a[0], b[1] - a[1])).sum();
                prop_assert!((covered - shoelace(&outline)).abs() < 16.0 * geom::TOLERANCE * girth);
            }
            Some(problem) => prop_assert_eq!(problem.code, "part-never-covered"),
        }
    }
}
