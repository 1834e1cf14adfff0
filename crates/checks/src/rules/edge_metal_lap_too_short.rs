//! # Edge metal lap too short
//!
//! ## What it finds
//! Pieces of drip edge that lap the piece before by less than 2 in.
//! ## Why it matters
//! Water runs along the metal; through an open joint it runs into the edge of the deck and the fascia.
//! ## Remedy
//! Lap the pieces 2 in or more, [dry_in.drip_edge] lap.
//! ## Source
//! International Residential Code 2015, R905.2.8.5, as a guide quotes it for asphalt shingles, quoted; under other units common practice, no published source.

use details::Kind as Goods;

use crate::facts::sheets::end_laps;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "edge-metal-lap-too-short",
    kind: Kind::Practice,
    family: Family::DryIn,
    endangers: &[Danger::Leak],
    reading: Reading::Memory,
    about: "dry_in.drip_edge",
    groups: &[],
    file: include_str!("edge_metal_lap_too_short.rs"),
    run: edge_metal_lap_too_short,
};

fn edge_metal_lap_too_short(facts: &Facts) -> Verdict {
    let mut laps = Tally::lengths(Bound::AtLeast);
    for (_, strip) in facts.strips(Goods::DripEdge) {
        for (lap, along) in end_laps(strip) {
            if let Some(place) = facts.place_along(strip, along) {
                laps.add(lap, figure!(2.0), place);
            }
        }
    }
    laps.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            format!("{}: drip edge laps the piece before it by {is}; {least} are wanted", facts.plane_name(shortest.place))
        },
        |place| facts.name_of(place),
        "No drip edge is laid in several pieces.",
    )
}

#[cfg(test)]
mod tests {
    use details::Lies;

    use super::*;
    use crate::Outcome;
    use crate::trial::{Trial, strip};

    fn lapped(lap: f64) -> Trial {
        let mut trial = Trial::sound();
        let pieces = [[0.0, 60.0], [60.0 - lap, 60.0 + lap]];
        trial.roll(Goods::DripEdge, 0.0, vec![strip(Lies::Line { line: 0 }, 0, [0.0, 120.0], [0.0, 0.0], &pieces)]);
        trial
    }

    #[test]
    fn two_inches_are_enough() {
        let rule = "edge-metal-lap-too-short";
        assert_eq!([2.0, 1.99].map(|lap| lapped(lap).outcome(rule)), [Outcome::Pass, Outcome::Fail]);
        assert_eq!(lapped(1.5).adds(&lapped(2.0)), [rule]);
        let says = "house, south: drip edge laps the piece before it by 1-1/2\"; 2\" are wanted.";
        assert_eq!(lapped(1.5).says(rule), says);
        assert_eq!(Trial::sound().outcome(rule), Outcome::NotApplicable);
    }
}
