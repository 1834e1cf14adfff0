//! Snow on roofs by ASCE 7-10, in pounds a square foot of plan. A licensed engineer decides.

use crate::figure::figure;

/// Flat-roof snow: 0.7 Ce Ct Is pg. Guide to the snow loads of ASCE 7-10.
pub(crate) fn on_flat_roof(ground: f64, exposure: f64, thermal: f64, importance: f64) -> f64 {
    figure!(0.7) * exposure * thermal * importance * ground
}

/// Importance by risk category: 0.8, 1.0, 1.1, 1.2; ASCE 7-10, Table 1.5-2, from memory, not read.
pub(crate) fn importance(risk_category: u32) -> f64 {
    match risk_category {
        1 => figure!(0.8),
        3 => figure!(1.1),
        4 => figure!(1.2),
        _ => figure!(1.0),
    }
}

/// Slope factor Cs by pitch in degrees. Warm roofs have a thermal factor of 1.0 or less, cold ones 1.1, others 1.2 and more.
/// ASCE 7-10, equations of section 7.4; the slippery one of cold roofs is quoted, the rest is from memory, not read. The dashed
/// curve of ASCE 7-05 for cold roofs was misprinted: the equation rules.
pub(crate) fn slope_factor(degrees: f64, thermal: f64, is_slippery: bool) -> f64 {
    let starts = match (thermal, is_slippery) {
        (thermal, true) if thermal <= figure!(1.0) => figure!(5.0),
        (thermal, false) if thermal <= figure!(1.0) => figure!(30.0),
        (thermal, true) if thermal < figure!(1.2) => figure!(10.0),
        (thermal, false) if thermal < figure!(1.2) => figure!(37.5),
        (_, true) => figure!(15.0),
        (_, false) => figure!(45.0),
    };
    // From there straight down to nothing at 70°.
    (1.0 - (degrees - starts) / (figure!(70.0) - starts)).clamp(0.0, 1.0)
}

/// Weight of a cubic foot of snow: 0.13 pg + 14, at most 30. ASCE 7-10, equation 7.7-1; the most is from memory, not read.
pub(crate) fn density(ground: f64) -> f64 {
    (figure!(0.13) * ground + figure!(14.0)).min(figure!(30.0))
}

/// Height of a drift, feet, behind so many feet of roof: 0.43 W^(1/3) (pg + 10)^(1/4) − 1.5. Guide to the snow loads of ASCE 7-10.
pub(crate) fn drift_height(upwind_ft: f64, ground: f64) -> f64 {
    figure!(0.43) * libm::cbrt(upwind_ft) * libm::pow(ground + figure!(10.0), figure!(0.25)) - figure!(1.5)
}

/// Snow blown over a ridge, from the ridge down the lee side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Unbalanced {
    /// What stays on the windward side.
    pub(crate) windward: f64,
    /// On top of the balanced snow.
    pub(crate) surcharge: f64,
    /// How far from the ridge, feet level.
    pub(crate) extent_ft: f64,
}

/// Unbalanced snow on a gable or hip from 1/2 in 12 to 7 in 12: windward 0.3 ps; lee hd γ / √S over 8/3 hd √S, S the run for a rise
/// of 1. Guide to the snow loads of ASCE 7-10; the extent from memory, not read. None outside those pitches.
pub(crate) fn unbalanced(sloped: f64, ground: f64, upwind_ft: f64, rise_in_12: f64) -> Option<Unbalanced> {
    if !(figure!(0.5)..=figure!(7.0)).contains(&rise_in_12) {
        return None;
    }
    let (drift, root) = (drift_height(upwind_ft, ground), (12.0 / rise_in_12).sqrt());
    Some(Unbalanced {
        windward: figure!(0.3) * sloped,
        surcharge: drift * density(ground) / root,
        extent_ft: figure!(8.0) / 3.0 * drift * root,
    })
}

/// Snow that slides onto a roof below, pounds a foot of eave: 0.4 pf W, W the level run of the upper slope in feet; it lies 15 ft
/// wide. ASCE 7-10, 7.9, from memory, not read.
pub(crate) fn sliding(flat_roof: f64, run_ft: f64) -> f64 {
    figure!(0.4) * flat_roof * run_ft
}

