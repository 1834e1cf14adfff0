//! # Wind uplift undesigned
//!
//! ## What it finds
//! How hard the wind of the place pulls at the covering, by zones: 1 the field, 2 along the edges, 3 the corners. It is never
//! more than looked at. Flat land near sea level, an enclosed building, 10 sq ft.
//! ## Why it matters
//! At edges and corners the wind pulls two and three times as hard as in the field; fastening that suits the field fails there.
//! ## Remedy
//! Give these figures to a licensed engineer or to the maker, and let them say how each zone is fastened.
//! ## Source
//! ASCE 7 of the edition that the residential code follows, components and cladding; coefficients from memory, not read, but for 0° to 27° checked against Table R301.2(2) of the International Residential Code 2018.

use units::Length;

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::wind::{Pressures, Wind, coefficients};
use crate::{Facts, Family, Place};

pub(crate) const RULE: Rule = Rule {
    name: "wind-uplift-undesigned",
    kind: Kind::Code,
    family: Family::Wind,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::Memory,
    about: "site.wind_mph",
    groups: &[],
    file: include_str!("wind_uplift_undesigned.rs"),
    run: wind_uplift_undesigned,
};

fn wind_uplift_undesigned(facts: &Facts) -> Verdict {
    let wind = match Wind::of(facts) {
        Ok(wind) => wind,
        Err(verdict) => return verdict,
    };
    let planes = facts.covered().map(|(index, plane, _)| {
        let found = coefficients(wind.standard, plane.pitch.degrees(), wind.is_hip);
        (index, found.map(|found| Pressures::of(wind.pressure, found)))
    });
    let planes: Vec<(usize, Option<Pressures>)> = planes.collect();
    if planes.is_empty() {
        return Verdict::not_applicable("There is no plane to cover.");
    }
    let unknown = planes.iter().filter(|(_, pressures)| pressures.is_none());
    let unknown: Vec<&str> = unknown.map(|&(index, _)| facts.plane_name(at(index))).collect();
    let worst = planes.iter().filter_map(|&(index, pressures)| Some((index, pressures?)));
    let worst = worst.min_by(|(_, a), (_, b)| a.zones[2].total_cmp(&b.zones[2]));
    let mut says = wind.told();
    if let Some((index, pressures)) = worst {
        says += &format!("; {}", told(facts.plane_name(at(index)), &pressures));
    }
    if !unknown.is_empty() {
        let (names, standard) = (unknown.join("; "), wind.standard.name());
        says += &format!("; for {names} the coefficients of {standard} are not known here");
    }
    let zones = Length::feet(wind.zone_width_ft);
    Verdict::attention(format!("{says}; zones are {zones} wide. A licensed engineer decides."))
}

const fn at(plane: usize) -> Place {
    Place { plane, course: 0, u: 0.0, v: 0.0 }
}

fn told(plane: &str, pressures: &Pressures) -> String {
    let [field, edge, corner] = pressures.zones;
    let inward = pressures.inward;
    format!(
        "on {plane} zones 1, 2, 3 are pulled at by {:.1}, {:.1}, {:.1} psf and pressed by {inward:.1}",
        -field, -edge, -corner
    )
}

#[cfg(test)]
mod tests {
    use units::Length;

    use crate::trial::{Trial, house};
    use crate::{Edition, Outcome, WindExposure};

    fn windy(rise: f64, code: Edition) -> Trial {
        let mut trial = Trial::on(&[house("house", [0.0, 0.0, 50.0, 30.0], [Some(rise), None, Some(rise), None], 20.0)]);
        trial.site.code = Some(code);
        trial.site.wind_mph = Some(180.0);
        trial.site.wind_exposure = Some(WindExposure::B);
        trial.site.mean_roof_height = Some(Length::feet(30.0));
        trial
    }

    /// International Residential Code 2018, Table R301.2(2), 180 mph: -32.0 and +20.2 psf from above 7° to 27°; zone 3 and the
    /// rest from memory, not read. a = 10 % of 30 ft.
    #[test]
    fn the_figures_of_a_house() {
        let found = windy(4.0, Edition::Of2018).one("wind-uplift-undesigned");
        let says = "180 mph, exposure B, 30' 0\" high: 49.4 psf by ASCE 7-10; on house, south zones 1, 2, 3 are pulled at by \
                    32.0, 55.7, 82.4 psf and pressed by 20.2; zones are 3' 0\" wide. A licensed engineer decides. \
                    The text of the 2018 edition was not read.";
        assert_eq!((found.outcome, found.says.as_str()), (Outcome::Attention, says));
    }

    #[test]
    fn what_is_not_known_is_not_made_up() {
        let says = windy(8.0, Edition::Of2021).says("wind-uplift-undesigned");
        assert!(says.contains("for house, south; house, north the coefficients of ASCE 7-16 are not known here"), "{says}");
        let says = "Wind by the edition of 2012 is not reckoned here: its maps give nominal speeds.";
        assert_eq!(windy(4.0, Edition::Of2012).says("wind-uplift-undesigned"), says);
        let says = "The job does not give [site] wind_mph and [site] wind_exposure and [site] mean_roof_height.";
        assert_eq!(Trial::sound().says("wind-uplift-undesigned"), says);
    }
}
