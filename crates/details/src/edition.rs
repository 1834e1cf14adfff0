use schemars::JsonSchema;
use serde::Deserialize;

/// Edition of the International Residential Code, by its year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, JsonSchema)]
pub enum Edition {
    /// 2009.
    #[serde(rename = "2009")]
    Of2009,
    /// 2012.
    #[serde(rename = "2012")]
    Of2012,
    /// 2015.
    #[serde(rename = "2015")]
    Of2015,
    /// 2018.
    #[serde(rename = "2018")]
    Of2018,
    /// 2021.
    #[serde(rename = "2021")]
    Of2021,
    /// 2024.
    #[serde(rename = "2024")]
    Of2024,
}

impl Edition {
    /// Its year.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Of2009 => "2009",
            Self::Of2012 => "2012",
            Self::Of2015 => "2015",
            Self::Of2018 => "2018",
            Self::Of2021 => "2021",
            Self::Of2024 => "2024",
        }
    }
}
