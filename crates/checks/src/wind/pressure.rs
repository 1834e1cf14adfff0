use crate::figure::figure;
use crate::wind::Standard;

/// Pressures on components, pounds a square foot at allowable stress; suction is negative. By zone from the field inwards: 1 the
/// field, 2 the edges, 3 the corners.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pressures {
    pub(crate) zones: [f64; 3],
    pub(crate) inward: f64,
}

/// External coefficients at 10 sq ft: zones 1, 2, 3, and the greatest inward one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Coefficients {
    zones: [f64; 3],
    inward: f64,
}

/// Coefficients of a roof by its pitch in degrees; none where they are not known here.
///
/// All from memory, not read. Those of ASCE 7-10 up to 27° give, at 30 ft in exposure B, the pressures that Table R301.2(2) of
/// the International Residential Code 2018 prints.
pub(crate) fn coefficients(standard: Standard, degrees: f64, is_hip: bool) -> Option<Coefficients> {
    let (zones, inward) = match standard {
        Standard::Of2010 if degrees <= figure!(7.0) => ([figure!(-1.0), figure!(-1.8), figure!(-2.8)], figure!(0.3)),
        Standard::Of2010 if degrees <= figure!(27.0) => ([figure!(-0.9), figure!(-1.7), figure!(-2.6)], figure!(0.5)),
        Standard::Of2010 if degrees <= figure!(45.0) => ([figure!(-1.0), figure!(-1.2), figure!(-1.2)], figure!(0.9)),
        Standard::Of2016 if is_of_7_to_20(degrees) && !is_hip => {
            ([figure!(-2.0), figure!(-3.0), figure!(-3.6)], figure!(0.7))
        }
        Standard::Of2022 if is_of_7_to_20(degrees) && is_hip => {
            ([figure!(-1.8), figure!(-2.4), figure!(-2.6)], figure!(0.7))
        }
        Standard::Of2022 if is_of_7_to_20(degrees) => ([figure!(-2.0), figure!(-2.7), figure!(-3.6)], figure!(0.6)),
        _ => return None,
    };
    Some(Coefficients { zones, inward })
}

fn is_of_7_to_20(degrees: f64) -> bool {
    degrees > figure!(7.0) && degrees <= figure!(20.0)
}

impl Coefficients {
    /// The hardest pull, in zone 3.
    pub(crate) const fn corner(self) -> f64 {
        self.zones[2]
    }
}

