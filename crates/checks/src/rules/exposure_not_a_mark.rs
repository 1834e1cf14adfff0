//! # Exposure not a mark
//!
//! ## What it finds
//! Units that carry marks for their exposure, laid at an exposure that is none of the marks.
//! ## Why it matters
//! A crew that lays by the marks runs off the course lines: the courses no longer land at the ridge, or the headlap goes.
//! ## Remedy
//! Lay by the story pole and tell the crew to ignore the marks, or set out to a mark.
//! ## Source
//! The covering's data sheet, marks on the unit.

use units::Length;

use crate::facts::Laid;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "exposure-not-a-mark",
    kind: Kind::Maker,
    family: Family::Pitch,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["unit"],
    file: include_str!("exposure_not_a_mark.rs"),
    run: exposure_not_a_mark,
};

fn exposure_not_a_mark(facts: &Facts) -> Verdict {
    let mut off = Tally::lengths(Bound::AtMost);
    for laid in facts.laid().filter(|laid| !laid.covering.marks.is_empty()) {
        // Half a step of the tape is drawn on the mark itself.
        let step = figure!(0.03125);
        let all_but_the_top = laid.units.courses.len().saturating_sub(1);
        for (number, course) in laid.units.courses.iter().enumerate().take(all_but_the_top) {
            off.add(off_mark(&laid, course.exposure), step, laid.place(number));
        }
    }
    let verdict = off.verdict(
        |farthest| {
            let exposure = Length::inches(facts.exposure_at(farthest.place)).in_inches();
            format!("{} is set out at {exposure}, which is no mark on the unit", facts.plane_name(farthest.place))
        },
        |place| facts.name_of(place),
        "The units carry no marks for an exposure.",
    );
    if verdict.outcome == crate::Outcome::Pass {
        Verdict::pass("Every exposure is a mark on the unit.")
    } else {
        verdict.looked_at()
    }
}

/// How far an exposure is from the nearest mark.
fn off_mark(laid: &Laid, exposure: f64) -> f64 {
    laid.covering.marks.iter().map(|mark| (mark.to_inches() - exposure).abs()).fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn marked(exposure: f64) -> Trial {
        let mut trial = Trial::sound();
        trial.covering.marks = [6.0, 7.0].map(Length::inches).to_vec();
        trial.set_exposure(exposure);
        trial
    }

    /// Marks at 6 and 7 in; half of 1/16 in on either side is the mark.
    #[test]
    fn a_mark_is_as_wide_as_it_is_drawn() {
        let outcome = |exposure| marked(exposure).outcome("exposure-not-a-mark");
        assert_eq!([6.0, 7.0, 7.03125, 6.96875].map(outcome), [Outcome::Pass; 4]);
        assert_eq!([6.5, 7.0315, 6.9685, 6.03151].map(outcome), [Outcome::Attention; 4]);
        assert_eq!(Trial::sound().outcome("exposure-not-a-mark"), Outcome::NotApplicable);
    }

    #[test]
    fn the_exposure_is_told() {
        assert_eq!(marked(6.5).adds(&marked(7.0)), ["exposure-not-a-mark"]);
        let says = "house, south is set out at 6-1/2\", which is no mark on the unit; 19 places in all.";
        assert_eq!(marked(6.5).says("exposure-not-a-mark"), says);
    }
}
