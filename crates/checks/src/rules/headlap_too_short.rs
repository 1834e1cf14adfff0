//! # Headlap too short
//!
//! ## What it finds
//! Courses that cover the second course below by less than the covering's sheet asks for at the plane's pitch; in triple
//! lap, the third course below. It measures from the butts as they are set out, and over the starters from their heads.
//! ## Why it matters
//! Rain driven up the slope passes over the head of the lower unit and reaches the deck. A headlap that is wrong cannot be
//! mended once it is laid.
//! ## Remedy
//! Shorten the exposure, use a longer unit, or a longer starter at the eave.
//! ## Source
//! The covering's data sheet, least headlap by pitch.

use crate::facts::{Laid, over_courses};
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, SLACK, Tally};
use crate::{Facts, Family, Place, Reading};

pub(crate) const RULE: Rule = Rule {
    name: "headlap-too-short",
    kind: Kind::Maker,
    family: Family::Lap,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["exposure", "unit"],
    file: include_str!("headlap_too_short.rs"),
    run: headlap_too_short,
};

fn headlap_too_short(facts: &Facts) -> Verdict {
    let mut headlaps = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let Some(band) = laid.band() else {
            headlaps.cannot_judge(laid.place(0));
            continue;
        };
        for (headlap, place) in over_courses(&laid).chain(over_starters(&laid)) {
            headlaps.add(headlap, band.headlap.to_inches(), place);
        }
    }
    headlaps.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            format!("{} has a headlap of {is}; the sheet asks for {least} at this pitch", facts.name_of(shortest.place))
        },
        |place| format!("{}: the sheet gives no headlap for this pitch", facts.plane_name(place)),
        "No plane is laid high enough for a headlap.",
    )
}

/// From the butts of the course above the first up to the heads of the starters.
fn over_starters<'a>(laid: &Laid<'a>) -> impl Iterator<Item = (f64, Place)> + use<'a> {
    let laid = *laid;
    laid.units.starters.iter().filter_map(move |starters| {
        let above = laid.units.courses.iter().position(|course| course.butt > starters.butt + SLACK)?;
        let headlap = starters.butt + starters.height - laid.units.courses[above].butt;
        Some((headlap, laid.place_at(above, starters.from)))
    })
}

#[cfg(test)]
mod tests {
    use covering::Lap;
    use units::Length;

    use crate::Outcome;
    use crate::trial::Trial;

    /// Headlap = length − 2 × exposure: an 18 in unit at 7-1/2 in has 3 in (the slater's rule, Griffith, Carpentry, 1916,
    /// from memory, not read).
    #[test]
    fn the_least_headlap_itself_is_enough() {
        let mut trial = Trial::sound();
        trial.set_exposure(7.5);
        assert_eq!(trial.outcome("headlap-too-short"), Outcome::Pass);
        trial.set_exposure(7.5005);
        let checked = trial.one("headlap-too-short");
        assert_eq!(checked.outcome, Outcome::Fail);
        assert!(checked.says.contains("has a headlap of 2.9990\"; the sheet asks for 3.0000\""), "{}", checked.says);
    }

    /// 20 in slate, 3 in lap, 201.9 in of slope: 24 courses of 8.4125 in have 3.175 in of headlap (worked by hand:
    /// 201.9 / 24, 20 − 2 × 8.4125).
    #[test]
    fn a_slate_roof_worked_by_hand() {
        let mut trial = Trial::sound();
        trial.covering.unit.length = Length::inches(20.0);
        trial.set_exposure(201.9 / 24.0);
        let asked = |trial: &mut Trial, headlap: f64| {
            trial.covering.bands[1].headlap = Length::inches(headlap);
            trial.outcome("headlap-too-short")
        };
        assert_eq!(asked(&mut trial, 3.175), Outcome::Pass);
        assert_eq!(asked(&mut trial, 3.1751), Outcome::Fail);
    }

    /// A course moved up covers less of the second below it; the ones above it cover more.
    #[test]
    fn one_butt_out_of_line() {
        let mut trial = Trial::sound();
        trial.layout.planes[0].courses[4].butt += 1.5;
        let checked = trial.one("headlap-too-short");
        assert_eq!(checked.places.iter().map(|place| place.course).collect::<Vec<_>>(), [4]);
        assert_eq!(checked.says, "house, south, course 5 has a headlap of 2-1/2\"; the sheet asks for 3\" at this pitch.");
    }

    /// A unit 1-1/2 in shorter than the others is covered 1-1/2 in less by the second course over it.
    #[test]
    fn each_course_is_asked_by_the_length_of_the_unit_it_covers() {
        let mut trial = Trial::sound();
        trial.layout.planes[0].courses[4].length -= 1.5;
        let checked = trial.one("headlap-too-short");
        assert_eq!(checked.places.iter().map(|place| place.course).collect::<Vec<_>>(), [6]);
        assert_eq!(checked.says, "house, south, course 7 has a headlap of 2-1/2\"; the sheet asks for 3\" at this pitch.");
    }

    #[test]
    fn triple_lap_is_counted_over_three_courses() {
        let mut trial = Trial::sound();
        trial.covering.lap = Lap::Triple;
        trial.set_exposure(5.0);
        assert_eq!(trial.outcome("headlap-too-short"), Outcome::Pass);
        trial.set_exposure(5.01);
        let checked = trial.one("headlap-too-short");
        assert_eq!(checked.outcome, Outcome::Fail);
        assert_eq!(checked.places.first().map(|place| place.course), Some(3));
    }

    /// A field unit turned sideways is too short for a starter.
    #[test]
    fn the_starter_needs_a_headlap_too() {
        let mut trial = Trial::sound();
        trial.layout.planes[0].starters[0].height = Trial::EXPOSURE + 3.0;
        assert_eq!(trial.outcome("headlap-too-short"), Outcome::Pass);
        trial.layout.planes[0].starters[0].height = Trial::EXPOSURE + 2.9;
        let checked = trial.one("headlap-too-short");
        assert_eq!(checked.places.iter().map(|place| place.course).collect::<Vec<_>>(), [1]);
    }
}
