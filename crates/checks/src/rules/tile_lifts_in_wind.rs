//! # Tile lifts in wind
//!
//! ## What it finds
//! The moment by which the wind of the place raises the tail of a tile at a corner of the roof, and what the tile's own weight
//! leaves of it to the fastening. Only for clay and concrete tile within the limits of the method; never more than looked at.
//! ## Why it matters
//! A tile that lifts claps on the ones beside it and breaks them before it flies.
//! ## Remedy
//! Fasten every tile with what has been tested for the moment that is left, or have the tile tested in a wind tunnel.
//! ## Source
//! International Building Code 2018, 1609.5.3, from memory, not read; outside its limits a wind-tunnel test decides.

use covering::{Covering, Material};

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::wind::{Tile, Wind, coefficients, left_to_fastening, uplift_moment};
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "tile-lifts-in-wind",
    kind: Kind::Code,
    family: Family::Wind,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::Memory,
    about: "site.wind_mph",
    groups: &[],
    file: include_str!("tile_lifts_in_wind.rs"),
    run: tile_lifts_in_wind,
};

fn tile_lifts_in_wind(facts: &Facts) -> Verdict {
    let tiled = || facts.covered_in(Material::PlainTile);
    if tiled().next().is_none() {
        return Verdict::not_applicable("No plane is covered in tile; of other units the tested class decides.");
    }
    let wind = match Wind::of(facts) {
        Ok(wind) => wind,
        Err(verdict) => return verdict,
    };
    let mut worst: Option<(f64, String)> = None;
    for (_, plane, covering) in tiled() {
        let Some(external) = coefficients(wind.standard, plane.pitch.degrees(), wind.is_hip) else {
            let standard = wind.standard.name();
            return Verdict::attention(format!("{}: the coefficients of {standard} are not known here.", plane.name));
        };
        match uplift_moment(wind.pressure, tile(covering), external.corner()) {
            Err(outside) => {
                let why = outside.name();
                return Verdict::attention(format!(
                    "The method does not hold for this tile: {why}. A wind-tunnel test decides."
                ));
            }
            Ok(moment) => {
                let weight = weight_moment(covering, plane.pitch.degrees());
                let left = left_to_fastening(moment, weight);
                let says = format!(
                    "At corners of {} the wind raises a tile by {moment:.2} ft-lb, its weight holds {weight:.2}; {left:.2} are \
                     left to the fastening. A licensed engineer decides.",
                    plane.name
                );
                if worst.as_ref().is_none_or(|(most, _)| left > *most) {
                    worst = Some((left, says));
                }
            }
        }
    }
    Verdict::attention(worst.map_or_else(String::new, |(_, says)| says))
}

fn tile(covering: &Covering) -> Tile {
    let unit = &covering.unit;
    Tile { length: unit.length.to_feet(), width: unit.width.to_feet(), tail: unit.thickness.to_inches() }
}

/// Of a tile's weight about its head, ft-lb: half its length, seen level.
fn weight_moment(covering: &Covering, degrees: f64) -> f64 {
    covering.unit.weight.to_pounds() * covering.unit.length.to_feet() / 2.0 * libm::cos(degrees.to_radians())
}

#[cfg(test)]
mod tests {
    use units::{Length, Mass};

    use super::*;
    use crate::trial::{Trial, house};
    use crate::{Outcome, WindExposure};

    fn tiled(length: f64) -> Trial {
        let house = house("house", [0.0, 0.0, 50.0, 30.0], [Some(4.0), None, Some(4.0), None], 20.0);
        let mut trial = Trial { roof: Trial::on(&[house]).roof, ..Trial::of(Material::PlainTile) };
        trial.covering.unit.length = Length::inches(length);
        trial.covering.unit.thickness = Length::inches(1.0);
        trial.covering.unit.weight = Mass::pounds(9.0);
        trial.site.wind_mph = Some(115.0);
        trial.site.wind_exposure = Some(WindExposure::B);
        trial.site.mean_roof_height = Some(Length::feet(20.0));
        trial
    }

    /// 115 mph, Kz 0.70: q = 0.00256 × 0.70 × 0.85 × 115² = 20.144 psf; corner −2.6: 20.144 × 0.2 × 1.0 × 1.25 × 0.95 × 3.6 =
    /// 17.22 ft-lb. Weight 9 lb × 0.625 ft × cos 18.435° = 5.34 ft-lb. Worked by hand; the figures from memory, not read.
    #[test]
    fn a_tile_worked_by_hand() {
        let says = "At corners of house, south the wind raises a tile by 17.22 ft-lb, its weight holds 5.34; 11.89 are left to \
                    the fastening. A licensed engineer decides. The text of the 2018 edition was not read.";
        let found = tiled(15.0).one("tile-lifts-in-wind");
        assert_eq!((found.outcome, found.says.as_str()), (Outcome::Attention, says));
    }

    #[test]
    fn a_short_tile_is_refused() {
        let says = tiled(11.0).says("tile-lifts-in-wind");
        assert!(
            says.starts_with("The method does not hold for this tile: its length is not from 12 in to 21 in."),
            "{says}"
        );
        assert_eq!(Trial::sound().outcome("tile-lifts-in-wind"), Outcome::NotApplicable);
    }
}
