//! How the saw is set for a piece, and the order in which a saw works through them.

use std::cmp::Ordering;

use roof::Place;

use crate::cut::sides;

/// The longest cut that is neither level nor upright decides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saw {
    /// Between the cut and the course line, degrees: 0 for a level cut, 90 for an upright one.
    pub bevel: f64,
    /// Which way the cut leans, seen as the piece lies on the roof.
    pub hand: Hand,
}

/// Which way a cut leans as it rises. The offcut of a left hip's piece has the hand of a right valley's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hand {
    /// It rises to the right: left hips and right valleys.
    Right,
    /// It rises to the left: right hips and left valleys.
    Left,
    /// It is level or upright.
    None,
}

impl Hand {
    /// `right`, `left`, or nothing.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Right => "right",
            Self::Left => "left",
            Self::None => "",
        }
    }
}

impl Saw {
    /// Whether two pieces are cut at one setting, to 1/16 of a degree.
    #[must_use]
    pub fn same(&self, other: &Self) -> bool {
        self.order(other).is_eq()
    }

    /// Bevelled cuts first, setting by setting, then upright ones, then level ones.
    #[must_use]
    pub fn order(&self, other: &Self) -> Ordering {
        let sixteenths = |saw: &Self| (saw.bevel * 16.0).round() as i64;
        (self.hand == Hand::None)
            .cmp(&(other.hand == Hand::None))
            .then(sixteenths(other).cmp(&sixteenths(self)))
            .then(self.hand.cmp(&other.hand))
    }
}

/// The setting for a piece, from its outline within the unit.
pub(crate) fn saw(parts: &[Vec<Place>]) -> Saw {
    let steps = parts.iter().flat_map(|part| sides(part)).map(|[from, to]| [to[0] - from[0], to[1] - from[1]]);
    let raking = steps.filter(|[u, v]| u.abs() > 1e-6 && v.abs() > 1e-6);
    let longest = raking.max_by(|a, b| libm::hypot(a[0], a[1]).total_cmp(&libm::hypot(b[0], b[1])));
    match longest {
        Some([u, v]) => Saw {
            bevel: libm::atan2(v.abs(), u.abs()).to_degrees(),
            hand: if (u > 0.0) == (v > 0.0) { Hand::Right } else { Hand::Left },
        },
        None => Saw { bevel: if keeps_both_sides(parts) { 0.0 } else { 90.0 }, hand: Hand::None },
    }
}

/// A piece without a raking cut that still begins at the unit's left side is trimmed at its head, as far as a saw cares,
/// if it is also as wide at its foot as anywhere; a narrower one is ripped.
fn keeps_both_sides(parts: &[Vec<Place>]) -> bool {
    let us = || parts.iter().flatten().map(|&[u, _]| u);
    let levels = || parts.iter().flatten().map(|&[_, v]| v);
    let [wide, high] = [us().fold(0.0, f64::max), levels().fold(0.0, f64::max)];
    high < wide || us().all(|u| u < 1e-6 || u > wide - 1e-6) && levels().all(|v| v < 1e-6 || v > high - 1e-6)
}
