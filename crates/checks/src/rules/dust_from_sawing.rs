//! # Dust from sawing
//!
//! ## What it finds
//! Slate, clay or concrete tile that is cut on this job.
//! ## Why it matters
//! Sawing stone and fired or cast units makes silica dust, which scars lungs for good.
//! ## Remedy
//! Break slate on a stake or cut it wet; a shroud and a respirator where it is sawn dry. Local law decides.
//! ## Source
//! 29 CFR 1926.1153 and its Table 1 (United States), from memory, not read.

use covering::Material;

use crate::facts::Laid;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "dust-from-sawing",
    kind: Kind::Practice,
    family: Family::People,
    endangers: &[Danger::Safety],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("dust_from_sawing.rs"),
    run: dust_from_sawing,
};

fn dust_from_sawing(facts: &Facts) -> Verdict {
    let is_stone = |laid: &Laid| matches!(laid.covering.material, Material::NaturalSlate | Material::PlainTile);
    let cuts: u64 = facts.laid().filter(is_stone).map(|laid| laid.units.counts().cut).sum();
    match cuts {
        0 => Verdict::not_applicable("No slate or tile is cut."),
        1 => Verdict::attention("1 piece of slate or tile is cut: silica dust if it is sawn dry."),
        _ => Verdict::attention(format!("{cuts} pieces of slate or tile are cut: silica dust if they are sawn dry.")),
    }
}

#[cfg(test)]
mod tests {
    use layout::Cut;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    #[test]
    fn cut_slate_makes_dust() {
        let mut trial = Trial::of(Material::NaturalSlate);
        assert_eq!(trial.outcome("dust-from-sawing"), Outcome::NotApplicable);
        let laid = &mut trial.layout.planes[0];
        laid.cuts.push(Cut {
            parts: vec![vec![[0.0, 0.0], [6.0, 0.0], [6.0, 20.0], [0.0, 20.0]]],
            area: 120.0,
            width: 6.0,
            ..Cut::default()
        });
        laid.courses[0].runs[0].cut = Some(0);
        assert_eq!(trial.adds(&Trial::of(Material::NaturalSlate)), ["dust-from-sawing"]);
        assert_eq!(trial.says("dust-from-sawing"), "10 pieces of slate or tile are cut: silica dust if they are sawn dry.");
        trial.covering.material = Material::WoodShake;
        assert_eq!(trial.outcome("dust-from-sawing"), Outcome::NotApplicable);
    }
}
