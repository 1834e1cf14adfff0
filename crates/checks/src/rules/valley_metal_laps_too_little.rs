//! # Valley metal laps too little
//!
//! ## What it finds
//! Lengths of metal in open valleys that lap the length below by less than 4 in.
//! ## Why it matters
//! A valley carries the water of two planes; at a short lap it runs back under the upper length.
//! ## Remedy
//! Lap the lengths more, [flashing] valley_lap.
//! ## Source
//! International Residential Code, R905.7.6 wood shingles (as the Minnesota Residential Code 2015 reprints the edition of 2012), quoted; 4 in also in the International Building Code 2018, 1507.3.9 tile and 1507.9.9 shakes, read; taken for other units.

use details::MetalKind;

use crate::facts::metal::laps;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "valley-metal-laps-too-little",
    kind: Kind::Code,
    family: Family::Edges,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::In(&[Edition::Of2018]),
    about: "flashing.valley_lap",
    groups: &[],
    file: include_str!("valley_metal_laps_too_little.rs"),
    run: valley_metal_laps_too_little,
};

fn valley_metal_laps_too_little(facts: &Facts) -> Verdict {
    let mut tally = Tally::lengths(Bound::AtLeast);
    for (lap, place) in laps(facts, MetalKind::OpenValley) {
        tally.add(lap, figure!(4.0), place);
    }
    tally.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            format!(
                "{}: valley metal laps the length below by {is}; the code asks for {least}",
                facts.name_of(shortest.place)
            )
        },
        |place| facts.name_of(place),
        "No open valley is lined in several lengths.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    const NAME: &str = "valley-metal-laps-too-little";

    /// Two lengths of 100 in up a valley at 3 to 4 on the plane, lapped by so much.
    fn with(lap: f64) -> Trial {
        let mut trial = Trial::sound();
        let at = |along: f64| [0.6 * along, 0.8 * along];
        trial.metal(MetalKind::OpenValley, &[[at(0.0), at(100.0)], [at(100.0 - lap), at(170.0)]], 16.0);
        trial
    }

    #[test]
    fn four_inches_along_the_valley() {
        assert_eq!([4.0, 3.99].map(|lap| with(lap).outcome(NAME)), [Outcome::Pass, Outcome::Fail]);
        let says = "house, south, course 12: valley metal laps the length below by 2\"; the code asks for 4\".";
        assert_eq!(with(2.0).says(NAME), says);
        assert_eq!(with(-1.0).outcome(NAME), Outcome::Fail, "a gap");
        assert_eq!(with(2.0).adds(&with(4.0)), [NAME]);
        assert_eq!(Trial::sound().outcome(NAME), Outcome::NotApplicable);
    }
}
