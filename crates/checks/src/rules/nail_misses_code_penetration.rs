//! # Nail misses code penetration
//!
//! ## What it finds
//! Nails that, less the units and the sheets that they pass, reach less far into the deck than the code asks for: 3/4 in for tile, 1/2 in for wood
//! shingles and shakes, or through a deck that is thinner.
//! ## Why it matters
//! What holds a unit against the wind is the length of nail in the wood, not the length of the nail.
//! ## Remedy
//! Use the next longer nail.
//! ## Source
//! International Building Code 2018, 1507.3.6 tile (read), taken for R905.3.6 of the residential code; R905.7.5 wood (as the Minnesota Residential Code 2015 reprints the edition of 2012, quoted).

use covering::Material;
use units::Length;

use crate::facts::stack::{passed, thickness};
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::tally::{Bound, Tally};
use crate::text::{Reading, Text};
use crate::{Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "nail-misses-code-penetration",
    kind: Kind::Code,
    family: Family::Fastening,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::In(&[Edition::Of2018]),
    about: "fastener.length",
    groups: &[],
    file: include_str!("nail_misses_code_penetration.rs"),
    run: nail_misses_code_penetration,
};

/// Into the deck, inches, and where it stands.
fn least(material: Material) -> Option<(f64, Text)> {
    let tile =
        Text { source: "International Building Code 2018, 1507.3.6, read.", reading: Reading::In(&[Edition::Of2018]) };
    let wood = Text {
        source: "International Residential Code, R905.7.5, as the Minnesota Residential Code 2015 reprints the edition of 2012, \
                 quoted.",
        reading: Reading::Memory,
    };
    match material {
        Material::PlainTile => Some((figure!(0.75), tile)),
        Material::WoodShingle | Material::WoodShake => Some((figure!(0.5), wood)),
        Material::NaturalSlate | Material::CompositeSlate => None,
    }
}

fn nail_misses_code_penetration(facts: &Facts) -> Verdict {
    let (Some(nail), Some(deck)) = (facts.fastener.length, facts.deck.thickness) else {
        let [nail, deck] = [facts.fastener.length.is_some(), facts.deck.thickness.is_some()];
        return Verdict::missing(&absent(&[(nail, "[fastener] length"), (deck, "[deck] thickness")]));
    };
    let mut lengths = Tally::lengths(Bound::AtLeast);
    let mut text = None;
    for laid in facts.laid() {
        let Some((least, source)) = least(laid.covering.material) else { continue };
        let Some(passed) = passed(facts, laid.covering) else { continue };
        lengths.add((nail - thickness(passed)).to_inches(), least.min(deck.to_inches()), laid.place(0));
        text = Some(source);
    }
    let verdict = lengths.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            let nail = Length::in_inches(nail);
            format!(
                "{}: {is} of the nail of {nail} is in the deck; the code asks for {least}",
                facts.plane_name(shortest.place)
            )
        },
        |place| facts.name_of(place),
        "The code gives no penetration for this covering here.",
    );
    verdict.by(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// Two thicknesses of 1/4 in, then the deck.
    fn with(material: Material, nail: f64, deck: f64) -> Trial {
        let mut trial = Trial::of(material);
        trial.covering.nails.penetration = Length::inches(0.25);
        trial.fastener.length = Some(Length::inches(nail));
        trial.deck.thickness = Some(Length::inches(deck));
        trial
    }

    /// Tile 3/4 in or through: International Building Code 2018, 1507.3.6. Wood 1/2 in, or through where the sheathing is thinner:
    /// Minnesota Residential Code 2015.
    #[test]
    fn the_least_penetration_itself_is_enough() {
        let outcome = |material, nail, deck| with(material, nail, deck).outcome("nail-misses-code-penetration");
        assert_eq!(outcome(Material::PlainTile, 1.25, 1.0), Outcome::Pass);
        assert_eq!(outcome(Material::PlainTile, 1.245, 1.0), Outcome::Fail);
        assert_eq!(outcome(Material::PlainTile, 1.0, 0.5), Outcome::Pass);
        assert_eq!(outcome(Material::WoodShake, 1.0, 0.75), Outcome::Attention);
        assert_eq!(outcome(Material::WoodShake, 0.996, 0.75), Outcome::Fail);
        assert_eq!(outcome(Material::WoodShake, 0.875, 0.375), Outcome::Attention);
        assert_eq!(outcome(Material::CompositeSlate, 1.0, 0.5), Outcome::NotApplicable);
    }

    #[test]
    fn a_short_nail_is_told() {
        let short = with(Material::PlainTile, 1.0, 0.75);
        let says = "house, south: 1/2\" of the nail of 1\" is in the deck; the code asks for 3/4\".";
        assert_eq!(short.says("nail-misses-code-penetration"), says);
        assert_eq!(short.adds(&with(Material::PlainTile, 1.5, 0.75)), ["nail-misses-code-penetration"]);
        let mut silent = Trial::sound();
        silent.fastener.length = None;
        assert_eq!(silent.says("nail-misses-code-penetration"), "The job does not give [fastener] length.");
    }
}
