//! # Attic vents too small
//!
//! ## What it finds
//! Attics whose ridge and soffit vents together give less net free area than a 150th of the floor; a 300th where the edition
//! allows it and the vents are in truth shared as it asks.
//! ## Why it matters
//! Moist air from the house condenses under a cold deck, and in summer the heat under it ages units and sheets.
//! ## Remedy
//! Take vents with more net free area to the foot, or vent along more of the ridge and the eaves.
//! ## Source
//! International Residential Code, R806.2: 2012 (1/300 by one condition) and 2009 as pages quote them, 2015 to 2024 (both conditions) from memory, not read.

use crate::facts::attic::{Air, air};
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "attic-vents-too-small",
    kind: Kind::Code,
    family: Family::Vents,
    endangers: &[Danger::Code, Danger::Warranty],
    reading: Reading::Memory,
    about: "attic",
    groups: &[],
    file: include_str!("attic_vents_too_small.rs"),
    run: attic_vents_too_small,
};

fn attic_vents_too_small(facts: &Facts) -> Verdict {
    let (vents, air) = match air(facts) {
        Ok(air) => air,
        Err(missing) => return missing,
    };
    let lesser = vents.share != 150 && air.earns_the_lesser_share(facts);
    let share = if lesser { figure!(300.0) } else { figure!(150.0) };
    let needed = vents.floor.to_square_inches() / share;
    let why = match (vents.share, lesser) {
        (300, false) => "the ridges and eaves do not share it as the code asks for less",
        _ => &vents.why,
    };
    let Air { upper, lower } = air;
    let says = format!(
        "The attic of {:.0} sq ft needs {needed:.0} sq in of net free area (1/{share:.0}: {why}); ridges give {upper:.0} and eaves \
         {lower:.0}.",
        vents.floor.to_square_feet()
    );
    Verdict::judged(upper + lower >= needed - crate::tally::SLACK, says)
}

#[cfg(test)]
mod tests {
    use crate::trial::Trial;
    use crate::{Edition, Outcome};

    const RULE_NAME: &str = "attic-vents-too-small";

    /// 1,500 sq ft: 1,440 sq in at 1/150, 720 at 1/300, by hand.
    #[test]
    fn a_hundred_and_fiftieth_or_a_three_hundredth() {
        let outcome = |share, upper, lower| Trial::vented(share, upper, lower).outcome(RULE_NAME);
        assert_eq!([outcome(150, 640.0, 800.0), outcome(150, 640.0, 799.0)], [Outcome::Attention, Outcome::Fail]);
        assert_eq!([outcome(300, 320.0, 400.0), outcome(300, 320.0, 399.0)], [Outcome::Attention, Outcome::Fail]);
        let says = "The attic of 1500 sq ft needs 720 sq in of net free area (1/300: vents are balanced and a vapour retarder is \
                    there); ridges give 300 and eaves 400. The text of the 2018 edition was not read.";
        assert_eq!(Trial::vented(300, 300.0, 400.0).says(RULE_NAME), says);
        assert_eq!(Trial::vented(300, 320.0, 399.0).adds(&Trial::vented(300, 320.0, 400.0)), [RULE_NAME]);
    }

    /// 40 to 50 % above, 50 to 80 % in 2009; where the share is not kept, 1/150 counts, but in 2009 and 2012 a retarder
    /// alone earns 1/300 too.
    #[test]
    fn the_lesser_share_must_be_earned() {
        let by = |code, upper, lower, retarder| {
            let mut trial = Trial::vented(300, upper, lower);
            trial.site.code = Some(code);
            trial.attic.iter_mut().for_each(|attic| attic.vapor_retarder = Some(retarder));
            trial.outcome(RULE_NAME)
        };
        use Edition::{Of2009, Of2012, Of2018};
        // A third above.
        assert_eq!(by(Of2018, 300.0, 600.0, true), Outcome::Fail);
        assert_eq!(by(Of2012, 300.0, 600.0, true), Outcome::Attention);
        assert_eq!(by(Of2012, 280.0, 600.0, false), Outcome::Fail);
        // 60 % above.
        assert_eq!([by(Of2009, 540.0, 360.0, false), by(Of2018, 540.0, 360.0, true)], [Outcome::Attention, Outcome::Fail]);
        let says = Trial::vented(300, 280.0, 600.0).says(RULE_NAME);
        assert!(says.contains("(1/150: the ridges and eaves do not share it as the code asks for less)"), "{says}");
    }

    #[test]
    fn what_is_absent_is_named() {
        assert_eq!(Trial::sound().says(RULE_NAME), "The job does not give [attic].");
        let mut trial = Trial::vented(150, 700.0, 700.0);
        trial.attic.iter_mut().for_each(|attic| attic.soffit_vent = None);
        assert_eq!(trial.says(RULE_NAME), "The job does not give [attic.soffit_vent].");
    }
}
