//! Openings cut out of a roof: by hand, and over random houses.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use proptest::prelude::*;
use roof::{
    Block, Built, EdgeKind, Opening, OpeningKind, OutlineAt, Part, Roof, Severity, Side, SideKind, Spot, build, cut_out,
    sanity_check,
};
use units::{Length, Pitch};

fn eave(rise: f64) -> Side {
    Side { overhang: Some(Length::ZERO), ..Side::new(SideKind::Eave(Pitch::per_12(rise).unwrap())) }
}

fn gable() -> Side {
    Side { overhang: Some(Length::ZERO), ..Side::new(SideKind::Gable) }
}

/// Sides south, east, north, west, inches.
fn block(name: &str, [x0, y0]: [f64; 2], [x1, y1]: [f64; 2], sides: [Side; 4]) -> Block {
    Block {
        name: name.into(),
        outline: vec![[x0, y0], [x1, y0], [x1, y1], [x0, y1]],
        outline_at: OutlineAt::DripLine,
        sides: sides.to_vec(),
        holes: vec![],
        eave_height: 100.0,
    }
}

/// 40 by 20 ft at 12 in 12 to the south and the north: 120 in from each eave to the ridge, seen in plan.
fn house() -> Roof {
    house_at(12.0)
}

/// The same at another pitch.
fn house_at(rise: f64) -> Roof {
    build(&[block("house", [0.0, 0.0], [480.0, 240.0], [eave(rise), gable(), eave(rise), gable()])], 0.0).roof
}

fn opening(name: &str, kind: OpeningKind, spot: Spot, [width, height]: [f64; 2]) -> Opening {
    Opening { name: name.into(), kind, spot, width, height }
}

fn cut(roof: Roof, openings: &[Opening]) -> Built {
    let built = cut_out(roof, openings);
    assert_eq!(sanity_check(&built.roof), Vec::<String>::new());
    built
}

fn inches(roof: &Roof, kind: EdgeKind) -> f64 {
    roof.lines.iter().filter(|line| line.kind == kind).map(|line| line.length().to_inches()).sum()
}

fn area(roof: &Roof) -> f64 {
    roof.planes.iter().map(|plane| plane.area().to_square_inches()).sum()
}

#[track_caller]
fn near(is: f64, should: f64) {
    assert!((is - should).abs() <= 1e-6 * (1.0 + should.abs()), "{is} is not {should}");
}

const ROOT_2: f64 = std::f64::consts::SQRT_2;

/// A skylight is measured on the slope, a chimney in plan: at 12 in 12 a chimney 20 in deep takes 20 × √2 in of the slope.
#[test]
fn a_skylight_and_a_chimney_in_a_plane() {
    let skylight = opening("light", OpeningKind::Skylight, Spot::On { plane: 0, at: [100.0, 80.0] }, [22.0, 46.0]);
    let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([300.0, 60.0]), [30.0, 20.0]);
    let whole = house();
    let Built { roof, problems } = cut(whole.clone(), &[skylight, chimney]);
    assert!(problems.is_empty(), "{problems:?}");
    near(area(&whole) - area(&roof), 22.0 * 46.0 + 30.0 * 20.0 * ROOT_2);
    near(whole.plan_area.to_square_inches() - roof.plan_area.to_square_inches(), 22.0 * 46.0 / ROOT_2 + 30.0 * 20.0);
    near(inches(&roof, EdgeKind::Sill), 22.0 + 30.0);
    near(inches(&roof, EdgeKind::Head), 22.0 + 30.0);
    near(inches(&roof, EdgeKind::Side), 2.0 * 46.0 + 2.0 * 20.0 * ROOT_2);
    near(inches(&roof, EdgeKind::Sidewall) + inches(&roof, EdgeKind::Headwall), 0.0);
    near(roof.openings[1].at[1], 60.0 * ROOT_2);
    near(roof.openings[1].height.to_inches(), 20.0 * ROOT_2);
    near(roof.openings[0].corners[0][1], (80.0 - 23.0) / ROOT_2);
    near(roof.openings[0].corners[0][2], 100.0 + (80.0 - 23.0) / ROOT_2);
    assert!(roof.openings.iter().all(|placed| placed.cricket.is_none() && placed.planes == [0]));
}

