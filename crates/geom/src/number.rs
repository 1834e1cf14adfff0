use std::cmp::Ordering;
use std::fmt::Debug;
use std::ops::{Add, Div, Mul, Neg, Sub};

use f256::f256;

/// A number to compute in: `f64`, or [`Wide`] where its 16 digits do not suffice. All its operations are rounded as IEEE 754
/// says, so that they give the same bits on every machine.
pub trait Number:
    Copy
    + Debug
    + Default
    + PartialOrd
    + From<f64>
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
{
    /// 0.
    const ZERO: Self;
    /// 1.
    const ONE: Self;
    /// Greater than every other number.
    const INFINITY: Self;

    /// The square root.
    #[must_use]
    fn square_root(self) -> Self;
    /// Without its sign.
    #[must_use]
    fn magnitude(self) -> Self;
    /// The order of all numbers, whatever they are.
    fn order(self, other: Self) -> Ordering;
    /// As `f64`, within its last bit.
    fn to_f64(self) -> f64;

    /// The later of the two in order.
    #[must_use]
    fn or_later(self, other: Self) -> Self {
        if self < other { other } else { self }
    }
}

impl Number for f64 {
    const ZERO: Self = 0.0;
    const ONE: Self = 1.0;
    const INFINITY: Self = Self::INFINITY;

    #[inline]
    fn square_root(self) -> Self {
        self.sqrt()
    }

    #[inline]
    fn magnitude(self) -> Self {
        self.abs()
    }

    #[inline]
    fn order(self, other: Self) -> Ordering {
        self.total_cmp(&other)
    }

    #[inline]
    fn to_f64(self) -> f64 {
        self
    }
}

/// A number of 71 digits (IEEE 754 `binary256`), computed with integers alone.
pub type Wide = f256;

impl Number for Wide {
    const ZERO: Self = Self::ZERO;
    const ONE: Self = Self::ONE;
    const INFINITY: Self = Self::INFINITY;

    fn square_root(self) -> Self {
        self.sqrt()
    }

    fn magnitude(self) -> Self {
        self.abs()
    }

    fn order(self, other: Self) -> Ordering {
        self.total_cmp(&other)
    }

    fn to_f64(self) -> f64 {
        if self.is_special() {
            return if self.eq_zero() { 0.0 } else { f64::NAN };
        }
        // The significand is cleared of the zeros at its end, so that its upper half is often empty.
        let (sign, exponent, (high, low)) = self.as_sign_exp_signif();
        let value = libm::scalbn(high as f64, exponent + 128) + libm::scalbn(low as f64, exponent);
        if sign == 0 { value } else { -value }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Exact there and back; sums and products of two `f64` have at most 106 digits and one rounding, as IEEE 754 has it.
        #[test]
        fn wide_numbers_round_to_what_f64_gives(a in -1e6f64..1e6, b in -1e6f64..1e6) {
            let (wide_a, wide_b) = (Wide::from(a), Wide::from(b));
            let near = |wide: Wide, narrow: f64| (wide.to_f64() - narrow).abs() <= narrow.abs() * f64::EPSILON;
            prop_assert!((wide_a.to_f64() - a).abs() == 0.0);
            prop_assert!(near(wide_a + wide_b, a + b) && near(wide_a * wide_b, a * b) && near(wide_a / wide_b, a / b));
            prop_assert!(near(wide_a.magnitude().square_root(), a.abs().sqrt()));
            prop_assert_eq!(wide_a.order(wide_b), a.order(b));
        }
    }

    #[test]
    fn seventy_digits_hold_what_f64_loses() {
        let small = Wide::ONE / (Wide::from(1e30) * Wide::from(1e30));
        assert!(((Wide::ONE + small - Wide::ONE).to_f64() / 1e-60 - 1.0).abs() < 1e-9);
        assert!(((Wide::ONE / Wide::from(3.0)) * Wide::from(3.0) - Wide::ONE).magnitude() < small);
    }
}
