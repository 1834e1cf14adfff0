//! # Laid too cold
//!
//! ## What it finds
//! Moulded units laid colder than they may be: by hand from 32 °F, by nail gun from 45 °F, or as the sheet says.
//! ## Why it matters
//! Cold units crack under the hammer and shatter under a gun, often only seen when they leak.
//! ## Remedy
//! Wait, warm the units, or put the gun away and drive by hand.
//! ## Source
//! The covering's data sheet, temperatures; where it is silent, for moulded units, common practice, no published source.

use covering::Material;
use units::Temperature;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::text::Reading;
use crate::{Drive, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "laid-too-cold",
    kind: Kind::Practice,
    family: Family::Weather,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Memory,
    about: "laying.unit_temperature",
    groups: &[],
    file: include_str!("laid_too_cold.rs"),
    run: laid_too_cold,
};

/// From which temperature up.
fn least(facts: &Facts, drive: Drive) -> Option<Temperature> {
    let coverings = facts.coverings();
    let (_, covering) = coverings.first()?;
    let is_moulded = covering.material == Material::CompositeSlate;
    let told = covering.conditions.temperatures;
    let (told, usual) = match drive {
        Drive::Hand => (told.by_hand_from, figure!(32.0)),
        Drive::Gun => (told.by_gun_from, figure!(45.0)),
    };
    told.or(is_moulded.then_some(Temperature::fahrenheit(usual)))
}

fn laid_too_cold(facts: &Facts) -> Verdict {
    let (Some(units), Some(drive)) = (facts.laying.unit_temperature, facts.fastener.drive) else {
        let given = [facts.laying.unit_temperature.is_some(), facts.fastener.drive.is_some()];
        let keys = ["[laying] unit_temperature", "[fastener] drive"];
        return Verdict::missing(&absent(&given.into_iter().zip(keys).collect::<Vec<_>>()));
    };
    let Some(least) = least(facts, drive) else {
        return Verdict::not_applicable("Nothing is known of a least temperature for these units.");
    };
    let how = if drive == Drive::Gun { "by nail gun" } else { "by hand" };
    Verdict::judged(units >= least, format!("The units are laid {how} at {units}; {least} is the least."))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn laid(fahrenheit: f64, drive: Drive) -> Trial {
        let mut trial = Trial::sound();
        trial.laying.unit_temperature = Some(Temperature::fahrenheit(fahrenheit));
        trial.fastener.drive = Some(drive);
        trial
    }

    /// By hand from 32 °F, no nail gun below 45 °F: common practice, no published source.
    #[test]
    fn hands_may_work_colder_than_guns() {
        let outcome = |fahrenheit, drive| laid(fahrenheit, drive).outcome("laid-too-cold");
        assert_eq!([outcome(32.0, Drive::Hand), outcome(31.9, Drive::Hand)], [Outcome::Pass, Outcome::Fail]);
        assert_eq!([outcome(45.0, Drive::Gun), outcome(44.9, Drive::Gun)], [Outcome::Pass, Outcome::Fail]);
        let cold = laid(40.0, Drive::Gun);
        assert_eq!(cold.says("laid-too-cold"), "The units are laid by nail gun at 40 °F; 45 °F is the least.");
        assert_eq!(cold.adds(&laid(50.0, Drive::Gun)), ["laid-too-cold"]);
    }

    #[test]
    fn the_sheet_rules() {
        let mut trial = laid(22.0, Drive::Hand);
        trial.covering.conditions.temperatures.by_hand_from = Some(Temperature::fahrenheit(20.0));
        assert_eq!(trial.outcome("laid-too-cold"), Outcome::Pass);
        trial.covering.material = Material::NaturalSlate;
        trial.covering.conditions.temperatures.by_hand_from = None;
        assert_eq!(trial.outcome("laid-too-cold"), Outcome::NotApplicable);
        assert_eq!(Trial::sound().says("laid-too-cold"), "The job does not give [laying] unit_temperature.");
    }
}
