//! # Impact class below site
//!
//! ## What it finds
//! Coverings whose tested impact class is below the one that is asked for here.
//! ## Why it matters
//! Hail breaks what was tested with smaller balls; insurers and some codes ask for a class.
//! ## Remedy
//! Choose a covering of the class that is asked for.
//! ## Source
//! The covering's data sheet, tested impact class.

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "impact-class-below-site",
    kind: Kind::Maker,
    family: Family::Tested,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Read,
    about: "site.impact_class",
    groups: &["tested"],
    file: include_str!("impact_class_below_site.rs"),
    run: impact_class_below_site,
};

fn impact_class_below_site(facts: &Facts) -> Verdict {
    let Some(asked) = facts.site.impact_class else {
        return Verdict::missing(&["[site] impact_class"]);
    };
    let coverings = facts.coverings();
    let tests = coverings.iter().filter_map(|(_, covering)| covering.conditions.tested.impact.as_ref());
    let Some(least) = tests.min_by_key(|test| test.class) else {
        return Verdict::not_in_sheet("an impact class, [tested] impact");
    };
    let says = format!("Class {} by {}; class {asked} is asked for.", least.class, least.test);
    Verdict::judged(least.class >= asked, says)
}

#[cfg(test)]
mod tests {
    use covering::ImpactTest;

    use crate::Outcome;
    use crate::trial::Trial;

    fn tested(is: u32, asked: u32) -> Trial {
        let mut trial = Trial::sound();
        trial.covering.conditions.tested.impact = Some(ImpactTest { class: is, test: "UL 2218".into() });
        trial.site.impact_class = Some(asked);
        trial
    }

    /// Of 1 to 4, 4 stands the largest ball (UL 2218, quoted: 1-1/4 in to 2 in of steel).
    #[test]
    fn a_higher_class_will_do() {
        let outcome = |is, asked| tested(is, asked).outcome("impact-class-below-site");
        assert_eq!([outcome(4, 3), outcome(3, 3), outcome(2, 3)], [Outcome::Pass, Outcome::Pass, Outcome::Fail]);
        assert_eq!(tested(2, 3).says("impact-class-below-site"), "Class 2 by UL 2218; class 3 is asked for.");
        assert_eq!(tested(2, 3).adds(&tested(3, 3)), ["impact-class-below-site"]);
        let mut silent = tested(1, 1);
        silent.covering.conditions.tested.impact = None;
        assert_eq!(silent.outcome("impact-class-below-site"), Outcome::NotApplicable);
        assert_eq!(Trial::sound().says("impact-class-below-site"), "The job does not give [site] impact_class.");
    }
}
