use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserialize, Deserializer, Visitor};

use crate::Misread;

/// A temperature. Kept in degrees Fahrenheit, in which roofers and their sheets speak.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Temperature(f64);

/// Nothing on a roof is colder or hotter, °F.
const ON_A_ROOF: std::ops::RangeInclusive<f64> = -80.0..=300.0;

impl Temperature {
    /// From degrees Fahrenheit.
    #[must_use]
    pub const fn fahrenheit(value: f64) -> Self {
        Self(value)
    }

    /// From degrees Celsius: °F = 9/5 °C + 32.
    #[must_use]
    pub const fn celsius(value: f64) -> Self {
        Self(value * 9.0 / 5.0 + 32.0)
    }

    /// In degrees Fahrenheit.
    #[must_use]
    pub const fn to_fahrenheit(self) -> f64 {
        self.0
    }

    /// In degrees Celsius.
    #[must_use]
    pub const fn to_celsius(self) -> f64 {
        (self.0 - 32.0) * 5.0 / 9.0
    }
}

impl fmt::Display for Temperature {
    /// `45 °F`, to a tenth.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} °F", (self.0 * 10.0).round() / 10.0)
    }
}

/// Which scale a text ends with, and what stands before it.
pub(crate) fn scale(text: &str) -> Option<(&str, Scale)> {
    let text = text.trim();
    let (before, scale) = match text.char_indices().next_back()? {
        (at, 'F' | 'f') => (&text[..at], Scale::Fahrenheit),
        (at, 'C' | 'c') => (&text[..at], Scale::Celsius),
        _ => return None,
    };
    Some((before.trim_end().trim_end_matches("deg").trim_end_matches('°').trim_end(), scale))
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Scale {
    Fahrenheit,
    Celsius,
}

impl FromStr for Temperature {
    type Err = Misread;

    /// Reads `45 F`, `45 °F`, `7 C`, `7 deg C`. The scale must be there: 40 is work for a coat or for the shade.
    fn from_str(text: &str) -> Result<Self, Misread> {
        let wrong = || Misread::new(0, "a temperature is written with its scale: \"45 F\" or \"7 C\"");
        let (number, scale) = scale(text).ok_or_else(wrong)?;
        let value: f64 = number.parse().map_err(|_| wrong())?;
        let temperature = match scale {
            Scale::Fahrenheit => Self::fahrenheit(value),
            Scale::Celsius => Self::celsius(value),
        };
        let says = || Misread::new(0, format!("{text} is no temperature on a roof, from -80 °F to 300 °F"));
        if ON_A_ROOF.contains(&temperature.0) { Ok(temperature) } else { Err(says()) }
    }
}

struct TemperatureVisitor;

impl Visitor<'_> for TemperatureVisitor {
    type Value = Temperature;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a temperature with its scale, such as \"45 F\" or \"7 C\"")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Temperature, E> {
        text.parse().map_err(E::custom)
    }
}

impl<'de> Deserialize<'de> for Temperature {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_str(TemperatureVisitor)
    }
}

impl JsonSchema for Temperature {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Temperature".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A string with its scale: \"45 F\", \"7 C\".",
            "type": "string"
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fahrenheit(text: &str) -> f64 {
        text.parse::<Temperature>().unwrap().to_fahrenheit()
    }

    /// Water freezes at 32 °F and 0 °C, boils at 212 °F and 100 °C; the scales cross at -40 (definitions of the scales).
    #[test]
    fn both_scales() {
        for (text, is) in
            [("32 F", 32.0), ("0 C", 32.0), ("100 °C", 212.0), ("-40C", -40.0), ("-40 deg F", -40.0), ("45f", 45.0)]
        {
            assert!((fahrenheit(text) - is).abs() < 1e-12, "{text}");
        }
        assert!((Temperature::fahrenheit(212.0).to_celsius() - 100.0).abs() < 1e-12);
        assert_eq!(Temperature::celsius(7.0).to_string(), "44.6 °F");
    }

    #[test]
    fn a_bare_number_is_no_temperature() {
        for text in ["45", "", "F", "warm F", "nan F", "1e9 C", "-90 F", "301 F"] {
            assert!(text.parse::<Temperature>().is_err(), "{text}");
        }
    }
}
