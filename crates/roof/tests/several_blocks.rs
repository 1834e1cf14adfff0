//! Several blocks: by hand, and against the heights that the rules ask for, computed on their own.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod oracles;

use oracles::{convex_height, inside};
use proptest::prelude::*;
use roof::{Block, Built, EdgeKind, OutlineAt, Plane, Roof, Severity, Side, SideKind, build, sanity_check};
use units::{Length, Pitch};

const FT: f64 = 12.0;

fn eave(rise: f64) -> Side {
    over(Side::new(SideKind::Eave(Pitch::per_12(rise).unwrap())), 0.0)
}

fn gable() -> Side {
    over(Side::new(SideKind::Gable), 0.0)
}

fn wall() -> Side {
    Side::new(SideKind::Wall)
}

fn over(side: Side, inches: f64) -> Side {
    Side { overhang: Some(Length::inches(inches)), ..side }
}

/// South-west and north-east corner in feet; sides south, east, north, west.
fn block(name: &str, [x0, y0]: [f64; 2], [x1, y1]: [f64; 2], height_ft: f64, sides: [Side; 4]) -> Block {
    Block {
        name: name.into(),
        outline: vec![[x0 * FT, y0 * FT], [x1 * FT, y0 * FT], [x1 * FT, y1 * FT], [x0 * FT, y1 * FT]],
        outline_at: OutlineAt::DripLine,
        sides: sides.to_vec(),
        holes: vec![],
        eave_height: height_ft * FT,
    }
}

fn sound(blocks: &[Block]) -> Built {
    let built = build(blocks, 0.0);
    assert!(built.problems.iter().all(|problem| problem.severity == Severity::Caution), "{:?}", built.problems);
    assert_eq!(sanity_check(&built.roof), Vec::<String>::new());
    built
}

fn feet(roof: &Roof, kind: EdgeKind) -> f64 {
    roof.lines.iter().filter(|line| line.kind == kind).map(|line| line.length().to_feet()).sum()
}

fn area(roof: &Roof) -> f64 {
    roof.planes.iter().map(|plane| plane.area().to_square_feet()).sum()
}

#[track_caller]
fn near(is: f64, should: f64) {
    assert!((is - should).abs() <= 1e-4 * (1.0 + should.abs()), "{is} is not {should}");
}

fn main_house() -> Block {
    block("house", [0.0, 0.0], [40.0, 28.0], 9.0, [eave(8.0), gable(), eave(8.0), gable()])
}

/// A gabled wing 16 ft wide that runs 10 ft out to the south and dies into the main slope where that is as high as the
/// wing's ridge: 8 ft in from the eave. Each valley rises over a square of 8 ft: 8 × √(1 + 1 + (8/12)²).
#[test]
fn a_wing_dies_into_the_main_slope() {
    let wing = block("wing", [12.0, -10.0], [28.0, 12.0], 9.0, [gable(), eave(8.0), gable(), eave(8.0)]);
    let Built { roof, problems } = sound(&[main_house(), wing]);
    assert!(problems.is_empty(), "{problems:?}");
    near(area(&roof), (40.0 * 28.0 + 16.0 * 10.0) * 208f64.sqrt() / 12.0);
    near(feet(&roof, EdgeKind::Valley), 16.0 * (2.0 + 4.0 / 9.0f64).sqrt());
    near(feet(&roof, EdgeKind::Ridge), 40.0 + 18.0);
    near(feet(&roof, EdgeKind::Eave), 40.0 + 24.0 + 20.0);
    assert_eq!(roof.planes.len(), 4);
}

/// The same wing drawn further in: its inner gable would stand out north of the main ridge.
#[test]
fn an_inner_gable_that_pokes_through_is_a_caution() {
    let wing = block("wing", [8.0, -10.0], [32.0, 24.0], 9.0, [gable(), eave(8.0), gable(), eave(8.0)]);
    let built = build(&[main_house(), wing], 0.0);
    let codes: Vec<&str> = built.problems.iter().map(|problem| problem.code).collect();
    assert_eq!(codes, ["gable-pokes-through"]);
}

