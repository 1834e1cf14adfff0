//! # Nail too short
//!
//! ## What it finds
//! Nails that are shorter than everything they pass above the deck (the units that lie over each other where they are nailed,
//! underlayment, interlayment) and what the covering's sheet asks for in the deck, or all of the deck where it is thinner than
//! that.
//! ## Why it matters
//! A nail that does not hold in the deck lifts with the wind and lets the unit slide.
//! ## Remedy
//! Use the next longer nail of the sheet; where the deck is open below, ask whether points may show.
//! ## Source
//! The covering's data sheet, nails.

use covering::Covering;
use units::Length;

use crate::facts::stack::{passed, thickness, told};
use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::tally::{Bound, Tally};
use crate::{Facts, Family, Reading};

pub(crate) const RULE: Rule = Rule {
    name: "nail-too-short",
    kind: Kind::Maker,
    family: Family::Fastening,
    endangers: &[Danger::Leak, Danger::Warranty, Danger::Safety],
    reading: Reading::Read,
    about: "fastener.length",
    groups: &["nails", "unit"],
    file: include_str!("nail_too_short.rs"),
    run: nail_too_short,
};

fn nail_too_short(facts: &Facts) -> Verdict {
    let (Some(nail), Some(deck)) = (facts.fastener.length, facts.deck.thickness) else {
        let [nail, deck] = [facts.fastener.length.is_some(), facts.deck.thickness.is_some()];
        return Verdict::missing(&absent(&[(nail, "[fastener] length"), (deck, "[deck] thickness")]));
    };
    let mut lengths = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let Some(passed) = passed(facts, laid.covering) else { continue };
        let needed = thickness(passed) + hold(laid.covering, deck);
        lengths.add(nail.to_inches(), needed.to_inches(), laid.place(0));
    }
    lengths.verdict(
        |shortest| {
            let [is, needed] = shortest.inches();
            let covering = facts.covering(shortest.place.plane);
            let why = covering.map_or_else(String::new, |covering| reckoned(facts, covering, deck));
            format!("The nail is {is} long; {} needs {needed}{why}", facts.plane_name(shortest.place))
        },
        |place| facts.name_of(place),
        "No plane is laid.",
    )
}

/// Into the deck, or through it where it is thinner.
fn hold(covering: &Covering, deck: Length) -> Length {
    Length::inches(covering.nails.penetration.to_inches().min(deck.to_inches()))
}

fn reckoned(facts: &Facts, covering: &Covering, deck: Length) -> String {
    let above = told(passed(facts, covering).unwrap_or_default());
    let hold = hold(covering, deck);
    let into = if hold < covering.nails.penetration { "through the deck" } else { "into the deck" };
    format!(": {above}, and {} {into}", hold.in_inches())
}

#[cfg(test)]
mod tests {
    use details::Passed;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn with(nail: f64, deck: f64) -> Trial {
        let mut trial = Trial::sound();
        trial.fastener.length = Some(Length::inches(nail));
        trial.deck.thickness = Some(Length::inches(deck));
        trial
    }

    /// Two nails, into the deck by at least 3/4 in (common practice, no published source); through two units of 1/4 in.
    #[test]
    fn a_thick_deck_asks_for_the_full_penetration() {
        assert_eq!(with(1.25, 1.5).outcome("nail-too-short"), Outcome::Pass);
        let trial = with(1.1875, 1.5);
        let checked = trial.one("nail-too-short");
        assert_eq!(checked.outcome, Outcome::Fail);
        let says = "The nail is 1-3/16\" long; house, south needs 1-1/4\": 1/2\" of 2 units, and 3/4\" into the deck.";
        assert_eq!(checked.says, says);
        assert_eq!(checked.places.len(), 1);
    }

    #[test]
    fn a_thin_deck_asks_for_a_nail_through_it() {
        assert_eq!(with(1.0, 0.5).outcome("nail-too-short"), Outcome::Pass);
        let trial = with(0.9375, 0.5);
        assert!(trial.one("nail-too-short").says.ends_with("1/2\" through the deck."));
    }

    /// Whatever lies between unit and deck is passed too: three layers of felt, 1/32 in each, make it 1-11/32 in.
    #[test]
    fn underlayment_is_passed() {
        let felted = |nail| {
            let mut trial = with(nail, 1.5);
            let felt = Passed { what: "underlayment", layers: 3, thickness: Length::inches(0.09375) };
            trial.details.nails[0].passes.push(felt);
            trial
        };
        assert_eq!([1.34375, 1.34].map(|nail| felted(nail).outcome("nail-too-short")), [Outcome::Pass, Outcome::Fail]);
        let says = "The nail is 1-1/4\" long; house, south needs 1-3/8\": 1/2\" of 2 units, 1/8\" of 3 layers of underlayment, and \
                    3/4\" into the deck.";
        assert_eq!(felted(1.25).says("nail-too-short"), says);
        assert_eq!(felted(1.25).adds(&felted(1.5)), ["nail-too-short"]);
    }

    #[test]
    fn what_is_missing_is_named() {
        let mut trial = Trial::sound();
        trial.deck.thickness = None;
        assert_eq!(trial.one("nail-too-short").says, "The job does not give [deck] thickness.");
        trial.fastener.length = None;
        let checked = trial.one("nail-too-short");
        assert_eq!(checked.outcome, Outcome::NotApplicable);
        assert_eq!(checked.says, "The job does not give [fastener] length and [deck] thickness.");
    }
}
