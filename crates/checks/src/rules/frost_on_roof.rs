//! # Frost on roof
//!
//! ## What it finds
//! Work in air at or below freezing.
//! ## Why it matters
//! Frost is not seen on slate and moulded units until a foot slides on it.
//! ## Remedy
//! No foot on the roof until it is dry; work from brackets and roof ladders.
//! ## Source
//! Common practice, no published source.

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "frost-on-roof",
    kind: Kind::Practice,
    family: Family::People,
    endangers: &[Danger::Safety],
    reading: Reading::Memory,
    about: "laying.air_temperature",
    groups: &[],
    file: include_str!("frost_on_roof.rs"),
    run: frost_on_roof,
};

fn frost_on_roof(facts: &Facts) -> Verdict {
    let Some(air) = facts.laying.air_temperature else {
        return Verdict::missing(&["[laying] air_temperature"]);
    };
    if air.to_fahrenheit() > figure!(32.0) {
        Verdict::pass(format!("The air is at {air}."))
    } else {
        Verdict::attention(format!("The air is at {air}: nobody sets foot on frost."))
    }
}

#[cfg(test)]
mod tests {
    use units::Temperature;

    use crate::Outcome;
    use crate::trial::Trial;

    /// Water freezes at 32 °F.
    #[test]
    fn frost_begins_at_freezing() {
        let at = |fahrenheit| {
            let mut trial = Trial::sound();
            trial.laying.air_temperature = Some(Temperature::fahrenheit(fahrenheit));
            trial
        };
        assert_eq!([at(32.0), at(32.1)].map(|trial| trial.outcome("frost-on-roof")), [Outcome::Attention, Outcome::Pass]);
        assert_eq!(at(20.0).adds(&at(40.0)), ["frost-on-roof"]);
        assert_eq!(at(20.0).says("frost-on-roof"), "The air is at 20 °F: nobody sets foot on frost.");
        assert_eq!(Trial::sound().says("frost-on-roof"), "The job does not give [laying] air_temperature.");
    }
}
