//! Dormers by hand, and against the heights that the rules ask for, computed on their own. Lengths in feet.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod common;
mod oracles;

use common::*;
use oracles::inside;
use proptest::prelude::*;
use roof::EdgeKind::{Break, Eave, Headwall, Hip, Rake, Ridge, Sidewall, Valley};
use roof::{Block, Built, Dormer, DormerKind, Roof, Severity, build, sanity_check, with_dormers};
use units::Length;

/// 40 × 28 at 12 in 12, eaves at 9 ft: the ridge is 14 ft up.
fn main_house() -> Block {
    rectangle(40.0, 28.0, &[eave(12.0), gable(), eave(12.0), gable()])
}

/// 8 wide over the middle of the south slope, its front wall 4 ft in from the eave and 3 ft high.
fn dormer(kind: DormerKind, rise: f64) -> Dormer {
    Dormer {
        name: "dormer".into(),
        kind,
        on: "house.0".into(),
        across: Length::feet(20.0),
        up: Length::feet(slope(4.0, 12.0)),
        width: Length::feet(8.0),
        wall_height: Length::feet(3.0),
        pitch: pitch(rise),
        overhang: Some(Length::ZERO),
        rake_overhang: Some(Length::ZERO),
    }
}

/// The roof with its dormers, the cheeks' areas in square feet, and the codes of all problems.
fn with(blocks: &[Block], dormer: &Dormer) -> (Roof, Vec<f64>, Vec<&'static str>) {
    let (Built { roof, problems }, cheeks) = with_dormers(build(blocks, 0.0), blocks, std::slice::from_ref(dormer), 0.0);
    assert_eq!(sanity_check(&roof), Vec::<String>::new());
    let areas = cheeks.iter().map(|cheek| cheek.area.to_square_feet()).collect();
    (roof, areas, problems.iter().map(|problem| problem.code).collect())
}

/// At 6 in 12 its ridge lies 3 + 4/2 = 5 ft over the foot, so it dies 5 ft behind the front wall; the eaves do so after
/// 3 ft. Each valley rises 2 over 4 aside and 2 back; each cheek is 3 × 3 / 2.
#[test]
fn gable_dormer() {
    let (roof, cheeks, problems) = with(&[main_house()], &dormer(DormerKind::Gable, 6.0));
    assert_eq!(problems, Vec::<&str>::new());
    lines_are(
        &roof,
        &[
            (Eave, 80.0 + 2.0 * 3.0),
            (Rake, 4.0 * slope(14.0, 12.0) + 2.0 * slope(4.0, 6.0)),
            (Ridge, 40.0 + 5.0),
            (Valley, 2.0 * 24f64.sqrt()),
            (Headwall, 8.0),
            (Sidewall, 2.0 * slope(3.0, 12.0)),
        ],
    );
    // Under the dormer: 8 × 3 and a triangle 8 × 2 / 2 of the main slope's plan.
    near(area(&roof), slope(40.0 * 28.0 - 32.0, 12.0) + slope(32.0, 6.0));
    near(cheeks[0], 4.5);
    near(cheeks[1], 4.5);
}

/// At 6 in 12 as before, but the front is a hip over 4 ft: its ridge is 1 ft long, its hips rise 2 over a square of 4.
#[test]
fn hip_dormer() {
    let (roof, cheeks, problems) = with(&[main_house()], &dormer(DormerKind::Hip, 6.0));
    assert_eq!(problems, Vec::<&str>::new());
    lines_are(
        &roof,
        &[
            (Eave, 80.0 + 2.0 * 3.0 + 8.0),
            (Rake, 4.0 * slope(14.0, 12.0)),
            (Ridge, 40.0 + 1.0),
            (Hip, 2.0 * 6.0),
            (Valley, 2.0 * 24f64.sqrt()),
            (Headwall, 8.0),
            (Sidewall, 2.0 * slope(3.0, 12.0)),
        ],
    );
    near(area(&roof), slope(40.0 * 28.0 - 32.0, 12.0) + slope(32.0, 6.0));
    near(cheeks[0] + cheeks[1], 9.0);
}

