//! # Underlayment held too loosely
//!
//! ## What it finds
//! Fasteners of the underlayment further apart than 6 in along laps or 12 in in the field where the basic wind is 140 miles an
//! hour or more.
//! ## Why it matters
//! Before units are laid the wind lifts the sheet at its laps; in a gale that takes the units, it is the only roof left.
//! ## Remedy
//! Set [dry_in.fasteners] at_laps and in_field to what the code asks, with cap nails or cap staples.
//! ## Source
//! International Building Code 2018, Table 1507.1.1(3), read; taken for R905.1.1 of the residential code.

use units::Length;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "underlayment-held-too-loosely",
    kind: Kind::Code,
    family: Family::DryIn,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::In(&[Edition::Of2018]),
    about: "dry_in.fasteners",
    groups: &[],
    file: include_str!("underlayment_held_too_loosely.rs"),
    run: underlayment_held_too_loosely,
};

fn underlayment_held_too_loosely(facts: &Facts) -> Verdict {
    let Some(mph) = facts.site.wind_mph else { return Verdict::missing(&["[site] wind_mph"]) };
    let Some(grid) = facts.details.dry_in.fasteners else {
        return Verdict::not_applicable("No underlayment is laid.");
    };
    if mph < figure!(140.0) {
        return Verdict::pass(format!("At {mph} mph underlayment is held so that it stays in place."));
    }
    let [at_laps, in_field] = [figure!(6.0), figure!(12.0)].map(Length::inches);
    let says = format!(
        "At {mph} mph fasteners of the underlayment are {} apart at laps and {} in the field; the code allows {} and {}.",
        grid.at_laps.in_inches(),
        grid.in_field.in_inches(),
        at_laps.in_inches(),
        in_field.in_inches()
    );
    Verdict::judged(grid.at_laps <= at_laps && grid.in_field <= in_field, says)
}

#[cfg(test)]
mod tests {
    use details::FastenerGrid;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    const RULE_NAME: &str = "underlayment-held-too-loosely";

    fn with(mph: f64, at_laps: f64, in_field: f64) -> Trial {
        let mut trial = Trial::sound();
        let [at_laps, in_field] = [at_laps, in_field].map(Length::inches);
        trial.details.dry_in.fasteners = Some(FastenerGrid { at_laps, in_field, box_count: 1000 });
        trial.site.wind_mph = Some(mph);
        trial
    }

    /// 6 in at laps, 12 in in the field, from 140 mph: International Building Code 2018, Table 1507.1.1(3).
    #[test]
    fn six_at_laps_and_twelve_in_the_field() {
        let outcome = |mph, at_laps, in_field| with(mph, at_laps, in_field).outcome(RULE_NAME);
        assert_eq!(outcome(140.0, 6.0, 12.0), Outcome::Pass);
        assert_eq!([outcome(140.0, 6.01, 12.0), outcome(140.0, 6.0, 12.01)], [Outcome::Fail; 2]);
        assert_eq!(outcome(139.0, 9.0, 24.0), Outcome::Pass);
        let says = "At 150 mph fasteners of the underlayment are 8\" apart at laps and 12\" in the field; the code allows 6\" \
                    and 12\".";
        assert_eq!(with(150.0, 8.0, 12.0).says(RULE_NAME), says);
        assert_eq!(with(150.0, 8.0, 12.0).adds(&with(150.0, 6.0, 12.0)), [RULE_NAME]);
        assert_eq!(Trial::sound().outcome(RULE_NAME), Outcome::NotApplicable);
    }
}
