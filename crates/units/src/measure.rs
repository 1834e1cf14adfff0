use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::{Serialize, Serializer};

use crate::{Length, Pitch};

/// The unit of bare numbers in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Deserialize, serde::Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LengthUnit {
    /// Feet.
    #[default]
    Ft,
    /// Inches.
    In,
    /// Metres.
    M,
    /// Millimetres.
    Mm,
}

impl LengthUnit {
    /// The length of `value` of this unit.
    #[must_use]
    pub fn of(self, value: f64) -> Length {
        match self {
            Self::Ft => Length::feet(value),
            Self::In => Length::inches(value),
            Self::M => Length::metres(value),
            Self::Mm => Length::millimetres(value),
        }
    }
}

/// A length as typed in a file: with its unit in a string, or a bare number in the file's unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measure {
    /// A number in the unit of the file.
    Bare(f64),
    /// A string that carried its own unit.
    Given(Length),
}

impl Measure {
    /// The length, bare numbers read in `unit`.
    #[must_use]
    pub fn in_unit(self, unit: LengthUnit) -> Length {
        match self {
            Self::Bare(value) => unit.of(value),
            Self::Given(length) => length,
        }
    }
}

struct MeasureVisitor;

impl Visitor<'_> for MeasureVisitor {
    type Value = Measure;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a length such as \"12' 6-1/2\\\"\", \"16 in\", \"3.2 m\", or a number in the file's units")
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Measure, E> {
        if value.is_finite() { Ok(Measure::Bare(value)) } else { Err(E::custom("a length must be an ordinary number")) }
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Measure, E> {
        self.visit_f64(value as f64)
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Measure, E> {
        self.visit_f64(value as f64)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Measure, E> {
        text.parse().map(Measure::Given).map_err(E::custom)
    }
}

impl<'de> Deserialize<'de> for Measure {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(MeasureVisitor)
    }
}

impl Serialize for Measure {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Bare(value) => to.serialize_f64(*value),
            Self::Given(length) => to.collect_str(&format_args!("{} in", length.to_inches())),
        }
    }
}

impl JsonSchema for Measure {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Length".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A string with its unit (\"12' 6-1/2\\\"\", \"16 in\", \"3.2 m\", \"165 mm\") or a number in the file's units.",
            "type": ["string", "number"]
        })
    }
}

struct PitchVisitor;

impl Visitor<'_> for PitchVisitor {
    type Value = Pitch;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a pitch such as \"8/12\", \"8:12\", \"33.7 deg\", or a number: the rise in 12")
    }

    fn visit_f64<E: de::Error>(self, rise: f64) -> Result<Pitch, E> {
        Pitch::per_12(rise).map_err(E::custom)
    }

    fn visit_i64<E: de::Error>(self, rise: i64) -> Result<Pitch, E> {
        self.visit_f64(rise as f64)
    }

    fn visit_u64<E: de::Error>(self, rise: u64) -> Result<Pitch, E> {
        self.visit_f64(rise as f64)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Pitch, E> {
        text.parse().map_err(E::custom)
    }
}

impl<'de> Deserialize<'de> for Pitch {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(PitchVisitor)
    }
}

impl Serialize for Pitch {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(self.rise())
    }
}

impl JsonSchema for Pitch {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Pitch".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "\"8/12\", \"8:12\", \"33.7 deg\", or a number: the rise in 12. Below 88°; above 40/12 a caution.",
            "type": ["string", "number"]
        })
    }
}
