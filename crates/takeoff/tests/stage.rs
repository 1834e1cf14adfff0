//! Dead loads and piles on small roofs made by hand. Figures of sheets are invented.
#![allow(clippy::unwrap_used, reason = "tests only")]

// The planes and sheets made for the layout's tests.
#[path = "../../layout/tests/common/mod.rs"]
mod common;

use common::{gable, inches, plain_slate};
use covering::{Covering, Storage};
use details::{Details, DryIn, Kind, Lies, Patch, Piece, Roll, Rolls, Strip};
use geom::region::{area, common};
use layout::{Course, Cut, LaidPlane, Layout, Run, Starters, UnitKind};
use proptest::prelude::*;
use roof::{EdgeKind, Line, Plane, Roof};
use takeoff::{Pile, Stage, StageChoices, dead_loads, pallets, stage};
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

/// A plane turned round a ridge that lies as far up its slope as it is high, so that it faces the other way.
fn turned(plane: &Plane, ridge: f64) -> Plane {
    let width = plane.places()[0][1][0];
    let turn = |[x, y, z]: roof::Point3| [width - x, 2.0 * ridge - y, z];
    let mut other = plane.clone();
    other.rings.iter_mut().flat_map(|ring| &mut ring.corners).for_each(|corner| *corner = turn(*corner));
    other.frame = roof::Frame { origin: turn(plane.frame.origin), right: [-1.0, 0.0], ..plane.frame };
    Plane { id: "test.1".into(), name: "test, north".into(), ..other }
}

/// Two slopes of so many courses of 8 in, as wide as their units, that meet at a ridge; or that no ridge joins.
fn two_slopes(courses: [u32; 2], whole: u32, joined: bool) -> Roof {
    let width = f64::from(whole) * 12.0 + 6.0;
    let [south, north] = courses.map(|courses| gable(width, f64::from(courses) * 8.0));
    let rise = |plane: &Plane| plane.rings[0].corners[2][1];
    let middle = f64::midpoint(rise(&south), rise(&north));
    let top = rise(&south);
    let ridge = Line { kind: EdgeKind::Ridge, ends: [[0.0, top, 50.0], [width, top, 50.0]], planes: vec![0, 1] };
    let lines = if joined { vec![ridge] } else { vec![] };
    Roof { planes: vec![south, turned(&north, middle)], lines, ..Roof::default() }
}

fn staged_on(roof: &Roof, courses: &[u32], whole: u32, live: Option<f64>, sheet: &Covering) -> (Layout, Stage) {
    let planes = courses.iter().enumerate().map(|(plane, &courses)| laid(plane, courses, whole)).collect();
    let layout = Layout { planes, ..Layout::default() };
    let choices = StageChoices { live_load_psf: live, ..StageChoices::default() };
    let stage = stage(roof, &layout, &choices, |_| Some(sheet));
    (layout, stage)
}

fn staged(courses: [u32; 2], whole: u32, live: Option<f64>, sheet: &Covering) -> (Layout, Stage) {
    staged_on(&two_slopes(courses, whole, true), &courses, whole, live, sheet)
}

/// 15 courses of 8 in in bands of at most 4 ft, 20 pieces in a row in columns of at most 6 ft: 3 by 4 piles.
#[test]
fn piles_stand_within_reach() {
    let (_, stage) = staged([15, 15], 19, None, &slate());
    assert_eq!(stage.piles.len(), 2 * 3 * 4);
    assert!(stage.piles.iter().all(|pile| pile.courses[1] - pile.courses[0] <= 5 && pile.times == 1));
    assert_eq!(stage.piles[0].band, 2, "from the top down");
}