/// A pipe of 4 in: units are cut square round it, so the hole is the square about its circle, seen in plan.
#[test]
fn a_pipe_takes_the_square_about_it() {
    let pipe = opening("soil", OpeningKind::Pipe, Spot::Over([50.0, 200.0]), [4.0, 4.0]);
    let whole = house();
    let Built { roof, problems } = cut(whole.clone(), &[pipe]);
    assert!(problems.is_empty(), "{problems:?}");
    near(area(&whole) - area(&roof), 16.0 * ROOT_2);
    assert_eq!(roof.openings[0].planes, [1]);
}

/// A chimney 48 in wide at 12 in 12: half a cricket rises and runs 24 in. Its planes lie over ground that the main slope
/// lay over, at the same pitch, so only the chimney itself is missing from the area.
#[test]
fn a_wide_chimney_gets_a_cricket() {
    let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([200.0, 40.0]), [48.0, 24.0]);
    let whole = house();
    let Built { roof, problems } = cut(whole.clone(), &[chimney]);
    assert!(problems.is_empty(), "{problems:?}");
    near(area(&whole) - area(&roof), 48.0 * 24.0 * ROOT_2);
    near(inches(&roof, EdgeKind::Valley), 2.0 * 24.0 * 3f64.sqrt());
    near(inches(&roof, EdgeKind::Ridge), 480.0 + 24.0);
    near(inches(&roof, EdgeKind::Head), 2.0 * 24.0 * ROOT_2);
    let cricket = roof.openings[0].cricket.unwrap();
    assert_eq!(cricket.planes, [2, 3]);
    near(cricket.height.to_inches(), 24.0);
    near(
        cricket.area.to_square_inches(),
        roof.planes[2].area().to_square_inches() + roof.planes[3].area().to_square_inches(),
    );
    near(cricket.valley.to_inches(), inches(&roof, EdgeKind::Valley) / 2.0);
    near(cricket.ridge.to_inches(), 24.0);
    let told: Vec<(&str, f64)> = roof.planes[2..].iter().map(|plane| (plane.id.as_str(), plane.facing_deg)).collect();
    assert_eq!(told, [("stack.left", 270.0), ("stack.right", 90.0)], "the south slope's left is west");
    // Chimney's back at 52 in of plan, so 152 in high; the ridge of the cricket 24 in above that.
    let top = roof.planes[2].rings[0].corners.iter().map(|corner| corner[2]).fold(0.0, f64::max);
    near(top, 176.0);
}

/// H = W × pitch / 24: half a cricket runs half the chimney's width at the pitch of the slope (closed form).
#[test]
fn a_cricket_is_half_the_width_at_the_pitch_high() {
    for (width, pitch, height) in
        [(36.0, 12.0, 18.0), (48.0, 12.0, 24.0), (36.0, 8.0, 12.0), (60.0, 8.0, 20.0), (48.0, 4.0, 8.0)]
    {
        let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([200.0, 40.0]), [width, 24.0]);
        let cricket = cut(house_at(pitch), &[chimney]).roof.openings[0].cricket.unwrap();
        near(cricket.height.to_inches(), height);
    }
}

#[test]
fn the_bound_of_a_cricket_is_30_in() {
    for (width, has_cricket) in [(30.0, false), (30.0 + 1.0 / 16.0, true)] {
        let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([200.0, 40.0]), [width, 24.0]);
        assert_eq!(cut(house(), &[chimney]).roof.openings[0].cricket.is_some(), has_cricket, "{width}");
    }
}

/// 36 in wide and 30 in deep, 6 in of it beyond the ridge: the ridge loses 36 in, and there is no head.
#[test]
fn a_chimney_astride_of_the_ridge_is_cut_out_of_both_planes() {
    let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([200.0, 111.0]), [36.0, 30.0]);
    let whole = house();
    let Built { roof, problems } = cut(whole.clone(), &[chimney]);
    assert!(problems.is_empty(), "{problems:?}");
    near(whole.planes[0].area().to_square_inches() - roof.planes[0].area().to_square_inches(), 36.0 * 24.0 * ROOT_2);
    near(whole.planes[1].area().to_square_inches() - roof.planes[1].area().to_square_inches(), 36.0 * 6.0 * ROOT_2);
    near(inches(&roof, EdgeKind::Ridge), 480.0 - 36.0);
    near(inches(&roof, EdgeKind::Sill), 72.0);
    near(inches(&roof, EdgeKind::Head), 0.0);
    near(inches(&roof, EdgeKind::Side), 2.0 * 30.0 * ROOT_2);
    assert_eq!(roof.openings[0].planes, [0, 1]);
    assert!(roof.openings[0].cricket.is_none());
    assert_eq!(roof.lines.iter().filter(|line| line.kind == EdgeKind::Ridge).count(), 2);
}

