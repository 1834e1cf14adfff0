//! # Stored outside limits
//!
//! ## What it finds
//! Units stored colder or hotter than their sheet allows.
//! ## Why it matters
//! Stacks that are too hot take a set and never lie flat again; too cold ones break when the bundle is opened.
//! ## Remedy
//! Move the stacks into shade or shelter, flat and off the ground.
//! ## Source
//! The covering's data sheet, storing temperatures.

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "stored-outside-limits",
    kind: Kind::Maker,
    family: Family::Weather,
    endangers: &[Danger::Warranty],
    reading: Reading::Read,
    about: "laying.store_temperature",
    groups: &["temperatures"],
    file: include_str!("stored_outside_limits.rs"),
    run: stored_outside_limits,
};

fn stored_outside_limits(facts: &Facts) -> Verdict {
    let Some(stored) = facts.laying.store_temperature else {
        return Verdict::missing(&["[laying] store_temperature"]);
    };
    let coverings = facts.coverings();
    let Some([least, most]) = coverings.iter().find_map(|(_, covering)| covering.conditions.temperatures.stored) else {
        return Verdict::not_in_sheet("storing temperatures, [temperatures] stored");
    };
    let says = format!("The units are stored at {stored}; the sheet allows {least} to {most}.");
    Verdict::judged((least..=most).contains(&stored), says)
}

#[cfg(test)]
mod tests {
    use units::Temperature;

    use crate::Outcome;
    use crate::trial::Trial;

    fn stored(fahrenheit: f64) -> Trial {
        let mut trial = Trial::sound();
        trial.covering.conditions.temperatures.stored = Some([10.0, 110.0].map(Temperature::fahrenheit));
        trial.laying.store_temperature = Some(Temperature::fahrenheit(fahrenheit));
        trial
    }

    #[test]
    fn both_limits_are_allowed() {
        let outcome = |fahrenheit| stored(fahrenheit).outcome("stored-outside-limits");
        assert_eq!(
            [outcome(10.0), outcome(110.0), outcome(9.9), outcome(110.1)],
            [Outcome::Pass, Outcome::Pass, Outcome::Fail, Outcome::Fail]
        );
        let hot = stored(120.0);
        assert_eq!(hot.says("stored-outside-limits"), "The units are stored at 120 °F; the sheet allows 10 °F to 110 °F.");
        assert_eq!(hot.adds(&stored(70.0)), ["stored-outside-limits"]);
        let mut silent = stored(70.0);
        silent.covering.conditions.temperatures.stored = None;
        assert_eq!(silent.outcome("stored-outside-limits"), Outcome::NotApplicable);
        assert_eq!(Trial::sound().says("stored-outside-limits"), "The job does not give [laying] store_temperature.");
    }
}
