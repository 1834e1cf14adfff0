//! # End lap too short
//!
//! ## What it finds
//! Pieces of underlayment or ice barrier that lap the piece before them in the same strip by less than 4 in.
//! ## Why it matters
//! Along a strip there is no slope that keeps water out of a short end lap.
//! ## Remedy
//! Take a greater end_lap for the roll.
//! ## Source
//! International Residential Code, underlayment: end laps of 4 in (as a state adopts it for two layers, quoted; for one layer and for ice barriers from memory, not read).

use details::Kind as Goods;

use crate::facts::sheets::end_laps;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "end-lap-too-short",
    kind: Kind::Code,
    family: Family::DryIn,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("end_lap_too_short.rs"),
    run: end_lap_too_short,
};

fn end_lap_too_short(facts: &Facts) -> Verdict {
    let mut laps = Tally::lengths(Bound::AtLeast);
    for (_, strip) in [Goods::Underlayment, Goods::IceBarrier].into_iter().flat_map(|kind| facts.strips(kind)) {
        for (lap, along) in end_laps(strip) {
            if let Some(place) = facts.place_along(strip, along) {
                laps.add(lap, figure!(4.0), place);
            }
        }
    }
    laps.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            format!(
                "{}: a sheet laps the piece before it by {is} at its end; the code asks for {least}",
                facts.plane_name(shortest.place)
            )
        },
        |place| facts.name_of(place),
        "Every sheet is one piece.",
    )
}

#[cfg(test)]
mod tests {
    use details::Lies;

    use super::*;
    use crate::Outcome;
    use crate::trial::{Trial, strip};

    fn lapped(kind: Goods, lap: f64) -> Trial {
        let mut trial = Trial::sound();
        let pieces = [[0.0, 60.0], [60.0 - lap, 60.0 + lap]];
        trial.roll(kind, 36.0, vec![strip(Lies::Course { course: 0 }, 0, [0.0, 120.0], [0.0, 36.0], &pieces)]);
        trial
    }

    #[test]
    fn four_inches_are_enough() {
        let rule = "end-lap-too-short";
        for kind in [Goods::Underlayment, Goods::IceBarrier] {
            assert_eq!([4.0, 3.99].map(|lap| lapped(kind, lap).outcome(rule)), [Outcome::Attention, Outcome::Fail]);
        }
        assert_eq!(lapped(Goods::DripEdge, 1.0).outcome(rule), Outcome::NotApplicable);
        let says = "house, south: a sheet laps the piece before it by 3\" at its end; the code asks for 4\". \
                    The text of the 2018 edition was not read.";
        let short = lapped(Goods::Underlayment, 3.0);
        assert_eq!(short.says(rule), says);
        assert!((short.one(rule).places[0].u - 57.0).abs() < 1e-9);
        assert_eq!(short.adds(&lapped(Goods::Underlayment, 4.0)), [rule]);
    }
}
