use std::iter::Sum;
use std::ops::Add;

/// An area. A *square* is 100 sq ft of roof surface.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Area(f64);

impl Area {
    /// From square inches.
    #[must_use]
    pub const fn square_inches(value: f64) -> Self {
        Self(value)
    }

    /// In square feet.
    #[must_use]
    pub fn to_square_feet(self) -> f64 {
        self.0 / 144.0
    }

    /// In square inches.
    #[must_use]
    pub const fn to_square_inches(self) -> f64 {
        self.0
    }

    /// In squares of 100 sq ft.
    #[must_use]
    pub fn to_squares(self) -> f64 {
        self.0 / 14_400.0
    }
}

impl Add for Area {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sum for Area {
    fn sum<I: Iterator<Item = Self>>(areas: I) -> Self {
        areas.fold(Self::default(), Add::add)
    }
}
