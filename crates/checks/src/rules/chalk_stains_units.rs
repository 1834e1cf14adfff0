//! # Chalk stains units
//!
//! ## What it finds
//! Chalk of a colour that the covering's sheet names as one that stains.
//! ## Why it matters
//! Some colours never wash off: every course line stays visible from the street.
//! ## Remedy
//! Use another colour, or snap the lines on the underlayment alone.
//! ## Source
//! The covering's data sheet, chalk.

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "chalk-stains-units",
    kind: Kind::Maker,
    family: Family::Weather,
    endangers: &[Danger::Warranty],
    reading: Reading::Read,
    about: "laying.chalk",
    groups: &["chalk"],
    file: include_str!("chalk_stains_units.rs"),
    run: chalk_stains_units,
};

fn chalk_stains_units(facts: &Facts) -> Verdict {
    let Some(chalk) = facts.laying.chalk.as_deref() else {
        return Verdict::missing(&["[laying] chalk"]);
    };
    let coverings = facts.coverings();
    let stained_by: Vec<&String> = coverings.iter().flat_map(|(_, covering)| &covering.conditions.stained_by).collect();
    if stained_by.is_empty() {
        return Verdict::not_in_sheet("the chalk that stains, [chalk] stains");
    }
    if stained_by.iter().any(|colour| colour.eq_ignore_ascii_case(chalk)) {
        Verdict::judged(false, format!("The lines are snapped in {chalk}, which stains these units."))
    } else {
        Verdict::pass(format!("The lines are snapped in {chalk}, of which the sheet says nothing bad."))
    }
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::Trial;

    fn snapped(chalk: &str) -> Trial {
        let mut trial = Trial::sound();
        trial.covering.conditions.stained_by = vec!["red".into()];
        trial.laying.chalk = Some(chalk.into());
        trial
    }

    #[test]
    fn red_stays() {
        assert_eq!(snapped("blue").outcome("chalk-stains-units"), Outcome::Pass);
        assert_eq!(snapped("Red").adds(&snapped("blue")), ["chalk-stains-units"]);
        assert_eq!(snapped("red").says("chalk-stains-units"), "The lines are snapped in red, which stains these units.");
        let mut silent = snapped("red");
        silent.covering.conditions.stained_by.clear();
        assert_eq!(silent.outcome("chalk-stains-units"), Outcome::NotApplicable);
        assert_eq!(Trial::sound().says("chalk-stains-units"), "The job does not give [laying] chalk.");
    }
}
