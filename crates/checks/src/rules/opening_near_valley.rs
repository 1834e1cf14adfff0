//! # Opening near valley
//!
//! ## What it finds
//! Chimneys, skylights, pipes and vents within 12 in of a valley or a hip.
//! ## Why it matters
//! Their flashing runs into the valley's metal or under the cap: no unit between them can be laid or nailed as it should be.
//! ## Remedy
//! Move what can be moved; else make the flashing and the valley one piece of soldered metal.
//! ## Source
//! Common practice, no published source.

use roof::{EdgeKind, PlacedOpening};

use super::valley_dies_at_wall::distance;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family, Place};

pub(crate) const RULE: Rule = Rule {
    name: "opening-near-valley",
    kind: Kind::Practice,
    family: Family::Edges,
    endangers: &[Danger::Leak],
    reading: Reading::Memory,
    about: "opening",
    groups: &[],
    file: include_str!("opening_near_valley.rs"),
    run: opening_near_valley,
};

fn opening_near_valley(facts: &Facts) -> Verdict {
    let mut distances = Tally::lengths(Bound::AtLeast);
    for opening in &facts.roof.openings {
        if let (Some(nearest), Some(&plane)) = (nearest(facts, opening), opening.planes.first()) {
            let [u, v] = opening.at;
            distances.add(nearest, figure!(12.0), Place { plane, course: 0, u, v });
        }
    }
    let verdict = distances.verdict(
        |nearest| {
            let [is, least] = nearest.inches();
            format!("{}: an opening is {is} from a valley or hip; {least} are wanted", facts.plane_name(nearest.place))
        },
        |place| facts.name_of(place),
        "There is no opening near a valley or a hip.",
    );
    verdict.looked_at()
}

/// From an opening's corners to the nearest valley or hip, but for those of its own cricket.
fn nearest(facts: &Facts, opening: &PlacedOpening) -> Option<f64> {
    let own = opening.cricket.map(|cricket| cricket.planes);
    let lines = facts.roof.lines.iter().filter(|line| matches!(line.kind, EdgeKind::Valley | EdgeKind::Hip));
    let others = lines.filter(|line| !line.planes.iter().any(|plane| own.is_some_and(|own| own.contains(plane))));
    let all = others.flat_map(|line| opening.corners.iter().map(|&corner| distance(corner, line.ends)));
    all.min_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use roof::{Opening, OpeningKind, Spot};

    use crate::Outcome;
    use crate::trial::{Trial, house};

    /// A pipe on the south side of a hip roof, its middle so far to the right of the hip's foot at 5 ft up in plan. The hip runs
    /// at 45° in plan.
    fn pipe(right: f64) -> Trial {
        let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0); 4], 9.0)]);
        let spot = Spot::Over([60.0 + right, 60.0]);
        let opening = Opening { name: "pipe".into(), kind: OpeningKind::Pipe, spot, width: 4.0, height: 4.0 };
        trial.roof = roof::cut_out(trial.roof, &[opening]).roof;
        trial
    }

    /// The pipe's upper left corner is 2 in left of and above its middle: with d in plan between it and the hip along the eave,
    /// the distance on the plane is d × sin of the hip's angle, tan β = √(1 + (8/12)²) = 1.2019, sin β = 0.7687. 12 / 0.7687 =
    /// 15.611 in; the corner is as near as d = right − 2 − 2.
    #[test]
    fn twelve_inches_off() {
        assert_eq!(pipe(19.62).outcome("opening-near-valley"), Outcome::Pass);
        assert_eq!(pipe(19.60).outcome("opening-near-valley"), Outcome::Attention);
        let says = "house, south: an opening is 6-1/8\" from a valley or hip; 12\" are wanted.";
        assert_eq!(pipe(12.0).says("opening-near-valley"), says);
        assert_eq!(Trial::sound().outcome("opening-near-valley"), Outcome::NotApplicable);
    }
}
