use covering::FireClass;
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Temperature};

use crate::Edition;

/// Where the house stands; what was not told is unknown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Site {
    /// Edition of the residential code in force.
    pub code: Option<Edition>,
    /// Basic (ultimate) design wind speed, miles an hour.
    pub wind_mph: Option<f64>,
    /// How open the land lies to the wind.
    pub wind_exposure: Option<WindExposure>,
    /// Mean height of the roof over the ground.
    pub mean_roof_height: Option<Length>,
    /// Risk category of the building, 1 to 4.
    pub risk_category: Option<u32>,
    /// Ground snow load, pounds a square foot.
    pub ground_snow_psf: Option<f64>,
    /// Exposure factor of the snow load.
    pub snow_exposure_factor: Option<f64>,
    /// Thermal factor of the snow load.
    pub snow_thermal_factor: Option<f64>,
    /// Mean temperature of the winter, which is that of January.
    pub winter: Option<Temperature>,
    /// The place asks for an ice barrier, or does not, whatever the temperature.
    pub ice_barrier: Option<bool>,
    /// The coldest that units get.
    pub coldest: Option<Temperature>,
    /// Trees stand over the roof.
    pub trees: Option<bool>,
    /// Fire class that roofs here must have.
    pub fire_class: Option<FireClass>,
    /// Impact class that is asked for here, 1 to 4.
    pub impact_class: Option<u32>,
    /// The year in which the house was built.
    pub built: Option<u32>,
}

/// How open the land lies to the wind, by the letters of the code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, JsonSchema)]
pub enum WindExposure {
    /// Towns, woods.
    B,
    /// Open land.
    C,
    /// Flat, unobstructed land and water.
    D,
}

impl WindExposure {
    /// Its letter.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::B => "B",
            Self::C => "C",
            Self::D => "D",
        }
    }
}
