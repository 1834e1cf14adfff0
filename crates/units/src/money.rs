use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Sub};

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::{Serialize, Serializer};

use crate::Misread;

/// An amount of money: whole cents of whatever currency, never floating. What is not a whole cent is rounded to the nearest,
/// a half away from zero, once for each line; sums are exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Money(i64);

/// The price of one of a thing: ten-thousandths, so that a nail may cost 0.0085.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Price(i64);

/// A part in hundred, to two decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Percent(i64);

impl Money {
    /// None.
    pub const ZERO: Self = Self(0);

    /// From cents.
    #[must_use]
    pub const fn cents(value: i64) -> Self {
        Self(value)
    }

    /// In cents.
    #[must_use]
    pub const fn to_cents(self) -> i64 {
        self.0
    }

    /// The price of which a part of itself, below 100 %, is margin and the rest is this cost: cost / (1 − part).
    #[must_use]
    pub fn grossed_up(self, part: Percent) -> Self {
        let rest = (Percent::WHOLE.0 - part.0).max(1);
        Self(rounded(i128::from(self.0) * i128::from(Percent::WHOLE.0), rest.into()))
    }
}

impl Price {
    /// From ten-thousandths.
    #[must_use]
    pub const fn ten_thousandths(value: i64) -> Self {
        Self(value)
    }

    /// In ten-thousandths.
    #[must_use]
    pub const fn to_ten_thousandths(self) -> i64 {
        self.0
    }

    /// What so many cost. The quantity is taken to the nearest thousandth, then all is exact up to the last rounding to a cent.
    #[must_use]
    pub fn times(self, quantity: f64) -> Money {
        let thousandths = (quantity * 1000.0).round() as i128;
        Money(rounded(i128::from(self.0).saturating_mul(thousandths), 100_000))
    }
}

impl Percent {
    /// All of it.
    pub const WHOLE: Self = Self(10_000);

    /// From hundredths of a percent.
    #[must_use]
    pub const fn hundredths(value: i64) -> Self {
        Self(value)
    }

    /// In hundredths of a percent.
    #[must_use]
    pub const fn to_hundredths(self) -> i64 {
        self.0
    }

    /// The part of an amount.
    #[must_use]
    pub fn of(self, whole: Money) -> Money {
        Money(rounded(i128::from(whole.0) * i128::from(self.0), Self::WHOLE.0.into()))
    }
}

/// To the nearest whole number, a half away from zero; beyond what an amount can be, the greatest there is.
fn rounded(number: i128, by: i128) -> i64 {
    let half = by / 2 * number.signum();
    let whole = number.saturating_add(half) / by;
    i64::try_from(whole).unwrap_or(if whole < 0 { i64::MIN } else { i64::MAX })
}

impl Add for Money {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Money {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
        amounts.fold(Self::ZERO, Add::add)
    }
}

impl Add for Percent {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sum for Percent {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Self(0), Add::add)
    }
}

impl fmt::Display for Money {
    /// `-12,345.60`, without a currency.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, cents) = (self.0.unsigned_abs() / 100, self.0.unsigned_abs() % 100);
        let digits = whole.to_string();
        let mut grouped = String::new();
        for (index, digit) in digits.char_indices() {
            if index > 0 && (digits.len() - index).is_multiple_of(3) {
                grouped.push(',');
            }
            grouped.push(digit);
        }
        f.pad(&format!("{sign}{grouped}.{cents:02}"))
    }
}

impl fmt::Display for Price {
    /// `84.50`, and as many decimals more as it has.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let all = format!("{:04}", self.0.unsigned_abs() % 10_000);
        let decimals = format!("{}{}", &all[..2], all[2..].trim_end_matches('0'));
        let sign = if self.0 < 0 { "-" } else { "" };
        f.pad(&format!("{sign}{}.{decimals}", self.0.unsigned_abs() / 10_000))
    }
}

impl fmt::Display for Percent {
    /// `12.5 %`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{} %", self.0 as f64 / 100.0))
    }
}

impl Serialize for Money {
    /// A text, as other programs read decimals with nothing lost: `"12345.60"`.
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&self.to_string().replace(',', ""))
    }
}

impl Serialize for Price {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl Serialize for Percent {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(self.0 as f64 / 100.0)
    }
}

/// Reads a decimal of at most so many places, up to 1,000,000,000, as a whole number of its last place.
fn decimal(text: &str, places: usize) -> Result<i64, Misread> {
    let text = text.trim();
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let is_digits = |digits: &str| digits.bytes().all(|byte| byte.is_ascii_digit());
    if !is_digits(whole) || !is_digits(part) || whole.is_empty() {
        return Err(Misread::new(0, "this is not a decimal number of 0 or more"));
    }
    if part.len() > places {
        return Err(Misread::new(text.len() - part.len() + places, format!("this has more than {places} decimals")));
    }
    let most = 1_000_000_000 * 10_i64.pow(places as u32);
    let all: Option<i64> = format!("{whole}{part:0<places$}").parse().ok();
    all.filter(|value| *value <= most).ok_or_else(|| Misread::new(0, "this is more than 1,000,000,000"))
}

