//! # Top course too short
//!
//! ## What it finds
//! A course that shows less than the least exposure of the covering's sheet, which is the last one below a ridge, a wall or a break.
//! ## Why it matters
//! A thin strip under the cap looks like a mistake, its units are cut to slivers, and their nails come close to the edge.
//! ## Remedy
//! Hide it under a wider cap or apron, or take a little off every exposure below.
//! ## Source
//! The covering's data sheet, least exposure by pitch.

use crate::facts::shown;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "top-course-too-short",
    kind: Kind::Maker,
    family: Family::Pitch,
    endangers: &[Danger::Warranty],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["exposure"],
    file: include_str!("top_course_too_short.rs"),
    run: top_course_too_short,
};

fn top_course_too_short(facts: &Facts) -> Verdict {
    let mut exposures = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let Some(band) = laid.band() else { continue };
        let least = |place| band.least_exposure.to_inches() - laid.shorter(place);
        shown(&laid).for_each(|(shows, place)| exposures.add(shows, least(place), place));
    }
    let verdict = exposures.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            format!("{} shows {is}; the sheet prefers {least} at least", facts.name_of(shortest.place))
        },
        |place| facts.name_of(place),
        "No plane is laid at a pitch that the sheet knows.",
    );
    verdict.looked_at()
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::Trial;

    /// The sheet made for the tests prefers 6 in (common practice, no published source).
    #[test]
    fn the_least_exposure_itself_is_kept() {
        let cut = |by: f64| {
            let mut trial = Trial::sound();
            trial.layout.planes[0].top -= by;
            trial
        };
        assert_eq!(cut(1.0).outcome("top-course-too-short"), Outcome::Pass);
        let short = cut(1.5);
        assert_eq!(short.adds(&Trial::sound()), ["top-course-too-short"]);
        let says = "house, south, course 20 shows 5-1/2\"; the sheet prefers 6\" at least.";
        assert_eq!(short.says("top-course-too-short"), says);
        assert_eq!(short.one("top-course-too-short").places.len(), 1);
        let mut flat = Trial::sound();
        flat.set_pitch(2.0);
        assert_eq!(flat.outcome("top-course-too-short"), Outcome::NotApplicable);
    }
}