/// At 3 in 12 it meets the slope where 3 + x/4 = x, 4 ft back, in a level line where both fall to the front; its sides
/// are rakes of 4 ft of run, its cheeks triangles 3 × 4 / 2.
#[test]
fn shed_dormer() {
    let (roof, cheeks, problems) = with(&[main_house()], &dormer(DormerKind::Shed, 3.0));
    assert_eq!(problems, Vec::<&str>::new());
    lines_are(
        &roof,
        &[
            (Eave, 80.0 + 8.0),
            (Rake, 4.0 * slope(14.0, 12.0) + 2.0 * slope(4.0, 3.0)),
            (Ridge, 40.0),
            (Break, 8.0),
            (Headwall, 8.0),
            (Sidewall, 2.0 * slope(4.0, 12.0)),
        ],
    );
    near(area(&roof), slope(40.0 * 28.0 - 32.0, 12.0) + slope(32.0, 3.0));
    near(cheeks[0] + cheeks[1], 12.0);
}

/// The gable dormer with eaves that overhang by 1 ft and a rake by 6 in. The main slope runs on under them up to the
/// walls; the dormer's eaves, half a foot lower, die 2.5 ft behind the front wall, 3 from their own front. From the wall
/// on inwards the valleys are as before; outside it the ends of the eaves, 1 ft aside, 1/2 back and 1/2 up, run against
/// the slope that goes on under them.
#[test]
fn a_dormers_eaves_hang_over_the_slope() {
    let overhung = Dormer {
        overhang: Some(Length::feet(1.0)),
        rake_overhang: Some(Length::inches(6.0)),
        ..dormer(DormerKind::Gable, 6.0)
    };
    let (roof, cheeks, problems) = with(&[main_house()], &overhung);
    assert_eq!(problems, Vec::<&str>::new());
    lines_are(
        &roof,
        &[
            (Eave, 80.0 + 2.0 * 3.0),
            (Rake, 4.0 * slope(14.0, 12.0) + 2.0 * slope(5.0, 6.0)),
            (Ridge, 40.0 + 5.5),
            (Valley, 2.0 * 24f64.sqrt()),
            (Headwall, 8.0),
            (Sidewall, 2.0 * slope(3.0, 12.0) + 2.0 * 1.5f64.sqrt()),
        ],
    );
    // The dormer's halves are 5 wide, 3 long at the eave and 5.5 at the ridge.
    near(area(&roof), slope(40.0 * 28.0 - 32.0, 12.0) + slope(42.5, 6.0));
    near(cheeks[0] + cheeks[1], 9.0);
}

/// The front wall stands over the wall of the house, 2 ft in from the eave, under a gable that hangs over by 1 ft: the eave
/// below it is laid all along, and each half of the dormer is 4 wide, 4 long at the eave and 6 at the ridge. A gable that
/// would hang over by 3 ft ends over the eave, 1 ft before that.
#[test]
fn the_eave_is_laid_under_a_dormers_overhang() {
    let hangs_over = |side| over(side, 24.0);
    let house = rectangle(40.0, 28.0, &[eave(12.0), gable(), eave(12.0), gable()].map(hangs_over));
    for (rake, planned, told) in [(1.0, 1.0, vec![]), (2.0, 2.0, vec![]), (3.0, 2.0, vec!["dormer-past-eave"])] {
        let front = Dormer {
            up: Length::feet(slope(2.0, 12.0)),
            rake_overhang: Some(Length::feet(rake)),
            ..dormer(DormerKind::Gable, 6.0)
        };
        let (roof, _, problems) = with(std::slice::from_ref(&house), &front);
        assert_eq!(problems, told);
        near(area(&roof), slope(40.0 * 28.0 - 32.0, 12.0) + slope(32.0 + 8.0 * planned, 6.0));
        near(feet(&roof, Eave), 80.0 + 2.0 * (3.0 + planned));
        near(feet(&roof, Headwall), 8.0);
    }
}

