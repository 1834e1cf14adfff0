//! Where the nails of a piece go: on the sheet's line of nails if they can, far enough from every edge, and never through
//! the metal of a valley. Where a hip or a ridge takes that line away, they go under the cap.

use covering::Covering;
use roof::{EdgeKind, Place};
use units::Length;

use crate::bevel::{Bevel, Blank};
use crate::cut::{Edging, sides};
use crate::legal::Rules;
use crate::outline::{projection, weather_line};
use crate::{Fault, Finding, LaidPlane};

/// Levels that are tried above the line of nails, and under caps.
const LEVELS: u32 = 8;
/// Nails that a piece must keep, if its unit has as many.
const KEPT: u32 = 2;

/// What the sheet says about nails, inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Nailing<'a> {
    covering: &'a Covering,
    /// In each unit.
    each: u32,
    /// Least distance from an edge of the piece, and from nail to nail.
    edge: f64,
    /// Above the butt, a part of the unit's length: shorter units are holed as far from the head in proportion (common
    /// practice, no published source).
    line: f64,
    /// From a cut along a valley.
    off_valley: f64,
}

impl<'a> Nailing<'a> {
    /// `None` where the sheet does not say where nails go.
    pub(crate) fn of(covering: &'a Covering) -> Option<Self> {
        let line = covering.conditions.nail_line?;
        let [edge, line] = [line.side, line.up].map(Length::to_inches);
        let line = line / covering.unit.length.to_inches();
        let is_open = covering.edges.valley_clear > Length::ZERO;
        let off_metal = (covering.edges.valley_flange + covering.edges.valley_nails_off).to_inches();
        let off_valley = if is_open { off_metal.max(edge) } else { edge };
        Some(Self { covering, each: covering.nails.each, edge, line, off_valley })
    }

    /// Whether so many nails hold a piece.
    pub(crate) fn holds(&self, nails: usize) -> bool {
        nails >= self.each.min(KEPT) as usize
    }

    /// Nails of a whole unit so wide, from its lower left corner.
    pub(crate) fn whole(&self, width: f64, height: f64) -> Vec<Place> {
        let rectangle = vec![[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]];
        let blank = Blank { corner: [0.0; 2], width, height, unit: width, ..Blank::default() };
        self.places(&[rectangle], &blank, &[])
    }

    /// Nails of a piece, from its blank's lower left corner; none where it cannot be nailed.
    pub(crate) fn places(&self, parts: &[Vec<Place>], blank: &Blank, bevels: &[Bevel]) -> Vec<Place> {
        let highest = blank.height - self.edge;
        let line = self.line * blank.height;
        let step = (highest - line) / f64::from(LEVELS);
        let lines = (0..=LEVELS).map(|level| line + step * f64::from(level));
        let on_line = lines.filter(|&v| v <= highest).find_map(|v| self.nails_at(v, self.free(parts, bevels, v)));
        on_line.or_else(|| self.under_cover(parts, bevels)).unwrap_or_default()
    }

    /// What of a level line may take nails.
    fn free(&self, parts: &[Vec<Place>], bevels: &[Bevel], v: f64) -> Vec<[f64; 2]> {
        let mut free = crossing(parts, v);
        for side in parts.iter().flat_map(|part| sides(part)) {
            if let Some(near) = within(side, self.edge, v) {
                free = without(&free, near);
            }
        }
        let valleys = bevels.iter().filter(|bevel| bevel.kind == Some(EdgeKind::Valley));
        for near in valleys.filter_map(|bevel| within(prolonged(bevel), self.off_valley, v)) {
            free = without(&free, near);
        }
        free
    }

    /// As far apart as can be; `None` where two would come too near each other.
    fn nails_at(&self, v: f64, free: Vec<[f64; 2]>) -> Option<Vec<Place>> {
        let [from, to] = [free.first()?[0], free.last()?[1]];
        let spaces = ((to - from) / self.edge).min(f64::from(self.each) - 1.0).max(0.0).floor();
        let at = |nail: u32| from + (to - from) * if spaces > 0.0 { f64::from(nail) / spaces } else { 0.5 };
        let is_free = |u: &f64| free.iter().any(|[from, to]| u >= from && u <= to);
        let nails: Vec<Place> = (0..=spaces as u32).map(at).filter(is_free).map(|u| [u, v]).collect();
        self.holds(nails.len()).then_some(nails)
    }

    /// Nails hidden by a cap, an apron or the metal of a high edge, half under it, or as high up as can be.
    fn under_cover(&self, parts: &[Vec<Place>], bevels: &[Bevel]) -> Option<Vec<Place>> {
        let vs = || parts.iter().flatten().map(|at| at[1]);
        let low = vs().fold(f64::INFINITY, f64::min) + self.edge;
        let high = vs().fold(f64::NEG_INFINITY, f64::max) - self.edge;
        let covers: Vec<(&Bevel, f64)> = bevels
            .iter()
            .filter_map(|bevel| Some((bevel, self.covered(bevel.kind?))))
            .filter(|(_, depth)| *depth > 0.0)
            .collect();
        let spread = (0..=LEVELS).map(|level| high + (low - high) * f64::from(level) / f64::from(LEVELS));
        let middles = covers.iter().map(|(bevel, depth)| bevel.line[0][1] - f64::midpoint(self.edge, *depth));
        middles.chain(spread).filter(|&v| v >= low && v <= high).find_map(|v| {
            let free = self.free(parts, bevels, v);
            covers.iter().find_map(|(bevel, depth)| {
                let hidden = within(prolonged(bevel), *depth, v)?;
                self.nails_at(v, only(&free, hidden))
            })
        })
    }