/// Two gables of one height crossing: four valleys meet at the middle, each over a square of 14 ft.
#[test]
fn cross_gables_of_one_height() {
    let across = block("across", [6.0, -8.0], [34.0, 36.0], 9.0, [gable(), eave(8.0), gable(), eave(8.0)]);
    let roof = sound(&[main_house(), across]).roof;
    near(feet(&roof, EdgeKind::Valley), 4.0 * 14.0 * (2.0 + 4.0 / 9.0f64).sqrt());
    near(area(&roof), (40.0 * 28.0 + 28.0 * 16.0) * 208f64.sqrt() / 12.0);
    // Each plane of either house is seen in two pieces that touch only where the valleys meet.
    assert_eq!(roof.planes.len(), 4);
}

/// A tower 10 ft square with walls up to 30 ft stands in the south slope, 4 ft in from the eave: the slope runs against
/// its south wall from below (headwall), along both sides, and away from it behind (dead valley where it falls towards
/// the wall).
#[test]
fn a_tower_in_a_slope() {
    let tower = block("tower", [15.0, 4.0], [25.0, 12.0], 30.0, std::array::from_fn(|_| eave(12.0)));
    let roof = sound(&[main_house(), tower]).roof;
    near(feet(&roof, EdgeKind::Headwall), 10.0);
    near(feet(&roof, EdgeKind::DeadValley), 10.0);
    near(feet(&roof, EdgeKind::Sidewall), 16.0 * 208f64.sqrt() / 12.0);
    near(roof.plan_area.to_square_feet(), 40.0 * 28.0);
}

/// A porch with its own wall line under the main roof's overhang: the porch is laid up to the house wall, under the
/// eave, and both are counted.
#[test]
fn a_porch_under_a_higher_eave() {
    let house = block(
        "house",
        [-2.0, -2.0],
        [42.0, 30.0],
        12.0,
        [over(eave(8.0), 24.0), over(gable(), 24.0), over(eave(8.0), 24.0), over(gable(), 24.0)],
    );
    let porch = block("porch", [10.0, -10.0], [30.0, 0.0], 8.0, [eave(3.0), gable(), wall(), gable()]);
    let roof = sound(&[house, porch]).roof;
    // The house covers 44 × 32 ft, the porch all of its own 20 × 10 ft, 20 × 2 of them under the eave.
    near(roof.plan_area.to_square_feet(), 44.0 * 32.0 + 200.0);
    near(feet(&roof, EdgeKind::Headwall), 20.0);
    near(feet(&roof, EdgeKind::Eave), 88.0 + 20.0);
}

/// A garage against the house, flush and of one pitch: its slope and the house's are one plane.
#[test]
fn flush_slopes_are_one_plane() {
    let garage = block("garage", [40.0, 0.0], [60.0, 28.0], 9.0, [eave(8.0), gable(), eave(8.0), gable()]);
    let roof = sound(&[main_house(), garage]).roof;
    assert_eq!(roof.planes.iter().map(|plane| plane.id.as_str()).collect::<Vec<_>>(), ["house.0", "house.2"]);
    near(feet(&roof, EdgeKind::Rake), 4.0 * 14.0 * 208f64.sqrt() / 12.0);
    near(feet(&roof, EdgeKind::Eave), 120.0);
    assert_eq!(roof.lines.iter().filter(|line| line.kind == EdgeKind::Ridge).count(), 1);
}

/// A lower garage under the gable end of the house: the house's rake runs free above, the garage stops at the wall.
#[test]
fn a_lower_garage_at_a_gable_end() {
    let garage = block("garage", [40.0, 4.0], [60.0, 24.0], 7.0, [eave(6.0), gable(), eave(6.0), wall()]);
    let roof = sound(&[main_house(), garage]).roof;
    // The garage roof is lower than the house's all along x = 40 ft: 7 ft + y/2 against 9 ft + 2y/3.
    near(feet(&roof, EdgeKind::Sidewall), 20.0 * 5f64.sqrt() / 2.0);
    near(feet(&roof, EdgeKind::Rake), 56.0 * 208f64.sqrt() / 12.0 + 20.0 * 5f64.sqrt() / 2.0);
}