/// 15 courses of 8 in are three bands of 40 in, so a patch is 48 by 40 in: 13-1/3 sq ft carry 20 psf of plan, at 12 lb a unit
/// ⌊20 × 13-1/3 / factor / 12⌋ of them.
#[test]
fn a_pile_stays_within_the_live_load() {
    let factor = two_planes().planes[0].pitch.slope_factor();
    let carries = (20.0_f64 * 48.0 * 40.0 / 144.0 / factor / 12.0).floor() as u64;
    let mut heavy = slate();
    heavy.unit.weight = Mass::pounds(12.0);
    let (_, stage) = staged([15, 15], 19, Some(20.0), &heavy);
    let pile = stage.piles.iter().max_by_key(|pile| pile.units).unwrap();
    assert!(pile.patch.map(|side| side.to_inches().round() as u32) == [48, 40], "{pile:?}");
    assert!(pile.units > carries && pile.times > 1 && pile.at_once <= carries && pile.at_once * 2 > carries, "{pile:?}");
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

/// Corners of a pile's patch in plan.
fn in_plan(roof: &Roof, pile: &Pile) -> Vec<[f64; 2]> {
    let [half_u, half_v] = pile.patch.map(|side| side.to_inches() / 2.0);
    let corners = [[-half_u, -half_v], [half_u, -half_v], [half_u, half_v], [-half_u, half_v]];
    let at = |[u, v]: [f64; 2]| roof.planes[pile.plane].frame.point([pile.at[0] + u, pile.at[1] + v]);
    corners.into_iter().map(at).map(|[x, y, _]| [x, y]).collect()
}

fn outline(plane: &Plane) -> Vec<Vec<[f64; 2]>> {
    plane.rings.iter().map(|ring| ring.corners.iter().map(|&[x, y, _]| [x, y]).collect()).collect()
}

/// Every patch lies on its own plane altogether, and neither on another pile's nor under or over another roof.
fn patches_stand_by_themselves(roof: &Roof, stage: &Stage) {
    let patches: Vec<Vec<[f64; 2]>> = stage.piles.iter().map(|pile| in_plan(roof, pile)).collect();
    for (index, (patch, pile)) in patches.iter().zip(&stage.piles).enumerate() {
        let patch = std::slice::from_ref(patch);
        for (at, plane) in roof.planes.iter().enumerate() {
            let shared = area(&common(&outline(plane), patch));
            let whole = if at == pile.plane { area(patch) } else { 0.0 };
            assert!((shared - whole).abs() < 1.0, "{pile:?} on {}: {shared} of {whole}", plane.name);
        }
        for other in &patches[index + 1..] {
            assert!(area(&common(std::slice::from_ref(other), patch)) < 1.0, "{pile:?}");
        }
    }
}

/// No ridge joins the two slopes of one block, as at the ends of a hip roof; planes without a block stay alone.
#[test]
fn slopes_of_one_block_are_loaded_together_without_a_ridge() {
    let mut roof = two_slopes([15, 12], 19, false);
    let (_, stage) = staged_on(&roof, &[15, 12], 19, None, &slate());
    let [balance] = stage.balances.as_slice() else { panic!("{:?}", stage.balances) };
    assert_eq!(balance.sides.iter().map(|side| side.0.as_slice()).collect::<Vec<_>>(), [[0], [1]]);
    assert!(stage.piles[..8].windows(2).all(|pair| pair[0].plane != pair[1].plane), "turn about");
    roof.planes.iter_mut().for_each(|plane| plane.block.clear());
    assert!(staged_on(&roof, &[15, 12], 19, None, &slate()).1.balances.is_empty());
}

/// A lower roof that reaches under the eave of a higher one: no pile under the eave, none on it.
#[test]
fn no_pile_stands_under_or_over_another_roof() {
    let high = gable(234.0, 120.0);
    let mut low = gable(234.0, 120.0);
    let down = 120.0 / high.pitch.slope_factor() - 16.0;
    low.rings
        .iter_mut()
        .flat_map(|ring| &mut ring.corners)
        .for_each(|corner| (corner[1], corner[2]) = (corner[1] - down, corner[2] - 90.0));
    (low.frame.origin[1], low.frame.origin[2]) = (-down, -90.0);
    let low = Plane { id: "porch.0".into(), name: "porch, south".into(), block: "porch".into(), ..low };
    let roof = Roof { planes: vec![high, low], ..Roof::default() };
    let (layout, stage) = staged_on(&roof, &[15, 15], 19, None, &slate());
    patches_stand_by_themselves(&roof, &stage);
    let units: u64 = stage.piles.iter().map(|pile| pile.units).sum();
    assert_eq!(units, layout.planes.iter().map(|laid| laid.counts().pieces()).sum::<u64>());
}

/// A block from corner to corner with the sides that rise.
fn block(name: &str, [from, to]: [[f64; 2]; 2], rises: [bool; 4], eave_height: f64) -> roof::Block {
    let side = |rises: bool| {
        let kind = if rises { roof::SideKind::Eave(common::pitch(8.0)) } else { roof::SideKind::Gable };
        roof::Side { overhang: Some(inches(16.0)), ..roof::Side::new(kind) }
    };
    let outline = vec![from, [to[0], from[1]], to, [from[0], to[1]]];
    let (outline_at, sides) = (roof::OutlineAt::Walls, rises.map(side).into());
    roof::Block { name: name.into(), outline, outline_at, sides, holes: vec![], eave_height }
}

/// A hip roof; a house with a wing that makes two valleys; a house whose eave stands over a porch.
#[test]
fn patches_stand_by_themselves_on_roofs_with_hips_valleys_and_porches() {
    let house = |rises| block("house", [[0.0, 0.0], [600.0, 360.0]], rises, 216.0);
    let gable = || house([true, false, true, false]);
    let wing = block("wing", [[80.0, -170.0], [300.0, 170.0]], [false, true, false, true], 216.0);
    let porch = block("porch", [[330.0, -100.0], [540.0, 0.0]], [true, false, false, false], 120.0);
    let sheet = slate();
    for blocks in [vec![house([true; 4])], vec![gable(), wing], vec![gable(), porch]] {
        let roof = roof::build(&blocks, 0.0).roof;
        let layout = layout::lay_roof(&roof, |_| Some(&sheet), &layout::SettingOut::default());
        let stage = stage(&roof, &layout, &StageChoices::default(), |_| Some(&sheet));
        patches_stand_by_themselves(&roof, &stage);
        let piles: u64 = stage.piles.iter().map(|pile| pile.units).sum();
        let handed: u64 = stage.handed_up.iter().map(|of| of.1).sum();
        assert_eq!(piles + handed, layout.planes.iter().map(|laid| laid.counts().pieces()).sum::<u64>());
        assert!(stage.piles.len() > 40 && handed == 0, "{}: {handed}", blocks.len());
        // Both slopes of the house, and the ends of the hip roof or the slopes of the wing; a porch leans on nothing.
        assert_eq!(stage.balances.len(), if blocks.iter().any(|block| block.name == "porch") { 1 } else { 2 });
    }
}

/// A plane narrower than a unit is long carries no pile: its units are handed up.
#[test]
fn where_no_pile_finds_room_units_are_handed_up() {
    let (layout, stage) = staged([15, 15], 0, None, &slate());
    assert!(stage.piles.is_empty());
    assert_eq!(stage.handed_up, [0, 1].map(|plane| (plane, layout.planes[plane].counts().pieces())));
}

proptest! {
    /// Every piece has its pile or is handed up, no patch carries more than it may nor lies on another, and while both sides are
    /// being loaded they differ by no more than the heaviest pile.
    #[test]
    fn every_piece_has_a_pile_and_both_sides_are_loaded_alike(
        courses in [1u32..40, 1u32..40], whole in 0u32..80, live in prop::option::of(1.0..60.0f64), joined in any::<bool>(),
    ) {
        let (sheet, roof) = (slate(), two_slopes(courses, whole, joined));
        let (layout, stage) = staged_on(&roof, &courses, whole, live, &sheet);
        for laid in &layout.planes {
            let piles = stage.piles.iter().filter(|pile| pile.plane == laid.plane);
            let units: u64 = piles.clone().map(|pile| pile.units).sum();
            let handed: u64 = stage.handed_up.iter().filter(|of| of.0 == laid.plane).map(|of| of.1).sum();
            prop_assert_eq!(units + handed, laid.counts().pieces());
            prop_assert!(handed == 0 || units == 0);
            for pile in piles {
                prop_assert!(live.is_none_or(|live| pile.patch_psf <= live * (1.0 + 1e-6)));
                prop_assert!(pile.at_once == 0 || pile.at_once * pile.times >= pile.units);
            }
        }
        patches_stand_by_themselves(&roof, &stage);
        let heaviest = stage.piles.iter().map(|pile| pile.weight.to_pounds()).fold(0.0, f64::max);
        prop_assert_eq!(stage.balances.len(), 1);
        prop_assert!(stage.balances[0].greatest_difference.to_pounds() <= heaviest + 1e-9);
    }
}
