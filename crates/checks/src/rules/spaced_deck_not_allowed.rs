//! # Spaced deck not allowed
//!
//! ## What it finds
//! Spaced boards under slate; spaced boards under shakes where January averages 25 °F or less.
//! ## Why it matters
//! Slate between boards breaks under a foot, and in the cold a deck must carry the ice barrier.
//! ## Remedy
//! Sheathe the deck solidly.
//! ## Source
//! International Residential Code, R905.8.1.1 shakes (read in the 2018 edition), R905.6.1 slate (from memory, not read).

use covering::Material;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::{Reading, Text};
use crate::{DeckKind, Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "spaced-deck-not-allowed",
    kind: Kind::Code,
    family: Family::Deck,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::In(&[Edition::Of2018]),
    about: "deck.kind",
    groups: &[],
    file: include_str!("spaced_deck_not_allowed.rs"),
    run: spaced_deck_not_allowed,
};

const SLATE: Text =
    Text { source: "International Residential Code, R905.6.1, from memory, not read.", reading: Reading::Memory };

fn spaced_deck_not_allowed(facts: &Facts) -> Verdict {
    let covering = facts.coverings().into_iter().map(|(_, covering)| covering.material);
    let judged = |material: &Material| matches!(material, Material::NaturalSlate | Material::WoodShake);
    let Some(material) = covering.into_iter().find(judged) else {
        return Verdict::not_applicable("The code asks for no solid deck under this covering here.");
    };
    let Some(kind) = facts.deck.kind else {
        return Verdict::missing(&["[deck] kind"]);
    };
    let text = (material == Material::NaturalSlate).then_some(SLATE);
    match (kind == DeckKind::SpacedBoards, material) {
        (false, _) => Verdict::pass("The deck is solid.").by(text),
        (true, Material::NaturalSlate) => Verdict::judged(false, "Slate lies on spaced boards.").by(text),
        (true, _) => on_spaced_boards(facts),
    }
}

/// Shakes.
fn on_spaced_boards(facts: &Facts) -> Verdict {
    let Some(winter) = facts.site.winter else {
        return Verdict::missing(&["[site] winter"]);
    };
    let is_mild = winter.to_fahrenheit() > figure!(25.0);
    Verdict::judged(is_mild, format!("Shakes lie on spaced boards, and January averages {winter}."))
}

#[cfg(test)]
mod tests {
    use units::Temperature;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn spaced(material: Material, january: Option<f64>) -> Trial {
        let mut trial = Trial::of(material);
        trial.deck.kind = Some(DeckKind::SpacedBoards);
        trial.site.winter = january.map(Temperature::fahrenheit);
        trial
    }

    /// January of 25 °F or less: International Residential Code 2018, R905.8.1.1.
    #[test]
    fn shakes_may_lie_on_boards_where_it_is_mild() {
        let outcome = |january| spaced(Material::WoodShake, Some(january)).outcome("spaced-deck-not-allowed");
        assert_eq!([outcome(25.1), outcome(25.0)], [Outcome::Pass, Outcome::Fail]);
        let cold = spaced(Material::WoodShake, Some(20.0));
        assert_eq!(cold.says("spaced-deck-not-allowed"), "Shakes lie on spaced boards, and January averages 20 °F.");
        assert_eq!(cold.adds(&spaced(Material::WoodShake, Some(30.0))), ["spaced-deck-not-allowed"]);
        let silent = spaced(Material::WoodShake, None);
        assert_eq!(silent.says("spaced-deck-not-allowed"), "The job does not give [site] winter.");
    }

    /// Slate lies on solid sheathing: R905.6.1, from memory, not read.
    #[test]
    fn slate_never_does() {
        assert_eq!(spaced(Material::NaturalSlate, None).outcome("spaced-deck-not-allowed"), Outcome::Fail);
        assert_eq!(Trial::of(Material::NaturalSlate).outcome("spaced-deck-not-allowed"), Outcome::Attention);
        assert_eq!(spaced(Material::CompositeSlate, None).outcome("spaced-deck-not-allowed"), Outcome::NotApplicable);
    }
}
