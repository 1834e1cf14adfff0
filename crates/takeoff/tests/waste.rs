//! What is lost adds up, and is what hand and ruler make of it.
#![allow(clippy::unwrap_used, reason = "tests only")]

// The planes and sheets made for the layout's tests.
#[path = "../../layout/tests/common/mod.rs"]
mod common;

use common::{gable, inches, moulded, plain_slate, plane};
use covering::Covering;
use layout::SettingOut;
use proptest::prelude::*;
use roof::{EdgeKind, Line, Plane, Roof};
use takeoff::{CutOff, Waste};

fn of(plane: Plane, lines: Vec<Line>) -> Roof {
    Roof { planes: vec![plane], lines, ..Roof::default() }
}

fn waste(roof: &Roof, sheet: &Covering) -> Waste {
    let covering_of = |_: &Plane| Some(sheet);
    let layout = layout::lay_roof(roof, covering_of, &SettingOut::default());
    let cuttings = layout::cut_roof(roof, &layout, covering_of);
    takeoff::waste(roof, &layout, &cuttings, covering_of).remove(0)
}

fn at(waste: &Waste, kind: EdgeKind) -> CutOff {
    *waste.cut_off.iter().find(|cut| cut.by == Some(kind)).unwrap()
}

/// 20 × 12-in slates, 8-1/2 in shown, on 20 × 17 ft less nothing: 24 courses of 20 units. The top course keeps 8.5 of 20 in of
/// its length, the one below 17 in: at the ridge 20 × (11.5 + 3) / 20 = 14.5 units' worth. Every other course starts with half
/// a unit and ends with half: 24 half units cut off in 24 pieces, 12 units' worth less what the ridge takes of the top one. A
/// worked example by hand.
#[test]
fn a_gable_loses_heads_and_rakes() {
    let waste = waste(&of(gable(240.0, 204.0), vec![]), &plain_slate(20.0, 12.0, 3.0));
    // The rule without hips is the area alone: 240 × 204 / (12 × 8.5) = 480.
    assert!((waste.by_rule - 480.0).abs() < 1e-9);
    // Twelve courses of 20 and twelve of 19 and two halves; the sheet tells nothing of cutting, so no half makes another.
    assert_eq!((waste.stock, waste.from_offcuts), (492, 0));
    // Laid are 20 units wide in all courses, 22 of them whole in length: 20 × (22 + 17 / 20 + 8.5 / 20) = 465.5.
    assert!((waste.on_roof - 465.5).abs() < 1e-9, "{waste:?}");
    assert!((waste.taken - waste.on_roof - 26.5).abs() < 1e-9);
    // Of the two courses at the ridge one begins and ends with halves, whose missing quarter both edges share.
    let [ridge, rake] = [EdgeKind::Ridge, EdgeKind::Rake].map(|kind| at(&waste, kind));
    assert!((ridge.units + rake.units - 26.5).abs() < 1e-9);
    assert!(ridge.units > 13.5 && ridge.units < 14.5 + 0.6 && rake.units > 11.0 && rake.units < 12.6, "{waste:?}");
    assert_eq!((ridge.pieces, rake.pieces), (41, 24));
}

/// A foot of hip or valley adds a square foot: 20 ft of valley 20 sq ft (Table of Slates, Architectural Review and American
/// Builders' Journal, volume 1, 1869, page 451).
#[test]
fn the_rule_adds_a_square_foot_for_every_foot_of_valley() {
    let valley = Line { kind: EdgeKind::Valley, ends: [[0.0; 3], [240.0, 0.0, 0.0]], planes: vec![0] };
    let waste = waste(&of(gable(240.0, 204.0), vec![valley]), &plain_slate(20.0, 12.0, 3.0));
    // 12 × 8.5 in is 102 sq in, 20 sq ft are 2,880.
    assert!((waste.by_rule - (480.0 + 2880.0 / 102.0)).abs() < 1e-9);
}

