//! # Eave drips on roof below
//!
//! ## What it finds
//! Eaves of an upper roof from which water falls on a lower one.
//! ## Why it matters
//! Drops wear a line into units below and drive water up their laps; what drips off metal can also stain or eat them.
//! ## Remedy
//! Hang a gutter on the upper eave, or lay metal or an extra layer where the water lands.
//! ## Source
//! Common practice, no published source.

use crate::facts::drip::drips;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family, Outcome};

pub(crate) const RULE: Rule = Rule {
    name: "eave-drips-on-roof-below",
    kind: Kind::Practice,
    family: Family::Edges,
    endangers: &[Danger::Leak],
    reading: Reading::Memory,
    about: "block",
    groups: &[],
    file: include_str!("eave_drips_on_roof_below.rs"),
    run: eave_drips_on_roof_below,
};

fn eave_drips_on_roof_below(facts: &Facts) -> Verdict {
    let drips = drips(facts.roof);
    let Some(first) = drips.first() else {
        return Verdict::pass("No eave drips on a roof below.");
    };
    let below = facts.roof.planes.get(first.below).map_or("", |plane| plane.name.as_str());
    let says = format!("Water from {} falls on {below}", facts.plane_name(first.from));
    Verdict::found(Outcome::Attention, says, drips.iter().map(|drip| drip.from).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{Trial, house};

    #[test]
    fn a_porch_under_an_eave() {
        let gable = [Some(8.0), None, Some(8.0), None];
        let tall = house("house", [0.0, 0.0, 40.0, 28.0], gable, 18.0);
        let alone = Trial::on(std::slice::from_ref(&tall));
        let porch = house("porch", [10.0, -8.0, 30.0, 4.0], [Some(4.0), None, None, None], 9.0);
        let both = Trial::on(&[tall, porch]);
        assert_eq!(alone.outcome("eave-drips-on-roof-below"), Outcome::Pass);
        let found = both.one("eave-drips-on-roof-below");
        assert_eq!((found.outcome, found.places.len()), (Outcome::Attention, 1));
        assert_eq!(found.says, "Water from house, south falls on porch, south.");
        // A porch has no courses of its own to compare; the house alone keeps every rule.
        assert_eq!(both.adds(&alone), ["eave-drips-on-roof-below"]);
    }
}
