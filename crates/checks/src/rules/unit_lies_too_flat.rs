//! # Unit lies too flat
//!
//! ## What it finds
//! Units that, lapped over the ones below, lie flatter than their sheet allows. A unit is lifted at its butt, so that it lies
//! flatter than its deck by about atan(thickness where the next butt rests / exposure).
//! ## Why it matters
//! Water runs as slowly as the unit lies, not as the deck lies; a thick unit at a short exposure can lose several degrees.
//! ## Remedy
//! Use a thinner unit, a longer exposure, or a steeper roof.
//! ## Source
//! The covering's data sheet, least true pitch.

use units::Pitch;

use crate::facts::Laid;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "unit-lies-too-flat",
    kind: Kind::Maker,
    family: Family::Pitch,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["lap", "unit"],
    file: include_str!("unit_lies_too_flat.rs"),
    run: unit_lies_too_flat,
};

fn unit_lies_too_flat(facts: &Facts) -> Verdict {
    let mut pitches = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let Some(least) = laid.covering.conditions.least_true_pitch else {
            return Verdict::not_in_sheet("a least true pitch, [lap] least_true_pitch");
        };
        for (number, course) in laid.units.courses.iter().enumerate() {
            pitches.add(true_rise(&laid, course.exposure), least.rise(), laid.place(number));
        }
    }
    pitches.verdict(
        |flattest| {
            let [is, least] = flattest.in_12();
            format!("{}: the units lie at {is}; the sheet asks for {least}", facts.name_of(flattest.place))
        },
        |place| facts.name_of(place),
        "No plane is laid.",
    )
}

/// Rise in 12 of the units themselves.
fn true_rise(laid: &Laid, exposure: f64) -> f64 {
    let lifted = libm::atan(resting_thickness(laid, exposure) / exposure).to_degrees();
    let degrees = laid.plane.pitch.degrees() - lifted;
    Pitch::from_degrees(degrees).map_or(0.0, Pitch::rise)
}

/// Of the unit below, where the next butt rests on it.
fn resting_thickness(laid: &Laid, exposure: f64) -> f64 {
    let unit = &laid.covering.unit;
    let left = if unit.tapered { 1.0 - exposure / unit.length.to_inches() } else { 1.0 };
    unit.thickness.to_inches() * left.max(0.0)
}

#[cfg(test)]
mod tests {
    use units::Length;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// 8 in 12 is 33.690°. An even unit of 1/4 in at 7 in: less atan(0.25 / 7) = 2.045°, 31.645°, 7.395 in 12. Tapered to
    /// nothing over 18 in: 0.1528 in where the butt rests, less 1.250°, 32.440°, 7.627 in 12. Worked by hand.
    #[test]
    fn worked_by_hand() {
        for (tapered, rise) in [(false, 7.395), (true, 7.627)] {
            let keeps = |least: f64| {
                let mut trial = Trial::sound();
                trial.covering.unit.tapered = tapered;
                trial.covering.conditions.least_true_pitch = Pitch::per_12(least).ok();
                trial.outcome("unit-lies-too-flat")
            };
            assert_eq!([keeps(rise - 0.002), keeps(rise + 0.002)], [Outcome::Pass, Outcome::Fail]);
        }
    }

    #[test]
    fn a_thick_unit_on_a_flat_roof() {
        let mut trial = Trial::sound();
        trial.covering.conditions.least_true_pitch = Pitch::per_12(7.0).ok();
        let mut thick = Trial::sound();
        thick.covering.conditions.least_true_pitch = Pitch::per_12(7.0).ok();
        thick.covering.unit.thickness = Length::inches(0.5);
        thick.fastener.length = Some(Length::inches(2.5));
        assert_eq!(thick.adds(&trial), ["unit-lies-too-flat"]);
        let says = "house, south, course 1: the units lie at 6.82/12; the sheet asks for 7/12; 20 places in all.";
        assert_eq!(thick.says("unit-lies-too-flat"), says);
        let silent = "The covering's sheet does not give a least true pitch, [lap] least_true_pitch.";
        assert_eq!(Trial::sound().says("unit-lies-too-flat"), silent);
    }
}
