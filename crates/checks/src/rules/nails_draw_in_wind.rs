//! # Nails draw in wind
//!
//! ## What it finds
//! What a nail holds against being drawn straight out of the deck in wind, by the part of it that is in the wood where the most
//! lies above the deck. Never more than looked at: the unit may fail before the nail does.
//! ## Why it matters
//! Wind pulls units up; the nail holds by its length in the wood, its shank and the weight of the wood, and by no more than a
//! quarter where the wood dries after nailing.
//! ## Remedy
//! Use a ringed shank, a longer nail or a thicker deck; the covering's tested class decides what a unit needs.
//! ## Source
//! National Design Specification for Wood Construction: 1380 G^2.5 D as quoted tables have it; 1800 G² D for ringed shanks (2018, equation 12.2-5) and × 1.6 for wind from memory, not read.

use units::Length;

use crate::facts::stack;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::text::Reading;
use crate::withdrawal::{Shank, in_drying_wood, in_wind, withdrawal};
use crate::{DeckKind, Facts, Family, FastenerKind};

pub(crate) const RULE: Rule = Rule {
    name: "nails-draw-in-wind",
    kind: Kind::Practice,
    family: Family::Wind,
    endangers: &[Danger::Safety],
    reading: Reading::Memory,
    about: "fastener",
    groups: &[],
    file: include_str!("nails_draw_in_wind.rs"),
    run: nails_draw_in_wind,
};

fn nails_draw_in_wind(facts: &Facts) -> Verdict {
    let (fastener, deck) = (facts.fastener, facts.deck);
    if facts.site.wind_mph.is_none() {
        return Verdict::missing(&["[site] wind_mph"]);
    }
    let (Some(length), Some(shank), Some(thickness)) = (fastener.length, fastener.shank, deck.thickness) else {
        let given = [fastener.length, fastener.shank, deck.thickness].map(|given| given.is_some());
        let keys = ["[fastener] length", "[fastener] shank", "[deck] thickness"];
        return Verdict::missing(&absent(&given.into_iter().zip(keys).collect::<Vec<_>>()));
    };
    let Some(kind) = shank_of(fastener.kind) else {
        return Verdict::not_applicable("The fastener is no nail, or [fastener] kind is not given.");
    };
    let Some(gravity) = deck.gravity.or_else(|| usual_gravity(deck.kind)) else {
        return Verdict::missing(&["[deck] gravity"]);
    };
    let above = facts.laid().filter_map(|laid| stack::passed(facts, laid.covering)).map(stack::thickness);
    let Some(above) = above.reduce(|a, b| if b > a { b } else { a }) else {
        return Verdict::not_applicable("No plane is laid.");
    };
    let held = Length::inches((length - above).to_inches().clamp(0.0, thickness.to_inches()));
    let dry = withdrawal(kind, gravity, shank.to_inches()) * in_wind() * held.to_inches();
    let drying = dry * in_drying_wood();
    Verdict::attention(format!(
        "{} of a {}\" shank in wood of gravity {gravity}: a nail holds about {dry:.0} lb in wind, {drying:.0} lb where the wood \
         dries after nailing. What a unit needs, its tested class decides.",
        held.in_inches(),
        shank.to_inches()
    ))
}

const fn shank_of(kind: Option<FastenerKind>) -> Option<Shank> {
    match kind {
        Some(FastenerKind::SmoothNail) => Some(Shank::Smooth),
        Some(FastenerKind::RingNail) => Some(Shank::Ringed),
        Some(FastenerKind::Screw) | None => None,
    }
}

/// Plywood of common grades 0.42, oriented strand board 0.50 (from memory, not read); boards are of many woods.
fn usual_gravity(kind: Option<DeckKind>) -> Option<f64> {
    match kind? {
        DeckKind::Plywood => Some(figure!(0.42)),
        DeckKind::Osb => Some(figure!(0.50)),
        DeckKind::Boards | DeckKind::SpacedBoards => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn nailed(kind: FastenerKind, deck: DeckKind, thickness: f64) -> Trial {
        let mut trial = Trial::sound();
        trial.site.wind_mph = Some(115.0);
        trial.fastener.kind = Some(kind);
        trial.fastener.shank = Some(Length::inches(0.131));
        trial.fastener.length = Some(Length::inches(2.5));
        (trial.deck.kind, trial.deck.thickness) = (Some(deck), Some(Length::inches(thickness)));
        trial
    }

    /// FEMA P-55 (2011), example 9.1: G 0.42, 0.131 in, 2 in of nail in the wood hold 66 lb in wind.
    #[test]
    fn a_coastal_nail() {
        let mut trial = nailed(FastenerKind::SmoothNail, DeckKind::Boards, 2.0);
        trial.deck.gravity = Some(0.42);
        let says = "2\" of a 0.131\" shank in wood of gravity 0.42: a nail holds about 66 lb in wind, 17 lb where the wood dries \
                    after nailing. What a unit needs, its tested class decides.";
        let found = trial.one("nails-draw-in-wind");
        assert_eq!((found.outcome, found.says.as_str()), (Outcome::Attention, says));
    }

    /// 41.6 lb/in (G 0.42, ringed) × 1.6 × 1 in = 67 lb; 59.0 (G 0.50) × 1.6 = 94 lb; smooth 32.0 × 1.6 × 3.75 in of 4 in = 192
    /// lb in a deck thick enough, from tables of the formulas worked apart from this program.
    #[test]
    fn rings_and_boards() {
        let says = |kind, deck, thickness| nailed(kind, deck, thickness).says("nails-draw-in-wind");
        assert!(says(FastenerKind::RingNail, DeckKind::Plywood, 1.0).contains("about 67 lb"));
        assert!(says(FastenerKind::RingNail, DeckKind::Osb, 1.0).contains("about 94 lb"));
        assert!(says(FastenerKind::SmoothNail, DeckKind::Osb, 4.0).contains("2\" of a 0.131\" shank"));
        assert!(says(FastenerKind::SmoothNail, DeckKind::Boards, 1.0).contains("[deck] gravity"));
        assert!(says(FastenerKind::Screw, DeckKind::Osb, 1.0).contains("no nail"));
    }

    /// A nail so long that a tenth of a per cent shows.
    #[test]
    fn usual_woods() {
        let long = |deck| {
            let mut trial = nailed(FastenerKind::RingNail, deck, 100.0);
            trial.fastener.length = Some(Length::inches(100.5));
            trial.says("nails-draw-in-wind")
        };
        // 1800 × 0.42² × 0.131 × 1.6 × 100 = 6655.2 and 1800 × 0.5² × 0.131 × 1.6 × 100 = 9432, by hand.
        assert!(long(DeckKind::Plywood).contains("about 6655 lb"), "{}", long(DeckKind::Plywood));
        assert!(long(DeckKind::Osb).contains("about 9432 lb"), "{}", long(DeckKind::Osb));
    }
}
