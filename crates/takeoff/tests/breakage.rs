//! Spare packs, the chance of running short, and deliveries. Figures of sheets are invented.
#![allow(clippy::unwrap_used, reason = "tests only")]

// The planes and sheets made for the layout's tests.
#[path = "../../layout/tests/common/mod.rs"]
mod common;

use common::{gable, plain_slate};
use covering::Covering;
use details::Details;
use layout::{Course, Hanging, LaidPlane, Layout, Run, Starters, UnitKind};
use proptest::prelude::*;
use roof::{EdgeKind, Line, Plane, Roof};
use takeoff::{Breakage, Order, OrderChoices, OrderLine, PlannedDelivery, ToldBy, chance_of_more};

/// Against `oracles/binomial.py`, which sums fractions. Relative, also of chances that no roofer will ever see.
#[test]
fn the_tail_is_that_of_exact_fractions() {
    let cases = include_str!("data/binomial.txt").lines().filter(|line| !line.starts_with('#'));
    let mut count = 0;
    for case in cases {
        let figures: Vec<f64> = case.split(' ').map(|figure| figure.parse().unwrap()).collect();
        let &[of, rate, most, expected] = figures.as_slice() else { panic!("{case}") };
        let found = chance_of_more(of as u64, rate, most as u64);
        assert!((found / expected - 1.0).abs() < 1e-11, "{case}: {found:e}");
        count += 1;
    }
    assert_eq!(count, 20);
}

/// Two planes of 20 × 10 ft on the slope that meet at a ridge of 20 ft.
fn two_planes() -> Roof {
    let south = gable(240.0, 120.0);
    let north = Plane { id: "test.1".into(), name: "test, north".into(), ..south.clone() };
    let ridge = Line { kind: EdgeKind::Ridge, ends: [[0.0, 0.0, 50.0], [240.0, 0.0, 50.0]], planes: vec![0, 1] };
    Roof { planes: vec![south, north], lines: vec![ridge], ..Roof::default() }
}

fn laid(plane: usize, whole: u32) -> LaidPlane {
    let run = Run {
        left: 0.0,
        width: 12.0,
        step: 12.0,
        count: whole,
        unit: 0,
        cut: None,
        joint_before: false,
        hangs: Hanging::None,
    };
    LaidPlane {
        plane,
        top: 8.0,
        courses: vec![Course { butt: 0.0, exposure: 8.0, length: 20.0, runs: vec![run] }],
        units: vec![UnitKind { length: 20.0, width: 12.0, thickness: 0.25, wide: false }],
        starters: vec![Starters { butt: 0.0, height: 11.5, from: 0.0, to: 240.0, left: 0.0, step: 12.0, count: 20 }],
        ..LaidPlane::default()
    }
}

fn slate(in_pack: u32) -> Covering {
    Covering { pack: covering::Pack { count: in_pack }, ..plain_slate(20.0, 12.0, 3.0) }
}

fn order(units: [u32; 2], sheet: &Covering, choices: &OrderChoices) -> Order {
    let layout = Layout { planes: vec![laid(0, units[0]), laid(1, units[1])], ..Layout::default() };
    let cuttings = layout::cut_roof(&two_planes(), &layout, |_| Some(sheet));
    takeoff::count(&two_planes(), &layout, &cuttings, &Details::default(), choices, |_| Some(sheet))
}

fn line<'a>(order: &'a Order, id: &str) -> &'a OrderLine {
    order.lines.iter().find(|line| line.id == id).unwrap()
}

#[test]
fn the_job_rules_over_the_sheet_and_the_sheet_over_what_is_invented() {
    assert_eq!(Breakage::of(Some(0.01), Some(0.02)), Breakage { rate: 0.01, told_by: ToldBy::Job });
    assert_eq!(Breakage::of(None, Some(0.02)), Breakage { rate: 0.02, told_by: ToldBy::Sheet });
    assert_eq!(Breakage::of(None, None), Breakage { rate: Breakage::INVENTED, told_by: ToldBy::Invented });
}

/// One unit of which a tenth breaks, sold singly: with k to spare all break with 0.1 to the power of k + 1.
#[test]
fn spare_units_are_added_until_the_chance_is_small_enough() {
    let choices = OrderChoices { breakage: Some(0.1), chance_short: 0.0011, ..OrderChoices::default() };
    let order = order([1, 0], &slate(1), &choices);
    let field = line(&order, "field-units");
    let spare = field.spare.as_ref().unwrap();
    assert_eq!((field.packs, spare.packs), (3, 2));
    for (choice, expected) in spare.choices.iter().zip([0.1, 0.01, 0.001, 0.0001]) {
        assert!((choice.chance / expected - 1.0).abs() < 1e-12, "{choice:?}");
    }
    assert_eq!(spare.choices.len(), 4);
    assert!((field.weight.to_pounds() - 9.0).abs() < 1e-9, "the spare units weigh too");
}

/// Where nothing breaks nothing is spare, but what the owner keeps is there.
#[test]
fn stock_for_the_owner_is_ordered_of_field_units_only() {
    let choices = OrderChoices { breakage: Some(0.0), attic_stock: 25, ..OrderChoices::default() };
    let order = order([100, 100], &slate(20), &choices);
    let field = line(&order, "field-units");
    assert_eq!((field.quantity as u64, field.packs), (200, 12));
    assert_eq!(field.spare.as_ref().unwrap().packs, 2);
    assert_eq!(line(&order, "caps").spare.as_ref().unwrap().packs, 0);
    assert!(line(&order, "nails").spare.is_none());
}