/// Openings of less than 4 ft square are not taken off (as above): the rule lays over a skylight of 3 × 4 ft, and not over one of
/// 4 ft 1 in × 4 ft, which is 16-1/3 sq ft.
#[test]
fn the_rule_does_not_take_off_small_openings() {
    let side = |rises: bool| {
        let kind = if rises { roof::SideKind::Eave(common::pitch(8.0)) } else { roof::SideKind::Gable };
        roof::Side { overhang: Some(inches(0.0)), ..roof::Side::new(kind) }
    };
    let block = roof::Block {
        name: "house".into(),
        outline: vec![[0.0, 0.0], [480.0, 0.0], [480.0, 400.0], [0.0, 400.0]],
        outline_at: roof::OutlineAt::DripLine,
        sides: [true, false, true, false].map(side).into(),
        holes: vec![],
        eave_height: 0.0,
    };
    let (alone, sheet) = (roof::build(&[block], 0.0).roof, plain_slate(20.0, 12.0, 3.0));
    let with = |width: f64| {
        let spot = roof::Spot::Over([240.0, 100.0]);
        let light = roof::Opening { name: "light".into(), kind: roof::OpeningKind::Skylight, spot, width, height: 48.0 };
        waste(&roof::cut_out(alone.clone(), &[light]).roof, &sheet).by_rule
    };
    let (whole, area) = (waste(&alone, &sheet).by_rule, 40.0 * 400.0 / 12.0 * common::pitch(8.0).slope_factor());
    assert!((with(36.0) / whole - 1.0).abs() < 1e-9, "{} of {whole}", with(36.0));
    assert!((with(49.0) / whole - (1.0 - 49.0 / 3.0 / area)).abs() < 1e-9, "{} of {whole}", with(49.0));
}

/// The eave's allowance of 1869 (as above): one exposure along the eave. 16-in slate with a 3-in lap along 40 ft of eave: 6.5 in
/// of it, 21.67 sq ft. The starters that are laid show so much.
#[test]
fn starters_are_the_eaves_allowance() {
    let sheet = plain_slate(16.0, 8.0, 3.0);
    let roof = of(gable(480.0, 130.0), vec![]);
    let layout = layout::lay_roof(&roof, |_: &Plane| Some(&sheet), &SettingOut::default());
    let laid = &layout.planes[0];
    let exposure = laid.courses[0].exposure;
    assert!((exposure - 6.5).abs() < 1e-9);
    let along: f64 = laid.starters.iter().map(|row| row.to - row.from).sum();
    assert!((along * exposure / 144.0 - 21.67).abs() < 0.005);
    let count: u32 = laid.starters.iter().map(|row| row.count).sum();
    assert!(count >= 60 && f64::from(count) * 8.0 < along + 2.0 * 8.0, "{count}");
}

fn outlines() -> impl Strategy<Value = Plane> {
    use EdgeKind::{Eave, Hip, Rake, Ridge, Valley};
    (100.0..500.0f64, 60.0..300.0f64, 0.0..1.0f64, 0.0..1.0f64, any::<bool>()).prop_map(|(width, height, a, b, inward)| {
        let [left, right] = if inward { [a * width / 2.2, -b * width / 2.2] } else { [-a * 90.0, b * 90.0] };
        let corners = [[0.0, 0.0], [width, 0.0], [width + right, height], [left, height]];
        let side = |lean: f64, other| if lean.abs() < 1.0 { Rake } else { other };
        let other = if inward { Hip } else { Valley };
        plane(&[(&corners, &[Eave, side(right, other), Ridge, side(left, other)])])
    })
}

proptest! {
    #[test]
    fn what_is_taken_lies_on_the_roof_or_is_lost(plane in outlines(), moulds in any::<bool>(), width in 6.0..14.0f64) {
        let mut sheet = if moulds { moulded() } else { plain_slate(18.0, width, 3.0) };
        sheet.gap = inches(0.125);
        let waste = waste(&of(plane, vec![]), &sheet);
        let cut_off: f64 = waste.cut_off.iter().map(|cut| cut.units).sum();
        prop_assert!(cut_off >= 0.0 && waste.cut_off.iter().all(|cut| cut.units >= -1e-9), "{waste:?}");
        prop_assert!((waste.taken - waste.on_roof - (cut_off - waste.used_again)).abs() < 1e-6 * waste.taken.max(1.0), "{waste:?}");
        prop_assert!(waste.on_roof <= waste.taken + 1e-9);
        prop_assert!(waste.kerf >= 0.0 && waste.kerf <= waste.taken - waste.on_roof + 1e-9, "{waste:?}");
    }
}
