//! # Too few nails
//!
//! ## What it finds
//! Sheets that put fewer nails into a unit than the code asks for: two in each slate, wood shingle and shake.
//! ## Why it matters
//! A unit on one nail turns on it and slides, and the wind takes it first.
//! ## Remedy
//! Put two nails into every unit.
//! ## Source
//! International Residential Code, R905.6.5 slate and R905.8.6 shakes (from memory, not read), R905.7.5 wood shingles (as the Minnesota Residential Code 2015 reprints the edition of 2012, quoted).

use covering::Material;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "too-few-nails",
    kind: Kind::Code,
    family: Family::Fastening,
    endangers: &[Danger::Leak, Danger::Code, Danger::Safety],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("too_few_nails.rs"),
    run: too_few_nails,
};

fn too_few_nails(facts: &Facts) -> Verdict {
    let needed = figure!(2.0);
    let judged = |material| matches!(material, Material::NaturalSlate | Material::WoodShingle | Material::WoodShake);
    let Some((_, covering)) = facts.coverings().into_iter().find(|(_, covering)| judged(covering.material)) else {
        return Verdict::not_applicable("The code counts no nails for this covering here.");
    };
    let is = covering.nails.each;
    Verdict::judged(f64::from(is) >= needed, format!("The sheet puts {is} in each unit; the code asks for {needed}."))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// Two in each: UFGS-07310 for slate, Minnesota Residential Code 2015 (International Residential Code 2012) for shingles.
    #[test]
    fn two_are_enough_and_one_is_not() {
        for material in [Material::NaturalSlate, Material::WoodShingle, Material::WoodShake] {
            let mut trial = Trial::of(material);
            assert_eq!(trial.outcome("too-few-nails"), Outcome::Attention, "{material:?}");
            trial.covering.nails.each = 1;
            assert_eq!(trial.adds(&Trial::of(material)), ["too-few-nails"]);
            let says = "The sheet puts 1 in each unit; the code asks for 2. The text of the 2018 edition was not read.";
            assert_eq!(trial.says("too-few-nails"), says);
        }
        assert_eq!(Trial::sound().outcome("too-few-nails"), Outcome::NotApplicable);
    }
}