/// House, wing, garage and porch measured at the walls, with overhangs: in feet and odd inches, invented.
fn manor() -> Vec<Block> {
    let at_walls = |block: Block| Block { outline_at: OutlineAt::Walls, ..block };
    let end = || over(gable(), 10.0);
    let house =
        block("house", [0.0, 0.0], [52.625, 30.25], 18.375, [over(eave(9.0), 16.0), end(), over(eave(9.0), 16.0), end()]);
    let wing = [end(), over(eave(9.0), 16.0), gable(), over(eave(9.0), 16.0)];
    let wing = block("wing", [71.0 / 12.0, -164.0 / 12.0], [292.0 / 12.0, 15.125], 18.375, wing);
    let garage = [over(eave(6.0), 14.0), end(), over(eave(6.0), 14.0), wall()];
    let garage = block("garage", [52.625, 38.0 / 12.0], [75.0 + 0.5 / 12.0, 329.0 / 12.0], 110.0 / 12.0, garage);
    let porch = [over(eave(4.0), 9.0), over(gable(), 6.0), wall(), over(gable(), 6.0)];
    let porch = block("porch", [334.0 / 12.0, -7.75], [553.0 / 12.0, 0.0], 115.0 / 12.0, porch);
    [house, wing, garage, porch].map(at_walls).to_vec()
}

/// A wing parts the eave of the main slope: both parts lie at its bearing side, with no hair between them.
#[test]
fn parts_of_one_eave_lie_at_one_height_on_the_plane() {
    let roof = sound(&manor()).roof;
    let level =
        |plane: &Plane| plane.places().concat().into_iter().map(|[_, v]| v).filter(|v| v.abs() < 0.1).collect::<Vec<_>>();
    let house = roof.planes.iter().find(|plane| plane.id == "house.0").unwrap();
    assert_eq!(level(house).len(), 4);
    assert!(roof.planes.iter().all(|plane| level(plane).into_iter().all(|v| v.abs() < 1e-9)));
}

/// Garage and porch stop at walls that rise above them: no gable of theirs shows over the house, whose overhangs reach over
/// their ends.
#[test]
fn a_roof_that_stops_at_a_higher_wall_does_not_poke_through() {
    assert_eq!(sound(&manor()).problems, []);
}

fn covering(roof: &Roof, p: [f64; 2]) -> Vec<&Plane> {
    let over = |plane: &&Plane| {
        let ring = |ring: &roof::Ring| ring.corners.iter().map(|corner| [corner[0], corner[1]]).collect::<Vec<_>>();
        plane.rings.iter().filter(|r| inside(&ring(r), p)).count() % 2 == 1
    };
    roof.planes.iter().filter(over).collect()
}

fn height(plane: &Plane, [x, y]: [f64; 2]) -> f64 {
    plane.frame.point(plane.frame.place(x, y))[2]
}

/// A block whose plan is a rectangle, with the inset of its walls and its slopes, for the oracle.
#[derive(Debug, Clone)]
struct Box4 {
    low: [f64; 2],
    high: [f64; 2],
    base: f64,
    rises: [f64; 4],
    overhang: f64,
}

impl Box4 {
    fn block(&self, name: &str) -> Block {
        let side = |rise: f64| over(if rise > 0.0 { eave(rise) } else { gable() }, self.overhang);
        let feet = |p: [f64; 2]| p.map(|c| c / FT);
        block(name, feet(self.low), feet(self.high), self.base / FT, self.rises.map(side))
    }

    fn holds(&self, p: [f64; 2], inset: f64) -> bool {
        (0..2).all(|i| self.low[i] + inset < p[i] && p[i] < self.high[i] - inset)
    }

