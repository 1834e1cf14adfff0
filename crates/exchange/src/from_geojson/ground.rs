//! Longitude and latitude as plan coordinates of one house.

use roof::Point3;

use crate::refused::Refused;
use crate::ring::{distance, sub};
use crate::scale::Scale;

/// Semi-major axis in metres and flattening of WGS 84: National Imagery and Mapping Agency, TR8350.2, "Department of
/// Defense World Geodetic System 1984", third edition, 2000, table 3.1 (from memory, not read).
const A: f64 = 6_378_137.0;
const F: f64 = 1.0 / 298.257_223_563;

/// Metres from the first corner beyond which the corners are no house.
const FARTHEST: f64 = 10_000.0;

/// The level plane that touches the ellipsoid at one place, x to the east and y to the north.
///
/// At a distance d lengths come out shorter by d² / (2 × 6,370 km)² or so: less than 1 in 1,000,000 at 10 km.
pub(super) struct Ground {
    touches: Point3,
    east: Point3,
    north: Point3,
}

impl Ground {
    pub(super) fn at(place: [f64; 2]) -> Result<Self, Refused> {
        is_on_earth(place)?;
        let [(sin_lon, cos_lon), (sin_lat, cos_lat)] = place.map(sin_cos);
        Ok(Self {
            touches: earth_fixed(place),
            east: [-sin_lon, cos_lon, 0.0],
            north: [-sin_lat * cos_lon, -sin_lat * sin_lon, cos_lat],
        })
    }

    /// Refuses places that are none, or too far for one house.
    pub(super) fn is_near(&self, place: [f64; 2]) -> Result<(), Refused> {
        is_on_earth(place)?;
        let metres = distance(self.touches, earth_fixed(place));
        if metres <= FARTHEST {
            return Ok(());
        }
        let says = format!("read as longitude and latitude, the corners are {:.0} km apart", metres / 1000.0);
        Err(Refused::new(says, PLAN_COORDINATES))
    }

    /// Inches to the east and north.
    pub(super) fn plan(&self, place: [f64; 2]) -> Point3 {
        let away = sub(earth_fixed(place), self.touches);
        let along = |to: Point3| (away[0] * to[0] + away[1] * to[1] + away[2] * to[2]) * Scale::METRE.inches;
        [along(self.east), along(self.north), 0.0]
    }
}

const PLAN_COORDINATES: &str =
    "If these are plan coordinates, tell their unit with --units; if they are not one house, choose one with --layer.";

fn is_on_earth([longitude, latitude]: [f64; 2]) -> Result<(), Refused> {
    if longitude.abs() <= 180.0 && latitude.abs() <= 90.0 {
        return Ok(());
    }
    let says = format!("[{longitude}, {latitude}] is not a longitude and a latitude in degrees");
    Err(Refused::new(says, PLAN_COORDINATES))
}

fn sin_cos(degrees: f64) -> (f64, f64) {
    libm::sincos(degrees.to_radians())
}

/// Metres from the centre of the Earth: through 0° 0°, through 90° E, through the north pole.
fn earth_fixed(place: [f64; 2]) -> Point3 {
    let [(sin_lon, cos_lon), (sin_lat, cos_lat)] = place.map(sin_cos);
    let e2 = F * (2.0 - F);
    let across = A / libm::sqrt(1.0 - e2 * sin_lat * sin_lat);
    [across * cos_lat * cos_lon, across * cos_lat * sin_lon, across * (1.0 - e2) * sin_lat]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Radii of curvature of the ellipsoid in the meridian and in the prime vertical, as in any textbook of geodesy; one
    /// ten-thousandth of a degree either way.
    #[test]
    fn near_the_first_corner_a_degree_is_as_long_as_the_radii_of_curvature_say() {
        let e2 = F * (2.0 - F);
        for latitude in [-75.0_f64, -41.0, 0.0, 12.5, 45.0, 67.0] {
            let ground = Ground::at([-93.0, latitude]).unwrap();
            let sin = libm::sin(latitude.to_radians());
            let w = (1.0 - e2 * sin * sin).sqrt();
            let (meridian, vertical) = (A * (1.0 - e2) / w.powi(3), A / w);
            let step = 1e-4_f64;
            let metres = |lon: f64, lat: f64| ground.plan([-93.0 + lon, latitude + lat]).map(|d| d / Scale::METRE.inches);
            let north = metres(0.0, step);
            assert!((north[1] - meridian * step.to_radians()).abs() < 1e-4 && north[0].abs() < 1e-6, "{latitude}");
            let east = metres(step, 0.0);
            let around = vertical * libm::cos(latitude.to_radians()) * step.to_radians();
            assert!((east[0] - around).abs() < 1e-4 && east[1].abs() < 1e-3, "{latitude}");
        }
    }

    #[test]
    fn the_date_line_is_no_border() {
        let ground = Ground::at([179.9999, -17.0]).unwrap();
        assert!(ground.is_near([-179.9999, -17.0]).is_ok());
        let [east, _, _] = ground.plan([-179.9999, -17.0]);
        assert!(east > 0.0 && east < 30.0 * Scale::METRE.inches);
    }

    #[test]
    fn the_antipodes_are_not_near() {
        assert!(Ground::at([10.0, 20.0]).unwrap().is_near([-170.0, -20.0]).is_err());
        assert!(Ground::at([f64::NAN, 20.0]).is_err());
        assert!(Ground::at([10.0, 91.0]).is_err());
    }
}
