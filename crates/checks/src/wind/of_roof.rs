use roof::{EdgeKind, Point3, Roof};
use units::Length;

use crate::figure::figure;
use crate::rule::{Verdict, absent};
use crate::wind::{Pressures, Standard, coefficients, exposure_coefficient, velocity_pressure, zone_width};
use crate::{Facts, WindExposure};

/// The wind on one roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wind {
    pub(crate) standard: Standard,
    mph: f64,
    exposure: WindExposure,
    height_ft: f64,
    /// Velocity pressure, pounds a square foot.
    pub(crate) pressure: f64,
    /// Hips all round.
    pub(crate) is_hip: bool,
    /// Width of the zones along the edges.
    pub(crate) zone_width_ft: f64,
}

/// Wind on a roof, for whoever draws its zones: 1 the field, 2 the edges, 3 the corners.
#[derive(Debug, Clone, PartialEq)]
pub struct WindOn {
    /// `ASCE 7-16`.
    pub standard: &'static str,
    /// Basic wind, miles an hour.
    pub mph: f64,
    /// `B`, `C` or `D`.
    pub exposure: &'static str,
    /// Mean height of the roof, feet.
    pub mean_roof_height_ft: f64,
    /// Velocity pressure, pounds a square foot.
    pub velocity_pressure_psf: f64,
    /// Width a of the zones along the edges, feet.
    pub zone_width_ft: f64,
    /// Planes whose coefficients are known.
    pub planes: Vec<WindOnPlane>,
}

/// Pressures on the components of one plane at 10 sq ft and allowable stress, pounds a square foot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindOnPlane {
    /// Index in [`Roof::planes`].
    pub plane: usize,
    /// Pull in zones 1, 2 and 3; negative.
    pub zones_psf: [f64; 3],
    /// Push.
    pub inward_psf: f64,
}

/// The wind of the place on this roof; none where the job does not give what it is reckoned from. From memory in part, and
/// a licensed engineer decides, as the rule `wind-uplift-undesigned` says.
#[must_use]
pub fn wind_on(facts: &Facts) -> Option<WindOn> {
    let wind = Wind::of(facts).ok()?;
    let planes = facts.roof.planes.iter().enumerate().filter_map(|(plane, surface)| {
        let coefficients = coefficients(wind.standard, surface.pitch.degrees(), wind.is_hip)?;
        let Pressures { zones, inward } = Pressures::of(wind.pressure, coefficients);
        Some(WindOnPlane { plane, zones_psf: zones, inward_psf: inward })
    });
    Some(WindOn {
        standard: wind.standard.name(),
        mph: wind.mph,
        exposure: wind.exposure.name(),
        mean_roof_height_ft: wind.height_ft,
        velocity_pressure_psf: wind.pressure,
        zone_width_ft: wind.zone_width_ft,
        planes: planes.collect(),
    })
}

impl Wind {
    /// # Errors
    /// What is not given, or not known here.
    pub(crate) fn of(facts: &Facts) -> Result<Self, Verdict> {
        let site = facts.site;
        let height = site.mean_roof_height.map(units::Length::to_feet).or_else(|| mean_height_ft(facts.roof));
        let (Some(code), Some(mph), Some(exposure), Some(height_ft)) =
            (site.code, site.wind_mph, site.wind_exposure, height)
        else {
            return Err(Verdict::missing(&absent(&[
                (site.code.is_some(), "[site] code"),
                (site.wind_mph.is_some(), "[site] wind_mph"),
                (site.wind_exposure.is_some(), "[site] wind_exposure"),
                (height.is_some() || facts.roof.planes.is_empty(), "[site] mean_roof_height"),
            ])));
        };
        let Some(standard) = Standard::of(code) else {
            let says = format!("Wind by the edition of {} is not reckoned here: its maps give nominal speeds.", code.name());
            return Err(Verdict::not_applicable(says));
        };
        let pressure = velocity_pressure(exposure_coefficient(standard, exposure, height_ft), mph);
        let zone_width_ft = zone_width(least_width_ft(facts.roof), height_ft);
        Ok(Self { standard, mph, exposure, height_ft, pressure, is_hip: is_hip(facts.roof), zone_width_ft })
    }

