//! Dead loads and piles on small roofs made by hand. Figures of sheets are invented.
#![allow(clippy::unwrap_used, reason = "tests only")]

// The planes and sheets made for the layout's tests.
#[path = "../../layout/tests/common/mod.rs"]
mod common;

use common::{gable, inches, plain_slate};
use covering::{Covering, Storage};
use details::{Details, DryIn, Kind, Lies, Patch, Piece, Roll, Rolls, Strip};
use layout::{Course, Cut, LaidPlane, Layout, Run, Starters, UnitKind};
use proptest::prelude::*;
use roof::{EdgeKind, Line, Plane, Roof};
use takeoff::{Stage, StageChoices, dead_loads, pallets, stage};
use units::Mass;

/// Two planes of 20 × 10 ft on the slope that meet at a ridge of 20 ft.
fn two_planes() -> Roof {
    let south = gable(240.0, 120.0);
    let north = Plane { id: "test.1".into(), name: "test, north".into(), ..south.clone() };
    let ridge = Line { kind: EdgeKind::Ridge, ends: [[0.0, 0.0, 50.0], [240.0, 0.0, 50.0]], planes: vec![0, 1] };
    Roof { planes: vec![south, north], lines: vec![ridge], ..Roof::default() }
}

/// Courses of 8 in with so many whole units of 12 in and one half in each.
fn laid(plane: usize, courses: u32, whole: u32) -> LaidPlane {
    let run = |left, count, cut| Run {
        left,
        width: 12.0,
        step: 12.0,
        count,
        unit: 0,
        cut,
        joint_before: false,
        hangs: layout::Hanging::None,
    };
    let half = vec![[0.0, 0.0], [6.0, 0.0], [6.0, 20.0], [0.0, 20.0]];
    let row = |index: u32| Course {
        butt: f64::from(index) * 8.0,
        exposure: 8.0,
        length: 20.0,
        runs: vec![run(0.0, whole, None), run(f64::from(whole) * 12.0, 1, Some(0))],
    };
    LaidPlane {
        plane,
        top: f64::from(courses) * 8.0,
        courses: (0..courses).map(row).collect(),
        units: vec![UnitKind { length: 20.0, width: 12.0, thickness: 0.25, wide: false }],
        cuts: vec![Cut { parts: vec![half], area: 120.0, width: 6.0, ..Cut::default() }],
        starters: vec![Starters { butt: 0.0, height: 11.5, from: 0.0, to: 240.0, left: 0.0, step: 12.0, count: 20 }],
        ..LaidPlane::default()
    }
}

/// A unit weighs 3 lb, a starter 2 lb.
fn slate() -> Covering {
    plain_slate(20.0, 12.0, 3.0)
}

/// 15 × (19 + 1/2) units at 3 lb and 20 starters at 2 lb are 917.5 lb; of a roll of 30 lb and 72 ft there lie 24 ft on the plane,
/// half of them over the ridge: 5 lb. On 200 sq ft of slope, which seen in plan are less by the slope factor.
#[test]
fn the_dead_load_is_what_lies_on_the_plane() {
    let (roof, sheet) = (two_planes(), slate());
    let [width, length, lap] = [36.0, 864.0, 6.0].map(inches);
    let patch = |plane| Patch { plane, corners: [[0.0; 2]; 4] };
    let strip = Strip {
        lies: Lies::Line { line: 0 },
        patches: vec![patch(0), patch(1)],
        length: 288.0,
        pieces: vec![Piece { roll: 0, from: 0.0, length: 288.0 }],
        fasteners: 0,
        over_underlayment: false,
    };
    let roll = Roll { name: "felt".into(), width, length, side_lap: lap, end_lap: lap, weight: Mass::pounds(30.0) };
    let kind = Kind::Underlayment;
    let rolls = Rolls { kind, sheet: "test".into(), roll, strips: vec![strip], count: 1, bound: 1 };
    let details = Details { dry_in: DryIn { rolls: vec![rolls], ..DryIn::default() }, ..Details::default() };
    let layout = Layout { planes: vec![laid(0, 15, 19)], ..Layout::default() };
    let loads = dead_loads(&roof, &layout, &details, |_| Some(&sheet));
    assert_eq!(loads.len(), 1, "one plane is laid");
    assert!((loads[0].units.to_pounds() - 917.5).abs() < 1e-9);
    assert!((loads[0].under.to_pounds() - 5.0).abs() < 1e-9);
    assert!((loads[0].slope_psf() - 922.5 / 200.0).abs() < 1e-9);
    let factor = roof.planes[0].pitch.slope_factor();
    assert!((loads[0].plan_psf() / loads[0].slope_psf() - factor).abs() < 1e-12 && factor > 1.0);
}

