//! Which piece of the roof lies on the other side of every stretch of every piece's boundary.
//!
//! Pieces are plan polygons that do not overlap. Boundaries of neighbours lie on each other but need not share their
//! corners, so edges are cut where a neighbour's corner touches them.

use geom::{Point, TOLERANCE, cross, distance, dot, scale, sub};

/// How far apart two lines may be and still be one.
const NEAR: f64 = 8.0 * TOLERANCE;

/// A stretch of a piece's boundary with the same neighbour all along, the piece on its left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stretch {
    pub(crate) piece: usize,
    pub(crate) from: Point,
    pub(crate) to: Point,
    /// The piece on the right.
    pub(crate) other: Option<usize>,
}

struct Side {
    piece: usize,
    from: Point,
    to: Point,
    along: Point,
    length: f64,
    shared: Vec<Shared>,
}

/// Where a neighbour lies on a side. Both sides keep the very same points, so that both are judged alike.
struct Shared {
    from: Point,
    to: Point,
    other: usize,
}

/// Cuts the boundaries of `pieces` (each a list of rings, the piece to their left) into stretches.
pub(crate) fn stretches(pieces: &[Vec<Vec<Point>>]) -> Vec<Stretch> {
    let mut sides = all_sides(pieces);
    let mut order: Vec<usize> = (0..sides.len()).collect();
    order.sort_by(|&a, &b| sides[a].left().total_cmp(&sides[b].left()).then(a.cmp(&b)));
    let mut open: Vec<usize> = Vec::new();
    for this in order {
        let left = sides[this].left() - NEAR;
        open.retain(|&other| sides[other].right() >= left);
        for &other in &open {
            meet(&mut sides, this, other);
        }
        open.push(this);
    }
    sides.into_iter().flat_map(Side::cut).collect()
}

fn all_sides(pieces: &[Vec<Vec<Point>>]) -> Vec<Side> {
    let mut sides = Vec::new();
    for (piece, rings) in pieces.iter().enumerate() {
        for (from, to) in rings.iter().flat_map(|ring| geom::polygon::sides(ring)) {
            let length = distance(from, to);
            if length > 0.0 {
                let along = scale(sub(to, from), 1.0 / length);
                sides.push(Side { piece, from, to, along, length, shared: Vec::new() });
            }
        }
    }
    sides
}

/// Notes on two sides where they lie on each other in opposite directions.
fn meet(sides: &mut [Side], first: usize, second: usize) {
    let (a, b) = (&sides[first], &sides[second]);
    if a.piece == b.piece || dot(a.along, b.along) > -0.5 || a.bottom() > b.top() + NEAR || b.bottom() > a.top() + NEAR {
        return;
    }
    if let Some((from, to)) = overlap(a, b) {
        let pieces = [a.piece, b.piece];
        sides[first].shared.push(Shared { from, to, other: pieces[1] });
        sides[second].shared.push(Shared { from: to, to: from, other: pieces[0] });
    }
}

/// The part of `a` on which `b` lies; its ends are corners of either.
fn overlap(a: &Side, b: &Side) -> Option<(Point, Point)> {
    // The shorter of the two is held against the longer one's line, where directions are surer.
    let (long, short) = if a.length >= b.length { (a, b) } else { (b, a) };
    let off = |p: Point| cross(long.along, sub(p, long.from)).abs();
    let at = |p: Point| dot(a.along, sub(p, a.from));
    let from = if at(b.to) <= NEAR { a.from } else { b.to };
    let to = if at(b.from) >= a.length - NEAR { a.to } else { b.from };
    (off(short.from) <= NEAR && off(short.to) <= NEAR && at(to) - at(from) > NEAR).then_some((from, to))
}

impl Side {
    fn left(&self) -> f64 {
        self.from[0].min(self.to[0])
    }

    fn right(&self) -> f64 {
        self.from[0].max(self.to[0])
    }

    fn bottom(&self) -> f64 {
        self.from[1].min(self.to[1])
    }

    fn top(&self) -> f64 {
        self.from[1].max(self.to[1])
    }

    fn cut(mut self) -> Vec<Stretch> {
        let at = |p: Point| dot(self.along, sub(p, self.from));
        self.shared.sort_by(|a, b| at(a.from).total_cmp(&at(b.from)).then(a.other.cmp(&b.other)));
        let mut stretches = Vec::new();
        let mut done = self.from;
        for shared in &self.shared {
            self.push(&mut stretches, done, shared.from, None);
            self.push(&mut stretches, shared.from, shared.to, Some(shared.other));
            done = shared.to;
        }
        self.push(&mut stretches, done, self.to, None);
        stretches
    }

    fn push(&self, stretches: &mut Vec<Stretch>, from: Point, to: Point, other: Option<usize>) {
        if dot(self.along, sub(to, from)) > NEAR {
            stretches.push(Stretch { piece: self.piece, from, to, other });
        }
    }
}
