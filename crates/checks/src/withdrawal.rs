//! What a nail holds against being drawn straight out of wood.

use crate::figure::figure;

/// The shank of a nail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Shank {
    Smooth,
    Ringed,
}

/// Allowable withdrawal, pounds an inch of nail in wood: smooth 1380 G^2.5 D, as tables of the National Design Specification are
/// quoted; ringed 1800 G² D, National Design Specification 2018, equation 12.2-5, from memory, not read. `gravity` is that of
/// oven-dry wood, `diameter` of the shank in inches. Side grain only.
pub(crate) fn withdrawal(shank: Shank, gravity: f64, diameter: f64) -> f64 {
    match shank {
        Shank::Smooth => figure!(1380.0) * libm::pow(gravity, figure!(2.5)) * diameter,
        Shank::Ringed => figure!(1800.0) * gravity * gravity * diameter,
    }
}

/// Against wind a load lasts shortly: × 1.6 (from memory, not read).
pub(crate) fn in_wind() -> f64 {
    figure!(1.6)
}

/// Where the wood dries across 19 % after nailing: × 0.25 (National Design Specification 2001, Table 10.3.3, as a letter of the
/// wood council gives it).
pub(crate) fn in_drying_wood() -> f64 {
    figure!(0.25)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Quoted from the National Design Specification: G 0.45, D 0.203: 38 lb/in.
    #[test]
    fn a_published_spot_value() {
        assert!((withdrawal(Shank::Smooth, 0.45, 0.203) - 38.0).abs() < 0.1);
    }

    /// Forest Products Laboratory, Technical Note 236 (1958): ultimate 6900 G^2.5 D, five times what is allowed.
    #[test]
    fn a_fifth_of_the_ultimate() {
        let ultimate = 6900.0 * 0.5f64.powi(2) * 0.5f64.sqrt() * 0.131;
        assert!((withdrawal(Shank::Smooth, 0.5, 0.131) - ultimate / 5.0).abs() < 1e-9);
    }

    /// FEMA P-55 (2011), example 9.1, gives G 0.42, 0.131 in, 2 in of nail and 66 lb a nail in wind: 20.67 × 1.6 × 2.0 = 66.1.
    #[test]
    fn a_coastal_nail() {
        assert!((withdrawal(Shank::Smooth, 0.42, 0.131) * in_wind() * 2.0 - 66.0).abs() < 0.2);
    }

    /// Both forms over a table of woods and wires, worked apart from this program.
    #[test]
    fn a_table_of_woods_and_wires() {
        let wires = [0.080, 0.0915, 0.105, 0.113, 0.120, 0.131, 0.148, 0.162];
        for (gravity, smooth, ringed) in [
            (0.36, [8.6, 9.8, 11.3, 12.1, 12.9, 14.1, 15.9, 17.4], [18.7, 21.3, 24.5, 26.4, 28.0, 30.6, 34.5, 37.8]),
            (0.42, [12.6, 14.4, 16.6, 17.8, 18.9, 20.7, 23.3, 25.6], [25.4, 29.1, 33.3, 35.9, 38.1, 41.6, 47.0, 51.4]),
            (0.43, [13.4, 15.3, 17.6, 18.9, 20.1, 21.9, 24.8, 27.1], [26.6, 30.5, 34.9, 37.6, 39.9, 43.6, 49.3, 53.9]),
            (0.50, [19.5, 22.3, 25.6, 27.6, 29.3, 32.0, 36.1, 39.5], [36.0, 41.2, 47.2, 50.9, 54.0, 59.0, 66.6, 72.9]),
            (0.55, [24.8, 28.3, 32.5, 35.0, 37.2, 40.6, 45.8, 50.2], [43.6, 49.8, 57.2, 61.5, 65.3, 71.3, 80.6, 88.2]),
        ] {
            for (index, &diameter) in wires.iter().enumerate() {
                let near = |shank, printed: f64| (withdrawal(shank, gravity, diameter) - printed).abs() < 0.06;
                assert!(near(Shank::Smooth, smooth[index]), "{gravity} {diameter}");
                assert!(near(Shank::Ringed, ringed[index]), "{gravity} {diameter}");
            }
        }
        assert!((in_drying_wood() - 0.25).abs() < 1e-12);
    }
}
