//! # Step flashing too small
//!
//! ## What it finds
//! Pieces of step flashing at walls and chimneys with less than 4 in up the wall, or with less than 4 in under the units: what the
//! blank leaves after the leg at the wall and the hem.
//! ## Why it matters
//! Water that runs along a wall spreads sideways under the units and is blown up the wall.
//! ## Remedy
//! Bend the pieces wider, [flashing] wall_leg and roof_leg.
//! ## Source
//! International Residential Code 2018, sidewall base flashing 4 in by 4 in, read; taken for units other than asphalt shingles.

use details::MetalKind;

use crate::facts::metal::runs;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "step-flashing-too-small",
    kind: Kind::Code,
    family: Family::Edges,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::In(&[Edition::Of2018]),
    about: "flashing",
    groups: &[],
    file: include_str!("step_flashing_too_small.rs"),
    run: step_flashing_too_small,
};

fn step_flashing_too_small(facts: &Facts) -> Verdict {
    let mut legs = Tally::lengths(Bound::AtLeast);
    for run in runs(facts, MetalKind::StepFlashing) {
        for piece in &run.pieces {
            let up = facts.flashing.wall_leg;
            let under = piece.girth - facts.flashing.step_hem - up;
            let shorter = up.to_inches().min(under.to_inches());
            legs.add(shorter, figure!(4.0), facts.place_on(run.along.plane, piece.ends[0]));
        }
    }
    legs.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            let place = facts.name_of(shortest.place);
            format!("{place}: step flashing has a leg of {is}; the code asks for {least} up the wall and under the units")
        },
        |place| facts.name_of(place),
        "No step flashing is laid.",
    )
}

#[cfg(test)]
mod tests {
    use units::Length;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    const NAME: &str = "step-flashing-too-small";

    /// Two pieces with 1/2 in turned back along their edge.
    fn with(up: f64, under: f64) -> Trial {
        let mut trial = Trial::sound();
        let pieces = [[[0.0, 1.0], [0.0, 10.0]], [[0.0, 8.0], [0.0, 17.0]]];
        trial.metal(MetalKind::StepFlashing, &pieces, up + under + 0.5);
        trial.flashing.wall_leg = Length::inches(up);
        trial
    }

    /// 4 in by 4 in: International Residential Code 2018, sidewall base flashing.
    #[test]
    fn four_inches_each_way() {
        assert_eq!(with(4.0, 4.0).outcome(NAME), Outcome::Pass);
        assert_eq!([with(3.99, 4.0), with(4.0, 3.99)].map(|trial| trial.outcome(NAME)), [Outcome::Fail; 2]);
        let says = "house, south, course 1: step flashing has a leg of 3\"; the code asks for 4\" up the wall and under the units; \
                    2 places in all.";
        assert_eq!(with(4.0, 3.0).says(NAME), says);
        assert_eq!(with(4.0, 3.0).adds(&with(4.0, 4.0)), [NAME]);
        assert_eq!(Trial::sound().says(NAME), "No step flashing is laid.");
    }
}
