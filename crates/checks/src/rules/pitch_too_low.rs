//! # Pitch too low
//!
//! ## What it finds
//! Planes that are flatter than the lowest pitch the covering's sheet allows.
//! ## Why it matters
//! On a flat plane water runs slowly, spreads sideways into the joints and is blown up the laps; laps that hold it back
//! on a steep plane do not hold it here. A maker's warranty ends at the lowest pitch of the sheet.
//! ## Remedy
//! Cover this plane with something whose sheet allows the pitch, or change the pitch.
//! ## Source
//! The covering's data sheet, lowest pitch.

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::{Facts, Family, Place, Reading};

pub(crate) const RULE: Rule = Rule {
    name: "pitch-too-low",
    kind: Kind::Maker,
    family: Family::Pitch,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["exposure"],
    file: include_str!("pitch_too_low.rs"),
    run: pitch_too_low,
};

fn pitch_too_low(facts: &Facts) -> Verdict {
    let mut pitches = Tally::exact(Bound::AtLeast);
    for (index, plane, covering) in facts.covered() {
        let place = Place { plane: index, course: 0, u: 0.0, v: 0.0 };
        match covering.least_pitch() {
            Some(least) => pitches.add(plane.pitch.rise(), least.rise(), place),
            None => pitches.cannot_judge(place),
        }
    }
    pitches.verdict(
        |flattest| {
            let [is, least] = flattest.in_12();
            format!("{} is {is}; the least the sheet allows is {least}", facts.plane_name(flattest.place))
        },
        |place| format!("{}: the sheet gives no lowest pitch", facts.plane_name(place)),
        "There is no plane to cover.",
    )
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::Trial;

    /// Sheet made for the test: allowed from 3 in 12 up (common practice, no published source).
    #[test]
    fn the_lowest_pitch_itself_is_allowed() {
        let mut trial = Trial::sound();
        trial.set_pitch(3.0);
        assert_eq!(trial.outcome("pitch-too-low"), Outcome::Pass);
        trial.set_pitch(2.99);
        let checked = trial.one("pitch-too-low");
        assert_eq!(checked.outcome, Outcome::Fail);
        assert_eq!(checked.says, "house, south is 2.99/12; the least the sheet allows is 3/12.");
        assert_eq!(checked.places.len(), 1);
        trial.set_pitch(2.999);
        assert!(trial.one("pitch-too-low").says.starts_with("house, south is 2.999/12"));
    }

    #[test]
    fn a_plane_that_is_not_covered_may_be_flat() {
        let mut trial = Trial::sound();
        trial.set_pitch(1.0);
        trial.covered = false;
        assert_eq!(trial.outcome("pitch-too-low"), Outcome::NotApplicable);
    }
}