/// 40 by 20 ft at 12 in 12 all round: a hip runs from the south-east corner under 45° to the north-west.
fn hip_house() -> Roof {
    build(&[block("house", [0.0, 0.0], [480.0, 240.0], [12.0; 4].map(eave))], 0.0).roof
}

/// A wing 200 in wide stands out of the south slope: valleys run from its corners under 45° to the middle of its ridge.
fn house_with_wing() -> Roof {
    let main = block("house", [0.0, 0.0], [480.0, 240.0], [eave(12.0), gable(), eave(12.0), gable()]);
    let wing = block("wing", [100.0, -90.0], [300.0, 120.0], [gable(), eave(12.0), gable(), eave(12.0)]);
    build(&[main, wing], 0.0).roof
}

fn codes(problems: &[roof::Problem]) -> Vec<&str> {
    problems.iter().map(|problem| problem.code).collect()
}

/// 24 in square, its middle on the hip, which passes through two of its corners: a triangle of each plane goes. The low side of
/// the one plane lies along the other's slope, and on neither is there a head.
#[test]
fn a_chimney_astride_of_a_hip() {
    let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([420.0, 60.0]), [24.0, 24.0]);
    let whole = hip_house();
    let Built { roof, problems } = cut(whole.clone(), &[chimney]);
    assert_eq!(codes(&problems), ["opening-astride"]);
    assert!(problems[0].says.contains("astride of the hip between house, south and house, east"), "{}", problems[0].says);
    for plane in 0..2 {
        let lost = whole.planes[plane].area().to_square_inches() - roof.planes[plane].area().to_square_inches();
        near(lost, 24.0 * 24.0 / 2.0 * ROOT_2);
    }
    near(inches(&whole, EdgeKind::Hip) - inches(&roof, EdgeKind::Hip), 24.0 * 3f64.sqrt());
    near(inches(&roof, EdgeKind::Sill), 48.0);
    near(inches(&roof, EdgeKind::Side), 2.0 * 24.0 * ROOT_2);
    near(inches(&roof, EdgeKind::Head), 0.0);
    assert_eq!(roof.openings[0].corners.len(), 4);
}

/// 48 in wide and mostly on the south slope: the hip x = 480 − y cuts off the corner beyond (424, 56) and (408, 72), which leaves
/// 32 in of head, and no cricket can end on the hip.
#[test]
fn a_corner_of_a_chimney_over_a_hip() {
    let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([400.0, 60.0]), [48.0, 24.0]);
    let whole = hip_house();
    let Built { roof, problems } = cut(whole.clone(), &[chimney]);
    assert_eq!(codes(&problems), ["no-room-for-cricket", "opening-astride"]);
    let lost = |plane: usize| whole.planes[plane].area().to_square_inches() - roof.planes[plane].area().to_square_inches();
    near(lost(0), (48.0 * 24.0 - 128.0) * ROOT_2);
    near(lost(1), 128.0 * ROOT_2);
    near(inches(&roof, EdgeKind::Head), 32.0);
    near(inches(&roof, EdgeKind::Sill), 48.0 + 16.0);
    near(inches(&roof, EdgeKind::Side), (24.0 + 8.0 + 16.0) * ROOT_2);
    assert_eq!(roof.openings[0].corners.len(), 6);
}

