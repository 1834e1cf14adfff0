//! # Nail metal unfit
//!
//! ## What it finds
//! Nails of a metal that the covering eats, or that eats itself beside it: copper and aluminum in wood shingles and shakes.
//! ## Why it matters
//! Acids of cedar and wet or treated wood dissolve copper and aluminum; the shank goes where nobody sees it.
//! ## Remedy
//! Stainless steel in wood; hot-dip galvanized only where a short life will do.
//! ## Source
//! Aluminum: United States Navy criteria on metals against wet and treated wood; copper in cedar: common practice, no published source.

use covering::Material;

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::{Reading, Text};
use crate::{Facts, Family, Metal};

pub(crate) const RULE: Rule = Rule {
    name: "nail-metal-unfit",
    kind: Kind::Practice,
    family: Family::Metals,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Memory,
    about: "fastener.metal",
    groups: &[],
    file: include_str!("nail_metal_unfit.rs"),
    run: nail_metal_unfit,
};

/// Why a metal does not suit a material, and who says so.
const fn unfit(material: Material, metal: Metal) -> Option<(&'static str, Text)> {
    match (material, metal) {
        (Material::WoodShingle | Material::WoodShake, Metal::Aluminum) => Some((
            "wet and treated wood corrodes it",
            Text {
                source: "United States Navy criteria: aluminum is kept apart from wet and treated wood.",
                reading: Reading::Read,
            },
        )),
        (Material::WoodShingle | Material::WoodShake, Metal::Copper | Metal::Bronze) => Some((
            "the acids of cedar dissolve it",
            Text { source: "Common practice, no published source.", reading: Reading::Memory },
        )),
        _ => None,
    }
}

fn nail_metal_unfit(facts: &Facts) -> Verdict {
    let Some(metal) = facts.fastener.metal else {
        return Verdict::missing(&["[fastener] metal"]);
    };
    let coverings = facts.coverings();
    let name = metal.name();
    match coverings.iter().find_map(|(_, covering)| unfit(covering.material, metal)) {
        Some((why, text)) => Verdict::judged(false, format!("The nails are {name}: {why}.")).by(Some(text)),
        None if coverings.is_empty() => Verdict::not_applicable("There is no plane to cover."),
        None => Verdict::pass(format!("The nails are {name}; nothing is known against it under this covering.")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn in_cedar(metal: Metal) -> Trial {
        let mut trial = Trial::of(Material::WoodShake);
        trial.fastener.metal = Some(metal);
        trial
    }

    /// Aluminum: United States Navy criteria; copper in cedar: common practice, no published source.
    #[test]
    fn cedar_takes_steel() {
        assert_eq!(in_cedar(Metal::StainlessSteel).outcome("nail-metal-unfit"), Outcome::Pass);
        assert_eq!(in_cedar(Metal::HotDipGalvanized).outcome("nail-metal-unfit"), Outcome::Pass);
        assert_eq!(in_cedar(Metal::Copper).adds(&in_cedar(Metal::StainlessSteel)), ["nail-metal-unfit"]);
        assert_eq!(
            in_cedar(Metal::Copper).says("nail-metal-unfit"),
            "The nails are copper: the acids of cedar dissolve it."
        );
        assert_eq!(
            in_cedar(Metal::Aluminum).says("nail-metal-unfit"),
            "The nails are aluminum: wet and treated wood corrodes it."
        );
        assert!(in_cedar(Metal::Aluminum).one("nail-metal-unfit").read_source);
        assert!(!in_cedar(Metal::Bronze).one("nail-metal-unfit").read_source);
    }

    #[test]
    fn slate_takes_copper() {
        assert_eq!(Trial::of(Material::NaturalSlate).outcome("nail-metal-unfit"), Outcome::Pass);
        let mut silent = Trial::sound();
        silent.fastener.metal = None;
        assert_eq!(silent.says("nail-metal-unfit"), "The job does not give [fastener] metal.");
    }
}
