//! # Exposure too great
//!
//! ## What it finds
//! Courses that show more of the unit than the covering's sheet allows at the plane's pitch. It measures from butt to
//! butt, and from the last butt to the top line.
//! ## Why it matters
//! What shows too much covers too little: the headlap shrinks, nails come nearer to the weather, and the maker's warranty
//! is lost.
//! ## Remedy
//! Lay more courses, each with a smaller exposure.
//! ## Source
//! The covering's data sheet, greatest exposure by pitch.

use crate::facts::shown;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::{Facts, Family, Reading};

pub(crate) const RULE: Rule = Rule {
    name: "exposure-too-great",
    kind: Kind::Maker,
    family: Family::Pitch,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["exposure"],
    file: include_str!("exposure_too_great.rs"),
    run: exposure_too_great,
};

fn exposure_too_great(facts: &Facts) -> Verdict {
    let mut exposures = Tally::lengths(Bound::AtMost);
    for laid in facts.laid() {
        let Some(band) = laid.band() else {
            exposures.cannot_judge(laid.place(0));
            continue;
        };
        let most = |place| band.greatest_exposure.to_inches() - laid.shorter(place);
        shown(&laid).for_each(|(shows, place)| exposures.add(shows, most(place), place));
    }
    exposures.verdict(
        |widest| {
            let [is, most] = widest.inches();
            format!("{} shows {is} of the unit; the sheet allows {most} at this pitch", facts.name_of(widest.place))
        },
        |place| format!("{}: the sheet gives no exposure for this pitch", facts.plane_name(place)),
        "No plane is laid.",
    )
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::Trial;

    /// Composite unit: 7-1/2 in at most from 5 in 12 up, 6 in from 3 in 12 to below 5 in 12 (common practice, no
    /// published source; the trade's wording leaves 5 in 12 itself open and it is taken as the steeper band).
    #[test]
    fn the_greatest_exposure_itself_is_allowed_in_each_band() {
        for (pitch, greatest) in [(5.0, 7.5), (12.0, 7.5), (4.99, 6.0), (3.0, 6.0)] {
            let mut trial = Trial::sound();
            trial.set_pitch(pitch);
            trial.set_exposure(greatest);
            assert_eq!(trial.outcome("exposure-too-great"), Outcome::Pass, "{greatest} at {pitch}");
            trial.set_exposure(greatest + 0.001);
            assert_eq!(trial.outcome("exposure-too-great"), Outcome::Fail, "{greatest} at {pitch}");
        }
    }

    #[test]
    fn one_course_too_wide_is_one_finding() {
        let mut trial = Trial::sound();
        trial.raise_from(3, 1.0);
        let checked = trial.one("exposure-too-great");
        assert_eq!(checked.outcome, Outcome::Fail);
        assert_eq!(checked.says, "house, south, course 3 shows 8\" of the unit; the sheet allows 7-1/2\" at this pitch.");
        assert_eq!(checked.places.iter().map(|place| place.course).collect::<Vec<_>>(), [2]);
    }

    #[test]
    fn the_last_course_reaches_to_the_top_line() {
        let mut trial = Trial::sound();
        trial.layout.planes[0].top += 0.5;
        assert_eq!(trial.outcome("exposure-too-great"), Outcome::Pass);
        trial.layout.planes[0].top += 0.25;
        let checked = trial.one("exposure-too-great");
        assert_eq!(checked.places.iter().map(|place| place.course).collect::<Vec<_>>(), [Trial::COURSES - 1]);
    }

    #[test]
    fn a_pitch_the_sheet_does_not_know_cannot_be_judged() {
        let mut trial = Trial::sound();
        trial.set_pitch(2.0);
        assert_eq!(trial.outcome("exposure-too-great"), Outcome::Attention);
    }

    /// Headlap = length - 2 x exposure: units 1 in shorter keep it where they show 1/2 in less.
    #[test]
    fn shorter_units_may_show_less() {
        let mut trial = Trial::sound();
        trial.set_exposure(7.0);
        for (shorter, outcome) in [(1.0, Outcome::Pass), (1.1, Outcome::Fail)] {
            let length = trial.covering.unit.length.to_inches();
            trial.layout.planes[0].courses[4].length = length - shorter;
            assert_eq!(trial.outcome("exposure-too-great"), outcome, "{shorter}");
        }
    }
}
