//! Which piece of the roof lies on the other side of every stretch of every piece's boundary.
//!
//! Pieces are plan polygons. Boundaries of neighbours lie on each other but need not share their corners, so edges are
//! cut where a neighbour's corner touches them. Pieces that lie one above the other, as under an overhang, are no
//! neighbours even where their boundaries happen to coincide: the caller tells which are.

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

/// Cuts the boundaries of `pieces` (each a list of rings, the piece to their left) into stretches. `nearness` tells of two
/// pieces that touch between two points whether they are neighbours there, the nearer ones with the lesser number: under
/// an overhang three surfaces may share a line, of which two are joined.
pub(crate) fn stretches(
    pieces: &[Vec<Vec<Point>>],
    nearness: impl Fn([usize; 2], [Point; 2]) -> Option<u8>,
) -> Vec<Stretch> {
    let mut sides = all_sides(pieces);
    let mut touching: Vec<(u8, [usize; 2], [Point; 2])> = Vec::new();
    for_each_pair(&sides, |pair| {
        let pieces = pair.map(|side| sides[side].piece);
        let ends = touch(&sides, pair).filter(|_| pieces[0] != pieces[1]);
        touching.extend(ends.and_then(|ends| Some((nearness(pieces, ends)?, pair, ends))));
    });
    touching.sort_by_key(|&(nearness, [first, second], _)| (nearness, first.min(second), first.max(second)));
    for (_, pair, ends) in touching {
        join(&mut sides, pair, ends);
    }
    sides.into_iter().flat_map(Side::cut).collect()
}

/// Every side of every piece; where a piece's boundary lies on itself there is nothing between, and both sides go.
fn all_sides(pieces: &[Vec<Vec<Point>>]) -> Vec<Side> {
    let mut all = Vec::new();
    for (piece, rings) in pieces.iter().enumerate() {
        let ends = rings.iter().flat_map(|ring| geom::polygon::sides(ring));
        let mut sides: Vec<Side> = ends.filter_map(|(from, to)| Side::new(piece, from, to)).collect();
        let mut folded = Vec::new();
        for_each_pair(&sides, |pair| folded.extend(touch(&sides, pair).map(|ends| (pair, ends))));
        for (pair, ends) in folded {
            join(&mut sides, pair, ends);
        }
        if sides.iter().any(|side| !side.shared.is_empty()) {
            let stretches = sides.into_iter().flat_map(Side::cut).filter(|stretch| stretch.other.is_none());
            sides = stretches.filter_map(|stretch| Side::new(piece, stretch.from, stretch.to)).collect();
        }
        all.append(&mut sides);
    }
    all
}

/// Pairs of sides that overlap in x, found in the order of their left ends.
fn for_each_pair(sides: &[Side], mut visit: impl FnMut([usize; 2])) {
    let mut order: Vec<usize> = (0..sides.len()).collect();
    order.sort_by(|&a, &b| sides[a].left().total_cmp(&sides[b].left()).then(a.cmp(&b)));
    let mut open: Vec<usize> = Vec::new();
    for this in order {
        let left = sides[this].left() - NEAR;
        open.retain(|&other| sides[other].right() >= left);
        for &other in &open {
            visit([this, other]);
        }
        open.push(this);
    }
}

/// Where two sides lie on each other in opposite directions, from end to end along the first.
fn touch(sides: &[Side], [first, second]: [usize; 2]) -> Option<[Point; 2]> {
    let (a, b) = (&sides[first], &sides[second]);
    let apart = dot(a.along, b.along) > -0.5 || a.bottom() > b.top() + NEAR || b.bottom() > a.top() + NEAR;
    if apart { None } else { overlap(a, b) }
}

/// Notes on both sides that they touch, unless something nearer was noted there before.
fn join(sides: &mut [Side], [first, second]: [usize; 2], [from, to]: [Point; 2]) {
    if sides[first].is_free(from, to) && sides[second].is_free(to, from) {
        let [on_first, on_second] = [sides[second].piece, sides[first].piece];
        sides[first].shared.push(Shared { from, to, other: on_first });
        sides[second].shared.push(Shared { from: to, to: from, other: on_second });
    }
}

/// The part of `a` on which `b` lies; its ends are corners of either.
fn overlap(a: &Side, b: &Side) -> Option<[Point; 2]> {
    // The shorter of the two is held against the longer one's line, where directions are surer.
    let (long, short) = if a.length >= b.length { (a, b) } else { (b, a) };
    let off = |p: Point| cross(long.along, sub(p, long.from)).abs();
    let at = |p: Point| dot(a.along, sub(p, a.from));
    let from = if at(b.to) <= NEAR { a.from } else { b.to };
    let to = if at(b.from) >= a.length - NEAR { a.to } else { b.from };
    (off(short.from) <= NEAR && off(short.to) <= NEAR && at(to) - at(from) > NEAR).then_some([from, to])
}

impl Side {
    fn new(piece: usize, from: Point, to: Point) -> Option<Self> {
        let length = distance(from, to);
        let along = scale(sub(to, from), 1.0 / length);
        (length > 0.0).then_some(Self { piece, from, to, along, length, shared: Vec::new() })
    }

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

    /// Nothing is noted yet between two points.
    fn is_free(&self, from: Point, to: Point) -> bool {
        let at = |p: Point| dot(self.along, sub(p, self.from));
        self.shared.iter().all(|shared| at(from).max(at(shared.from)) > at(to).min(at(shared.to)) - NEAR)
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
