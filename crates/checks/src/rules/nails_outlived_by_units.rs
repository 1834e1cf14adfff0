//! # Nails outlived by units
//!
//! ## What it finds
//! Nails of galvanized steel or aluminum under slate or tile, which last far longer than they do.
//! ## Why it matters
//! Under clay tile galvanized nails are often gone in 40 years; sound units then slide off one by one, and all must be relaid.
//! ## Remedy
//! Copper, bronze or stainless steel.
//! ## Source
//! United States General Services Administration, technical procedure on removing and replacing a clay tile roof.

use covering::Material;

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family, Metal};

pub(crate) const RULE: Rule = Rule {
    name: "nails-outlived-by-units",
    kind: Kind::Practice,
    family: Family::Lifetime,
    endangers: &[Danger::Leak, Danger::Safety],
    reading: Reading::Read,
    about: "fastener.metal",
    groups: &[],
    file: include_str!("nails_outlived_by_units.rs"),
    run: nails_outlived_by_units,
};

fn nails_outlived_by_units(facts: &Facts) -> Verdict {
    let Some(metal) = facts.fastener.metal else {
        return Verdict::missing(&["[fastener] metal"]);
    };
    let lasting = |material| matches!(material, Material::NaturalSlate | Material::PlainTile);
    if !facts.coverings().iter().any(|(_, covering)| lasting(covering.material)) {
        return Verdict::not_applicable("No plane is covered in slate or tile.");
    }
    match metal {
        Metal::HotDipGalvanized | Metal::Aluminum => {
            Verdict::attention(format!("The nails are {}; the units last longer than they do.", metal.name()))
        }
        Metal::Copper | Metal::Bronze | Metal::StainlessSteel => {
            Verdict::pass(format!("The nails are {}, which lasts as long as the units.", metal.name()))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// The General Services Administration found galvanized nails under clay tile gone in 40 years.
    #[test]
    fn zinc_does_not_last() {
        let sound = Trial::of(Material::PlainTile);
        assert_eq!(sound.outcome("nails-outlived-by-units"), Outcome::Pass);
        let mut zinc = Trial::of(Material::PlainTile);
        zinc.fastener.metal = Some(Metal::HotDipGalvanized);
        assert_eq!(zinc.adds(&sound), ["nails-outlived-by-units"]);
        let says = "The nails are hot-dip galvanized steel; the units last longer than they do.";
        assert_eq!(zinc.says("nails-outlived-by-units"), says);
        assert_eq!(Trial::sound().outcome("nails-outlived-by-units"), Outcome::NotApplicable);
    }
}