/// How wide it lies, feet.
pub(crate) fn sliding_width() -> f64 {
    figure!(15.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(is: f64, printed: f64, by: f64) {
        assert!((is - printed).abs() <= by, "{is} for {printed}");
    }

    /// Guide to the snow loads of ASCE 7-10, example 4-3: pg 30, Ce 1.0, Ct 1.2, Is 1.0: 25.2 psf.
    #[test]
    fn uniform_snow() {
        near(on_flat_roof(30.0, 1.0, 1.2, 1.0), 25.2, 1e-9);
    }

    /// The same guide, example 6-2: pg 30, W 130 ft, 1/2 in 12 (S 24), ps 25: drift 3.97 ft, 17.9 pcf, windward 7.5, surcharge
    /// 14.5; the extent, 8/3 × 3.97 × √24 = 51.9 ft, by hand.
    #[test]
    fn unbalanced_snow_on_a_wide_roof() {
        near(drift_height(130.0, 30.0), 3.97, 0.01); // printed cut off
        near(density(30.0), 17.9, 1e-9);
        let found = unbalanced(25.0, 30.0, 130.0, 0.5).unwrap();
        near(found.windward, 7.5, 1e-9);
        near(found.surcharge, 14.5, 0.06);
        near(found.extent_ft, 51.9, 0.1);
    }

    /// An engineer's sheet for a double gable by ASCE 7-10: 5 in 12, pg 20, Ce 1.1, Ct 1.2, Is 0.8: pf 14.8; W 50 ft: 16.6 pcf,
    /// windward 4.4, drift 2.21 ft, surcharge 23.7, extent 9.12 ft.
    #[test]
    fn unbalanced_snow_on_a_steeper_roof() {
        let flat = on_flat_roof(20.0, 1.1, 1.2, importance(1));
        near(flat, 14.8, 0.06);
        near(density(20.0), 16.6, 1e-9);
        near(drift_height(50.0, 20.0), 2.21, 0.006);
        let found = unbalanced(flat, 20.0, 50.0, 5.0).unwrap();
        near(found.windward, 4.4, 0.06);
        near(found.surcharge, 23.7, 0.06);
        near(found.extent_ft, 9.12, 0.03);
    }

    /// From 1/2 in 12 (2.38°) to 7 in 12 (30.26°), as a university's calculator gives the range.
    #[test]
    fn only_pitches_of_the_range() {
        let of = |rise| unbalanced(20.0, 30.0, 30.0, rise).is_some();
        assert_eq!([0.499, 0.5, 7.0, 7.01].map(of), [false, true, true, false]);
    }

    /// 6 in 12, cold (1.1), slippery: 0.72 by the equation where the misprinted curve shows 0.8, as engineers quote it.
    #[test]
    fn the_misprinted_curve() {
        near(slope_factor(26.565, 1.1, true), 0.72, 0.005);
    }

    /// By the equations of ASCE 7-10, worked apart from this program: warm slippery, warm, 1.1 slippery, 1.1, 1.2 slippery, 1.2.
    #[test]
    fn a_table_of_slopes() {
        for (rise, printed) in [
            (4.0, [0.793, 1.000, 0.859, 1.000, 0.938, 1.000]),
            (6.0, [0.668, 1.000, 0.724, 1.000, 0.790, 1.000]),
            (8.0, [0.559, 0.908, 0.605, 1.000, 0.660, 1.000]),
            (10.0, [0.465, 0.755, 0.503, 0.929, 0.549, 1.000]),
            (12.0, [0.385, 0.625, 0.417, 0.769, 0.455, 1.000]),
            (16.0, [0.260, 0.422, 0.281, 0.519, 0.307, 0.675]),
            (18.0, [0.211, 0.342, 0.228, 0.421, 0.249, 0.548]),
        ] {
            let degrees = libm::atan(f64::from(rise as f32) / 12.0).to_degrees();
            let kinds = [(1.0, true), (1.0, false), (1.1, true), (1.1, false), (1.2, true), (1.2, false)];
            for ((thermal, is_slippery), printed) in kinds.into_iter().zip(printed) {
                near(slope_factor(degrees, thermal, is_slippery), printed, 6e-4);
            }
        }
        // Nothing lies on more than 70° (a university's course on ASCE 7-05).
        near(slope_factor(70.0, 1.0, false), 0.0, 1e-12);
        near(slope_factor(80.0, 1.2, true), 0.0, 1e-12);
        near(slope_factor(0.0, 1.0, true), 1.0, 1e-12);
        near(slope_factor(37.5, 1.15, false), 1.0, 1e-12);
        near(slope_factor(26.565, 0.995, true), 0.668, 1e-3);
        near(slope_factor(26.565, 1.005, true), 0.724, 1e-3);
        near(slope_factor(33.69, 0.995, false), 0.908, 1e-3);
        near(slope_factor(33.69, 1.005, false), 1.0, 1e-12);
        near(slope_factor(26.565, 1.195, true), 0.724, 1e-3);
        near(slope_factor(26.565, 1.205, true), 0.790, 1e-3);
        // 40°: 1 − 2.5 / 32.5, and nothing off from 45° down.
        near(slope_factor(40.0, 1.195, false), 0.923, 1e-3);
        near(slope_factor(40.0, 1.205, false), 1.0, 1e-12);
    }

    /// ASCE 7-10: 30 pcf at most; importance 0.8, 1.0, 1.1, 1.2; sliding snow 0.4 pf W over 15 ft (all from memory, not read).
    #[test]
    fn figures_from_memory() {
        near(density(123.0), 29.99, 1e-9);
        near(density(200.0), 30.0, 1e-12);
        [0.8, 1.0, 1.1, 1.2].into_iter().zip(1..).for_each(|(is, category)| near(importance(category), is, 1e-12));
        near(sliding(20.0, 15.0), 120.0, 1e-9);
        near(sliding_width(), 15.0, 1e-12);
    }
}
