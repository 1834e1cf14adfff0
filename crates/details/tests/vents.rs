//! Vents of the attic, against the shares of the codes and common practice.
#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod common;

use common::{House, ell_block, felted, gable_block, inches};
use details::{Attic, Edition, Framing, RidgeVent, SoffitVent, Vents, vent_share};
use proptest::prelude::*;
use units::Area;

fn square_feet(area: f64) -> Area {
    Area::square_inches(area * 144.0)
}

/// Invented vents.
fn attic(balanced: bool) -> Attic {
    Attic {
        area: Some(square_feet(1500.0)),
        vapor_retarder: Some(true),
        balanced: Some(balanced),
        ridge_vent: Some(RidgeVent {
            nfa_per_foot: Area::square_inches(16.0),
            section: inches(48.0),
            end: inches(12.0),
            framing: Some(Framing::Truss),
        }),
        soffit_vent: Some(SoffitVent { nfa_per_foot: Area::square_inches(8.0) }),
    }
}

fn house(width: f64, attic: Attic) -> House {
    House { attic: Some(attic), ..House::new(&[gable_block(width, 360.0, 8.0, 12.0)], &[], felted()) }
}

fn vents(house: &House) -> Vents {
    house.place().vents.unwrap()
}

fn inches_of(area: Area) -> f64 {
    area.to_square_inches()
}

/// 1 sq ft of NFA for 300 sq ft of attic floor when balanced and for 150 when not (common practice, no published source; the
/// shares of International Residential Code R806.2): 1,500 sq ft need 720 or 1,440 sq in, of 720 from 288 to 360 in the upper
/// part.
#[test]
fn fifteen_hundred_square_feet() {
    let balanced = vents(&house(600.0, attic(true)));
    assert!((inches_of(balanced.needed) - 720.0).abs() < 1e-9);
    let [least, most] = balanced.upper.map(inches_of);
    assert!((least - 288.0).abs() < 1e-9 && (most - 360.0).abs() < 1e-9);
    let not = vents(&house(600.0, attic(false)));
    assert!((inches_of(not.needed) - 1440.0).abs() < 1e-9 && not.share == 150);
}

/// 2012: one of the two conditions will do; 2015 on: both, the retarder only in climate zones 6 to 8.
#[test]
fn conditions_by_edition() {
    let share = |balanced, retarder, code, zone| {
        let attic = Attic { balanced: Some(balanced), vapor_retarder: retarder, ..Attic::default() };
        vent_share(&attic, code, zone).0
    };
    let [old, new] = [Some(Edition::Of2012), Some(Edition::Of2018)];
    assert_eq!(
        [share(true, None, old, None), share(false, Some(true), old, None), share(false, None, old, None)],
        [300, 300, 150]
    );
    assert_eq!([share(true, Some(true), new, Some(7)), share(true, Some(false), new, Some(7))], [300, 150]);
    assert_eq!(
        [share(true, None, new, Some(4)), share(true, None, new, None), share(false, Some(true), new, Some(4))],
        [300, 150, 150]
    );
    assert_eq!(
        [share(true, Some(true), None, None), share(false, Some(true), None, None)],
        [300, 150],
        "in doubt the stricter"
    );
}

/// A ridge of 50 ft vented but for 12 in at each end: 48 ft, 12 sections of 4 ft, 48 × 16 sq in.
#[test]
fn sections_along_the_ridge_that_is_there() {
    let vents = vents(&house(600.0, attic(true)));
    assert_eq!(vents.ridges.len(), 1);
    assert_eq!(vents.ridges[0].sections, 12);
    assert!((inches_of(vents.ridge_gives) - 768.0).abs() < 1e-9);
    // More goes out at the ridge than half of what is needed, so as much must come in.
    assert!((inches_of(vents.lower) - 768.0).abs() < 1e-9);
    assert!((vents.soffit.unwrap().to_feet() - 96.0).abs() < 1e-9);
    assert!((vents.eaves.to_feet() - 100.0).abs() < 1e-9);
}

/// The slot clears a ridge board, and is the sheet's slot over trusses.
#[test]
fn the_slot_goes_by_the_framing() {
    let clear = felted().edges.ridge_slot.to_inches();
    let slot = |framing| {
        let mut attic = attic(true);
        attic.ridge_vent.as_mut().unwrap().framing = framing;
        vents(&house(600.0, attic)).slot.map(units::Length::to_inches)
    };
    assert!((slot(Some(Framing::Truss)).unwrap() - clear).abs() < 1e-9);
    assert!((slot(Some(Framing::RidgeBoard(inches(1.5)))).unwrap() - clear - 1.5).abs() < 1e-9);
    assert_eq!(slot(None), None);
}

#[test]
fn a_ridge_too_short_says_what_to_do() {
    // A hip roof of 40 × 30 ft has a ridge of 10 ft: 8 ft of vent give 128 of the 288 sq in.
    let mut blocks = [gable_block(480.0, 360.0, 8.0, 12.0)];
    blocks[0].sides = vec![common::eave(8.0, 12.0); 4];
    let house = House { attic: Some(attic(true)), ..House::new(&blocks, &[], felted()) };
    let vents = vents(&house);
    assert!((inches_of(vents.ridge_gives) - 128.0).abs() < 1e-6);
    assert!((inches_of(vents.lower) - 360.0).abs() < 1e-9);
    assert!(
        vents.notes[0].contains("36.0 sq in to the foot") && vents.notes[0].contains("160 sq in of roof vents"),
        "{:?}",
        vents.notes
    );
}

#[test]
fn an_attic_without_a_floor_is_told() {
    let house = house(600.0, Attic { area: None, ..attic(true) });
    let details = house.place();
    assert!(details.vents.is_none() && details.missing.iter().any(|gap| gap.what == "vents"));
    let measured = House { floor: Some(square_feet(900.0)), ..house };
    assert!((vents(&measured).floor.to_square_feet() - 900.0).abs() < 1e-9);
}

proptest! {
    /// Vents are never negative, what comes in is no less than what goes out, and the two make up what is needed.
    #[test]
    fn in_and_out_make_up_what_is_needed(
        width in 250.0..900.0f64, wing in 0.3..0.7f64, floor in 100.0..5000.0f64, per_foot in 4.0..30.0f64, balanced: bool,
    ) {
        let mut attic = attic(balanced);
        attic.area = Some(square_feet(floor));
        attic.ridge_vent.as_mut().unwrap().nfa_per_foot = Area::square_inches(per_foot);
        let blocks = [ell_block(width, 300.0, wing * width, 200.0, 8.0, 12.0, true)];
        let house = House { attic: Some(attic), ..House::new(&blocks, &[], felted()) };
        let vents = vents(&house);
        let [needed, lower, gives] = [vents.needed, vents.lower, vents.ridge_gives].map(inches_of);
        prop_assert!(lower + 1e-6 >= gives || gives < inches_of(vents.upper[0]));
        if gives >= inches_of(vents.upper[0]) {
            prop_assert!(lower + gives + 1e-6 >= needed);
        } else {
            prop_assert!(vents.notes.iter().any(|note| note.contains("upper part")));
        }
        for run in &vents.ridges {
            let length = house.roof.lines[run.line].length().to_inches();
            prop_assert!(run.from >= 12.0 - 1e-9 && run.to <= length - 12.0 + 1e-9);
            let laid = f64::from(run.sections) * 48.0;
            prop_assert!(laid + 1e-6 >= run.to - run.from && laid < run.to - run.from + 48.0);
        }
    }
}
