use covering::{Bond, Covering};
use roof::{EdgeKind, Place, Plane};

use crate::bond::NIL;
use crate::cut::sides;
use crate::legal::nearest_of;
use crate::outline::{edges, is_level, projection};
use crate::{Joints, LaidPlane};

/// Starters of one width along a level low edge. An edge has more than one such row where starters had to be
/// shortened to keep their joints off the first course's.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Starters {
    /// v of the butts, flush with the first course's.
    pub butt: f64,
    /// From butt to head.
    pub height: f64,
    /// Left end of the row.
    pub from: f64,
    /// Right end of the row.
    pub to: f64,
    /// u of the left side of the first starter before cutting.
    pub left: f64,
    /// From one starter's left side to the next one's.
    pub step: f64,
    /// How many.
    pub count: u32,
}

/// A level edge of the laid outline from which units start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct LowEdge {
    pub(crate) v: f64,
    pub(crate) from: f64,
    pub(crate) to: f64,
}

/// Eaves, breaks, level valleys and dead valleys as laid, in the order of the outline. The head of an opening is none:
/// courses run on behind it, and what is left of those under it lies there as in the field.
pub(crate) fn low_edges(plane: &Plane, covering: &Covering, laid: &[Vec<Place>]) -> Vec<LowEdge> {
    let starting = edges(plane).filter(|&(_, kind)| kind != EdgeKind::Head);
    let lines: Vec<LowEdge> = starting.filter_map(|(side, kind)| LowEdge::of(side, -projection(covering, kind))).collect();
    let low = laid.iter().flat_map(|ring| sides(ring)).filter_map(|side| LowEdge::of(side, 0.0));
    low.filter(|edge| lines.iter().any(|line| edge.is_on(line))).collect()
}

impl LowEdge {
    /// The laid area lies on a side's left: a level side to the right has it above.
    fn of([from, to]: [Place; 2], up: f64) -> Option<Self> {
        (is_level([from, to]) && from[0] < to[0]).then(|| Self { v: from[1] + up, from: from[0], to: to[0] })
    }

    /// A step between edges that are nearly in line can be level too, but lies on no edge of the plane.
    fn is_on(&self, line: &Self) -> bool {
        is_level([[0.0, self.v], [0.0, line.v]]) && self.from < line.to && line.from < self.to
    }
}

/// From butt to head: the sheet's own piece, or the exposure of the course over it and the headlap of that course's units,
/// so long.
pub(crate) fn height(covering: &Covering, exposure: f64, length: f64) -> f64 {
    let cut = || length - exposure * f64::from(covering.lap.courses() - 1);
    covering.starter.height.map_or_else(cut, units::Length::to_inches)
}

/// The starters along one low edge of a plane whose courses are laid.
pub(crate) fn starters(plane: &LaidPlane, covering: &Covering, edge: LowEdge, height: f64) -> Vec<Starters> {
    let Some(above) = plane.courses.iter().take_while(|course| course.butt < edge.v + NIL).count().checked_sub(1) else {
        return Vec::new();
    };
    let joints = joints_over(plane, above);
    let mut rows: Vec<Starters> = Vec::new();
    let mut left = edge.from;
    while left < edge.to - NIL {
        let step = step(left, edge.to, &joints, covering);
        match rows.last_mut().filter(|row| (row.step - step).abs() < NIL) {
            Some(row) => row.count += 1,
            None => rows.push(Starters { butt: edge.v, height, from: left, to: edge.to, left, step, count: 1 }),
        }
        left += step;
        let reached = left.min(edge.to);
        rows.last_mut().into_iter().for_each(|row| row.to = reached);
    }
    rows
}

/// The joints of a course that starters must miss: at its butts, and where they do not run straight up also as far up as they
/// are seen.
fn joints_over(plane: &LaidPlane, course: usize) -> Vec<Joints> {
    let row = &plane.courses[course];
    let heights = if plane.peak.is_some() { vec![row.butt, row.butt + row.exposure] } else { vec![row.butt] };
    heights.into_iter().flat_map(|v| plane.joint_rows(course, v)).collect()
}

/// From a starter's left side to the next one's: a whole starter and its gap, unless its joint would come too near to
/// one of the first course; then the joint moves back, to the middle of a unit of the first course if it can.
fn step(left: f64, end: f64, over: &[Joints], covering: &Covering) -> f64 {
    let gap = covering.gap.to_inches();
    let least = covering.starter.joint_offset.to_inches();
    let whole = left + covering.starter.width.to_inches().max(NIL) + gap / 2.0;
    let nearest = |joint: f64| nearest_of(over.iter().copied(), joint);
    let near = nearest(whole).unwrap_or(f64::INFINITY);
    let is_clear = |joint: f64| nearest(joint).is_none_or(|near| (near - joint).abs() > least - NIL);
    // Units of random widths have no common middle.
    let half = (covering.unit.width.to_inches() + gap) / 2.0;
    let middle = (covering.bond(None) != Bond::Random).then_some(near - half);
    // Where the first course's joints were moved, the next place clear of one of them.
    let beside = |joint: f64| [joint + least, joint - least].into_iter().filter(|&beside| beside <= whole);
    let mut others: Vec<f64> =
        if is_clear(whole) { Vec::new() } else { over.iter().flat_map(Joints::each).flat_map(beside).collect() };
    others.sort_by(|a, b| b.total_cmp(a));
    let tried = [whole].into_iter().chain(middle).chain([near - least]).chain(others);
    let joint = tried.filter(|joint| *joint > left + gap).find(|&joint| joint >= end || is_clear(joint));
    joint.unwrap_or(whole) + gap / 2.0 - left
}