    /// How far in from a cut a nail is hidden: what covers the cut, less the distance from its own edge. The flashing of a
    /// break reaches over the heads below it as far as their nails: common practice, no published source.
    fn covered(&self, kind: EdgeKind) -> f64 {
        if kind == EdgeKind::Break {
            return 2.0 * self.edge;
        }
        projection(self.covering, kind) - weather_line(self.covering, kind) - self.edge
    }
}

/// Every piece that is wide enough and cannot be nailed all the same.
pub(crate) fn unnailed(plane: &LaidPlane, rules: &Rules, edging: &Edging<'_>) -> Vec<Finding> {
    let runs = plane.courses.iter().enumerate().flat_map(|(number, course)| {
        let cuts = course.runs.iter().filter_map(|run| plane.cuts.get(run.cut? as usize).map(|cut| (run, cut)));
        cuts.map(move |(run, cut)| (number, course.butt, run, cut))
    });
    let loose = runs.filter(|(.., cut)| !rules.too_small(cut.width) && !edging.holds(cut));
    loose
        .flat_map(|(course, butt, run, cut)| {
            let [u, v] = cut.middle();
            run.lefts().map(move |left| Finding { fault: Fault::CannotBeNailed, course, at: [left + u, butt + v] })
        })
        .collect()
}

/// A valley's metal and a hip's cap go on beyond the piece.
fn prolonged(bevel: &Bevel) -> [Place; 2] {
    let [from, to] = bevel.line;
    let by = Length::feet(3.0).to_inches() / bevel.length().max(f64::MIN_POSITIVE);
    let along = [(to[0] - from[0]) * by, (to[1] - from[1]) * by];
    [[from[0] - along[0], from[1] - along[1]], [to[0] + along[0], to[1] + along[1]]]
}

/// From and to of every stretch of a level line within the parts.
fn crossing(parts: &[Vec<Place>], v: f64) -> Vec<[f64; 2]> {
    let crossed = parts.iter().flat_map(|part| sides(part)).filter(|[from, to]| (from[1] > v) != (to[1] > v));
    let mut us: Vec<f64> =
        crossed.map(|[from, to]| from[0] + (to[0] - from[0]) * ((v - from[1]) / (to[1] - from[1]))).collect();
    us.sort_by(f64::total_cmp);
    us.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
}

/// The stretch of a level line nearer than `reach` to a side: round its ends, and beside it.
fn within([from, to]: [Place; 2], reach: f64, v: f64) -> Option<[f64; 2]> {
    let along = [to[0] - from[0], to[1] - from[1]];
    let length = libm::hypot(along[0], along[1]).max(f64::MIN_POSITIVE);
    let off = [along[1] / length * reach, -along[0] / length * reach];
    let round = [from, to].into_iter().filter(|at| (v - at[1]).abs() < reach).flat_map(|at| {
        let half = libm::sqrt(reach * reach - (v - at[1]) * (v - at[1]));
        [at[0] - half, at[0] + half]
    });
    let beside = [1.0, -1.0].into_iter().filter_map(|hand| {
        let [low, high] = [from[1] + off[1] * hand, to[1] + off[1] * hand];
        let passes = (low > v) != (high > v);
        passes.then(|| from[0] + off[0] * hand + along[0] * ((v - low) / (high - low)))
    });
    let range = round.chain(beside).fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], u| [least.min(u), most.max(u)]);
    (range[0] < range[1]).then_some(range)
}

fn without(stretches: &[[f64; 2]], [from, to]: [f64; 2]) -> Vec<[f64; 2]> {
    let split = stretches.iter().flat_map(|&[left, right]| [[left, right.min(from)], [left.max(to), right]]);
    split.filter(|[left, right]| left <= right).collect()
}

fn only(stretches: &[[f64; 2]], [from, to]: [f64; 2]) -> Vec<[f64; 2]> {
    stretches.iter().map(|&[left, right]| [left.max(from), right.min(to)]).filter(|[left, right]| left <= right).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::outline::distance_to;

    proptest! {
        /// What is within reach of a side and what is not, asked of each point on its own.
        #[test]
        fn the_stretch_within_reach_is_that_of_all_points_near(
            ends in [[-9.0..9.0f64, -9.0..9.0f64], [-9.0..9.0f64, -9.0..9.0f64]], reach in 0.1..4.0f64, v in -10.0..10.0f64,
        ) {
            let found = within(ends, reach, v);
            for step in -300..=300 {
                let u = f64::from(step) / 20.0;
                let off = distance_to(ends, [u, v]);
                prop_assume!((off - reach).abs() > 1e-6);
                let is_in = found.is_some_and(|[from, to]| u > from && u < to);
                prop_assert_eq!(off < reach, is_in, "{} {:?}", u, found);
            }
        }
    }
}
