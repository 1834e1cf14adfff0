//! # Step flashing laps too little
//!
//! ## What it finds
//! Pieces of step flashing that lap the piece below by less than 2 in, measured from piece to piece.
//! ## Why it matters
//! Each piece throws its water onto the next; where it laps too little, water driven up the slope gets behind it.
//! ## Remedy
//! Make the pieces longer: the exposure and 2 in more, [flashing] step_lap.
//! ## Source
//! A Treatise on Architecture and Building Construction (International Textbook Company, 1899), volume 3, section 123: soakers are 2 in longer than the part of the slate that shows.

use details::MetalKind;

use crate::facts::metal::laps;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "step-flashing-laps-too-little",
    kind: Kind::Practice,
    family: Family::Edges,
    endangers: &[Danger::Leak],
    reading: Reading::Read,
    about: "flashing",
    groups: &[],
    file: include_str!("step_flashing_laps_too_little.rs"),
    run: step_flashing_laps_too_little,
};

fn step_flashing_laps_too_little(facts: &Facts) -> Verdict {
    let mut tally = Tally::lengths(Bound::AtLeast);
    for (lap, place) in laps(facts, MetalKind::StepFlashing) {
        tally.add(lap, figure!(2.0), place);
    }
    tally.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            format!("{}: step flashing laps the piece below by {is}; {least} are wanted", facts.name_of(shortest.place))
        },
        |place| facts.name_of(place),
        "No step flashing is laid in several pieces.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    const NAME: &str = "step-flashing-laps-too-little";

    /// Pieces in courses of 7 in, so long.
    fn with(length: f64) -> Trial {
        let mut trial = Trial::sound();
        let pieces = [0.0, 7.0, 14.0].map(|foot| [[0.0, foot], [0.0, foot + length]]);
        trial.metal(MetalKind::StepFlashing, &pieces, 8.0);
        trial
    }

    /// The exposure and 2 in.
    #[test]
    fn two_inches_more_than_shows() {
        assert_eq!([9.0, 8.99].map(|length| with(length).outcome(NAME)), [Outcome::Pass, Outcome::Fail]);
        let says = "house, south, course 2: step flashing laps the piece below by 1\"; 2\" are wanted; 2 places in all.";
        assert_eq!(with(8.0).says(NAME), says);
        assert_eq!(with(8.0).adds(&with(9.0)), [NAME]);
        assert_eq!(Trial::sound().outcome(NAME), Outcome::NotApplicable);
    }
}
