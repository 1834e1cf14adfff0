//! # Snow over framing
//!
//! ## What it finds
//! Planes whose snow, balanced or blown over the ridge, is more than the framing was designed for.
//! ## Why it matters
//! A roof that is loaded beyond its framing sags, opens its laps, and can fall.
//! ## Remedy
//! Let a licensed engineer look at the framing before the roof is laid.
//! ## Source
//! ASCE 7-10, sections 7.3, 7.4 and 7.6, as a guide to its snow loads works them; slope factors and extents from memory, not read.

use roof::Plane;

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::snow::unbalanced;
use crate::snow_on::{SnowOn, run_ft};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family, Place};

pub(crate) const RULE: Rule = Rule {
    name: "snow-over-framing",
    kind: Kind::Code,
    family: Family::Snow,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::Memory,
    about: "deck.snow_load_psf",
    groups: &[],
    file: include_str!("snow_over_framing.rs"),
    run: snow_over_framing,
};

fn snow_over_framing(facts: &Facts) -> Verdict {
    let mut missing = SnowOn::of(facts).err().unwrap_or_default();
    missing.extend(facts.deck.snow_load_psf.is_none().then_some("[deck] snow_load_psf"));
    let (Ok(snow), Some(designed)) = (SnowOn::of(facts), facts.deck.snow_load_psf) else {
        return Verdict::missing(&missing);
    };
    let mut loads = Tally::exact(Bound::AtMost);
    for (index, plane, covering) in facts.covered() {
        let balanced = snow.on(plane, covering.material);
        let load = balanced + surcharge(&snow, plane, balanced);
        loads.add(load, designed, Place { plane: index, course: 0, u: 0.0, v: 0.0 });
    }
    loads.verdict(
        |heaviest| {
            let plane = facts.plane_name(heaviest.place);
            format!(
                "{plane} carries up to {:.1} psf of snow, {:.1} on a flat roof; the framing was designed for {designed} psf",
                heaviest.is, snow.flat
            )
        },
        |place| facts.name_of(place),
        "There is no plane to cover.",
    )
}

/// What is blown over the ridge onto a plane, on top of the balanced snow; from a slope as long as its own.
fn surcharge(snow: &SnowOn, plane: &Plane, balanced: f64) -> f64 {
    unbalanced(balanced, snow.ground, run_ft(plane), plane.pitch.rise()).map_or(0.0, |blown| blown.surcharge.max(0.0))
}

#[cfg(test)]
mod tests {
    use covering::Material;

    use crate::Outcome;
    use crate::trial::{Trial, house};

    fn snowed(rise: f64, designed: f64) -> Trial {
        let block = house("house", [0.0, 0.0, 120.0, 100.0], [Some(rise), None, Some(rise), None], 9.0);
        let mut trial = Trial { roof: Trial::on(&[block]).roof, ..Trial::of(Material::WoodShake) };
        let site = &mut trial.site;
        (site.ground_snow_psf, site.snow_exposure_factor) = (Some(20.0), Some(1.1));
        (site.snow_thermal_factor, site.risk_category) = (Some(1.2), Some(1));
        trial.deck.snow_load_psf = Some(designed);
        trial
    }

    /// An engineer's sheet by ASCE 7-10: 5 in 12, pg 20, Ce 1.1, Ct 1.2, Is 0.8, W 50 ft: 14.8 psf and 23.7 blown on top
    /// (unrounded 14.784 and 23.652).
    #[test]
    fn snow_blown_over_a_ridge() {
        assert_eq!(snowed(5.0, 38.6).outcome("snow-over-framing"), Outcome::Attention);
        assert_eq!(snowed(5.0, 38.4).outcome("snow-over-framing"), Outcome::Fail);
        let says = "house, south carries up to 38.4 psf of snow, 14.8 on a flat roof; the framing was designed for 30 psf; \
                    2 places in all. The text of the 2018 edition was not read.";
        assert_eq!(snowed(5.0, 30.0).says("snow-over-framing"), says);
    }

    /// Steeper than 7 in 12 nothing is blown over; 8 in 12 holds all of it: 14.784 psf.
    #[test]
    fn steep_roofs_carry_what_falls_on_them() {
        assert_eq!(snowed(8.0, 14.8).outcome("snow-over-framing"), Outcome::Attention);
        assert_eq!(snowed(8.0, 14.7).outcome("snow-over-framing"), Outcome::Fail);
        // Slate sheds: Cs 0.660 at 8 in 12 (ASCE 7-10, cold and slippery), 9.76 psf.
        let slate = |designed| {
            let mut trial = snowed(8.0, designed);
            trial.covering.material = Material::NaturalSlate;
            trial.outcome("snow-over-framing")
        };
        assert_eq!([slate(9.8), slate(9.7)], [Outcome::Attention, Outcome::Fail]);
        let says = "The job does not give [site] ground_snow_psf and [site] snow_exposure_factor and [site] snow_thermal_factor \
                    and [site] risk_category and [deck] snow_load_psf.";
        assert_eq!(Trial::sound().says("snow-over-framing"), says);
    }
}
