//! # Old roof may poison
//!
//! ## What it finds
//! Old coverings that come off a house built before 1980, where slate-like units may be asbestos cement and metal or paint may be lead.
//! ## Why it matters
//! Broken asbestos cement and dry-scraped lead harm the crew, the family and the neighbours, and their disposal is a matter of law.
//! ## Remedy
//! Have a sample tested before anything is torn off; stop if in doubt, and leave it to licensed people where the law asks for them.
//! ## Source
//! 29 CFR 1926.1101 asbestos and 1926.62 lead (United States), from memory, not read; the year is common practice, no published source.

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "old-roof-may-poison",
    kind: Kind::Practice,
    family: Family::People,
    endangers: &[Danger::Safety],
    reading: Reading::Memory,
    about: "deck.old_layers",
    groups: &[],
    file: include_str!("old_roof_may_poison.rs"),
    run: old_roof_may_poison,
};

fn old_roof_may_poison(facts: &Facts) -> Verdict {
    match (facts.deck.old_layers, facts.site.built) {
        (None, _) => Verdict::missing(&["[deck] old_layers"]),
        (Some(0), _) => Verdict::pass("Nothing old comes off."),
        (Some(_), None) => Verdict::attention("An old covering comes off, and the job does not give [site] built."),
        (Some(_), Some(year)) if f64::from(year) < figure!(1980.0) => {
            Verdict::attention(format!("An old covering comes off a house of {year}: test it for asbestos and lead first."))
        }
        (Some(_), Some(year)) => Verdict::pass(format!("The house was built in {year}.")),
    }
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::Trial;

    fn stripped(built: Option<u32>) -> Trial {
        let mut trial = Trial::sound();
        trial.deck.old_layers = Some(1);
        trial.site.built = built;
        trial
    }

    #[test]
    fn old_houses_are_tested_first() {
        let outcome = |built| stripped(built).outcome("old-roof-may-poison");
        assert_eq!(
            [outcome(Some(1979)), outcome(Some(1980)), outcome(None)],
            [Outcome::Attention, Outcome::Pass, Outcome::Attention]
        );
        let says = "An old covering comes off a house of 1925: test it for asbestos and lead first.";
        assert_eq!(stripped(Some(1925)).adds(&stripped(Some(1999))), ["old-roof-may-poison"]);
        assert_eq!(stripped(Some(1925)).says("old-roof-may-poison"), says);
        assert_eq!(Trial::sound().says("old-roof-may-poison"), "The job does not give [deck] old_layers.");
    }
}
