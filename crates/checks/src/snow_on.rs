//! The snow of the place on this roof.

use covering::Material;
use roof::Plane;

use crate::Facts;
use crate::rule::absent;
use crate::snow::{importance, on_flat_roof, slope_factor};

/// What the place gives of snow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SnowOn {
    /// Ground snow, pounds a square foot.
    pub(crate) ground: f64,
    thermal: f64,
    /// On a flat roof.
    pub(crate) flat: f64,
}

impl SnowOn {
    /// # Errors
    /// The keys of the job that are not given.
    pub(crate) fn of(facts: &Facts) -> Result<Self, Vec<&'static str>> {
        let site = facts.site;
        let (Some(ground), Some(exposure), Some(thermal), Some(category)) =
            (site.ground_snow_psf, site.snow_exposure_factor, site.snow_thermal_factor, site.risk_category)
        else {
            return Err(absent(&[
                (site.ground_snow_psf.is_some(), "[site] ground_snow_psf"),
                (site.snow_exposure_factor.is_some(), "[site] snow_exposure_factor"),
                (site.snow_thermal_factor.is_some(), "[site] snow_thermal_factor"),
                (site.risk_category.is_some(), "[site] risk_category"),
            ]));
        };
        Ok(Self { ground, thermal, flat: on_flat_roof(ground, exposure, thermal, importance(category)) })
    }

    /// On a plane of this material, pounds a square foot of plan.
    pub(crate) fn on(&self, plane: &Plane, material: Material) -> f64 {
        self.flat * slope_factor(plane.pitch.degrees(), self.thermal, is_slippery(material))
    }
}

/// Slate is among the slippery surfaces of ASCE 7, wood is not (from memory, not read). Of composite units and tile nothing is
/// known here, so that they are taken to hold their snow.
pub(crate) const fn is_slippery(material: Material) -> bool {
    matches!(material, Material::NaturalSlate)
}

/// Level run of a plane, feet, from its bearing side to its highest corner.
pub(crate) fn run_ft(plane: &Plane) -> f64 {
    let highest = plane.places().into_iter().flatten().map(|[_, v]| v).fold(0.0, f64::max);
    highest / plane.pitch.slope_factor() / 12.0
}
