//! How long one unit of a file is.

use units::LengthUnit;

use crate::refused::Refused;

/// Inches in one unit of a file.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Scale {
    pub(crate) inches: f64,
    pub(crate) name: &'static str,
}

const METRE: f64 = 1000.0 / 25.4;

impl Scale {
    pub(crate) const INCH: Self = Self { inches: 1.0, name: "inches" };
    pub(crate) const FOOT: Self = Self { inches: 12.0, name: "feet" };
    pub(crate) const YARD: Self = Self { inches: 36.0, name: "yards" };
    pub(crate) const METRE: Self = Self { inches: METRE, name: "metres" };
    pub(crate) const DECIMETRE: Self = Self { inches: METRE / 10.0, name: "decimetres" };
    pub(crate) const CENTIMETRE: Self = Self { inches: METRE / 100.0, name: "centimetres" };
    pub(crate) const MILLIMETRE: Self = Self { inches: METRE / 1000.0, name: "millimetres" };
    /// 1200/3937 m exactly: U.S. Coast and Geodetic Survey, Mendenhall Order of 1893, kept for older state plane maps.
    pub(crate) const US_SURVEY_FOOT: Self = Self { inches: METRE * 1200.0 / 3937.0, name: "US survey feet" };

    pub(crate) fn told(unit: LengthUnit) -> Self {
        match unit {
            LengthUnit::Ft => Self::FOOT,
            LengthUnit::In => Self::INCH,
            LengthUnit::M => Self::METRE,
            LengthUnit::Mm => Self::MILLIMETRE,
        }
    }
}

/// What was told, else what the file states, else its reason for stating nothing. A note when the two differ.
pub(crate) fn choose(
    told: Option<LengthUnit>,
    stated: Result<Scale, Refused>,
    notes: &mut Vec<String>,
) -> Result<Scale, Refused> {
    let Some(told) = told.map(Scale::told) else { return stated };
    if let Ok(stated) = stated
        && stated != told
    {
        notes.push(format!("The file says {}; {} was told and is used.", stated.name, told.name));
    }
    Ok(told)
}
