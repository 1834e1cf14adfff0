//! What a roofer calls a stretch of a plane's boundary, from the geometry alone.

use geom::{Point, add, distance, dot, scale, sub};

use crate::{EdgeKind, Frame};

/// Surfaces whose heights differ by less than this, in inches, are joined there.
pub(crate) const JOINED: f64 = 1.0 / 64.0;
/// Lines that rise less than 1 in 100 are level: framing is no straighter.
const LEVEL: f64 = 0.01;

/// What lies across a stretch of boundary.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Across<'a> {
    /// Another plane, joined to this one.
    Plane(&'a Frame),
    /// Nothing, or a plane further down.
    Open,
    /// A wall, or the end of a plane further up.
    Wall,
}

/// Height of a plane over a plan point.
pub(crate) fn height(frame: &Frame, p: Point) -> f64 {
    let run = dot(frame.inward(), sub(p, [frame.origin[0], frame.origin[1]]));
    frame.origin[2] + run * frame.pitch.rise() / 12.0
}

/// Names the stretch of `frame`'s boundary from `a` to `b`, the plane on its left.
pub(crate) fn kind(frame: &Frame, a: Point, b: Point, across: Across<'_>) -> EdgeKind {
    // A joint is judged by both planes, so that it has one name from both sides.
    let other = if let Across::Plane(other) = across { other } else { frame };
    let climb = |frame: &Frame| height(frame, b) - height(frame, a);
    let level = (climb(frame) + climb(other)).abs() <= 2.0 * LEVEL * distance(a, b);
    let rises = rise_away(frame, a, b, 1.0);
    match across {
        Across::Plane(other) => joint(level, rises, rise_away(other, a, b, -1.0)),
        Across::Open if !level => EdgeKind::Rake,
        Across::Open if rises > 0.0 => EdgeKind::Eave,
        Across::Open => EdgeKind::HighEdge,
        Across::Wall if !level => EdgeKind::Sidewall,
        Across::Wall if rises > 0.0 => EdgeKind::DeadValley,
        Across::Wall => EdgeKind::Headwall,
    }
}

fn joint(level: bool, here: f64, there: f64) -> EdgeKind {
    match (level, here + there > 0.0) {
        (true, _) if here * there < 0.0 => EdgeKind::Break,
        (true, false) => EdgeKind::Ridge,
        (false, false) => EdgeKind::Hip,
        (_, true) => EdgeKind::Valley,
    }
}

/// Rise of the plane per inch away from the line `a`-`b`, to its left (`side` 1) or right (−1).
fn rise_away(frame: &Frame, a: Point, b: Point, side: f64) -> f64 {
    let along = scale(sub(b, a), side / distance(a, b));
    dot(frame.inward(), [-along[1], along[0]]) * frame.pitch.rise() / 12.0
}

/// Where between `a` and `b` two planes cross, if they do.
pub(crate) fn crossing(here: &Frame, there: &Frame, a: Point, b: Point) -> Option<Point> {
    let at = |p| height(here, p) - height(there, p);
    let (start, end) = (at(a), at(b));
    (start.abs() > JOINED && end.abs() > JOINED && start * end < 0.0)
        .then(|| add(a, scale(sub(b, a), start / (start - end))))
}