#[test]
fn pallets_are_lifted_full_but_for_the_last() {
    let mut sheet = slate();
    assert_eq!(pallets(&sheet, 25), None, "the sheet does not tell how many packs lie on one");
    sheet.conditions.storage =
        Some(Storage { pallet_packs: Some(12), pallet_weight: Mass::pounds(50.0), stack_packs: None, rules: vec![] });
    // Packs of 20 at 3 lb are 60 lb.
    let of = pallets(&sheet, 25).unwrap();
    assert_eq!((of.count, of.packs), (3, 12));
    assert!((of.full.to_pounds() - 770.0).abs() < 1e-9 && (of.last.to_pounds() - 110.0).abs() < 1e-9);
    let exact = pallets(&sheet, 24).unwrap();
    assert!(exact.count == 2 && (exact.last.to_pounds() - 770.0).abs() < 1e-9);
}

fn staged(courses: [u32; 2], whole: u32, live: Option<f64>, sheet: &Covering) -> (Layout, Stage) {
    let planes = (0..2).map(|plane| laid(plane, courses[plane], whole)).collect();
    let layout = Layout { planes, ..Layout::default() };
    let choices = StageChoices { live_load_psf: live, ..StageChoices::default() };
    let stage = stage(&two_planes(), &layout, &choices, |_| Some(sheet));
    (layout, stage)
}

/// 15 courses of 8 in in bands of at most 4 ft, 20 pieces in a row in columns of at most 6 ft: 3 by 4 piles.
#[test]
fn piles_stand_within_reach() {
    let (_, stage) = staged([15, 15], 19, None, &slate());
    assert_eq!(stage.piles.len(), 2 * 3 * 4);
    assert!(stage.piles.iter().all(|pile| pile.courses[1] - pile.courses[0] <= 5 && pile.times == 1));
    assert_eq!(stage.piles[0].band, 2, "from the top down");
}

/// A patch of 4 by 4 ft carries 20 psf of plan: at 3 lb a unit ⌊20 × 16 / factor / 3⌋ of them.
#[test]
fn a_pile_stays_within_the_live_load() {
    let factor = two_planes().planes[0].pitch.slope_factor();
    let carries = (20.0_f64 * 16.0 / factor / 3.0).floor() as u64;
    let mut heavy = slate();
    heavy.unit.weight = Mass::pounds(12.0);
    let (_, stage) = staged([15, 15], 19, Some(20.0), &heavy);
    let pile = stage.piles.iter().max_by_key(|pile| pile.units).unwrap();
    assert!(pile.units > carries / 4 && pile.times > 1 && pile.at_once <= carries / 4, "{pile:?}");
    heavy.unit.weight = Mass::pounds(900.0);
    let (_, stage) = staged([15, 15], 19, Some(20.0), &heavy);
    assert!(stage.piles.iter().all(|pile| pile.at_once == 0 && pile.times == 0), "not even one");
}

/// One pack high: as many stacks of 20 as lie side by side on the patch, 4 along by 2 up.
#[test]
fn a_pile_is_no_higher_than_the_sheet_allows() {
    let mut sheet = slate();
    sheet.pack.count = 2;
    sheet.conditions.storage =
        Some(Storage { pallet_packs: None, pallet_weight: Mass::default(), stack_packs: Some(1), rules: vec![] });
    let (_, stage) = staged([15, 15], 19, None, &sheet);
    assert!(stage.piles.iter().all(|pile| pile.at_once <= 4 * 2 * 2 && pile.at_once * pile.times >= pile.units));
    assert!(stage.piles.iter().any(|pile| pile.times > 1));
}

proptest! {
    /// Every piece has its pile, no patch carries more than it may, and while both sides are being loaded they differ by no more
    /// than the heaviest pile.
    #[test]
    fn every_piece_has_a_pile_and_both_sides_are_loaded_alike(
        courses in [1u32..40, 1u32..40], whole in 0u32..80, live in prop::option::of(1.0..60.0f64),
    ) {
        let sheet = slate();
        let (layout, stage) = staged(courses, whole, live, &sheet);
        for laid in &layout.planes {
            let piles = stage.piles.iter().filter(|pile| pile.plane == laid.plane);
            let units: u64 = piles.clone().map(|pile| pile.units).sum();
            prop_assert_eq!(units, laid.counts().pieces());
            for pile in piles {
                prop_assert!(live.is_none_or(|live| pile.patch_psf <= live * (1.0 + 1e-6)));
                prop_assert!(pile.at_once == 0 || pile.at_once * pile.times >= pile.units);
                prop_assert!(pile.at[0] > 0.0 && pile.at[0] < f64::from(whole) * 12.0 + 6.0);
                prop_assert!(pile.at[1] > 0.0 && pile.at[1] < laid.top);
            }
        }
        let heaviest = stage.piles.iter().map(|pile| pile.weight.to_pounds()).fold(0.0, f64::max);
        prop_assert_eq!(stage.balances.len(), 1);
        prop_assert!(stage.balances[0].greatest_difference.to_pounds() <= heaviest + 1e-9);
    }
}
