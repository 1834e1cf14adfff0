//! # Slate sidelap too short
//!
//! ## What it finds
//! Joints of natural slate less than 3 in from a joint of the course below.
//! ## Why it matters
//! Water that enters a joint spreads sideways on the slate below; within 3 in it reaches the next joint and the nails.
//! ## Remedy
//! Shift the start of the course, or use a wider slate at this place.
//! ## Source
//! UFGS-07310, Slate Roofing (United States military guide specification).

use covering::Material;

use crate::facts::joints;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "slate-sidelap-too-short",
    kind: Kind::Practice,
    family: Family::Lap,
    endangers: &[Danger::Leak],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("slate_sidelap_too_short.rs"),
    run: slate_sidelap_too_short,
};

fn slate_sidelap_too_short(facts: &Facts) -> Verdict {
    let mut offsets = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid().filter(|laid| laid.covering.material == Material::NaturalSlate) {
        joints::over(&laid, 1, figure!(3.0), &mut offsets);
    }
    offsets.verdict(
        |nearest| {
            let [is, least] = nearest.inches();
            format!("{} has a joint {is} from one below; slaters keep {least}", facts.name_of(nearest.place))
        },
        |place| facts.name_of(place),
        "No joint of natural slate stands over another course.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// 3 in: UFGS-07310. Half bond of 12 in slates 1/16 in apart keeps 6-1/32 in; of nine joints a
    /// course the outermost has no neighbour beyond, so that two courses have eight each.
    #[test]
    fn three_inches_are_enough() {
        let shifted = |by: f64| {
            let mut trial = Trial::of(Material::NaturalSlate);
            trial.layout.planes[0].courses[4].runs[0].left += by;
            trial
        };
        assert_eq!(shifted(3.03125).outcome("slate-sidelap-too-short"), Outcome::Pass);
        let near = shifted(3.04125);
        assert_eq!(near.adds(&shifted(0.0)), ["slate-sidelap-too-short"]);
        let says = "house, south, course 5 has a joint 2.9900\" from one below; slaters keep 3.0000\"; 16 places in all.";
        assert_eq!(near.says("slate-sidelap-too-short"), says);
        assert_eq!(Trial::sound().outcome("slate-sidelap-too-short"), Outcome::NotApplicable);
    }
}
