//! # Headlap below code
//!
//! ## What it finds
//! Courses of natural slate that cover the second course below by less than the code asks for at the plane's pitch: 4 in from
//! 4 in 12 to below 8 in 12, 3 in to below 20 in 12, 2 in from there up.
//! ## Why it matters
//! The headlap is all that stands between rain driven up the slope and the nails; too short a one cannot be mended once laid.
//! ## Remedy
//! Shorten the exposure, or use a longer slate.
//! ## Source
//! International Residential Code, Table R905.6.5, as an industry manual of 2010 quotes it, from memory, not read; alike in the editions of 2015 to 2024 as far as known.

use covering::Material;

use crate::facts::{Laid, over_courses};
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "headlap-below-code",
    kind: Kind::Code,
    family: Family::Lap,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("headlap_below_code.rs"),
    run: headlap_below_code,
};

/// Least headlap in inches by rise in 12; none below 4 in 12, where slate is not allowed. Table R905.6.5.
fn least(rise: f64) -> Option<f64> {
    if rise < figure!(4.0) {
        None
    } else if rise < figure!(8.0) {
        Some(figure!(4.0))
    } else if rise < figure!(20.0) {
        Some(figure!(3.0))
    } else {
        Some(figure!(2.0))
    }
}

fn headlap_below_code(facts: &Facts) -> Verdict {
    let mut headlaps = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid().filter(|laid| laid.covering.material == Material::NaturalSlate) {
        match least(laid.plane.pitch.rise()) {
            Some(least) => over_courses(&laid).for_each(|(headlap, place)| headlaps.add(headlap, least, place)),
            None => headlaps.cannot_judge(Laid::place(&laid, 0)),
        }
    }
    headlaps.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            format!("{} has a headlap of {is}; the code asks for {least} at this pitch", facts.name_of(shortest.place))
        },
        |place| format!("{}: the code has no headlap for so flat a slate roof", facts.plane_name(place)),
        "No plane is laid in natural slate.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// Table R905.6.5 of the International Residential Code, as an industry manual of 2010 quotes it.
    #[test]
    fn the_steps_of_the_table() {
        let steps = [3.99, 4.0, 7.99, 8.0, 19.99, 20.0].map(least);
        assert_eq!(steps, [None, Some(4.0), Some(4.0), Some(3.0), Some(3.0), Some(2.0)]);
    }

    /// 20 in slate: headlap = 20 − 2 × exposure.
    #[test]
    fn the_least_headlap_itself_is_enough_at_each_pitch() {
        for (rise, exposure) in [(7.99, 8.0), (8.0, 8.5), (19.99, 8.5), (20.0, 9.0)] {
            let mut trial = Trial::of(Material::NaturalSlate);
            trial.set_pitch(rise);
            trial.set_exposure(exposure);
            assert_eq!(trial.outcome("headlap-below-code"), Outcome::Attention, "{rise}");
            trial.set_exposure(exposure + 0.01);
            assert_eq!(trial.outcome("headlap-below-code"), Outcome::Fail, "{rise}");
        }
    }

    #[test]
    fn one_course_moved_is_one_place() {
        let mut trial = Trial::of(Material::NaturalSlate);
        trial.layout.planes[0].courses[4].butt += 1.5;
        let checked = trial.one("headlap-below-code");
        assert_eq!(checked.places.iter().map(|place| place.course).collect::<Vec<_>>(), [4]);
        let says = "house, south, course 5 has a headlap of 2-1/2\"; the code asks for 3\" at this pitch. \
                    The text of the 2018 edition was not read.";
        assert_eq!(checked.says, says);
        trial.covering.material = Material::CompositeSlate;
        assert_eq!(trial.outcome("headlap-below-code"), Outcome::NotApplicable);
    }
}
