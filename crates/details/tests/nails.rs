//! Nails of units, caps and metal, against the trade's rules and counts of their own.
#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod common;

use common::{House, felted, gable_block, inches, plain_slate};
use covering::NailLine;
use details::{Attic, Kind, NailHolds, RidgeVent, units_at_nail};
use proptest::prelude::*;
use units::Area;

/// A slate's nail is 2 × thickness + 1 in long (trade pages quoting a 1926 book, at second hand): 1-1/2 in for 1/4 in, 1-3/4 in for
/// 3/8 in, 2 in for 1/2 in. Two slates lie where one is nailed, and the inch is felt and deck.
#[test]
fn twice_the_slate_and_an_inch() {
    for (thickness, length) in [(0.25, 1.5), (0.375, 1.75), (0.5, 2.0)] {
        let mut slate = plain_slate(20.0, 10.0, 3.0);
        slate.unit.thickness = inches(thickness);
        let house = House::new(&[gable_block(480.0, 240.0, 8.0, 12.0)], &[], slate);
        let needs = house.place().nails;
        let units = needs.iter().find(|need| need.holds == NailHolds::Units).unwrap();
        assert!((units.take.to_inches() - length).abs() < 1e-9, "{thickness}: {}", units.take);
    }
}

/// Layers set out one by one: a 20-in unit at 8-1/2 in nailed 9 in above its butt lies over the one below, which reaches up
/// 20 − 8-1/2 = 11-1/2 in, and not over the next, which reaches up 3 in.
#[test]
fn two_slates_lie_at_the_nail() {
    let mut slate = plain_slate(20.0, 10.0, 3.0);
    slate.conditions.nail_line = Some(NailLine { side: inches(1.5), up: inches(9.0), off_joint: None });
    let [layers, thickness] = units_at_nail(&slate, inches(8.5));
    assert!((layers - 2.0).abs() < 1e-9 && (thickness - 0.5).abs() < 1e-9);
    // Tapered to nothing: 1/4 × (11/20) + 1/4 × (2.5/20).
    slate.unit.tapered = true;
    slate.nails.through_units = 1;
    slate.conditions.nail_line = Some(NailLine { side: inches(1.5), up: inches(1.0), off_joint: None });
    let [layers, thickness] = units_at_nail(&slate, inches(8.5));
    assert!((layers - 3.0).abs() < 1e-9);
    assert!((thickness - 0.25 * (19.0 + 10.5 + 2.0) / 20.0).abs() < 1e-9);
}

/// 3-in nails through ridge vents: common practice, no published source. Where the underside of the deck is seen no point may
/// come through it.
#[test]
fn caps_and_vents_get_their_own() {
    let vent =
        RidgeVent { nfa_per_foot: Area::square_inches(14.0), section: inches(48.0), end: inches(12.0), framing: None };
    let mut house = House::new(&[gable_block(480.0, 240.0, 8.0, 12.0)], &[], felted());
    house.attic = Some(Attic { area: Some(Area::square_inches(1e5)), ridge_vent: Some(vent), ..Attic::default() });
    house.deck.thickness = Some(inches(0.625));
    house.nails.exposed_soffit = true;
    let needs = house.place().nails;
    let [units, caps, over_vent] = [NailHolds::Units, NailHolds::Caps, NailHolds::CapsOverVent]
        .map(|of| needs.iter().find(|need| need.holds == of).unwrap());
    assert!((over_vent.take.to_inches() - 3.0).abs() < 1e-9);
    assert!(caps.least > units.least, "two caps more");
    // 5/8 in of deck is less than the sheet's penetration of 3/4 in: the nail ends at the underside.
    assert_eq!(units.most, Some(units.least));
}

/// Arithmetic: a lap of metal 0.02 in thick, a lap of felt 1/16 in thick, and a deck of 5/8 in: 0.04 + 0.125 + 0.625 = 0.79 in,
/// so 1 in; into 1-in boards 3/4 in, 0.915 in, again 1 in; through 3/8 in of old boards 0.54 in, so 3/4 in.
#[test]
fn nails_of_metal_pass_its_laps() {
    let mut house = House::new(&[gable_block(480.0, 240.0, 8.0, 12.0)], &[], felted());
    house.choices.thickness = inches(0.0625);
    house.sheet_metal.thickness = inches(0.02);
    for (deck, least, take) in [(0.625, 0.79, 1.0), (1.0, 0.915, 1.0), (0.375, 0.54, 0.75)] {
        house.deck.thickness = Some(inches(deck));
        let needs = house.place().nails;
        let metal = needs.iter().find(|need| need.holds == NailHolds::Metal).unwrap();
        let [is, taken] = [metal.least, metal.take].map(units::Length::to_inches);
        assert!((is - least).abs() < 1e-9 && (taken - take).abs() < 1e-9, "{is} {taken}");
    }
}

/// Drip edge is nailed at 12 in at most (International Residential Code 2015 R905.2.8.5, as a guide quotes it).
#[test]
fn drip_edge_is_nailed_at_12_in() {
    let house = House::new(&[gable_block(480.0, 240.0, 8.0, 12.0)], &[], felted());
    let details = house.place();
    let edge = details.dry_in.rolls.iter().find(|rolls| rolls.kind == Kind::DripEdge).unwrap();
    for strip in &edge.strips {
        let set_out: f64 = strip.pieces.iter().map(|piece| (piece.length / 12.0 - 1e-9).ceil() + 1.0).sum();
        assert!((f64::from(strip.fasteners) - set_out).abs() < 1e-9);
    }
}

proptest! {
    /// A nail that is long enough leaves less than a step over.
    #[test]
    fn the_nail_taken_is_the_shortest(thickness in 0.125..1.5f64, deck in 0.3..2.0f64) {
        let mut slate = plain_slate(20.0, 10.0, 3.0);
        slate.unit.thickness = inches(thickness);
        let mut house = House::new(&[gable_block(240.0, 160.0, 8.0, 12.0)], &[], slate);
        house.deck.thickness = Some(inches(deck));
        for need in house.place().nails {
            prop_assert!(need.take.to_inches() >= need.least.to_inches() - 1e-9 && need.take.to_inches() < need.least.to_inches() + 0.25);
        }
    }
}