/// On both slopes the water runs against them: half of each square is head and half side.
#[test]
fn what_stands_in_a_valley_is_planned_with_a_caution() {
    use OpeningKind::{Chimney, Pipe, Skylight, Vent};
    let whole = house_with_wing();
    for (kind, says) in [(Pipe, "it will leak there"), (Chimney, "at its back")] {
        let size = if kind == Pipe { 4.0 } else { 40.0 };
        let Built { roof, problems } = cut(whole.clone(), &[opening("a", kind, Spot::Over([150.0, 50.0]), [size, size])]);
        assert_eq!((codes(&problems), problems[0].severity), (vec!["opening-in-valley"], Severity::Caution));
        assert!(problems[0].says.contains(says), "{}", problems[0].says);
        assert_eq!(problems[0].part, Part::Opening { opening: 0 });
        near(inches(&whole, EdgeKind::Valley) - inches(&roof, EdgeKind::Valley), size * 3f64.sqrt());
        near(inches(&roof, EdgeKind::Head), 2.0 * size);
        near(inches(&roof, EdgeKind::Side), 2.0 * size * ROOT_2);
        near(inches(&roof, EdgeKind::Sill), 0.0);
        near(area(&whole) - area(&roof), size * size * ROOT_2);
    }
    let in_valley = |kind| cut(whole.clone(), &[opening("a", kind, Spot::Over([150.0, 50.0]), [12.0, 12.0])]);
    assert_eq!(codes(&in_valley(Vent).problems), ["opening-in-valley"]);
    assert_eq!(in_valley(Vent).roof.openings.len(), 1);
    assert_eq!(codes(&in_valley(Skylight).problems), ["opening-across-edge"]);
    assert_eq!(in_valley(Skylight).roof.openings.len(), 0);
}

/// Where two hips and the ridge meet no one line passes through, and a vent is flat.
#[test]
fn what_no_one_line_passes_through_is_refused() {
    use OpeningKind::{Chimney, Vent};
    for (kind, at) in [(Chimney, [360.0, 120.0]), (Vent, [420.0, 60.0])] {
        let Built { roof, problems } = cut(hip_house(), &[opening("a", kind, Spot::Over(at), [24.0, 24.0])]);
        assert_eq!((codes(&problems), roof.openings.len()), (vec!["opening-across-edge"], 0));
    }
}

/// Two chimneys on one ridge, each with its middle just on it.
#[test]
fn two_chimneys_astride_of_one_ridge() {
    let at = |name, x| opening(name, OpeningKind::Chimney, Spot::Over([x, 120.0]), [24.0, 24.0]);
    let Built { roof, problems } = cut(house(), &[at("west", 100.0), at("east", 380.0)]);
    assert!(problems.is_empty(), "{problems:?}");
    near(inches(&roof, EdgeKind::Ridge), 480.0 - 48.0);
    assert_eq!(roof.lines.iter().filter(|line| line.kind == EdgeKind::Ridge).count(), 3);
}

/// The lower of two roofs that lie above each other is reached by its plane, the higher one by a plan point.
#[test]
fn a_plan_point_means_the_highest_plane() {
    let over = |side: Side, inches| Side { overhang: Some(Length::inches(inches)), ..side };
    let mut house = block("house", [0.0, 0.0], [480.0, 240.0], [over(eave(12.0), 24.0), gable(), eave(12.0), gable()]);
    house.outline[0][1] = -24.0;
    house.outline[1][1] = -24.0;
    let mut porch = block("porch", [0.0, -120.0], [480.0, 0.0], [eave(4.0), gable(), Side::new(SideKind::Wall), gable()]);
    porch.eave_height = 20.0;
    let roof = build(&[house, porch], 0.0).roof;
    let pipe = |spot| opening("pipe", OpeningKind::Pipe, spot, [4.0, 4.0]);
    let [high, low] = [Spot::Over([200.0, -12.0]), Spot::Over([200.0, -60.0])]
        .map(|spot| cut(roof.clone(), &[pipe(spot)]).roof.openings[0].planes[0])
        .map(|plane| roof.planes[plane].block.clone());
    assert_eq!([high.as_str(), low.as_str()], ["house", "porch"]);
}

