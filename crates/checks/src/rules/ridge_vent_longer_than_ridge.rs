//! # Ridge vent longer than ridge
//!
//! ## What it finds
//! Roofs that need more feet of ridge vent for the upper share of the attic's net free area than their ridges have between the
//! closed ends.
//! ## Why it matters
//! What the ridge cannot let out stays in the attic, however much the eaves let in.
//! ## Remedy
//! Take a vent with more net free area to the foot, or roof vents no more than 3 ft below the ridge; no gable vents.
//! ## Source
//! Length of the ridges from this roof, net free area from the vent's maker, upper share by the International Residential Code, R806.2, quoted.

use units::Length;

use crate::facts::attic::Air;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "ridge-vent-longer-than-ridge",
    kind: Kind::Practice,
    family: Family::Vents,
    endangers: &[Danger::Code, Danger::Warranty],
    reading: Reading::Memory,
    about: "attic.ridge_vent",
    groups: &[],
    file: include_str!("ridge_vent_longer_than_ridge.rs"),
    run: ridge_vent_longer_than_ridge,
};

fn ridge_vent_longer_than_ridge(facts: &Facts) -> Verdict {
    let Some(vents) = &facts.details.vents else { return Verdict::missing(&["[attic]"]) };
    let Some(vent) = facts.attic.and_then(|attic| attic.ridge_vent) else {
        return Verdict::missing(&["[attic.ridge_vent]"]);
    };
    let upper = vents.needed.to_square_inches() * Air::shares(facts.site.code)[0];
    let needed = Length::feet(upper / vent.nfa_per_foot.to_square_inches());
    let is = Length::inches(vents.ridges.iter().map(|run| run.to - run.from).sum());
    let says = format!(
        "{needed} of ridge vent are needed for {upper:.0} sq in above; the ridges have {is} between their closed ends."
    );
    Verdict::judged(needed.to_inches() <= is.to_inches() + crate::tally::SLACK, says)
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::Trial;

    const RULE_NAME: &str = "ridge-vent-longer-than-ridge";

    /// 40 % of 720 sq in are 288: 16 ft of a vent of 18 sq in to the foot, by hand.
    #[test]
    fn sixteen_feet_are_needed() {
        let ridge = |feet: f64| Trial::vented(300, feet * 18.0, 500.0);
        assert_eq!([16.0, 15.99].map(|feet| ridge(feet).outcome(RULE_NAME)), [Outcome::Pass, Outcome::Fail]);
        let says =
            "16' 0\" of ridge vent are needed for 288 sq in above; the ridges have 12' 0\" between their closed ends.";
        assert_eq!(ridge(12.0).says(RULE_NAME), says);
        assert_eq!(Trial::sound().says(RULE_NAME), "The job does not give [attic].");
        let mut none = ridge(16.0);
        none.attic.iter_mut().for_each(|attic| attic.ridge_vent = None);
        assert_eq!(none.says(RULE_NAME), "The job does not give [attic.ridge_vent].");
    }
}