    fn height(&self, p: [f64; 2]) -> f64 {
        let [[x0, y0], [x1, y1]] = [self.low, self.high];
        let slopes = self.rises.map(|rise| (rise > 0.0).then_some(rise / 12.0));
        self.base + convex_height(&[[x0, y0], [x1, y0], [x1, y1], [x0, y1]], &slopes, p)
    }
}

/// The rules for what is laid at a plan point, word for word: hidden inside a higher block's walls, and in a higher
/// block's overhang unless inside one's own walls; of two at one height only the first stays.
fn laid_at(boxes: &[Box4], p: [f64; 2]) -> Vec<f64> {
    let there: Vec<&Box4> = boxes.iter().filter(|b| b.holds(p, 0.0)).collect();
    let hides = |a: usize, b: usize| {
        let over = there[a].height(p) - there[b].height(p);
        let by_walls = there[a].holds(p, there[a].overhang) || !there[b].holds(p, there[b].overhang);
        a != b && if over.abs() < 1e-6 { a < b } else { over > 0.0 && by_walls }
    };
    let seen = (0..there.len()).filter(|&b| !(0..there.len()).any(|a| hides(a, b)));
    let mut heights: Vec<f64> = seen.map(|b| there[b].height(p)).collect();
    heights.sort_by(f64::total_cmp);
    heights
}

type Drawn = ((u8, u8), (u8, u8), f64, (f64, f64, f64, f64), f64);

fn boxes() -> impl Strategy<Value = Vec<Box4>> {
    let rise = || prop_oneof![3 => Just(8.0), 2 => 3.0f64..16.0, 2 => Just(0.0)];
    let one = (
        (0u8..20, 0u8..20),
        (6u8..24, 6u8..24),
        prop_oneof![Just(96.0), Just(120.0), 60.0f64..200.0],
        (3.0f64..16.0, rise(), rise(), rise()),
        prop_oneof![Just(0.0), Just(12.0), Just(18.0)],
    );
    prop::collection::vec(one, 1..6).prop_map(|all| {
        let one = |((x, y), (w, d), base, (a, b, c, e), overhang): Drawn| {
            let low = [f64::from(x) * 24.0, f64::from(y) * 24.0];
            Box4 {
                low,
                high: [low[0] + f64::from(w) * 24.0, low[1] + f64::from(d) * 24.0],
                base,
                rises: [a, b, c, e],
                overhang,
            }
        };
        all.into_iter().map(one).collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(1000), ..ProptestConfig::default() })]

    #[test]
    fn what_is_laid_is_what_the_rules_say(
        boxes in boxes(),
        spots in prop::collection::vec((0.0f64..1.0, 0.0f64..1.0), 60),
    ) {
        let blocks: Vec<Block> = boxes.iter().enumerate().map(|(at, b)| b.block(&format!("b{at}"))).collect();
        let built = build(&blocks, 0.0);
        prop_assert!(built.problems.iter().all(|p| p.severity == Severity::Caution), "{:?}", built.problems);
        prop_assert_eq!(sanity_check(&built.roof), Vec::<String>::new());
        for (s, t) in spots {
            let p = [1000.0 * s, 1000.0 * t];
            let should = laid_at(&boxes, p);
            let mut is: Vec<f64> = covering(&built.roof, p).into_iter().map(|plane| height(plane, p)).collect();
            is.sort_by(f64::total_cmp);
            // Within a hair of a seam a point may fall to either side.
            // Planes nearer than 1/64 in are at one height, and the first is laid though the other may be higher by that.
            let close = is.len() == should.len() && is.iter().zip(&should).all(|(a, b)| (a - b).abs() < 1.0 / 64.0);
            let on_a_seam = [[0.02, 0.01], [-0.02, 0.01], [0.01, -0.02], [-0.01, -0.02]]
                .iter()
                .any(|d| laid_at(&boxes, [p[0] + d[0], p[1] + d[1]]).len() != should.len());
            prop_assert!(close || on_a_seam, "{:?}: {:?} should be {:?}", p, is, should);
        }
    }
}