#[test]
fn a_place_tells_its_planes_and_its_line() {
    let order = order([100, 90], &slate(20), &OrderChoices::default());
    let field = &line(&order, "field-units").places[1];
    assert_eq!((field.planes.as_slice(), field.line), ([1].as_slice(), None));
    let caps = &line(&order, "caps").places[0];
    assert_eq!((caps.planes.as_slice(), caps.line), ([0, 1].as_slice(), Some(0)));
    assert_eq!(line(&order, "field-units").size, "12\" × 20\"");
}

fn by_plane(first: usize) -> Vec<PlannedDelivery> {
    vec![PlannedDelivery { day: 1, planes: vec![first] }, PlannedDelivery { day: 3, planes: vec![1 - first] }]
}

/// Caps of the ridge come with the plane that is laid last.
#[test]
fn each_plane_has_its_units_and_the_ridge_waits() {
    let choices = OrderChoices { breakage: Some(0.0), deliveries: by_plane(0), ..OrderChoices::default() };
    let order = order([110, 90], &slate(20), &choices);
    let on = |delivery: usize, id: &str| {
        let at = order.lines.iter().position(|line| line.id == id).unwrap();
        order.deliveries[delivery].packs[at]
    };
    assert_eq!([on(0, "field-units"), on(1, "field-units")], [6, 4]);
    assert_eq!([on(0, "starters"), on(1, "starters")], [1, 1]);
    assert_eq!([on(0, "caps"), on(1, "caps")], [0, 2]);
    assert_eq!([order.deliveries[0].day, order.deliveries[1].day], [1, 3]);
}

proptest! {
    /// A chance, falling with what may break and rising with the rate.
    #[test]
    fn chances_are_monotone(of in 1u64..4000, rate in 0.0..0.5f64, more in 0.0..0.4f64, share in 0.0..1.0f64) {
        let most = (of as f64 * share) as u64;
        let chance = chance_of_more(of, rate, most);
        prop_assert!((0.0..=1.0).contains(&chance));
        prop_assert!(chance_of_more(of, rate, most + 1) <= chance);
        prop_assert!(chance_of_more(of, (rate + more).min(0.5), most) >= chance * (1.0 - 1e-9));
    }

    /// Whole packs, as few as keep to the chance; choices fall from none to one more than chosen.
    #[test]
    fn the_fewest_packs_that_keep_to_the_chance(
        units in 1u32..4000, in_pack in 1u32..200, rate in 0.0..0.5f64, chance in 1e-4..0.5f64, attic_stock in 0u64..60,
    ) {
        let choices = OrderChoices { breakage: Some(rate), chance_short: chance, attic_stock, ..OrderChoices::default() };
        let order = order([units, 0], &slate(in_pack), &choices);
        let field = line(&order, "field-units");
        let spare = field.spare.as_ref().unwrap();
        let short = |packs: u64| {
            let bought = packs * u64::from(in_pack);
            let needed = u64::from(units) + attic_stock;
            if bought < needed { 1.0 } else { chance_of_more(bought, rate, bought - needed) }
        };
        prop_assert!(short(field.packs) <= chance);
        prop_assert!(spare.packs == 0 || short(field.packs - 1) > chance);
        prop_assert_eq!(field.packs, u64::from(units.div_ceil(in_pack)) + spare.packs);
        prop_assert!(spare.choices.windows(2).all(|pair| pair[0].packs < pair[1].packs && pair[0].chance >= pair[1].chance));
        prop_assert!(spare.choices.len() <= 15);
        let chosen = spare.choices.iter().find(|choice| choice.packs == spare.packs).unwrap();
        prop_assert!((chosen.chance - spare.chance).abs() < 1e-15);
    }

    /// Over the days what comes is the order, and on no day the crew has less than the planes named so far need.
    #[test]
    fn deliveries_sum_to_the_order_and_the_crew_is_never_short(
        units in [1u32..2000, 1u32..2000], in_pack in 1u32..200, rate in 0.0..0.3f64, first in 0usize..2,
    ) {
        let choices = OrderChoices { breakage: Some(rate), deliveries: by_plane(first), ..OrderChoices::default() };
        let order = order(units, &slate(in_pack), &choices);
        for (at, line) in order.lines.iter().enumerate() {
            let packs: u64 = order.deliveries.iter().map(|delivery| delivery.packs[at]).sum();
            prop_assert_eq!(packs, line.packs, "{}", &line.id);
        }
        let weight: f64 = order.deliveries.iter().map(|delivery| delivery.weight.to_pounds()).sum();
        let whole: f64 = order.lines.iter().map(|line| line.weight.to_pounds()).sum();
        prop_assert!((weight - whole).abs() < 1e-6 * whole);
        let field = line(&order, "field-units");
        let bought = order.deliveries[0].packs[0] * u64::from(in_pack);
        let needed = u64::from(units[first]);
        prop_assert!(bought >= needed);
        let short = chance_of_more(bought, rate, bought - needed);
        prop_assert!(short <= choices.chance_short || bought == field.packs * u64::from(in_pack));
    }
}
