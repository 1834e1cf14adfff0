use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Div, Mul, Neg, Sub};
use std::str::FromStr;

use crate::Misread;

/// A length. Kept in inches, in which every tape mark is exact in binary. 1 in = 25.4 mm exactly.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Length(f64);

impl Length {
    /// No length.
    pub const ZERO: Self = Self(0.0);
    /// The step of an ordinary tape, 1/16 in.
    pub const TAPE_STEP: Self = Self(0.0625);

    /// From inches.
    #[must_use]
    pub const fn inches(value: f64) -> Self {
        Self(value)
    }

    /// From feet.
    #[must_use]
    pub const fn feet(value: f64) -> Self {
        Self(value * 12.0)
    }

    /// From metres.
    #[must_use]
    pub const fn metres(value: f64) -> Self {
        Self::millimetres(value * 1000.0)
    }

    /// From millimetres.
    #[must_use]
    pub const fn millimetres(value: f64) -> Self {
        Self(value / 25.4)
    }

    /// In inches.
    #[must_use]
    pub const fn to_inches(self) -> f64 {
        self.0
    }

    /// In feet.
    #[must_use]
    pub const fn to_feet(self) -> f64 {
        self.0 / 12.0
    }

    /// In millimetres.
    #[must_use]
    pub const fn to_millimetres(self) -> f64 {
        self.0 * 25.4
    }

    /// The nearest tape mark, 1/16 in apart.
    #[must_use]
    pub fn to_tape(self) -> Self {
        Self((self.0 / Self::TAPE_STEP.0).round() * Self::TAPE_STEP.0)
    }

    /// Inches and sixteenths without feet, as a tape is called out on a short piece: `11-1/2"`.
    #[must_use]
    pub fn in_inches(self) -> String {
        let (sign, whole, fraction) = self.sixteenths();
        format!("{sign}{}\"", mixed(whole, fraction))
    }

    fn sixteenths(self) -> (&'static str, u64, u64) {
        let total = (self.0.abs() * 16.0).round() as u64;
        (if self.0 < 0.0 && total > 0 { "-" } else { "" }, total / 16, total % 16)
    }
}

/// `7-1/2`, `7`, `1/2`, `0`.
fn mixed(whole: u64, sixteenths: u64) -> String {
    let (mut top, mut bottom) = (sixteenths, 16);
    while top > 0 && top % 2 == 0 {
        (top, bottom) = (top / 2, bottom / 2);
    }
    match (whole, top) {
        (_, 0) => whole.to_string(),
        (0, _) => format!("{top}/{bottom}"),
        _ => format!("{whole}-{top}/{bottom}"),
    }
}

impl fmt::Display for Length {
    /// Feet, inches and sixteenths: `9' 3-1/8"`; below a foot `7-1/2"`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (sign, inches, fraction) = self.sixteenths();
        match inches / 12 {
            0 => f.pad(&format!("{sign}{}\"", mixed(inches, fraction))),
            feet => f.pad(&format!("{sign}{feet}' {}\"", mixed(inches % 12, fraction))),
        }
    }
}

impl FromStr for Length {
    type Err = Misread;

    /// Reads `12' 6-1/2"`, `12'6 1/2`, `8½"`, `12 ft 3 in`, `12.5'`, `16 in`, `3.2 m`, `165 mm`, `45 cm`.
    /// A fraction's lower part is one that a tape has: 2, 4, 8, 16, 32 or 64.
    fn from_str(text: &str) -> Result<Self, Misread> {
        Reading { text, at: 0 }.length()
    }
}