/// Reads a number or a text; the shortest way of writing a float is the decimal that was typed.
struct DecimalVisitor {
    places: usize,
    expecting: &'static str,
}

impl Visitor<'_> for DecimalVisitor {
    type Value = i64;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.expecting)
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<i64, E> {
        self.visit_str(&value.to_string())
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<i64, E> {
        self.visit_str(&value.to_string())
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<i64, E> {
        self.visit_str(&value.to_string())
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<i64, E> {
        decimal(text, self.places).map_err(E::custom)
    }
}

impl<'de> Deserialize<'de> for Price {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let expecting = "a price such as 84.50, with 4 decimals at most";
        from.deserialize_any(DecimalVisitor { places: 4, expecting }).map(Self)
    }
}

impl<'de> Deserialize<'de> for Percent {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let expecting = "percent such as 12.5, with 2 decimals at most";
        from.deserialize_any(DecimalVisitor { places: 2, expecting }).map(Self)
    }
}

impl JsonSchema for Price {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Price".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "0 or more, at most 1,000,000,000, with 4 decimals at most: 84.50, or as a text \"84.50\".",
            "type": ["number", "string"]
        })
    }
}

impl JsonSchema for Percent {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Percent".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "Percent, 0 or more, with 2 decimals at most: 12.5, or as a text \"12.5\".",
            "type": ["number", "string"]
        })
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests only")]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn price(text: &str) -> Price {
        Price(decimal(text, 4).unwrap())
    }

    /// 0.145 and 2.675 are no floats: rounded as floats they give 0.14 and 2.67.
    #[test]
    fn a_half_cent_is_rounded_away_from_zero() {
        assert_eq!(price("0.145").times(1.0), Money(15));
        assert_eq!(price("2.675").times(1.0), Money(268));
        assert_eq!(price("2.6749").times(1.0), Money(267));
        assert_eq!(price("2.675").times(-1.0), Money(-268));
        assert_eq!(Percent(50).of(Money(100)), Money(1), "0.5 % of 1.00");
        assert_eq!(Percent(49).of(Money(100)), Money(0));
    }

    #[test]
    fn a_margin_is_a_part_of_the_price() {
        // 75 of cost and 25 % of the price are 100.
        assert_eq!(Money(7500).grossed_up(Percent(2500)), Money(10_000));
        assert_eq!(Money(7500).grossed_up(Percent(0)), Money(7500));
    }

    #[test]
    fn what_is_typed_is_what_is_meant() {
        for (text, ten_thousandths) in
            [("84.50", 845_000), ("0.0085", 85), ("7", 70_000), ("1000000000", 10_000_000_000_000)]
        {
            assert_eq!(decimal(text, 4).unwrap(), ten_thousandths);
        }
        for wrong in ["", "-1", "1e3", "1,000", "0.00851", "1000000000.1", "NaN", "99999999999999999999999", "½"] {
            assert!(decimal(wrong, 4).is_err(), "{wrong}");
        }
    }

    #[test]
    fn amounts_are_grouped() {
        let shown = [0, 5, 100_000, 123_456_789, -123_456].map(|cents| Money(cents).to_string());
        assert_eq!(shown, ["0.00", "0.05", "1,000.00", "1,234,567.89", "-1,234.56"]);
        assert_eq!([price("84.5"), price("0.0085")].map(|price| price.to_string()), ["84.50", "0.0085"]);
        assert_eq!(Percent(1250).to_string(), "12.5 %");
    }

    proptest! {
        /// A price as TOML hands it over, a float, is the decimal that was typed.
        #[test]
        fn a_float_is_the_decimal_that_was_typed(ten_thousandths in 0i64..10_000_000_000_000) {
            let typed = format!("{}.{:04}", ten_thousandths / 10_000, ten_thousandths % 10_000);
            let float: f64 = typed.parse().unwrap();
            prop_assert_eq!(decimal(&float.to_string(), 4).unwrap(), ten_thousandths);
        }

        /// The error of rounding is half a cent at most, and a price times two is no less than the price.
        #[test]
        fn rounding_is_to_the_nearest_cent(ten_thousandths in 0i64..1_000_000_000, thousandths in 0i64..10_000_000) {
            let paid = Price(ten_thousandths).times(thousandths as f64 / 1000.0).to_cents();
            let exact = i128::from(ten_thousandths) * i128::from(thousandths);
            prop_assert!((i128::from(paid) * 100_000 - exact).abs() <= 50_000);
        }
    }
}
