//! Arcs of polylines as straight sides.

use crate::refused::Refused;

/// How far a straight side may lie from its arc, in inches; rounding to sixteenths adds as much again at the most.
const NEAREST: f64 = 1.0 / 32.0;
/// More sides than this make no roof.
const MOST_SIDES: f64 = 500.0;

/// The corners between `from` and `to` on an arc whose bulge is the tangent of a quarter of its angle, positive
/// counter-clockwise; bulge times half the chord is the arc's rise. Inches.
pub(super) fn between(from: [f64; 2], to: [f64; 2], bulge: f64) -> Result<Vec<[f64; 2]>, Refused> {
    let chord = [to[0] - from[0], to[1] - from[1]];
    let length = libm::hypot(chord[0], chord[1]);
    if bulge.abs() * length / 2.0 <= NEAREST {
        return Ok(Vec::new());
    }
    let angle = 4.0 * libm::atan(bulge);
    let radius = length * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
    let step = 2.0 * libm::acos((1.0 - NEAREST / radius).max(0.0));
    let sides = (angle.abs() / step).ceil().max(1.0);
    if !radius.is_finite() || sides > MOST_SIDES {
        let says = format!("an arc would become more than {MOST_SIDES} straight sides");
        return Err(Refused::new(says, "Check the unit of the drawing, or draw the arc with straight sides."));
    }
    let towards = (1.0 - bulge * bulge) / (4.0 * bulge);
    let centre = [(from[0] + to[0]) / 2.0 - chord[1] * towards, (from[1] + to[1]) / 2.0 + chord[0] * towards];
    let arm = [from[0] - centre[0], from[1] - centre[1]];
    let turned = |side: u32| {
        let (sin, cos) = libm::sincos(angle * f64::from(side) / sides);
        [centre[0] + arm[0] * cos - arm[1] * sin, centre[1] + arm[0] * sin + arm[1] * cos]
    };
    Ok((1..sides as u32).map(turned).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Bulge 1 is half a circle; a chord of 2 r bends to the right of its direction.
    #[test]
    fn half_a_circle() {
        let corners = between([0.0, 0.0], [240.0, 0.0], 1.0).unwrap();
        let off = |c: &[f64; 2]| (libm::hypot(c[0] - 120.0, c[1]) - 120.0).abs();
        assert!(corners.iter().all(|corner| off(corner) < 1e-9 && corner[1] < 0.0));
        let ends = [[[0.0, 0.0]].as_slice(), &corners, &[[240.0, 0.0]]].concat();
        let middle = |two: &[[f64; 2]]| [(two[0][0] + two[1][0]) / 2.0, (two[0][1] + two[1][1]) / 2.0];
        assert!(ends.windows(2).all(|two| off(&middle(two)) <= NEAREST));
        // Not many more than are needed: each angle is at least half of the widest that is near enough.
        let widest = 2.0 * libm::acos(1.0 - NEAREST / 120.0);
        assert!((ends.len() as f64 - 1.0) < 2.0 * std::f64::consts::PI / widest);
    }

    /// tan(90° / 4): a quarter of a circle, clockwise.
    #[test]
    fn a_quarter_the_other_way() {
        let corners = between([0.0, 0.0], [100.0, 100.0], -(2.0_f64.sqrt() - 1.0)).unwrap();
        assert!(corners.iter().all(|c| (libm::hypot(c[0] - 100.0, c[1]) - 100.0).abs() < 1e-9 && c[1] > c[0]));
    }

    #[test]
    fn absurd_arcs_are_refused_or_flat() {
        assert!(between([0.0, 0.0], [1e9, 0.0], 1.0).is_err());
        assert!(between([0.0, 0.0], [1.0, 0.0], 1e-300).unwrap().is_empty());
        assert!(between([0.0, 0.0], [0.0, 0.0], 1.0).unwrap().is_empty());
    }
}