struct Reading<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Reading<'a> {
    fn length(mut self) -> Result<Length, Misread> {
        self.skip_space();
        let sign = if self.take("-") { -1.0 } else { 1.0 };
        let mut total = 0.0;
        let mut after_feet = false;
        loop {
            let value = self.number()?;
            self.skip_space();
            let unit_at = self.at;
            match self.unit() {
                Some(Unit::Feet) if !after_feet => {
                    total += value * 12.0;
                    after_feet = true;
                    if self.rest().is_empty() {
                        break;
                    }
                }
                Some(Unit::Inches) => {
                    total += value;
                    break;
                }
                // 12' 6-1/2 : after the feet, inches need no mark.
                None if after_feet && self.rest().is_empty() => {
                    total += value;
                    break;
                }
                Some(Unit::Millimetres(factor)) if !after_feet => {
                    total += Length::millimetres(value * factor).0;
                    break;
                }
                _ => {
                    return Err(Misread::new(
                        unit_at,
                        "a length in quotes needs its unit: 12' 6-1/2\", 16 in, 3.2 m or 165 mm",
                    ));
                }
            }
        }
        if !self.rest().is_empty() {
            return Err(Misread::new(self.at, format!("\"{}\" after the length makes no sense", self.shown_rest())));
        }
        if total.is_finite() {
            Ok(Length(sign * total))
        } else {
            Err(Misread::new(0, "a length must be an ordinary number"))
        }
    }

    /// `6`, `6.25`, `6-1/2`, `6 1/2`, `1/2`, `6½`.
    fn number(&mut self) -> Result<f64, Misread> {
        self.skip_space();
        let start = self.at;
        if let Some(fraction) = self.vulgar() {
            return Ok(fraction);
        }
        let digits = self.take_while(|c| c.is_ascii_digit() || c == '.');
        let value: f64 =
            digits.parse().map_err(|_| Misread::new(start, "a number is expected here, as in 12' 6-1/2\" or 3.2 m"))?;
        if self.take("/") {
            return self.over(start, value);
        }
        if let Some(fraction) = self.vulgar() {
            return Ok(value + fraction);
        }
        let back = self.at;
        if !self.take("-") {
            self.skip_space();
        }
        let top_at = self.at;
        let top = self.take_while(|c| c.is_ascii_digit());
        if !top.is_empty() && self.take("/") {
            let top: f64 = top.parse().map_err(|_| Misread::new(top_at, "this fraction cannot be read"))?;
            return Ok(value + self.over(top_at, top)?);
        }
        self.at = back;
        Ok(value)
    }

    fn over(&mut self, start: usize, top: f64) -> Result<f64, Misread> {
        let bottom = self.take_while(|c| c.is_ascii_digit());
        match bottom {
            "2" | "4" | "8" | "16" | "32" | "64" => {
                let bottom: f64 = bottom.parse().unwrap_or(1.0);
                if top < bottom { Ok(top / bottom) } else { Err(Misread::new(start, "a fraction must be less than 1")) }
            }
            _ => Err(Misread::new(start, "a tape has halves, 4ths, 8ths, 16ths, 32nds and 64ths only")),
        }
    }

    fn vulgar(&mut self) -> Option<f64> {
        let (value, sign) = match self.rest().chars().next()? {
            '½' => (0.5, '½'),
            '¼' => (0.25, '¼'),
            '¾' => (0.75, '¾'),
            '⅛' => (0.125, '⅛'),
            '⅜' => (0.375, '⅜'),
            '⅝' => (0.625, '⅝'),
            '⅞' => (0.875, '⅞'),
            _ => return None,
        };
        self.at += sign.len_utf8();
        Some(value)
    }

    fn unit(&mut self) -> Option<Unit> {
        self.skip_space();
        const UNITS: [(&str, Unit); 19] = [
            ("feet", Unit::Feet),
            ("foot", Unit::Feet),
            ("ft.", Unit::Feet),
            ("ft", Unit::Feet),
            ("''", Unit::Inches),
            ("'", Unit::Feet),
            ("′", Unit::Feet),
            ("’", Unit::Feet),
            ("inches", Unit::Inches),
            ("inch", Unit::Inches),
            ("in.", Unit::Inches),
            ("in", Unit::Inches),
            ("\"", Unit::Inches),
            ("″", Unit::Inches),
            ("”", Unit::Inches),
            ("mm", Unit::Millimetres(1.0)),
            ("cm", Unit::Millimetres(10.0)),
            ("metres", Unit::Millimetres(1000.0)),
            ("m", Unit::Millimetres(1000.0)),
        ];
        let (_, unit) = UNITS.into_iter().find(|(name, _)| self.take(name))?;
        self.skip_space();
        Some(unit)
    }

    fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    /// At most a few words of what is left, since a file can hold megabytes in one string.
    fn shown_rest(&self) -> String {
        self.rest().chars().take(24).collect()
    }

    fn take(&mut self, what: &str) -> bool {
        let found = self.rest().starts_with(what);
        if found {
            self.at += what.len();
        }
        found
    }

    fn take_while(&mut self, keep: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let end = rest.find(|c| !keep(c)).unwrap_or(rest.len());
        self.at += end;
        &rest[..end]
    }

    fn skip_space(&mut self) {
        self.take_while(char::is_whitespace);
    }
}

