//! # Snow slides onto roof below
//!
//! ## What it finds
//! Upper roofs steep enough to shed their snow onto a lower one.
//! ## Why it matters
//! Sliding snow lands at once and in one strip: it breaks units and has broken roofs.
//! ## Remedy
//! Guards on the upper roof, and framing below that a licensed engineer has checked for the strip.
//! ## Source
//! ASCE 7-10, 7.9: 0.4 of the flat-roof snow of the upper slope, 15 ft wide, from memory, not read.

use covering::Material;

use crate::facts::drip::drips;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::snow::{sliding, sliding_width};
use crate::snow_on::{SnowOn, is_slippery, run_ft};
use crate::text::Reading;
use crate::{Facts, Family, Outcome};

pub(crate) const RULE: Rule = Rule {
    name: "snow-slides-onto-roof-below",
    kind: Kind::Code,
    family: Family::Snow,
    endangers: &[Danger::Leak, Danger::Code, Danger::Safety],
    reading: Reading::Memory,
    about: "site.ground_snow_psf",
    groups: &[],
    file: include_str!("snow_slides_onto_roof_below.rs"),
    run: snow_slides_onto_roof_below,
};

fn snow_slides_onto_roof_below(facts: &Facts) -> Verdict {
    let mut shedding = drips(facts.roof);
    shedding.retain(|drip| sheds(facts, drip.from.plane));
    let Some(first) = shedding.first() else {
        return Verdict::not_applicable("No roof sheds snow onto another.");
    };
    let snow = match SnowOn::of(facts) {
        Ok(snow) => snow,
        Err(missing) => return Verdict::missing(&missing),
    };
    if snow.ground <= 0.0 {
        return Verdict::pass("No snow falls here.");
    }
    let [above, below] = [first.from.plane, first.below].map(|plane| &facts.roof.planes[plane]);
    let load = sliding(snow.flat, run_ft(above));
    let says = format!(
        "{} sheds {load:.0} lb a foot of eave onto {}, over {} ft from the wall",
        above.name,
        below.name,
        sliding_width()
    );
    Verdict::found(Outcome::Attention, says, shedding.iter().map(|drip| drip.from).collect())
}

/// Slippery roofs shed from 1/4 in 12 up, others from 2 in 12 (from memory, not read).
fn sheds(facts: &Facts, plane: usize) -> bool {
    let rise = facts.roof.planes.get(plane).map_or(0.0, |plane| plane.pitch.rise());
    let material = facts.covering(plane).map(|covering| covering.material);
    let least = if material.is_some_and(is_slippery as fn(Material) -> bool) { figure!(0.25) } else { figure!(2.0) };
    rise > least
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{Trial, house};

    fn porch(rise: f64, ground: f64, material: Material) -> Trial {
        let tall = house("house", [0.0, 0.0, 40.0, 28.0], [Some(rise), None, Some(rise), None], 18.0);
        let porch = house("porch", [10.0, -8.0, 30.0, 4.0], [Some(1.0), None, None, None], 9.0);
        let mut trial = Trial { roof: Trial::on(&[tall, porch]).roof, ..Trial::of(material) };
        let site = &mut trial.site;
        (site.ground_snow_psf, site.snow_exposure_factor) = (Some(ground), Some(1.0));
        (site.snow_thermal_factor, site.risk_category) = (Some(1.0), Some(2));
        trial
    }

    /// 0.7 × 30 = 21 psf flat, 14 ft of run: 0.4 × 21 × 14 = 118 lb a foot (worked by hand, formula from memory, not read).
    #[test]
    fn a_porch_under_an_eave() {
        let found = porch(8.0, 30.0, Material::WoodShake).one("snow-slides-onto-roof-below");
        let says = "house, south sheds 118 lb a foot of eave onto porch, south, over 15 ft from the wall. \
                    The text of the 2018 edition was not read.";
        assert_eq!((found.outcome, found.says.as_str()), (Outcome::Attention, says));
        assert_eq!(Trial::sound().outcome("snow-slides-onto-roof-below"), Outcome::NotApplicable);
    }

    /// More than 2 in 12, slippery more than 1/4 in 12: ASCE 7-10, 7.9, from memory, not read.
    #[test]
    fn flat_roofs_hold_their_snow() {
        let outcome = |rise, material| porch(rise, 30.0, material).outcome("snow-slides-onto-roof-below");
        assert_eq!(
            [outcome(2.0, Material::WoodShake), outcome(2.01, Material::WoodShake)],
            [Outcome::NotApplicable, Outcome::Attention]
        );
        assert_eq!(
            [outcome(0.25, Material::NaturalSlate), outcome(0.2515, Material::NaturalSlate)],
            [Outcome::NotApplicable, Outcome::Attention]
        );
    }

    #[test]
    fn without_snow_nothing_slides() {
        // A code whose text was not read never passes.
        let dry = porch(8.0, 0.0, Material::WoodShake).one("snow-slides-onto-roof-below");
        let snowed = porch(8.0, 30.0, Material::WoodShake).one("snow-slides-onto-roof-below");
        assert!(dry.kept && !snowed.kept);
        assert!(dry.says.starts_with("No snow falls here.") && dry.places.is_empty(), "{}", dry.says);
    }
}
