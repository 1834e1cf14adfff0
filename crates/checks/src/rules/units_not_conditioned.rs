//! # Units not conditioned
//!
//! ## What it finds
//! Moulded units that have not lain warm enough for long enough before they are laid: 45 °F or more for 24 hours, or what the sheet says.
//! ## Why it matters
//! A unit that is cold inside is smaller and more brittle than it looks: it breaks under the nail and buckles in the sun.
//! ## Remedy
//! Store them flat where it is warm, and lay them on a later day.
//! ## Source
//! The covering's data sheet, temperatures; where it is silent, for moulded units, common practice, no published source.

use covering::Material;
use units::Temperature;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "units-not-conditioned",
    kind: Kind::Practice,
    family: Family::Weather,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Memory,
    about: "laying.hours_conditioned",
    groups: &[],
    file: include_str!("units_not_conditioned.rs"),
    run: units_not_conditioned,
};

/// How warm, and for how many hours.
fn needed(facts: &Facts) -> Option<(Temperature, f64)> {
    let coverings = facts.coverings();
    let (_, covering) = coverings.first()?;
    let is_moulded = covering.material == Material::CompositeSlate;
    let usual = is_moulded.then(|| (Temperature::fahrenheit(figure!(45.0)), figure!(24.0)));
    let told = covering.conditions.temperatures;
    let from = told.conditioned_from.or(usual.map(|(from, _)| from))?;
    let hours = told.conditioned_hours.or(usual.map(|(_, hours)| hours))?;
    Some((from, hours))
}

fn units_not_conditioned(facts: &Facts) -> Verdict {
    let Some((from, hours)) = needed(facts) else {
        return Verdict::not_applicable("These units need no conditioning that is known of.");
    };
    let (Some(units), Some(lay)) = (facts.laying.unit_temperature, facts.laying.hours_conditioned) else {
        let given = [facts.laying.unit_temperature.is_some(), facts.laying.hours_conditioned.is_some()];
        let keys = ["[laying] unit_temperature", "[laying] hours_conditioned"];
        return Verdict::missing(&absent(&given.into_iter().zip(keys).collect::<Vec<_>>()));
    };
    let says = format!("The units lay {lay} h at {units}; they need {hours} h at {from} or more.");
    Verdict::judged(units >= from && lay >= hours, says)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn conditioned(fahrenheit: f64, hours: f64) -> Trial {
        let mut trial = Trial::sound();
        trial.laying.unit_temperature = Some(Temperature::fahrenheit(fahrenheit));
        trial.laying.hours_conditioned = Some(hours);
        trial
    }

    /// 45 °F or more for 24 h: common practice, no published source.
    #[test]
    fn a_day_at_forty_five_will_do() {
        let outcome = |fahrenheit, hours| conditioned(fahrenheit, hours).outcome("units-not-conditioned");
        assert_eq!(
            [outcome(45.0, 24.0), outcome(44.9, 24.0), outcome(45.0, 23.9)],
            [Outcome::Pass, Outcome::Fail, Outcome::Fail]
        );
        let cold = conditioned(60.0, 12.0);
        assert_eq!(cold.says("units-not-conditioned"), "The units lay 12 h at 60 °F; they need 24 h at 45 °F or more.");
        assert_eq!(cold.adds(&conditioned(60.0, 24.0)), ["units-not-conditioned"]);
    }

    #[test]
    fn the_sheet_rules() {
        let mut trial = conditioned(40.0, 48.0);
        trial.covering.conditions.temperatures.conditioned_from = Some(Temperature::fahrenheit(40.0));
        trial.covering.conditions.temperatures.conditioned_hours = Some(48.0);
        assert_eq!(trial.outcome("units-not-conditioned"), Outcome::Pass);
        trial.laying.hours_conditioned = Some(47.0);
        assert_eq!(trial.outcome("units-not-conditioned"), Outcome::Fail);
        assert_eq!(Trial::of(Material::NaturalSlate).outcome("units-not-conditioned"), Outcome::NotApplicable);
        let says = "The job does not give [laying] unit_temperature and [laying] hours_conditioned.";
        assert_eq!(Trial::sound().says("units-not-conditioned"), says);
    }
}