impl Pressures {
    /// p = 0.6 q (GCp − GCpi), with ±0.18 inside an enclosed building and 0.6 from basic wind to allowable stress (both from
    /// memory, not read).
    pub(crate) fn of(velocity_pressure: f64, Coefficients { zones, inward }: Coefficients) -> Self {
        let (allowable, inside) = (figure!(0.6), figure!(0.18));
        let out = |zone: f64| allowable * velocity_pressure * (zone - inside);
        Self { zones: zones.map(out), inward: allowable * velocity_pressure * (inward + inside) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::WindExposure;
    use crate::wind::{exposure_coefficient, velocity_pressure};

    /// At 30 ft in exposure B.
    fn pressures(mph: f64, degrees: f64) -> Pressures {
        let kz = exposure_coefficient(Standard::Of2010, WindExposure::B, 30.0);
        Pressures::of(velocity_pressure(kz, mph), coefficients(Standard::Of2010, degrees, false).unwrap())
    }

    /// International Residential Code 2018, Table R301.2(2), 10 sq ft, flatter than 7°: whole numbers, mostly cut
    /// off and not rounded; the row of 180 mph has tenths.
    #[test]
    fn the_code_prints_these_for_flat_roofs() {
        for (mph, printed) in [
            (110.0, [-13.0, -21.0, -33.0]),
            (115.0, [-14.0, -23.0, -36.0]),
            (120.0, [-15.0, -26.0, -39.0]),
            (130.0, [-18.0, -30.0, -46.0]),
            (140.0, [-21.0, -35.0, -53.0]),
            (150.0, [-24.0, -40.0, -61.0]),
            (160.0, [-27.0, -46.0, -69.0]),
            (170.0, [-31.0, -52.0, -78.0]),
        ] {
            let found = pressures(mph, 7.0).zones;
            assert!(found.iter().zip(printed).all(|(is, printed)| (is - printed).abs() < 1.0), "{mph}: {found:?}");
        }
        let found = pressures(180.0, 5.0).zones;
        assert!(found.iter().zip([-35.0, -58.7, -88.35]).all(|(is, printed)| (is - printed).abs() < 0.06), "{found:?}");
    }

    /// The same table, from above 7° to 27°, zones 1 and 2; inward from 140 mph up, where it is more than its least of 10 psf.
    #[test]
    fn the_code_prints_these_for_roofs_up_to_27_degrees() {
        for (mph, zone_1, zone_2, inward) in [
            (110.0, -11.0, -20.0, None),
            (115.0, -13.0, -22.0, None),
            (120.0, -14.0, -24.0, None),
            (130.0, -16.0, -29.0, Some(10.5)),
            (140.0, -19.0, -33.0, Some(12.2)),
            (150.0, -22.0, -38.0, Some(14.0)),
            (160.0, -25.0, -44.0, Some(15.9)),
            (170.0, -28.0, -49.0, Some(17.9)),
        ] {
            for degrees in [7.01, 27.0] {
                let found = pressures(mph, degrees);
                assert!((found.zones[0] - zone_1).abs() < 1.0 && (found.zones[1] - zone_2).abs() < 1.0, "{mph}");
                assert!(inward.is_none_or(|printed: f64| (found.inward - printed).abs() < 0.1), "{mph}: {}", found.inward);
            }
        }
        let found = pressures(180.0, 18.4);
        assert!((found.zones[0] + 32.0).abs() < 0.06 && (found.inward - 20.2).abs() < 0.06, "{found:?}");
    }

    /// Zone 3 up to 27° and all zones up to 45°, ASCE 7-10 from memory, not read: 29.65 psf × (2.6, 1.0, 1.2 and 0.9, + 0.18).
    #[test]
    fn zones_from_memory() {
        let q = 29.653;
        let near = |is: f64, coefficient: f64| assert!((is.abs() - q * (coefficient + 0.18)).abs() < 0.06, "{is}");
        near(pressures(180.0, 20.0).zones[2], 2.6);
        let steep = pressures(180.0, 45.0);
        near(steep.zones[0], 1.0);
        near(steep.zones[1], 1.2);
        near(steep.zones[2], 1.2);
        near(steep.inward, 0.9);
        near(pressures(180.0, 7.0).inward, 0.3);
        near(pressures(180.0, 27.1).zones[0], 1.0);
    }

    /// ASCE 7-16 and 7-22 from 7° to 20°, from memory, not read; nothing is made up beyond that.
    #[test]
    fn later_standards() {
        let of =
            |standard, degrees, is_hip| coefficients(standard, degrees, is_hip).map(|found| (found.zones, found.inward));
        assert_eq!(of(Standard::Of2016, 20.0, false), Some(([-2.0, -3.0, -3.6], 0.7)));
        assert_eq!(of(Standard::Of2022, 7.01, false), Some(([-2.0, -2.7, -3.6], 0.6)));
        assert_eq!(of(Standard::Of2022, 20.0, true), Some(([-1.8, -2.4, -2.6], 0.7)));
        for (standard, degrees, is_hip) in [
            (Standard::Of2016, 20.1, false),
            (Standard::Of2016, 15.0, true),
            (Standard::Of2016, 7.0, false),
            (Standard::Of2022, 33.7, false),
            (Standard::Of2010, 45.1, false),
        ] {
            assert_eq!(of(standard, degrees, is_hip), None);
        }
    }
}
