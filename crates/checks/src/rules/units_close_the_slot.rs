//! # Units close the slot
//!
//! ## What it finds
//! Units that are laid further up than the edge of the slot that the ridge vent needs.
//! ## Why it matters
//! The slot is cut, the vent is on, and the heads of the last units close it: no air goes out.
//! ## Remedy
//! Give the sheet's ridge_slot the width of the slot, ridge board and all, so that the units stop where the deck does.
//! ## Source
//! Slot and units of this roof; a clear inch each side of the ridge board where the sheet tells none is from memory, not read.

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family, Place};

pub(crate) const RULE: Rule = Rule {
    name: "units-close-the-slot",
    kind: Kind::Practice,
    family: Family::Vents,
    endangers: &[Danger::Warranty],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("units_close_the_slot.rs"),
    run: units_close_the_slot,
};

fn units_close_the_slot(facts: &Facts) -> Verdict {
    let Some(vents) = &facts.details.vents else { return Verdict::missing(&["[attic]"]) };
    let Some(slot) = vents.slot else { return Verdict::missing(&["[attic.ridge_vent] framing"]) };
    let mut open = Tally::lengths(Bound::AtLeast);
    for (plane, covering) in facts.coverings() {
        let place = Place { plane, course: 0, u: 0.0, v: 0.0 };
        open.add(covering.edges.ridge_slot.to_inches(), slot.to_inches(), place);
    }
    let verdict = open.verdict(
        |narrowest| {
            let [is, needed] = narrowest.inches();
            format!("The units leave {is} open at the ridge; the slot is {needed}")
        },
        |place| facts.name_of(place),
        "No unit is laid.",
    );
    // It is one for the whole roof.
    Verdict { places: Vec::new(), ..verdict.looked_at() }
}

#[cfg(test)]
mod tests {
    use units::Length;

    use crate::Outcome;
    use crate::trial::Trial;

    #[test]
    fn units_stop_where_the_deck_does() {
        let rule = "units-close-the-slot";
        let with = |laid: f64| {
            let mut trial = Trial::vented(300, 400.0, 500.0);
            trial.details.vents.iter_mut().for_each(|vents| vents.slot = Some(Length::inches(3.5)));
            trial.covering.edges.ridge_slot = Length::inches(laid);
            trial
        };
        assert_eq!([3.5, 3.49].map(|laid| with(laid).outcome(rule)), [Outcome::Pass, Outcome::Attention]);
        assert_eq!(with(2.0).adds(&with(3.5)), [rule]);
        assert_eq!(with(2.0).says(rule), "The units leave 2\" open at the ridge; the slot is 3-1/2\".");
        assert_eq!(Trial::sound().says(rule), "The job does not give [attic].");
        let mut unknown = with(2.0);
        unknown.details.vents.iter_mut().for_each(|vents| vents.slot = None);
        assert_eq!(unknown.says(rule), "The job does not give [attic.ridge_vent] framing.");
    }
}
