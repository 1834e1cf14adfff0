use std::fmt;
use std::str::FromStr;

use crate::Misread;

/// Steepness as rise per 12 of run, as roofers say it: 8 in 12.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Pitch(f64);

impl Pitch {
    /// Pitches at or beyond this angle are walls, not roofs.
    pub const STEEPEST_DEGREES: f64 = 88.0;

    /// From the rise in 12 of run. Must be positive and below 88°.
    ///
    /// # Errors
    /// A rise that is not a number, not positive, or 88° and steeper.
    pub fn per_12(rise: f64) -> Result<Self, Misread> {
        let pitch = Self(rise);
        if !rise.is_finite() {
            Err(Misread::new(0, "a pitch must be an ordinary number"))
        } else if rise <= 0.0 {
            Err(Misread::new(0, "a pitch must be more than 0; a plane with no fall sheds no water"))
        } else if pitch.degrees() >= Self::STEEPEST_DEGREES {
            Err(Misread::new(0, format!("{:.1}° is a wall, not a roof; a pitch must be below 88°", pitch.degrees())))
        } else {
            Ok(pitch)
        }
    }

    /// From degrees above level.
    ///
    /// # Errors
    /// As [`Pitch::per_12`].
    pub fn from_degrees(degrees: f64) -> Result<Self, Misread> {
        if degrees.is_finite() && degrees.abs() >= Self::STEEPEST_DEGREES {
            return Err(Misread::new(0, format!("{degrees}° is a wall, not a roof; a pitch must be below 88°")));
        }
        Self::per_12(12.0 * libm::tan(degrees.to_radians()))
    }

    /// Rise in 12 of run.
    #[must_use]
    pub const fn rise(self) -> f64 {
        self.0
    }

    /// Degrees above level.
    #[must_use]
    pub fn degrees(self) -> f64 {
        libm::atan(self.0 / 12.0).to_degrees()
    }

    /// Length on the slope over its length in plan, √(1 + (rise/12)²).
    #[must_use]
    pub fn slope_factor(self) -> f64 {
        (1.0 + (self.0 / 12.0) * (self.0 / 12.0)).sqrt()
    }
}

impl fmt::Display for Pitch {
    /// `8/12`, `7-1/2` as `7.5/12`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let rounded = (self.0 * 100.0).round() / 100.0;
        write!(f, "{rounded}/12")
    }
}

impl FromStr for Pitch {
    type Err = Misread;

    /// Reads `8/12`, `8:12`, `8 in 12`, `33.7 deg`, `33.7°` or a bare rise in 12.
    fn from_str(text: &str) -> Result<Self, Misread> {
        let wrong = || Misread::new(0, "a pitch is written \"8/12\", \"8:12\" or \"33.7 deg\"");
        let number = |part: &str| part.trim().parse::<f64>().map_err(|_| wrong());
        let trimmed = text.trim();
        for ending in ["degrees", "deg", "°"] {
            if let Some(angle) = trimmed.strip_suffix(ending) {
                return Self::from_degrees(number(angle)?);
            }
        }
        for between in ["/", ":", " in "] {
            if let Some((rise, run)) = trimmed.split_once(between) {
                let run = number(run)?;
                if run <= 0.0 || !run.is_finite() {
                    return Err(Misread::new(0, "the run of a pitch must be more than 0, as in \"8/12\""));
                }
                return Self::per_12(number(rise)? * 12.0 / run);
            }
        }
        Self::per_12(number(trimmed)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pitch(text: &str) -> Pitch {
        text.parse().unwrap()
    }

    #[test]
    fn the_ways_a_roofer_writes_a_pitch() {
        for text in ["8/12", "8:12", "8", " 8 in 12 ", "4/6"] {
            assert_eq!(pitch(text), Pitch::per_12(8.0).unwrap(), "{text}");
        }
        assert!((pitch("45 deg").rise() - 12.0).abs() < 1e-12);
        assert!((pitch("33.69°").rise() - 8.0).abs() < 1e-3);
    }

    #[test]
    fn what_is_no_pitch_is_refused() {
        for text in ["", "steep", "8/0", "8/", "0", "-3", "nan", "inf", "88 deg", "90 deg", "400/12", "8/-12", "1e999"] {
            assert!(text.parse::<Pitch>().is_err(), "{text}");
        }
        assert!("87.9 deg".parse::<Pitch>().is_ok());
    }

    /// Published: rows 5, 9 and 16 of the common-rafter line of the framing square are whole numbers
    /// (Griffith, Carpentry, 1916; NAVEDTRA 14044 Builder): 13, 15 and 20 in per 12 of run.
    #[test]
    fn exact_rows_of_the_framing_square() {
        for (rise, length) in [(5.0, 13.0), (9.0, 15.0), (16.0, 20.0)] {
            assert!((Pitch(rise).slope_factor() * 12.0 - length).abs() < 1e-12);
        }
    }

    /// Published spot values of the framing square's common-rafter line for 2 to 18 in 12, printed to two decimals;
    /// 13.89 is in NAVEDTRA 14044 (US Navy, Builder) too.
    #[test]
    fn rows_of_the_framing_square() {
        let printed = [
            12.17, 12.37, 12.65, 13.00, 13.42, 13.89, 14.42, 15.00, 15.62, 16.28, 16.97, 17.69, 18.44, 19.21, 20.00, 20.81,
            21.63,
        ];
        for (index, length) in printed.into_iter().enumerate() {
            let rise = 2.0 + index as f64;
            assert!((Pitch(rise).slope_factor() * 12.0 - length).abs() <= 0.005 + 1e-9, "{rise}");
        }
    }
}
