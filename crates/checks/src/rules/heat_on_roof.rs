//! # Heat on roof
//!
//! ## What it finds
//! Work in air of 80 °F or more.
//! ## Why it matters
//! A roof in the sun is far hotter than the air; heat stroke comes quickly, and on a roof it also ends in a fall.
//! ## Remedy
//! Water, shade, rest, early hours, and nobody new to the heat alone; local law and your own plan decide.
//! ## Source
//! Common practice, no published source; plans of public agencies begin near this temperature, from memory, not read.

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "heat-on-roof",
    kind: Kind::Practice,
    family: Family::People,
    endangers: &[Danger::Safety],
    reading: Reading::Memory,
    about: "laying.air_temperature",
    groups: &[],
    file: include_str!("heat_on_roof.rs"),
    run: heat_on_roof,
};

fn heat_on_roof(facts: &Facts) -> Verdict {
    let Some(air) = facts.laying.air_temperature else {
        return Verdict::missing(&["[laying] air_temperature"]);
    };
    if air.to_fahrenheit() < figure!(80.0) {
        Verdict::pass(format!("The air is at {air}."))
    } else {
        Verdict::attention(format!("The air is at {air}: water, shade, rest, and nobody alone."))
    }
}

#[cfg(test)]
mod tests {
    use units::Temperature;

    use crate::Outcome;
    use crate::trial::Trial;

    #[test]
    fn eighty_is_hot() {
        let at = |fahrenheit| {
            let mut trial = Trial::sound();
            trial.laying.air_temperature = Some(Temperature::fahrenheit(fahrenheit));
            trial
        };
        assert_eq!([at(80.0), at(79.9)].map(|trial| trial.outcome("heat-on-roof")), [Outcome::Attention, Outcome::Pass]);
        assert_eq!(at(95.0).adds(&at(70.0)), ["heat-on-roof"]);
        assert_eq!(at(95.0).says("heat-on-roof"), "The air is at 95 °F: water, shade, rest, and nobody alone.");
        assert_eq!(Trial::sound().says("heat-on-roof"), "The job does not give [laying] air_temperature.");
    }
}
