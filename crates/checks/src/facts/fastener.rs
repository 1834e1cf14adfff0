use schemars::JsonSchema;
use serde::Deserialize;
use units::Length;

/// What the units are fastened with; what was not told is unknown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Fastener {
    /// Its shape.
    pub kind: Option<FastenerKind>,
    /// Its metal.
    pub metal: Option<Metal>,
    /// From under the head to the point.
    pub length: Option<Length>,
    /// Diameter of the shank.
    pub shank: Option<Length>,
    /// By hand or by gun.
    pub drive: Option<Drive>,
}

/// The shape of a fastener.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FastenerKind {
    /// Nail with a smooth shank.
    SmoothNail,
    /// Nail with a ringed shank.
    RingNail,
    /// Screw.
    Screw,
}

/// The metal of a fastener.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Metal {
    /// Copper.
    Copper,
    /// Bronze.
    Bronze,
    /// Stainless steel.
    StainlessSteel,
    /// Steel dipped in hot zinc.
    HotDipGalvanized,
    /// Aluminium.
    Aluminum,
}

impl Metal {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Copper => "copper",
            Self::Bronze => "bronze",
            Self::StainlessSteel => "stainless steel",
            Self::HotDipGalvanized => "hot-dip galvanized steel",
            Self::Aluminum => "aluminum",
        }
    }
}

/// How a fastener is driven.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Drive {
    /// By hammer.
    Hand,
    /// By nail gun.
    Gun,
}
