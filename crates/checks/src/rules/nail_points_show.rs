//! # Nail points show
//!
//! ## What it finds
//! Nails that come through a deck whose underside is seen at the eaves.
//! ## Why it matters
//! Points under an open soffit are ugly, rust first, and hurt whoever reaches up there.
//! ## Remedy
//! Use shorter nails over the soffit if the sheet's penetration can still be kept, thicken the deck there, or close the soffit.
//! ## Source
//! Common practice, no published source.

use covering::Covering;
use units::Length;

use crate::facts::stack::{passed, thickness};
use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "nail-points-show",
    kind: Kind::Practice,
    family: Family::Fastening,
    endangers: &[Danger::Safety],
    reading: Reading::Memory,
    about: "deck.exposed_soffit",
    groups: &[],
    file: include_str!("nail_points_show.rs"),
    run: nail_points_show,
};

fn nail_points_show(facts: &Facts) -> Verdict {
    let (Some(nail), Some(deck), Some(exposed)) = (facts.fastener.length, facts.deck.thickness, facts.deck.exposed_soffit)
    else {
        let given = [facts.fastener.length.is_some(), facts.deck.thickness.is_some(), facts.deck.exposed_soffit.is_some()];
        let keys = ["[fastener] length", "[deck] thickness", "[deck] exposed_soffit"];
        let wanted: Vec<(bool, &str)> = given.into_iter().zip(keys).collect();
        return Verdict::missing(&absent(&wanted));
    };
    if !exposed {
        return Verdict::pass("No underside of the deck is seen.");
    }
    let mut lengths = Tally::lengths(Bound::AtMost);
    for laid in facts.laid() {
        let Some(passed) = passed(facts, laid.covering) else { continue };
        let through = thickness(passed) - thinner(laid.covering);
        lengths.add(nail.to_inches(), (through + deck).to_inches(), laid.place(0));
    }
    lengths.verdict(
        |longest| {
            let [is, most] = longest.inches();
            format!(
                "{}: a nail of {is} comes out below: units, sheets and deck are {most} thick",
                facts.plane_name(longest.place)
            )
        },
        |place| facts.name_of(place),
        "No plane is laid.",
    )
}

/// Of graduated lengths the shortest are the thinnest, and passed soonest: by how much.
fn thinner(covering: &Covering) -> Length {
    let grades = covering.grades();
    let thin = grades.last().map_or(covering.unit.thickness, |graded| graded.thickness);
    (covering.unit.thickness - thin) * f64::from(covering.nails.through_units)
}

#[cfg(test)]
mod tests {
    use units::Length;

    use crate::Outcome;
    use crate::trial::Trial;

    /// Two units of 1/4 in over 1/2 in of deck: 1 in.
    fn nail(length: f64) -> Trial {
        let mut trial = Trial::sound();
        trial.deck.exposed_soffit = Some(true);
        trial.fastener.length = Some(Length::inches(length));
        trial
    }

    #[test]
    fn a_nail_that_ends_at_the_underside_does_not_show() {
        assert_eq!(nail(1.0).outcome("nail-points-show"), Outcome::Pass);
        assert_eq!(nail(1.01).adds(&nail(1.0)), ["nail-points-show"]);
        let told = nail(1.5).one("nail-points-show");
        assert_eq!(told.says, "house, south: a nail of 1-1/2\" comes out below: units, sheets and deck are 1\" thick.");
        let mut closed = nail(1.5);
        closed.deck.exposed_soffit = Some(false);
        assert_eq!(closed.outcome("nail-points-show"), Outcome::Pass);
        assert_eq!(Trial::sound().says("nail-points-show"), "The job does not give [deck] exposed_soffit.");
    }
}