/// All eaves of a hip dormer end as its front does, so that its fascia runs level all round.
#[test]
fn a_hip_dormer_past_the_eave_has_shorter_eaves() {
    let front =
        Dormer { up: Length::feet(slope(1.0, 12.0)), overhang: Some(Length::feet(1.5)), ..dormer(DormerKind::Hip, 6.0) };
    let (roof, _, problems) = with(&[main_house()], &front);
    assert_eq!(problems, ["dormer-past-eave"]);
    // 1 ft of overhang: the front eave is 10 ft, the side eaves, half a foot lower, die 2.5 ft behind the front wall.
    near(feet(&roof, Eave), 80.0 + 10.0 + 2.0 * 3.5);
}

/// On a mansard's steep slope, 24 in 12 up to 8 ft and 6 in 12 above: front wall 1 ft in and 4 ft high, gable at 12 in 12
/// over 6 ft. Its ridge is 7 ft over the foot, which lies 2 ft up: it passes the break, 6 ft over the foot and 3 ft back,
/// and dies in the upper slope 1 ft higher, 2 ft further. The eaves, 4 ft over the foot, die 2 ft back: cheeks 4 × 2 / 2.
#[test]
fn a_dormer_dies_above_the_break_of_a_mansard() {
    let side = then(eave(24.0), 8.0, 6.0);
    let house = rectangle(40.0, 24.0, &std::array::from_fn::<_, 4, _>(|_| side.clone()));
    let dormer = Dormer {
        up: Length::feet(slope(1.0, 24.0)),
        width: Length::feet(6.0),
        wall_height: Length::feet(4.0),
        ..dormer(DormerKind::Gable, 12.0)
    };
    let (roof, cheeks, problems) = with(&[house], &dormer);
    assert_eq!(problems, Vec::<&str>::new());
    near(feet(&roof, Ridge), 16.0 + 5.0);
    near(cheeks[0], 4.0);
    // Each valley: up to the break 2 ft of height over 1 back and 2 aside, then 1 of height over 2 back and 1 aside.
    near(feet(&roof, Valley), 2.0 * (9f64.sqrt() + 6f64.sqrt()));
    // Of the break the dormer hides what lies between its valleys, 1 ft on each side of its ridge.
    near(feet(&roof, Break), 2.0 * (32.0 + 16.0) - 2.0);
}

/// A front wall 12 ft high 4 ft in: the ridge of the house lies 10 ft over the foot.
#[test]
fn a_dormer_above_the_ridge_is_cautioned_and_cut_off_there() {
    let tall = Dormer { wall_height: Length::feet(12.0), ..dormer(DormerKind::Gable, 6.0) };
    let (_, cheeks, problems) = with(&[main_house()], &tall);
    assert!(problems.contains(&"dormer-above-slope"), "{problems:?}");
    // A trapezoid: 12 ft in front, 2 ft at the ridge, 10 ft deep.
    near(cheeks[0], 70.0);
}

#[test]
fn a_dormer_needs_a_plane_to_stand_on() {
    for (dormer, code) in [
        (Dormer { on: "barn.0".into(), ..dormer(DormerKind::Gable, 6.0) }, "dormer-on-unknown-plane"),
        (Dormer { across: Length::feet(3.0), ..dormer(DormerKind::Gable, 6.0) }, "dormer-off-its-plane"),
        (Dormer { up: Length::feet(21.0), ..dormer(DormerKind::Gable, 6.0) }, "dormer-off-its-plane"),
    ] {
        let (roof, _, problems) = with(&[main_house()], &dormer);
        assert_eq!(problems, [code]);
        assert_eq!(roof.planes.len(), 2);
    }
}

/// On every side of a hip roof a dormer is the same.
#[test]
fn dormers_may_face_any_way() {
    let house = rectangle(40.0, 40.0, &[eave(12.0), eave(12.0), eave(12.0), eave(12.0)]);
    let areas: Vec<f64> = (0..4)
        .map(|side| {
            let turned = Dormer { on: format!("house.{side}"), ..dormer(DormerKind::Hip, 6.0) };
            area(&with(std::slice::from_ref(&house), &turned).0)
        })
        .collect();
    for area in areas {
        near(area, slope(1600.0 - 32.0, 12.0) + slope(32.0, 6.0));
    }
}

