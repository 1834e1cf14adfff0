//! # Edge metal out of order
//!
//! ## What it finds
//! Drip edge that lies over the underlayment at an eave, or under it at a rake.
//! ## Why it matters
//! At the eave water that runs down on the underlayment must leave over the metal, not behind it; at the rake wind drives rain
//! sideways under an edge that no metal covers.
//! ## Remedy
//! Metal on the deck at eaves, then the sheets, then metal over them at rakes, [dry_in.drip_edge] at_eaves and at_rakes.
//! ## Source
//! International Residential Code 2015, R905.2.8.5, as a guide quotes it for asphalt shingles, quoted; under other units common practice, no published source.

use details::{Kind as Goods, Lies};
use roof::EdgeKind;

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "edge-metal-out-of-order",
    kind: Kind::Practice,
    family: Family::DryIn,
    endangers: &[Danger::Leak],
    reading: Reading::Memory,
    about: "dry_in.drip_edge",
    groups: &[],
    file: include_str!("edge_metal_out_of_order.rs"),
    run: edge_metal_out_of_order,
};

fn edge_metal_out_of_order(facts: &Facts) -> Verdict {
    let edges: Vec<(EdgeKind, bool, Place)> = edges(facts).collect();
    if edges.is_empty() {
        return Verdict::not_applicable("No drip edge is laid.");
    }
    let wrong: Vec<_> = edges.into_iter().filter(|(kind, over, _)| *over == (*kind == EdgeKind::Eave)).collect();
    let Some(&(kind, over, first)) = wrong.first() else {
        return Verdict::pass("Drip edge lies under the underlayment at eaves and over it at rakes.");
    };
    let [lies, belongs] = if over { ["over", "under"] } else { ["under", "over"] };
    let (plane, kind) = (facts.plane_name(first), kind.name());
    let says = format!("{plane}: drip edge of the {kind} lies {lies} the underlayment, and belongs {belongs} it");
    Verdict::found(Outcome::Fail, says, wrong.into_iter().map(|(_, _, place)| place).collect())
}

/// Every strip of edge metal: along what, whether over the underlayment, and where it begins.
fn edges<'a>(facts: &Facts<'a>) -> impl Iterator<Item = (EdgeKind, bool, Place)> + use<'a> {
    let facts = *facts;
    facts.strips(Goods::DripEdge).filter_map(move |(_, strip)| {
        let Lies::Line { line } = strip.lies else { return None };
        let kind = facts.roof.lines.get(line)?.kind;
        Some((kind, strip.over_underlayment, facts.place_along(strip, 0.0)?))
    })
}

#[cfg(test)]
mod tests {
    use details::Strip;

    use super::*;
    use crate::trial::{Trial, house, strip};

    const NAME: &str = "edge-metal-out-of-order";

    /// A gable house with edge metal at an eave and a rake, each over the underlayment or under it.
    fn with(over_at_eave: bool, over_at_rake: bool) -> Trial {
        let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0), None, Some(8.0), None], 9.0)]);
        let line_of = |kind| trial.roof.lines.iter().position(|line| line.kind == kind).unwrap();
        let edge = |kind, over_underlayment| Strip {
            over_underlayment,
            ..strip(Lies::Line { line: line_of(kind) }, 0, [0.0, 120.0], [0.0, 0.0], &[[0.0, 120.0]])
        };
        let strips = vec![edge(EdgeKind::Eave, over_at_eave), edge(EdgeKind::Rake, over_at_rake)];
        trial.roll(Goods::DripEdge, 0.0, strips);
        trial
    }

    /// Under the felt at the eave, over it at the rake: International Residential Code 2015, R905.2.8.5, as a guide quotes it.
    #[test]
    fn under_at_eaves_and_over_at_rakes() {
        let sound = with(false, true);
        assert_eq!(sound.outcome(NAME), Outcome::Pass);
        let says = "house, south: drip edge of the eave lies over the underlayment, and belongs under it.";
        assert_eq!((with(true, true).outcome(NAME), with(true, true).says(NAME).as_str()), (Outcome::Fail, says));
        let says = "house, south: drip edge of the rake lies under the underlayment, and belongs over it.";
        assert_eq!((with(false, false).outcome(NAME), with(false, false).says(NAME).as_str()), (Outcome::Fail, says));
        assert_eq!(with(true, true).adds(&sound), [NAME]);
        assert_eq!(with(true, false).one(NAME).places.len(), 2);
        assert_eq!(Trial::sound().says(NAME), "No drip edge is laid.");
    }
}
