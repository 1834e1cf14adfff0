//! Planes that are out of square: left and right rafters differ, the number of courses does not.

use covering::Covering;
use roof::{EdgeKind, Place, Plane};

use crate::courses::CourseLines;
use crate::outline::{edges, is_level, weather_line};

/// A top line steeper than this against the eave is no ridge out of square.
const STEEPEST: f64 = 0.1;

/// How long the slope is from the first butts to the top line, from left to right.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Square {
    /// Share of the longest slope, at `ends`.
    shares: [f64; 2],
    /// u of the ends of the top line, left and right.
    ends: [f64; 2],
}

/// The two ends of a plane whose top line is not parallel to its eave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutOfSquare {
    /// From the first butts to the top line, left and right, inches.
    pub slopes: [f64; 2],
    /// Of the course that covers least at that end, left and right, inches.
    pub headlaps: [f64; 2],
    /// How far the highest line and the lowest run apart in 10 ft, inches.
    pub in_10_ft: f64,
}

impl Square {
    /// Of a plane with its lines set out on its longest slope.
    pub(crate) fn of(plane: &Plane, covering: &Covering, lines: &CourseLines) -> Self {
        let longest = lines.top - lines.first();
        let tops = edges(plane).filter(|&(side, kind)| is_crooked_top(side, kind));
        let width = |side: &[Place; 2]| side[0][0] - side[1][0];
        let Some(([right, left], kind)) = tops.max_by(|a, b| width(&a.0).total_cmp(&width(&b.0))) else {
            return Self { shares: [1.0; 2], ends: [0.0, 1.0] };
        };
        let down = weather_line(covering, kind);
        let share = |at: Place| ((at[1] + down - lines.first()) / longest).clamp(0.0, 1.0);
        let highest = share(left).max(share(right)).max(f64::MIN_POSITIVE);
        Self { shares: [left, right].map(|end| share(end) / highest), ends: [left[0], right[0]] }
    }

    /// What a running mark at `u` is of the same mark where the slope is longest.
    pub(crate) fn share(&self, u: f64) -> f64 {
        let [left, right] = self.ends;
        let part = ((u - left) / (right - left)).clamp(0.0, 1.0);
        self.shares[0] + (self.shares[1] - self.shares[0]) * part
    }

    /// `None` for a plane in square.
    pub(crate) fn told(&self, covering: &Covering, lines: &CourseLines) -> Option<OutOfSquare> {
        let slopes = self.shares.map(|share| share * (lines.top - lines.first()));
        let apart = (slopes[0] - slopes[1]).abs();
        let headlaps = self.shares.map(|share| least_headlap(covering, lines, share));
        let in_10_ft = apart / (self.ends[1] - self.ends[0]) * 120.0;
        (apart > 1e-6).then_some(OutOfSquare { slopes, headlaps, in_10_ft })
    }
}

fn is_crooked_top(side: [Place; 2], kind: EdgeKind) -> bool {
    let is_top = matches!(kind, EdgeKind::Ridge | EdgeKind::HighEdge | EdgeKind::Headwall | EdgeKind::Break);
    let run = side[0][0] - side[1][0];
    is_top && run > 0.0 && !is_level(side) && (side[0][1] - side[1][1]).abs() <= STEEPEST * run
}

/// Where two (three) courses together leave least of the lowest one's units, exposures being this share of those set out.
fn least_headlap(covering: &Covering, lines: &CourseLines, share: f64) -> f64 {
    let over = covering.lap.courses() as usize;
    let all: Vec<f64> = lines.butts.iter().copied().chain([lines.top]).collect();
    let headlaps = all.windows(over + 1).enumerate();
    let headlaps = headlaps.map(|(course, all)| lines.length(course) - (all[over] - all[0]) * share);
    let own = || covering.unit.length.to_inches();
    headlaps.reduce(f64::min).unwrap_or_else(own) - covering.bonds.step.unwrap_or_default().to_inches()
}