/// A dormer on the south slope of a gable roof, feet, for the rules worked out point by point.
#[derive(Debug, Clone)]
struct Drawn {
    kind: DormerKind,
    middle: f64,
    front: f64,
    width: f64,
    wall: f64,
    rise: f64,
    overhang: f64,
    rake: f64,
    /// Of the house's eave.
    eave: f64,
}

impl Drawn {
    fn dormer(&self, main: f64) -> Dormer {
        Dormer {
            kind: self.kind,
            across: Length::feet(self.middle),
            up: Length::feet(slope(self.front, main)),
            width: Length::feet(self.width),
            wall_height: Length::feet(self.wall),
            overhang: Some(Length::feet(self.overhang)),
            rake_overhang: Some(Length::feet(self.rake)),
            ..dormer(self.kind, self.rise)
        }
    }

    /// How far aside of the middle and how far behind the front wall.
    fn place(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [(x - self.middle).abs(), y - self.front]
    }

    /// What is planned of the overhangs aside and in front: none reaches past the eave before it.
    fn overhangs(&self) -> [f64; 2] {
        match self.kind {
            DormerKind::Gable => [self.overhang, self.rake.min(self.front)],
            DormerKind::Hip => [self.overhang.min(self.front); 2],
            DormerKind::Shed => [self.rake, self.overhang.min(self.front)],
        }
    }

    fn front_overhang(&self) -> f64 {
        if self.kind == DormerKind::Gable { self.rake } else { self.overhang }
    }

    /// Height over its foot, wherever its planes reach.
    fn height(&self, p: [f64; 2]) -> f64 {
        let [aside, behind] = self.place(p);
        let within = self.width / 2.0 - aside;
        let distance = match self.kind {
            DormerKind::Gable => within,
            DormerKind::Hip => within.min(behind),
            DormerKind::Shed => behind,
        };
        self.wall + distance * self.rise / 12.0
    }
}

fn drawn() -> impl Strategy<Value = (Drawn, f64)> {
    let kind = prop_oneof![Just(DormerKind::Gable), Just(DormerKind::Hip), Just(DormerKind::Shed)];
    let place = (10.0f64..30.0, 0.0f64..6.0, 2.0f64..12.0, 1.0f64..5.0);
    let overhang = || prop_oneof![Just(0.0), Just(1.0), 0.0f64..2.0];
    (kind, place, 2.0f64..14.0, 6.0f64..16.0, overhang(), overhang(), overhang()).prop_map(
        |(kind, (middle, front, width, wall), rise, main, overhang, rake, eave)| {
            (Drawn { kind, middle, front, width, wall, rise, overhang, rake, eave }, main)
        },
    )
}