#[derive(Clone, Copy)]
enum Unit {
    Feet,
    Inches,
    /// Millimetres in one.
    Millimetres(f64),
}

impl Add for Length {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Length {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Neg for Length {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<f64> for Length {
    type Output = Self;
    fn mul(self, times: f64) -> Self {
        Self(self.0 * times)
    }
}

impl Div<f64> for Length {
    type Output = Self;
    fn div(self, by: f64) -> Self {
        Self(self.0 / by)
    }
}

impl Div for Length {
    type Output = f64;
    fn div(self, by: Self) -> f64 {
        self.0 / by.0
    }
}

impl Sum for Length {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn inches(text: &str) -> f64 {
        text.parse::<Length>().unwrap().to_inches()
    }

    #[test]
    #[allow(clippy::float_cmp, reason = "tape marks are exact in binary")]
    fn the_ways_a_roofer_writes_a_length() {
        for (text, expected) in [
            ("12' 6-1/2\"", 150.5),
            ("12'6 1/2", 150.5),
            ("12' 6½\"", 150.5),
            ("8½\"", 8.5),
            ("12 ft 3 in", 147.0),
            ("12ft 3in", 147.0),
            ("12.5'", 150.0),
            ("16 in", 16.0),
            ("1/16\"", 0.0625),
            ("6′", 72.0),
            ("6''", 6.0),
            ("-2' 6\"", -30.0),
            ("1 foot", 12.0),
            ("25.4 mm", 1.0),
        ] {
            assert_eq!(inches(text), expected, "{text}");
        }
        assert!((inches("3.2 m") - 3200.0 / 25.4).abs() < 1e-9);
        assert!((inches("45 cm") - 450.0 / 25.4).abs() < 1e-9);
    }

    #[test]
    fn what_is_no_length_is_refused_with_its_place() {
        for (text, at) in [
            ("", 0),
            ("two feet", 0),
            ("7.25", 4),
            ("1/3\"", 0),
            ("6-5/5\"", 2),
            ("12 fet", 3),
            ("12' 6\" 3", 7),
            ("12 in 3 ft", 6),
            ("1.2.3 in", 0),
            ("nan in", 0),
            ("3' 2 m", 5),
        ] {
            assert_eq!(text.parse::<Length>().unwrap_err().at, at, "{text}");
        }
    }

    #[test]
    fn lengths_print_as_a_tape_is_read() {
        for (value, shown) in [
            (111.125, "9' 3-1/8\""),
            (7.5, "7-1/2\""),
            (0.0, "0\""),
            (-0.01, "0\""),
            (11.99, "1' 0\""),
            (-30.0, "-2' 6\""),
            (0.5, "1/2\""),
            (24.25, "2' 1/4\""),
        ] {
            assert_eq!(Length::inches(value).to_string(), shown);
        }
        assert_eq!(Length::inches(20.9375).in_inches(), "20-15/16\"");
    }

    proptest! {
        #[test]
        fn what_is_printed_is_read_back(sixteenths in -200_000i32..200_000) {
            let length = Length::inches(f64::from(sixteenths) / 16.0);
            prop_assert_eq!(length.to_string().parse::<Length>().unwrap(), length);
            prop_assert_eq!(length.in_inches().parse::<Length>().unwrap(), length);
        }

        #[test]
        fn no_text_panics(text in "\\PC{0,40}") {
            let _ = text.parse::<Length>();
            let _ = text.parse::<crate::Pitch>();
        }
    }
}
