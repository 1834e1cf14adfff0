//! # Fire class below site
//!
//! ## What it finds
//! Coverings whose best tested class under fire from outside is below the one that the place asks for. It tells the layers with
//! which the class was reached, and is never more than looked at: with other layers there is no class.
//! ## Why it matters
//! A roof without its class is refused where brands fly, and the class belongs to the whole build-up, not to the unit.
//! ## Remedy
//! Lay exactly the layers of the test, or choose a covering or build-up of the class that is asked for.
//! ## Source
//! The covering's data sheet, tested fire classes.

use covering::FireTest;

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "fire-class-below-site",
    kind: Kind::Maker,
    family: Family::Tested,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::Read,
    about: "site.fire_class",
    groups: &["tested"],
    file: include_str!("fire_class_below_site.rs"),
    run: fire_class_below_site,
};

fn fire_class_below_site(facts: &Facts) -> Verdict {
    let Some(asked) = facts.site.fire_class else {
        return Verdict::missing(&["[site] fire_class"]);
    };
    let coverings = facts.coverings();
    let tests = coverings.iter().flat_map(|(_, covering)| &covering.conditions.tested.fire);
    let Some(best) = tests.min_by_key(|test| test.class) else {
        return Verdict::not_in_sheet("a class under fire, [tested] fire");
    };
    let says =
        format!("Class {} by {}, {}; class {} is asked for.", best.class.name(), best.test, layers(best), asked.name());
    Verdict::judged(best.class <= asked, says).at_best_attention()
}

fn layers(test: &FireTest) -> String {
    format!("with {} and no other layers", test.layers.join(" over "))
}

#[cfg(test)]
mod tests {
    use covering::FireClass;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn tested(is: FireClass, asked: FireClass) -> Trial {
        let mut trial = Trial::sound();
        let layers = ["unit", "cap sheet", "plywood"].map(str::to_owned).to_vec();
        trial.covering.conditions.tested.fire = vec![FireTest { class: is, test: "ASTM E108".into(), layers }];
        trial.site.fire_class = Some(asked);
        trial
    }

    /// A is the best, C the least (ASTM E108, from memory, not read).
    #[test]
    fn a_better_class_will_do() {
        use FireClass::{A, B, C};
        let outcome = |is, asked| tested(is, asked).outcome("fire-class-below-site");
        assert_eq!([outcome(A, A), outcome(A, C), outcome(B, B)], [Outcome::Attention; 3]);
        assert_eq!([outcome(B, A), outcome(C, B)], [Outcome::Fail; 2]);
        let says = "Class B by ASTM E108, with unit over cap sheet over plywood and no other layers; class A is asked for.";
        assert_eq!(tested(B, A).says("fire-class-below-site"), says);
        assert_eq!(tested(B, A).adds(&tested(A, A)), ["fire-class-below-site"]);
    }

    #[test]
    fn what_is_absent_is_named() {
        let mut trial = tested(FireClass::A, FireClass::A);
        trial.covering.conditions.tested.fire.clear();
        let says = "The covering's sheet does not give a class under fire, [tested] fire.";
        assert_eq!(trial.says("fire-class-below-site"), says);
        assert_eq!(Trial::sound().says("fire-class-below-site"), "The job does not give [site] fire_class.");
    }
}