/// A dormer has no edges to write an overhang on.
#[test]
fn overhangs_that_are_not_given_are_asked_for_in_the_dormers_own_words() {
    let house = rectangle(40.0, 40.0, &[eave(12.0), gable(), eave(12.0), gable()]);
    let asked = |kind| {
        let dormer = Dormer { overhang: None, rake_overhang: None, ..dormer(kind, 6.0) };
        let (built, _) =
            with_dormers(build(std::slice::from_ref(&house), 0.0), std::slice::from_ref(&house), &[dormer], 0.0);
        let asked = built.problems.iter().filter(|problem| problem.code == "overhang-not-given");
        asked.map(|problem| problem.remedy.split('"').next().unwrap_or_default().to_owned()).collect::<Vec<_>>()
    };
    let [eaves, rakes] = ["overhang", "rake_overhang"].map(|key| format!("measure it and write {key} = "));
    assert_eq!(asked(DormerKind::Gable), [eaves.clone(), rakes.clone()]);
    assert_eq!(asked(DormerKind::Shed), [eaves.clone(), rakes]);
    assert_eq!(asked(DormerKind::Hip), [eaves]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(1000), ..ProptestConfig::default() })]

    /// What lies over a plan point: inside the dormer's walls the higher of dormer and slope, under its overhang both
    /// where the dormer is the higher, and the slope elsewhere, down to its eave.
    #[test]
    fn the_higher_surface_counts(
        (drawn, main) in drawn(),
        spots in prop::collection::vec((0.0f64..1.0, 0.0f64..1.0), 40),
    ) {
        let half = 60.0;
        let sides = [eave(main), gable(), eave(main), gable()].map(|side| over(side, drawn.eave * FT));
        let house = rectangle(40.0, 2.0 * half, &sides);
        let alone = build(std::slice::from_ref(&house), 0.0);
        let (Built { roof, problems }, cheeks) = with_dormers(alone, &[house], &[drawn.dormer(main)], 0.0);
        let foot = drawn.front * main / 12.0;
        let high = drawn.wall + drawn.width * drawn.rise / 24.0;
        let dies = match drawn.kind {
            DormerKind::Shed => drawn.rise < main && drawn.wall / (main - drawn.rise) * 12.0 <= half - drawn.front,
            _ => high * 12.0 / main <= half - drawn.front,
        };
        let is_cut_off = problems.iter().any(|problem| problem.code == "dormer-above-slope");
        prop_assert_eq!(is_cut_off, !dies);
        let past = drawn.front_overhang() - drawn.front;
        let is_past = problems.iter().any(|problem| problem.code == "dormer-past-eave");
        prop_assert!(is_past == (past > 0.0) || past.abs() < 0.01, "{} ft past the eave", past);
        prop_assert!(problems.iter().all(|problem| problem.severity == Severity::Caution), "{:?}", problems);
        prop_assert_eq!(sanity_check(&roof), Vec::<String>::new());
        if !dies {
            return Ok(());
        }
        prop_assert!(!problems.iter().any(|problem| problem.code == "gable-pokes-through"), "{:?}", problems);
        // By the triangle between wall height and slope; a shed's upper edge rises with it.
        let climb = if drawn.kind == DormerKind::Shed { drawn.rise } else { 0.0 };
        for cheek in &cheeks {
            let should = drawn.wall * drawn.wall * 12.0 / (main - climb) / 2.0;
            prop_assert!((cheek.area.to_square_feet() - should).abs() < 1e-6 * (1.0 + should));
        }
        for (s, t) in spots {
            let p = [40.0 * s, half * t * 0.6];
            let [aside, behind] = drawn.place(p);
            let [out, before] = drawn.overhangs();
            let reached = aside < drawn.width / 2.0 + out && behind > -before;
            let walls = aside < drawn.width / 2.0 && behind > 0.0;
            let (slope, over) = (p[1] * main / 12.0, foot + drawn.height(p));
            let near_an_edge = (aside - drawn.width / 2.0).abs() < 1e-3
                || (aside - drawn.width / 2.0 - out).abs() < 1e-3
                || behind.abs() < 1e-3
                || (behind + before).abs() < 1e-3
                || (slope - over).abs() < 2e-3;
            let should = match (reached && over > slope, walls) {
                (false, _) => vec![slope],
                (true, true) => vec![over],
                (true, false) => vec![slope, over],
            };
            let mut is = heights(&roof, p.map(|c| c * FT));
            is.sort_by(f64::total_cmp);
            let close = is.len() == should.len() && is.iter().zip(&should).all(|(a, b)| (a / FT - 9.0 - b).abs() < 1e-4);
            prop_assert!(close || near_an_edge, "{:?}: {:?} should be {:?}", p, is, should);
        }
    }
}

fn heights(roof: &Roof, p: [f64; 2]) -> Vec<f64> {
    let ring = |ring: &roof::Ring| ring.corners.iter().map(|corner| [corner[0], corner[1]]).collect::<Vec<_>>();
    let over = |plane: &&roof::Plane| plane.rings.iter().filter(|r| inside(&ring(r), p)).count() % 2 == 1;
    roof.planes.iter().filter(over).map(|plane| plane.frame.point(plane.frame.place(p[0], p[1]))[2]).collect()
}
