//! # Vents out of balance
//!
//! ## What it finds
//! Attics whose ridges give less than 40 % or more than 50 % of the net free area (by the edition of 2009 less than 50 % or
//! more than 80 %). Where no lesser share hangs on it, it only wants a look.
//! ## Why it matters
//! A ridge that lets out more than the eaves let in draws from the rooms, or sucks snow and rain in; eaves alone move no air.
//! ## Remedy
//! Share the vents evenly between ridges and eaves; close what stands between them, gable vents too.
//! ## Source
//! International Residential Code, R806.2: 2012 and 2009 as pages quote them, 2015 to 2024 from memory, not read; balanced vents are common practice.

use crate::facts::attic::{Air, air};
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "vents-out-of-balance",
    kind: Kind::Code,
    family: Family::Vents,
    endangers: &[Danger::Code, Danger::Warranty],
    reading: Reading::Memory,
    about: "attic",
    groups: &[],
    file: include_str!("vents_out_of_balance.rs"),
    run: vents_out_of_balance,
};

fn vents_out_of_balance(facts: &Facts) -> Verdict {
    let (vents, air) = match air(facts) {
        Ok(air) => air,
        Err(missing) => return missing,
    };
    let Air { upper, lower } = air;
    let [least, most] = Air::shares(facts.site.code).map(|share| share * 100.0);
    let says = format!(
        "Ridges give {upper:.0} and eaves {lower:.0} sq in: {:.0} % above, where {least:.0} to {most:.0} % are asked for.",
        air.upper_share() * 100.0
    );
    let verdict = Verdict::judged(air.is_balanced(facts), says);
    if vents.share == 150 || air.is_earned_otherwise(facts) { verdict.looked_at() } else { verdict }
}

#[cfg(test)]
mod tests {
    use crate::trial::Trial;
    use crate::{Edition, Outcome};

    const RULE_NAME: &str = "vents-out-of-balance";

    fn outcome(code: Edition, upper: f64, lower: f64) -> Outcome {
        let mut trial = Trial::vented(300, upper, lower);
        trial.site.code = Some(code);
        trial.attic.iter_mut().for_each(|attic| attic.vapor_retarder = Some(false));
        trial.outcome(RULE_NAME)
    }

    /// 40 to 50 % in the upper part: International Residential Code 2012, R806.2, as a page quotes it; 50 to 80 % in 2009.
    #[test]
    fn from_two_fifths_to_a_half_above() {
        for code in [Edition::Of2012, Edition::Of2018, Edition::Of2024] {
            assert_eq!([outcome(code, 400.0, 600.0), outcome(code, 399.0, 601.0)], [Outcome::Attention, Outcome::Fail]);
            assert_eq!([outcome(code, 500.0, 500.0), outcome(code, 501.0, 499.0)], [Outcome::Attention, Outcome::Fail]);
        }
        let code = Edition::Of2009;
        assert_eq!([outcome(code, 500.0, 500.0), outcome(code, 499.0, 501.0)], [Outcome::Attention, Outcome::Fail]);
        assert_eq!([outcome(code, 800.0, 200.0), outcome(code, 801.0, 199.0)], [Outcome::Attention, Outcome::Fail]);
    }

    #[test]
    fn what_is_told() {
        let says = "Ridges give 600 and eaves 400 sq in: 60 % above, where 40 to 50 % are asked for. The text of the 2018 edition \
                    was not read.";
        assert_eq!(Trial::vented(300, 600.0, 400.0).says(RULE_NAME), says);
        let mut spoiled = Trial::vented(300, 950.0, 700.0);
        assert_eq!(spoiled.adds(&Trial::vented(300, 700.0, 750.0)), [RULE_NAME]);
        // At 1/150 nothing hangs on it.
        spoiled.details.vents.iter_mut().for_each(|vents| vents.share = 150);
        assert_eq!(spoiled.outcome(RULE_NAME), Outcome::Attention);
        assert!(spoiled.says(RULE_NAME).starts_with("Ridges give 950"));
    }
}