#[test]
fn what_does_not_fit_is_named_and_the_rest_is_cut() {
    use OpeningKind::{Chimney, Pipe, Skylight};
    let on = |u, v| Spot::On { plane: 0, at: [u, v] };
    let sound = opening("sound", Skylight, on(240.0, 80.0), [24.0, 24.0]);
    for (spoilt, code, names) in [
        (opening("a", Skylight, on(-1.0, 80.0), [24.0, 24.0]), "opening-outside", "house, south"),
        (opening("a", Skylight, Spot::Over([-1.0, 80.0]), [24.0, 24.0]), "opening-outside", "plan point"),
        (opening("a", Skylight, on(10.0, 80.0), [24.0, 24.0]), "opening-across-edge", "rake"),
        (opening("a", Chimney, on(100.0, 10.0), [24.0, 24.0]), "opening-across-edge", "eave"),
        (opening("a", Skylight, on(100.0, 165.0), [24.0, 24.0]), "opening-across-edge", "ridge"),
        (opening("a", Chimney, Spot::Over([470.0, 120.0]), [24.0, 24.0]), "opening-across-edge", "rake"),
        (opening("a", Chimney, Spot::Over([100.0, 108.0]), [24.0, 24.0]), "opening-across-edge", "ridge"),
        (opening("a", Pipe, on(240.0, 80.0), [4.0, 4.0]), "openings-overlap", "\"sound\""),
        (opening("a", Skylight, on(264.0, 80.0), [24.0, 24.0]), "openings-overlap", "\"sound\""),
        (opening("a", Skylight, on(240.0, 80.0), [100.0, 100.0]), "openings-overlap", "\"sound\""),
    ] {
        let Built { roof, problems } = cut(house(), &[sound.clone(), spoilt.clone()]);
        assert_eq!(roof.openings.len(), 1, "{spoilt:?}");
        assert_eq!((problems.len(), problems[0].code, problems[0].severity), (1, code, Severity::Error), "{problems:?}");
        assert!(problems[0].says.contains(names), "{}", problems[0].says);
        assert_eq!(problems[0].part, Part::Opening { opening: 1 });
    }
}

/// 48 in wide, its back 10 in below the ridge: a cricket would rise 24 in, over the ridge.
#[test]
fn a_cricket_without_room_is_a_caution() {
    let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([200.0, 98.0]), [48.0, 24.0]);
    let Built { roof, problems } = cut(house(), &[chimney]);
    assert_eq!((problems[0].code, problems[0].severity), ("no-room-for-cricket", Severity::Caution));
    assert!(roof.openings[0].cricket.is_none());
    near(inches(&roof, EdgeKind::Head), 48.0);
    assert_eq!(roof.planes.len(), 2);
}

#[test]
fn what_stands_in_a_cricket_overlaps() {
    let chimney = opening("stack", OpeningKind::Chimney, Spot::Over([200.0, 40.0]), [48.0, 24.0]);
    let pipe = opening("soil", OpeningKind::Pipe, Spot::Over([200.0, 60.0]), [4.0, 4.0]);
    let problems = cut(house(), &[chimney.clone(), pipe.clone()]).problems;
    assert_eq!(problems[0].code, "openings-overlap");
    // Measured first, the pipe stays and the cricket has no room.
    let Built { roof, problems } = cut(house(), &[pipe, chimney]);
    assert_eq!((problems[0].code, roof.openings.len()), ("no-room-for-cricket", 2));
}

fn openings() -> impl Strategy<Value = Vec<Opening>> {
    use OpeningKind::{Chimney, Pipe, Skylight, Vent};
    let kind = prop::sample::select(vec![Chimney, Chimney, Pipe, Skylight, Vent]);
    let one = (kind, -40.0..520.0f64, -60.0..280.0f64, 1.0..60.0f64, 1.0..60.0f64);
    prop::collection::vec(one, 1..12).prop_map(|all| {
        let named = |(index, (kind, x, y, width, height))| {
            let height = if kind == Pipe { width } else { height };
            opening(&format!("o{index}"), kind, Spot::Over([x, y]), [width, height])
        };
        all.into_iter().enumerate().map(named).collect()
    })
}

fn roofs() -> impl Strategy<Value = Roof> {
    let side = || prop_oneof![3 => (3.0..16.0f64).prop_map(eave), 1 => Just(gable())];
    let main = (3.0..16.0f64, side(), side(), side()).prop_map(|(rise, b, c, d)| [eave(rise), b, c, d]);
    let wing = (100.0..250.0f64, 80.0..160.0f64, 3.0..16.0f64);
    (main, proptest::option::of(wing)).prop_map(|(sides, wing)| {
        let mut blocks = vec![block("house", [0.0, 0.0], [480.0, 240.0], sides)];
        blocks.extend(wing.map(|(x, width, rise)| {
            block("wing", [x, -90.0], [x + width, 120.0], [gable(), eave(rise), gable(), eave(rise)])
        }));
        build(&blocks, 0.0).roof
    })
}