    /// `115 mph, exposure B, 18' 2" high: 13.7 psf by ASCE 7-16`.
    pub(crate) fn told(&self) -> String {
        let Self { standard, mph, exposure, height_ft, pressure, .. } = self;
        let (exposure, standard, height) = (exposure.name(), standard.name(), Length::feet(*height_ft));
        format!("{mph} mph, exposure {exposure}, {height} high: {pressure:.1} psf by {standard}")
    }
}

fn is_hip(roof: &Roof) -> bool {
    let has = |kind| roof.lines.iter().any(|line| line.kind == kind);
    has(EdgeKind::Hip) && !has(EdgeKind::Rake)
}

/// Corners of planes whose place is known, inches.
fn corners(roof: &Roof) -> impl Iterator<Item = Point3> + '_ {
    let planes = roof.planes.iter().filter(|plane| plane.has_place());
    planes.flat_map(|plane| plane.rings.iter().flat_map(|ring| ring.corners.iter().copied()))
}

/// Half way between the highest eave and the highest line over the job's datum; of roofs of 10° and less the eave itself.
/// ASCE 7-16, definition of the mean roof height, as a guide to its wind loads uses it.
fn mean_height_ft(roof: &Roof) -> Option<f64> {
    let eaves = roof.lines.iter().filter(|line| line.kind == EdgeKind::Eave);
    let eave = eaves.map(|line| line.ends[0][2]).reduce(f64::max)?;
    let top = corners(roof).map(|[.., z]| z).reduce(f64::max)?;
    let steepest = roof.planes.iter().map(|plane| plane.pitch.degrees()).reduce(f64::max)?;
    Some(if steepest <= figure!(10.0) { eave } else { f64::midpoint(eave, top) } / 12.0)
}

/// Least width of the roof in plan, feet, square to any of its planes' bearing sides.
fn least_width_ft(roof: &Roof) -> f64 {
    let widths = roof.planes.iter().filter(|plane| plane.has_place()).map(|plane| {
        let [x, y] = plane.frame.inward();
        let along = corners(roof).map(|corner| corner[0] * x + corner[1] * y);
        let [least, most] = along.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], at| [a.min(at), b.max(at)]);
        (most - least).max(0.0)
    });
    widths.reduce(f64::min).unwrap_or_default() / 12.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{Trial, house};

    /// Guide to the wind loads of ASCE 7-16, chapter 8: eaves at 10 ft, 15°, 16 ft wide: 10 + 16 tan 15° / 2 ... / 2 = 12.1 ft.
    #[test]
    fn the_mean_height_of_a_worked_house() {
        let rise = 12.0 * libm::tan(15f64.to_radians());
        let pitches = [Some(rise), None, Some(rise), None];
        // The ridge lies 8 ft in from the eaves: 8 tan 15° = 2.14 ft over them; half of it is 1.07 ft.
        let narrow = Trial::on(&[house("house", [0.0, 0.0, 40.0, 16.0], pitches, 10.0)]);
        assert!((mean_height_ft(&narrow.roof).unwrap() - 11.07).abs() < 0.006);
        // In the guide the run is 16 ft: 16 tan 15° / 2 = 2.14 ft.
        let wide = Trial::on(&[house("house", [0.0, 0.0, 80.0, 32.0], pitches, 10.0)]);
        assert!((mean_height_ft(&wide.roof).unwrap() - 12.1).abs() < 0.05);
        assert!((least_width_ft(&wide.roof) - 32.0).abs() < 1e-6);
    }

    /// 10°: 2.116 in 12; the eave's own height counts up to there.
    #[test]
    fn flat_roofs_count_from_the_eave() {
        let height = |degrees: f64| {
            let rise = 12.0 * libm::tan(degrees.to_radians());
            let block = house("house", [0.0, 0.0, 40.0, 16.0], [Some(rise), None, Some(rise), None], 10.0);
            mean_height_ft(&Trial::on(&[block]).roof).unwrap()
        };
        assert!((height(9.99) - 10.0).abs() < 1e-9 && height(10.05) > 10.5);
    }

    #[test]
    fn hips_all_round() {
        let on = |pitches| is_hip(&Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], pitches, 9.0)]).roof);
        assert!(
            on([Some(8.0); 4]) && !on([Some(8.0), None, Some(8.0), None]) && !on([Some(8.0), Some(8.0), Some(8.0), None])
        );
    }
}
