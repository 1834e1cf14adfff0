use std::iter::Sum;
use std::ops::{Add, Mul};

/// A mass. Exact definition used: 1 lb = 0.45359237 kg.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Mass(f64);

impl Mass {
    /// From pounds.
    #[must_use]
    pub const fn pounds(value: f64) -> Self {
        Self(value)
    }

    /// In pounds.
    #[must_use]
    pub const fn to_pounds(self) -> f64 {
        self.0
    }

    /// In kilograms.
    #[must_use]
    pub fn to_kilograms(self) -> f64 {
        self.0 * 0.453_592_37
    }
}

impl Add for Mass {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Mul<f64> for Mass {
    type Output = Self;
    fn mul(self, times: f64) -> Self {
        Self(self.0 * times)
    }
}

impl Sum for Mass {
    fn sum<I: Iterator<Item = Self>>(masses: I) -> Self {
        masses.fold(Self::default(), Add::add)
    }
}
