//! # Snow slides unheld
//!
//! ## What it finds
//! Slippery planes in snow: how hard their snow pulls down the slope, which guards spread over the plane would have to hold.
//! ## Why it matters
//! Snow leaves slate in one slide: on people, gutters, plants, and on what stands in the plane.
//! ## Remedy
//! Guards in rows over the whole plane, not one row at the eave, of a number and strength that their maker reckons from this force.
//! ## Source
//! Force = snow on the plane x sine of the pitch, which is statics; snow by ASCE 7-10, slope factors from memory, not read.

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::snow_on::{SnowOn, is_slippery, run_ft};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "snow-slides-unheld",
    kind: Kind::Practice,
    family: Family::Snow,
    endangers: &[Danger::Safety],
    reading: Reading::Memory,
    about: "site.ground_snow_psf",
    groups: &[],
    file: include_str!("snow_slides_unheld.rs"),
    run: snow_slides_unheld,
};

fn snow_slides_unheld(facts: &Facts) -> Verdict {
    let slippery: Vec<_> = facts.covered().filter(|(_, _, covering)| is_slippery(covering.material)).collect();
    if slippery.is_empty() {
        return Verdict::not_applicable("No plane is covered in anything known as slippery.");
    }
    let snow = match SnowOn::of(facts) {
        Ok(snow) => snow,
        Err(missing) => return Verdict::missing(&missing),
    };
    let pulls = slippery.iter().map(|(index, plane, covering)| {
        let sine = libm::sin(plane.pitch.degrees().to_radians());
        (snow.on(plane, covering.material) * run_ft(plane) * sine, *index)
    });
    let pulls: Vec<(f64, usize)> = pulls.filter(|&(pull, _)| pull > 0.0).collect();
    match pulls.iter().max_by(|a, b| a.0.total_cmp(&b.0)) {
        Some(&(most, index)) => {
            let places = pulls.iter().map(|&(_, plane)| Place { plane, course: 0, u: 0.0, v: 0.0 }).collect();
            let name = &facts.roof.planes[index].name;
            let says = format!("Snow on {name} pulls {most:.0} lb down the slope for each foot along the eave");
            Verdict::found(Outcome::Attention, says, places)
        }
        None => Verdict::pass("No snow lies on the slippery planes."),
    }
}

#[cfg(test)]
mod tests {
    use covering::Material;

    use super::*;
    use crate::trial::{Trial, house};

    fn slate(ground: f64) -> Trial {
        let block = house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0), None, None, None], 9.0);
        let mut trial = Trial { roof: Trial::on(&[block]).roof, ..Trial::of(Material::NaturalSlate) };
        let site = &mut trial.site;
        (site.ground_snow_psf, site.snow_exposure_factor) = (Some(ground), Some(1.0));
        (site.snow_thermal_factor, site.risk_category) = (Some(1.2), Some(2));
        trial
    }

    /// 0.7 × 1.2 × 30 = 25.2 psf flat; Cs 0.660 at 8 in 12 (cold, slippery): 16.63 psf × 28 ft × 0.5547 = 258 lb (by hand).
    #[test]
    fn a_slate_slope_worked_by_hand() {
        let found = slate(30.0).one("snow-slides-unheld");
        let says = "Snow on house, south pulls 258 lb down the slope for each foot along the eave.";
        assert_eq!((found.outcome, found.says.as_str()), (Outcome::Attention, says));
        assert_eq!(slate(0.0).outcome("snow-slides-unheld"), Outcome::Pass);
        assert_eq!(slate(30.0).adds(&slate(0.0)), ["snow-slides-unheld"]);
        let mut wood = slate(30.0);
        wood.covering.material = Material::WoodShake;
        assert_eq!(wood.outcome("snow-slides-unheld"), Outcome::NotApplicable);
    }
}
