use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserialize, Deserializer, Visitor};

use crate::temperature::{Scale, scale};
use crate::{Length, Misread, Temperature};

/// How much a material grows with warmth: change of length over length, for a degree. Kept per °F.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Expansion(f64);

/// No building material moves more, per °F: more is a figure per °C, or a slip of the point.
const MOST: f64 = 250e-6;

impl Expansion {
    /// From a figure per °F.
    #[must_use]
    pub const fn per_fahrenheit(value: f64) -> Self {
        Self(value)
    }

    /// From a figure per °C, which is 9/5 of that per °F.
    #[must_use]
    pub const fn per_celsius(value: f64) -> Self {
        Self(value * 5.0 / 9.0)
    }

    /// Per °F.
    #[must_use]
    pub const fn to_per_fahrenheit(self) -> f64 {
        self.0
    }

    /// How much a length grows from one temperature to another; negative where it shrinks.
    #[must_use]
    pub fn growth(self, length: Length, from: Temperature, to: Temperature) -> Length {
        length * (self.0 * (to.to_fahrenheit() - from.to_fahrenheit()))
    }
}

impl fmt::Display for Expansion {
    /// `45e-6 per °F`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}e-6 per °F", (self.0 * 1e7).round() / 10.0)
    }
}

impl FromStr for Expansion {
    type Err = Misread;

    /// Reads `45e-6 per F`, `0.000081 per °C`, `81e-6/C`. The scale must be there: tables mix them up.
    fn from_str(text: &str) -> Result<Self, Misread> {
        let wrong = || Misread::new(0, "an expansion is written with its scale: \"45e-6 per F\" or \"81e-6 per C\"");
        let (before, scale) = scale(text).ok_or_else(wrong)?;
        let number = before.strip_suffix("per").or_else(|| before.strip_suffix('/')).ok_or_else(wrong)?;
        let value: f64 = number.trim().parse().map_err(|_| wrong())?;
        let expansion = match scale {
            Scale::Fahrenheit => Self::per_fahrenheit(value),
            Scale::Celsius => Self::per_celsius(value),
        };
        let says = || Misread::new(0, format!("{text} is no expansion of a building material, up to 250e-6 per °F"));
        if (0.0..=MOST).contains(&expansion.0) { Ok(expansion) } else { Err(says()) }
    }
}

struct ExpansionVisitor;

impl Visitor<'_> for ExpansionVisitor {
    type Value = Expansion;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an expansion with its scale, such as \"45e-6 per F\" or \"81e-6 per C\"")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Expansion, E> {
        text.parse().map_err(E::custom)
    }
}

impl<'de> Deserialize<'de> for Expansion {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_str(ExpansionVisitor)
    }
}

impl JsonSchema for Expansion {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Expansion".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A string with its scale: \"45e-6 per F\", \"81e-6 per C\".",
            "type": "string"
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_is_demanded() {
        for (text, per_fahrenheit) in
            [("45e-6 per F", 45e-6), ("81e-6 per °C", 45e-6), ("0.000081/C", 45e-6), ("0 per F", 0.0)]
        {
            assert!((text.parse::<Expansion>().unwrap().to_per_fahrenheit() - per_fahrenheit).abs() < 1e-15, "{text}");
        }
        for text in ["45e-6", "45e-6 F", "per F", "", "-1e-6 per F", "251e-6 per F", "nan per C", "70 per F"] {
            assert!(text.parse::<Expansion>().is_err(), "{text}");
        }
        assert_eq!(Expansion::per_celsius(81e-6).to_string(), "45e-6 per °F");
    }

    /// 70e-6 per °F, 12 in, from 40 °F to 170 °F: 70e-6 × 12 × 130 = 0.1092 in (worked by hand).
    #[test]
    fn a_unit_that_warms() {
        let [cold, hot] = [40.0, 170.0].map(Temperature::fahrenheit);
        let grown = Expansion::per_fahrenheit(70e-6).growth(Length::inches(12.0), cold, hot);
        assert!((grown.to_inches() - 0.1092).abs() < 1e-12);
    }
}
