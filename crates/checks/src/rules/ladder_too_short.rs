//! # Ladder too short
//!
//! ## What it finds
//! How long a ladder must be for this roof: set out a quarter of its working length, and 3 ft above the eave. It also reminds of power lines.
//! ## Why it matters
//! A ladder that ends at the eave is left without a hand to hold; one of metal that touches a line kills.
//! ## Remedy
//! Bring a ladder of this length, tie it, and look up before it is raised; local law decides.
//! ## Source
//! 29 CFR 1926.1053 (United States), from memory, not read.

use roof::EdgeKind;
use units::Length;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "ladder-too-short",
    kind: Kind::Practice,
    family: Family::People,
    endangers: &[Danger::Safety],
    reading: Reading::Memory,
    about: "block",
    groups: &[],
    file: include_str!("ladder_too_short.rs"),
    run: ladder_too_short,
};

fn ladder_too_short(facts: &Facts) -> Verdict {
    let eaves = facts.roof.lines.iter().filter(|line| line.kind == EdgeKind::Eave);
    let Some(highest) = eaves.map(|line| line.ends[0][2] / 12.0).reduce(f64::max).filter(|&feet| feet > 0.0) else {
        return Verdict::not_applicable("No eave has a height over the ground that is known.");
    };
    // No shorter than reckoned: up to the next inch.
    let ladder = Length::inches((ladder_ft(highest) * 12.0).ceil());
    let highest = Length::feet(highest);
    Verdict::attention(format!(
        "The highest eave is {highest} over the job's datum: a ladder of {ladder}, clear of every power line."
    ))
}

/// Up to an eave and so far past it, leaning a quarter of its working length out.
fn ladder_ft(eave_ft: f64) -> f64 {
    let out = figure!(0.25);
    (eave_ft + figure!(3.0)) / (1.0 - out * out).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::{Trial, house};

    /// 18 ft and 3 ft, leaning by a quarter: 21 / √(1 − 1/16) = 21.689 ft, which is 260.3 in (by hand).
    #[test]
    fn two_storeys() {
        assert!((ladder_ft(18.0) - 21.689).abs() < 1e-3);
        let trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0), None, Some(8.0), None], 18.0)]);
        let says = "The highest eave is 18' 0\" over the job's datum: a ladder of 21' 9\", clear of every power line.";
        let found = trial.one("ladder-too-short");
        assert_eq!((found.outcome, found.says.as_str()), (Outcome::Attention, says));
        assert_eq!(Trial::sound().outcome("ladder-too-short"), Outcome::NotApplicable);
    }
}
