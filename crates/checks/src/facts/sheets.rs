//! Sheets and edge metal as they are laid, strip by strip.

use details::{Kind, Roll, Strip};
use roof::{EdgeKind, Line, Plane};

use super::Facts;
use crate::Place;

/// Eaves are looked at in so many spots.
const SPOTS: u32 = 16;

impl<'a> Facts<'a> {
    /// Every strip of one kind, with the roll it is cut from.
    pub(crate) fn strips(&self, kind: Kind) -> impl Iterator<Item = (&'a Roll, &'a Strip)> + use<'a> {
        let rolls = self.details.dry_in.rolls.iter().filter(move |rolls| rolls.kind == kind);
        rolls.flat_map(|rolls| rolls.strips.iter().map(|strip| (&rolls.roll, strip)))
    }

    /// A place on a plane, in the course of units that lies there.
    pub(crate) fn place_on(&self, plane: usize, [u, v]: [f64; 2]) -> Place {
        let laid = self.layout.planes.iter().find(|laid| laid.plane == plane);
        let below = laid.map_or(0, |laid| laid.courses.iter().filter(|course| course.butt <= v).count());
        Place { plane, course: below.saturating_sub(1), u, v }
    }

    /// Where on the roof a point of a strip is, so far along it from its left end.
    pub(crate) fn place_along(&self, strip: &Strip, along: f64) -> Option<Place> {
        let patch = strip.patches.first()?;
        Some(self.place_on(patch.plane, [patch.u()[0] + along, patch.v()[0]]))
    }

    /// Eaves of planes to be covered, with their places in `roof.lines`.
    pub(crate) fn eaves(&self) -> impl Iterator<Item = (usize, &'a Line, usize)> + '_ {
        let eaves = self.roof.lines.iter().enumerate().filter(|(_, line)| line.kind == EdgeKind::Eave);
        eaves.filter_map(|(index, line)| {
            let plane = *line.planes.first()?;
            self.covering(plane).map(|_| (index, line, plane))
        })
    }
}

/// How far each piece of a strip lies over the one before, and how far along that begins.
pub(crate) fn end_laps(strip: &Strip) -> impl Iterator<Item = (f64, f64)> + '_ {
    let pairs = strip.pieces.iter().zip(strip.pieces.iter().skip(1));
    pairs.map(|(before, after)| (before.from + before.length - after.from, after.from))
}

/// Two strips on one plane that have a stretch of it in common.
pub(crate) fn overlap(a: &Strip, b: &Strip, axis: usize) -> bool {
    let (Some(a), Some(b)) = (a.patches.first(), b.patches.first()) else { return false };
    let [a_range, b_range] = [a, b].map(|patch| if axis == 0 { patch.u() } else { patch.v() });
    a.plane == b.plane && a_range[0] < b_range[1] && b_range[0] < a_range[1]
}

/// Spots along a level line: place on a plane, and how far the plane goes up from there.
pub(crate) fn spots(plane: &Plane, line: &Line) -> Vec<([f64; 2], f64)> {
    let [from, to] = line.ends.map(|[x, y, _]| plane.frame.place(x, y));
    let rings = plane.places();
    let spot = |number: u32| {
        let share = (f64::from(number) + 0.5) / f64::from(SPOTS);
        let [u, v] = [0, 1].map(|axis| from[axis] + share * (to[axis] - from[axis]));
        ([u, v], next_edge_above(&rings, [u, v]) - v)
    };
    (0..SPOTS).map(spot).collect()
}

/// The lowest edge over a place; the place itself where there is none.
fn next_edge_above(rings: &[Vec<roof::Place>], [u, v]: [f64; 2]) -> f64 {
    let sides = rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    let crossed = sides.filter(|([left, _], [right, _])| (*left > u) != (*right > u));
    let heights = crossed.map(|([u1, v1], [u2, v2])| v1 + (u - u1) / (u2 - u1) * (v2 - v1));
    let above = heights.filter(|height| *height > v + crate::tally::SLACK).min_by(f64::total_cmp);
    above.unwrap_or(v)
}

/// How far strips reach up from a place without a gap.
pub(crate) fn reach_up<'a>(strips: impl Iterator<Item = &'a Strip>, plane: usize, [u, v]: [f64; 2]) -> f64 {
    let patches = strips.flat_map(|strip| &strip.patches).filter(|patch| patch.plane == plane);
    let mut over: Vec<[f64; 2]> =
        patches.filter(|patch| patch.u()[0] <= u && u <= patch.u()[1]).map(|patch| patch.v()).collect();
    over.sort_by(|a, b| a[0].total_cmp(&b[0]));
    over.iter().fold(v, |top, &[low, high]| if low <= top + crate::tally::SLACK { top.max(high) } else { top }) - v
}
