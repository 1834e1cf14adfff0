use crate::WindExposure;
use crate::figure::figure;
use crate::wind::Standard;

/// Velocity pressure, pounds a square foot: q = 0.00256 Kz Kzt Kd Ke V², V in miles an hour. ASCE 7-16, equation 26.10-1, as
/// worked in a guide to its wind loads; Kd = 0.85 for buildings. Flat land (Kzt = 1) near sea level (Ke = 1).
///
/// ASCE 7-22 puts Kd into the pressure instead, which is the same in the end (from memory, not read).
pub(crate) fn velocity_pressure(exposure_coefficient: f64, mph: f64) -> f64 {
    figure!(0.00256) * exposure_coefficient * figure!(0.85) * mph * mph
}

/// Kz at a height over the ground, feet: 2.01 (z / zg)^(2/α), from 15 ft up; ASCE 7-22 has 2.41 and other constants.
/// Formula as in ASCE 7-05, quoted; the constants of 2022 are from memory, not read.
///
/// For components of low houses in exposure B, ASCE 7-10 lets it not fall below 0.70 (from memory, not read); a worked example
/// of ASCE 7-16 has 0.57 at 12.1 ft.
pub(crate) fn exposure_coefficient(standard: Standard, exposure: WindExposure, height_ft: f64) -> f64 {
    let (factor, power, gradient_ft) = constants(standard, exposure);
    let least = if (standard, exposure) == (Standard::Of2010, WindExposure::B) { figure!(0.70) } else { 0.0 };
    (factor * libm::pow(height_ft.max(figure!(15.0)) / gradient_ft, figure!(2.0) / power)).max(least)
}

/// Factor, α, zg in feet.
fn constants(standard: Standard, exposure: WindExposure) -> (f64, f64, f64) {
    match (standard, exposure) {
        (Standard::Of2022, WindExposure::B) => (figure!(2.41), figure!(7.5), figure!(3280.0)),
        (Standard::Of2022, WindExposure::C) => (figure!(2.41), figure!(9.8), figure!(2460.0)),
        (Standard::Of2022, WindExposure::D) => (figure!(2.41), figure!(11.5), figure!(1935.0)),
        (_, WindExposure::B) => (figure!(2.01), figure!(7.0), figure!(1200.0)),
        (_, WindExposure::C) => (figure!(2.01), figure!(9.5), figure!(900.0)),
        (_, WindExposure::D) => (figure!(2.01), figure!(11.5), figure!(700.0)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Guide to the wind loads of ASCE 7-16, chapter 8, an L-shaped house: 105 mph, exposure B, mean height 12.1 ft, Kh 0.57;
    /// with its inputs q = 13.67 psf (reckoned from them, no printed result read).
    #[test]
    fn a_worked_house() {
        assert!((velocity_pressure(0.57, 105.0) - 13.67).abs() < 0.006);
        let low = exposure_coefficient(Standard::Of2016, WindExposure::B, 12.1);
        assert!((low - 0.57).abs() < 0.006, "{low}");
    }

    /// Kz by the formulas of ASCE 7-16 and 7-22, worked apart from this program.
    #[test]
    fn coefficients_by_height() {
        use WindExposure::{B, C, D};
        for (height, old, new) in [
            (15.0, [0.575, 0.849, 1.030], [0.573, 0.851, 1.035]),
            (20.0, [0.624, 0.902, 1.083], [0.619, 0.903, 1.088]),
            (25.0, [0.665, 0.945, 1.126], [0.656, 0.945, 1.131]),
            (30.0, [0.701, 0.982, 1.162], [0.689, 0.980, 1.168]),
            (40.0, [0.761, 1.044, 1.222], [0.744, 1.040, 1.228]),
            (50.0, [0.811, 1.094, 1.270], [0.790, 1.088, 1.276]),
            (60.0, [0.854, 1.137, 1.311], [0.829, 1.129, 1.317]),
        ] {
            for (index, exposure) in [B, C, D].into_iter().enumerate() {
                let of = |standard| exposure_coefficient(standard, exposure, height);
                assert!((of(Standard::Of2016) - old[index]).abs() < 6e-4, "{height} {exposure:?}");
                assert!((of(Standard::Of2022) - new[index]).abs() < 6e-4, "{height} {exposure:?}");
            }
        }
    }

    /// ASCE 7-10: not less than 0.70 in exposure B (from memory, not read); below 15 ft as at 15 ft.
    #[test]
    fn low_houses() {
        let of = |standard, exposure, height| exposure_coefficient(standard, exposure, height);
        assert!((of(Standard::Of2010, WindExposure::B, 20.0) - 0.70).abs() < 1e-12);
        assert!((of(Standard::Of2010, WindExposure::B, 40.0) - 0.761).abs() < 6e-4);
        assert!((of(Standard::Of2010, WindExposure::C, 15.0) - 0.849).abs() < 6e-4);
        assert!((of(Standard::Of2010, WindExposure::C, 5.0) - of(Standard::Of2010, WindExposure::C, 15.0)).abs() < 1e-12);
    }
}
