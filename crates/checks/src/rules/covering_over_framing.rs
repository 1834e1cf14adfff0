//! # Covering over framing
//!
//! ## What it finds
//! Planes whose units, as they are laid, weigh more than the framing was designed for. Nails, felt and battens come on top.
//! ## Why it matters
//! A short exposure puts more units on a square foot; slate and tile laid on rafters made for shingles bend them for good.
//! ## Remedy
//! Let a licensed engineer look at the framing, or choose a lighter covering.
//! ## Source
//! Weight = unit weight / (exposure x width and gap), which is arithmetic; what the framing carries, by its designer. Common practice, no published source.

use crate::facts::Laid;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "covering-over-framing",
    kind: Kind::Practice,
    family: Family::Loads,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::Memory,
    about: "deck.covering_load_psf",
    groups: &[],
    file: include_str!("covering_over_framing.rs"),
    run: covering_over_framing,
};

fn covering_over_framing(facts: &Facts) -> Verdict {
    let Some(designed) = facts.deck.covering_load_psf else {
        return Verdict::missing(&["[deck] covering_load_psf"]);
    };
    let mut weights = Tally::exact(Bound::AtMost);
    for laid in facts.laid() {
        weights.add(heaviest_psf(&laid), designed, laid.place(0));
    }
    weights.verdict(
        |worst| {
            let plane = facts.plane_name(worst.place);
            format!("The units on {plane} weigh {:.2} psf; the framing was designed for {designed} psf", worst.is)
        },
        |place| facts.name_of(place),
        "No plane is laid.",
    )
}

/// Pounds a square foot of slope, of the course with the shortest exposure below the top one.
fn heaviest_psf(laid: &Laid) -> f64 {
    let courses = &laid.units.courses;
    let exposures = courses.iter().take(courses.len().saturating_sub(1).max(1)).map(|course| course.exposure);
    let shortest = exposures.fold(f64::INFINITY, f64::min);
    let along = (laid.covering.unit.width + laid.covering.gap).to_inches();
    laid.covering.unit.weight.to_pounds() * 144.0 / (shortest * along)
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::Trial;

    /// 2 lb units 12 in wide, 1/4 in apart, at 7 in: 2 × 144 / (7 × 12.25) = 3.359 psf (by hand).
    fn designed(psf: f64) -> Trial {
        let mut trial = Trial::sound();
        trial.deck.covering_load_psf = Some(psf);
        trial
    }

    #[test]
    fn what_was_designed_for_is_carried() {
        assert_eq!(designed(3.36).outcome("covering-over-framing"), Outcome::Pass);
        assert_eq!(designed(3.355).adds(&designed(4.0)), ["covering-over-framing"]);
        let says = "The units on house, south weigh 3.36 psf; the framing was designed for 3 psf.";
        assert_eq!(designed(3.0).says("covering-over-framing"), says);
        assert_eq!(Trial::sound().says("covering-over-framing"), "The job does not give [deck] covering_load_psf.");
    }

    /// A shorter exposure weighs more: at 6 in 2 × 144 / (6 × 12.25) = 3.918 psf.
    #[test]
    fn short_exposures_weigh_more() {
        let mut trial = designed(3.9);
        trial.set_exposure(6.0);
        assert_eq!(trial.outcome("covering-over-framing"), Outcome::Fail);
    }
}