proptest! {
    /// Seen in plan a roof loses just the openings, for a cricket covers what it takes; each plane loses its own.
    #[test]
    fn a_roof_loses_what_is_cut_out(whole in roofs(), openings in openings()) {
        let Built { roof, problems } = cut(whole.clone(), &openings);
        let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
        prop_assert_eq!(roof.openings.len() + errors, openings.len());
        let mut lost = 0.0;
        for placed in &roof.openings {
            let flat: Vec<[f64; 2]> = placed.corners.iter().map(|corner| [corner[0], corner[1]]).collect();
            let measured = openings.iter().find(|opening| opening.name == placed.name).unwrap();
            let pitch = whole.planes[placed.planes[0]].pitch;
            let upright = matches!(placed.kind, OpeningKind::Chimney | OpeningKind::Pipe);
            let run = if upright { measured.height } else { measured.height / pitch.slope_factor() };
            prop_assert!((geom::polygon::area(&flat) - measured.width * run).abs() < 1e-6);
            lost += measured.width * run;
        }
        prop_assert!((whole.plan_area.to_square_inches() - roof.plan_area.to_square_inches() - lost).abs() < 1e-3);
        for (index, plane) in whole.planes.iter().enumerate() {
            let untouched = roof.openings.iter().all(|placed| !placed.planes.contains(&index));
            prop_assert_eq!(untouched, plane == &roof.planes[index]);
        }
        let crickets = roof.openings.iter().filter(|placed| placed.cricket.is_some()).count();
        prop_assert_eq!(roof.planes.len(), whole.planes.len() + 2 * crickets);
    }

    /// Where a line between two planes passes through an opening cut out of both, just that much of the line is gone.
    #[test]
    fn lines_lose_what_passes_through_openings(whole in roofs(), openings in openings()) {
        let roof = cut_out(whole.clone(), &openings).roof;
        let joints = |of: &Roof| -> Vec<roof::Line> {
            let is_joint = |line: &&roof::Line| line.planes.len() == 2 && line.planes.iter().all(|&at| at < whole.planes.len());
            of.lines.iter().filter(is_joint).cloned().collect()
        };
        for line in joints(&whole) {
            const PARTS: usize = 500;
            let point = |part: usize| {
                let share = (part as f64 + 0.5) / PARTS as f64;
                [0, 1].map(|i| line.ends[0][i] + share * (line.ends[1][i] - line.ends[0][i]))
            };
            let gone = |p: [f64; 2]| roof.openings.iter().any(|placed| {
                let flat: Vec<[f64; 2]> = placed.corners.iter().map(|corner| [corner[0], corner[1]]).collect();
                line.planes.iter().all(|plane| placed.planes.contains(plane)) && geom::polygon::contains(&flat, p)
            });
            let part = line.length().to_inches() / PARTS as f64;
            let should = (0..PARTS).filter(|&at| !gone(point(at))).count() as f64 * part;
            let stays = joints(&roof).into_iter().filter(|other| other.planes == line.planes && other.kind == line.kind);
            let alike = joints(&whole).into_iter().filter(|other| other.planes == line.planes && other.kind == line.kind);
            prop_assume!(alike.count() == 1);
            let is: f64 = stays.map(|line| line.length().to_inches()).sum();
            prop_assert!((is - should).abs() <= part * 2.0 * (1.0 + openings.len() as f64), "{is} is not {should}");
        }
    }

    /// What was cut out is no longer covered, and nothing else is bare.
    #[test]
    fn a_point_is_bare_just_where_an_opening_is(
        whole in roofs(), openings in openings(), x in 0.0..480.0f64, y in 0.0..240.0f64,
    ) {
        let roof = cut_out(whole.clone(), &openings).roof;
        let in_opening = |placed: &roof::PlacedOpening| {
            let flat: Vec<[f64; 2]> = placed.corners.iter().map(|corner| [corner[0], corner[1]]).collect();
            geom::polygon::contains(&flat, [x, y])
        };
        let covered = |roof: &Roof| roof.planes.iter().filter(|plane| {
            let rings: Vec<Vec<[f64; 2]>> =
                plane.rings.iter().map(|ring| ring.corners.iter().map(|corner| [corner[0], corner[1]]).collect()).collect();
            geom::region::contains(&rings, [x, y])
        }).count();
        let holes = roof.openings.iter().filter(|placed| in_opening(placed)).count();
        prop_assert_eq!(covered(&roof) + holes, covered(&whole));
    }
}
