//! # Top out of parallel
//!
//! ## What it finds
//! Ridges, high edges, breaks and wall lines that run more than 1/2 in in 10 ft out of parallel with the course lines.
//! ## Why it matters
//! The last courses run out against the ridge as a wedge, which is the first thing anyone sees.
//! ## Remedy
//! Spread the wedge over the courses by unequal exposures left and right, or hide it under the cap; tell the owner before.
//! ## Source
//! 1/2 in in 10 ft as builders' performance standards have it, from memory, not read.

use roof::EdgeKind;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family, Place};

pub(crate) const RULE: Rule = Rule {
    name: "top-out-of-parallel",
    kind: Kind::Practice,
    family: Family::Pitch,
    endangers: &[Danger::Warranty],
    reading: Reading::Memory,
    about: "plane",
    groups: &[],
    file: include_str!("top_out_of_parallel.rs"),
    run: top_out_of_parallel,
};

fn top_out_of_parallel(facts: &Facts) -> Verdict {
    let mut wedges = Tally::lengths(Bound::AtMost);
    for (index, plane, _) in facts.covered() {
        for (ring, places) in plane.rings.iter().zip(plane.places()) {
            for (at, _) in ring.edges.iter().enumerate().filter(|(_, edge)| is_level_work(edge.kind)) {
                let [[u, v], [u2, v2]] = [places[at], places[(at + 1) % places.len()]];
                let in_10_ft = (v2 - v).abs() / (u2 - u).abs().max(1.0) * 120.0;
                wedges.add(in_10_ft, figure!(0.5), Place { plane: index, course: 0, u, v });
            }
        }
    }
    let verdict = wedges.verdict(
        |worst| {
            let [is, most] = worst.inches();
            let plane = facts.plane_name(worst.place);
            format!(
                "{plane}: the top line runs {is} in 10 ft out of parallel with the courses; {most} is as much as is let pass"
            )
        },
        |place| facts.name_of(place),
        "No plane to be covered has a level line at its top.",
    );
    verdict.looked_at()
}

const fn is_level_work(kind: EdgeKind) -> bool {
    matches!(kind, EdgeKind::Ridge | EdgeKind::HighEdge | EdgeKind::Break | EdgeKind::Headwall)
}

#[cfg(test)]
mod tests {
    use roof::{Edge, Ring};

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// 20 ft along, 120 in up at the left; the ridge ends higher at the right.
    fn wedge(higher: f64) -> Trial {
        let mut trial = Trial::sound();
        let plane = &mut trial.roof.planes[0];
        let corners = [[0.0, 0.0], [240.0, 0.0], [240.0, 120.0 + higher], [0.0, 120.0]];
        let kinds = [EdgeKind::Eave, EdgeKind::Rake, EdgeKind::Ridge, EdgeKind::Rake];
        let edges = kinds.map(|kind| Edge { kind, meets: None }).to_vec();
        plane.rings = vec![Ring { corners: corners.map(|at| plane.frame.point(at)).to_vec(), edges }];
        trial
    }

    /// 1 in over 20 ft is 1/2 in in 10 ft.
    #[test]
    fn half_an_inch_in_ten_feet_is_let_pass() {
        assert_eq!(wedge(1.0).outcome("top-out-of-parallel"), Outcome::Pass);
        assert_eq!(wedge(1.004).adds(&wedge(0.0)), ["top-out-of-parallel"]);
        let says = "house, south: the top line runs 3/4\" in 10 ft out of parallel with the courses; \
                    1/2\" is as much as is let pass.";
        assert_eq!(wedge(1.5).says("top-out-of-parallel"), says);
        assert_eq!(Trial::sound().outcome("top-out-of-parallel"), Outcome::NotApplicable);
    }
}
