//! Where the house stands: as typed, and as meant.

use checks::{Edition, Site, WindExposure};
use covering::FireClass;
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Measure, Temperature};

use super::resolve::Desk;

/// Where the house stands. Whatever is absent is unknown, and the rules that need it say so.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SiteTable {
    /// Direction of north in plan, degrees clockwise from +y, -360 to 360. Absent: 0, +y is north.
    pub north_deg: Option<f64>,
    /// Edition of the residential code in force: "2009", "2012", "2015", "2018", "2021" or "2024".
    pub code: Option<Edition>,
    /// Basic (ultimate) design wind speed of the place, miles an hour.
    pub wind_mph: Option<f64>,
    /// How open the land lies to the wind: "B" towns and woods, "C" open land, "D" flat land and water.
    pub wind_exposure: Option<WindExposure>,
    /// Mean height of the roof over the ground. Absent: reckoned from the heights in this file, as if its datum were the ground.
    pub mean_roof_height: Option<Measure>,
    /// Risk category of the building, 1 to 4; of a dwelling usually 2.
    pub risk_category: Option<u32>,
    /// Ground snow load of the place, pounds a square foot.
    pub ground_snow_psf: Option<f64>,
    /// Exposure factor of the snow load, 0.7 to 1.2.
    pub snow_exposure_factor: Option<f64>,
    /// Thermal factor of the snow load, 0.85 to 1.3.
    pub snow_thermal_factor: Option<f64>,
    /// Mean temperature of the winter, which is that of January: "22 F". Below 25 F an ice barrier is laid along the eaves.
    pub winter: Option<Temperature>,
    /// Whether the place asks for an ice barrier; it rules over the temperature.
    pub ice_barrier: Option<bool>,
    /// Climate zone of the energy code, 1 to 8.
    pub climate_zone: Option<u32>,
    /// The coldest that units get: "-10 F".
    pub coldest: Option<Temperature>,
    /// Whether trees stand over the roof, whose leaves gather in it.
    pub trees: Option<bool>,
    /// Fire class that roofs here must have: "A", "B" or "C".
    pub fire_class: Option<FireClass>,
    /// Impact class that is asked for here, 1 to 4.
    pub impact_class: Option<u32>,
    /// The year in which the house was built.
    pub built: Option<u32>,
}

pub(super) fn north(desk: &mut Desk, table: &SiteTable) -> f64 {
    let degrees = table.north_deg.unwrap_or(0.0);
    let says = || format!("{degrees} is not a direction from -360 to 360 degrees");
    desk.expect((-360.0..=360.0).contains(&degrees), "site.north_deg", says, "Type degrees clockwise from +y.");
    degrees
}

pub(super) fn site(desk: &mut Desk, table: &SiteTable) -> Site {
    let [lowest, highest] = [1.0, 1000.0].map(Length::feet);
    Site {
        code: table.code,
        wind_mph: desk.number("site.wind_mph", table.wind_mph, [10.0, 300.0]),
        wind_exposure: table.wind_exposure,
        mean_roof_height: table.mean_roof_height.map(|height| desk.length("site.mean_roof_height", height, lowest, highest)),
        risk_category: desk.whole("site.risk_category", table.risk_category, [1, 4]),
        ground_snow_psf: desk.number("site.ground_snow_psf", table.ground_snow_psf, [0.0, 1000.0]),
        snow_exposure_factor: desk.number("site.snow_exposure_factor", table.snow_exposure_factor, [0.7, 1.2]),
        snow_thermal_factor: desk.number("site.snow_thermal_factor", table.snow_thermal_factor, [0.85, 1.3]),
        winter: table.winter,
        ice_barrier: table.ice_barrier,
        coldest: table.coldest,
        trees: table.trees,
        fire_class: table.fire_class,
        impact_class: desk.whole("site.impact_class", table.impact_class, [1, 4]),
        built: desk.whole("site.built", table.built, [1500, 2200]),
    }
}
