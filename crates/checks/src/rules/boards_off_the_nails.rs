//! # Boards off the nails
//!
//! ## What it finds
//! Spaced boards under wood whose centers are not the exposure, so that nails miss them.
//! ## Why it matters
//! The nail line climbs by one exposure a course; boards at any other spacing leave some courses nailed into air.
//! ## Remedy
//! Space the boards at the exposure that is laid, or sheathe solidly.
//! ## Source
//! International Residential Code, R905.8.1 (as the Minnesota Residential Code 2015 reprints the edition of 2012, and as a state adopts it, quoted).

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{DeckKind, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "boards-off-the-nails",
    kind: Kind::Code,
    family: Family::Deck,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::Memory,
    about: "deck.board_centers",
    groups: &[],
    file: include_str!("boards_off_the_nails.rs"),
    run: boards_off_the_nails,
};

fn boards_off_the_nails(facts: &Facts) -> Verdict {
    if facts.deck.kind != Some(DeckKind::SpacedBoards) {
        return Verdict::not_applicable("The deck is not of spaced boards, or [deck] kind is not given.");
    }
    let Some(centers) = facts.deck.board_centers else {
        return Verdict::missing(&["[deck] board_centers"]);
    };
    let mut off = Tally::lengths(Bound::AtMost);
    for laid in facts.laid().filter(|laid| laid.is_wood()) {
        let all_but_the_top = laid.units.courses.len().saturating_sub(1);
        for (number, course) in laid.units.courses.iter().enumerate().take(all_but_the_top) {
            // A tape mark.
            off.add((centers.to_inches() - course.exposure).abs(), figure!(0.0625), laid.place(number));
        }
    }
    let centers = centers.in_inches();
    off.verdict(
        |worst| {
            let exposure = units::Length::inches(facts.exposure_at(worst.place)).in_inches();
            format!("{}: boards at {centers} under an exposure of {exposure}", facts.name_of(worst.place))
        },
        |place| facts.name_of(place),
        "No plane is laid in wood.",
    )
}

#[cfg(test)]
mod tests {
    use covering::Material;
    use units::Length;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// Shakes at 10 in.
    fn boards(centers: f64) -> Trial {
        let mut trial = Trial::of(Material::WoodShake);
        trial.deck.kind = Some(DeckKind::SpacedBoards);
        trial.deck.board_centers = Some(Length::inches(centers));
        trial
    }

    /// Centers equal to the exposure: Minnesota Residential Code 2015, R905.8.1.
    #[test]
    fn centers_are_the_exposure() {
        let outcome = |centers| boards(centers).outcome("boards-off-the-nails");
        assert_eq!([outcome(10.0), outcome(10.0625), outcome(9.9375)], [Outcome::Attention; 3]);
        assert_eq!([outcome(10.063), outcome(9.937)], [Outcome::Fail; 2]);
        let says = "house, south, course 1: boards at 8\" under an exposure of 10\"; 19 places in all. \
                    The text of the 2018 edition was not read.";
        assert_eq!(boards(8.0).says("boards-off-the-nails"), says);
        assert_eq!(Trial::sound().outcome("boards-off-the-nails"), Outcome::NotApplicable);
    }
}
