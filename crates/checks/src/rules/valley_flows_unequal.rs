//! # Valley flows unequal
//!
//! ## What it finds
//! Open valleys between planes of different pitch.
//! ## Why it matters
//! The faster water shoots across the valley and up under the units of the flatter side.
//! ## Remedy
//! Raise a crimp or a rib at least 1 in high along the middle of the valley metal.
//! ## Source
//! Copper Flashings: A Manual (Copper and Brass Research Association, 1920s), specification 33.

use roof::{EdgeKind, Line};

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "valley-flows-unequal",
    kind: Kind::Practice,
    family: Family::Edges,
    endangers: &[Danger::Leak],
    reading: Reading::Read,
    about: "block",
    groups: &[],
    file: include_str!("valley_flows_unequal.rs"),
    run: valley_flows_unequal,
};

fn valley_flows_unequal(facts: &Facts) -> Verdict {
    let mut differ = Tally::lengths(Bound::AtMost);
    for line in facts.roof.lines.iter().filter(|line| line.kind == EdgeKind::Valley) {
        if let Some((by, place)) = difference(facts, line) {
            // Two readings of one pitch may part by so much.
            differ.add(by, figure!(0.1), place);
        }
    }
    let verdict = differ.verdict(
        |worst| {
            let [by, _] = worst.in_12();
            format!("The planes at the valley of {} differ by {by}", facts.plane_name(worst.place))
        },
        |place| facts.name_of(place),
        "There is no open valley.",
    );
    if verdict.outcome == Outcome::Pass {
        Verdict::pass("The planes at every open valley have one pitch.")
    } else {
        verdict.looked_at()
    }
}

/// By how much the two pitches differ, rise in 12.
fn difference(facts: &Facts, line: &Line) -> Option<(f64, Place)> {
    let [one, other] = line.planes[..] else { return None };
    let is_open = facts.covering(one)?.edges.valley_clear > units::Length::ZERO;
    let [a, b] = [facts.roof.planes.get(one)?, facts.roof.planes.get(other)?];
    let [x, y, _] = line.ends[0];
    let [u, v] = a.frame.place(x, y);
    is_open.then(|| ((a.pitch.rise() - b.pitch.rise()).abs(), Place { plane: one, course: 0, u, v }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{Trial, house};

    /// A gabled wing that runs into the south side of a house, at a pitch of its own; both ridges at one height or below.
    fn wing(rise: f64) -> Trial {
        let main = house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0), None, Some(8.0), None], 9.0);
        Trial::on(&[main, house("wing", [12.0, -12.0, 28.0, 14.0], [None, Some(rise), None, Some(rise)], 9.0)])
    }

    #[test]
    fn unequal_pitches_need_a_rib() {
        assert_eq!(wing(8.0).outcome("valley-flows-unequal"), Outcome::Pass);
        assert_eq!(wing(8.0995).outcome("valley-flows-unequal"), Outcome::Pass);
        assert_eq!(wing(8.1005).outcome("valley-flows-unequal"), Outcome::Attention);
        let found = wing(12.0).one("valley-flows-unequal");
        assert_eq!(found.says, "The planes at the valley of house, south differ by 4/12; 2 places in all.");
        assert_eq!(Trial::sound().outcome("valley-flows-unequal"), Outcome::NotApplicable);
    }

    #[test]
    fn a_closed_valley_has_no_metal_to_crimp() {
        let mut closed = wing(12.0);
        closed.covering.edges.valley_clear = units::Length::ZERO;
        assert_eq!(closed.outcome("valley-flows-unequal"), Outcome::NotApplicable);
    }
}
