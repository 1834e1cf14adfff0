//! Openings through which a line between two planes passes from side to side: they are cut out of both planes.

use geom::{Point, TOLERANCE, add, cross, distance, dot, polygon, scale, sub};

use crate::classify::JOINED;
use crate::clear::{CLEAR, Segment, touch};
use crate::cut_out::flat;
use crate::opening::Footprint;
use crate::{Edge, EdgeKind, Frame, OpeningKind, Plane, Roof};

/// Corners nearer to each other are one.
const SAME: f64 = 32.0 * TOLERANCE;
/// An edge of an opening that lies more nearly along the slope than across it is a side: cosine of 45°, and what is just that
/// is a side too.
const ACROSS: f64 = std::f64::consts::FRAC_1_SQRT_2 + 1e-6;

/// How an opening stands astride of a line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Astride {
    /// What the line is.
    pub(crate) kind: EdgeKind,
    /// The plane that holds the middle, and the one beyond the line.
    pub(crate) planes: [usize; 2],
    /// Of each plane, which lies to the left of its path: from where its edge meets the opening, round to where it goes on.
    pub(crate) paths: [Vec<Point>; 2],
}

impl Astride {
    /// `None` unless just one line that may pass through such an opening does so, and all other edges keep clear of it.
    pub(crate) fn of(roof: &Roof, plane: usize, opening: OpeningKind, footprint: &Footprint) -> Option<Self> {
        let edges = edges(&roof.planes[plane]).into_iter().filter(|(_, edge)| may_pass(opening, edge.kind));
        let passing = edges.filter_map(|(side, edge)| {
            let planes = [plane, edge.meets?];
            Some(Self { kind: edge.kind, planes, paths: parts(&footprint.corners(), side)? })
        });
        passing.into_iter().find(|astride| astride.is_clear(roof))
    }

    fn is_clear(&self, roof: &Roof) -> bool {
        let [here, beyond] = self.planes;
        let clear = |plane: usize, other, path: &[Point]| {
            let others = edges(&roof.planes[plane]).into_iter().filter(|(side, edge)| !is_passed(*side, edge, other, path));
            others.into_iter().all(|(side, _)| {
                !polygon::contains(path, side.0) && path.windows(2).all(|own| !touch((own[0], own[1]), side))
            })
        };
        clear(here, beyond, &self.paths[0]) && clear(beyond, here, &self.paths[1])
    }

    /// How much of the opening is head on the plane where it is most.
    pub(crate) fn head(&self, roof: &Roof) -> f64 {
        let head = |(plane, path): (usize, &Vec<Point>)| {
            let frame = &roof.planes[plane].frame;
            let heads = path.windows(2).filter(|ends| kind(frame, [ends[0], ends[1]]) == EdgeKind::Head);
            heads.map(|ends| distance(ends[0], ends[1])).sum()
        };
        self.planes.into_iter().zip(&self.paths).map(head).fold(0.0, f64::max)
    }

    /// The way round with the plane of each corner, counter-clockwise.
    pub(crate) fn around(&self) -> Vec<(usize, Point)> {
        let back = |side: usize| self.paths[side].iter().rev().skip(1).map(move |&p| (self.planes[side], p));
        back(0).chain(back(1)).collect()
    }
}

/// A chimney may stand astride of any line, and a pipe, though neither should be in a valley. A vent, flat on its slope, fits over
/// none; one that somebody put in a valley is there all the same.
fn may_pass(opening: OpeningKind, line: EdgeKind) -> bool {
    match opening {
        OpeningKind::Chimney | OpeningKind::Pipe => {
            matches!(line, EdgeKind::Ridge | EdgeKind::Hip | EdgeKind::Valley | EdgeKind::Break)
        }
        OpeningKind::Vent => line == EdgeKind::Valley,
        OpeningKind::Skylight => false,
    }
}

/// What an edge of an opening is to a plane on its left.
pub(crate) fn kind(frame: &Frame, [a, b]: [Point; 2]) -> EdgeKind {
    let along = scale(sub(b, a), 1.0 / distance(a, b));
    match dot(frame.inward(), [-along[1], along[0]]) {
        rises if rises > ACROSS => EdgeKind::Head,
        rises if rises < -ACROSS => EdgeKind::Sill,
        _ => EdgeKind::Side,
    }
}

/// Whether an edge, shared with a plane, is the one between the ends of a path.
pub(crate) fn is_passed((from, to): Segment, edge: &Edge, other: usize, path: &[Point]) -> bool {
    let on_it = |p: &Point| geom::off_segment(*p, from, to) < JOINED;
    edge.meets == Some(other) && path.first().is_some_and(on_it) && path.last().is_some_and(on_it)
}

fn edges(plane: &Plane) -> Vec<(Segment, &Edge)> {
    plane.rings.iter().flat_map(|ring| polygon::sides(&flat(ring)).zip(&ring.edges).collect::<Vec<_>>()).collect()
}

/// The parts of a footprint, counter-clockwise, to the left and to the right of a line that passes through it: each as the path
/// round it, along the line's direction on the left and against it on the right. `None` if it does not pass right through.
fn parts(corners: &[Point; 4], (from, to): Segment) -> Option<[Vec<Point>; 2]> {
    let length = distance(from, to);
    let along = scale(sub(to, from), 1.0 / length);
    let off = corners.map(|corner| cross(along, sub(corner, from)));
    let [enters, leaves] = inside(corners, from, along);
    let passes = enters > CLEAR && leaves < length - CLEAR && leaves > enters;
    let both_sides = off.iter().any(|&off| off > CLEAR) && off.iter().any(|&off| off < -CLEAR);
    if !(passes && both_sides) {
        return None;
    }
    let [enters, leaves] = [enters, leaves].map(|run| add(from, scale(along, run)));
    let is_corner = |at: usize| [enters, leaves].into_iter().all(|end| distance(corners[at], end) > SAME);
    let part = |ends: [Point; 2], sense: f64| {
        let chain = run(|at| sense * off[at] > 0.0 && is_corner(at));
        std::iter::once(ends[0]).chain(chain.into_iter().rev().map(|at| corners[at])).chain([ends[1]]).collect()
    };
    Some([part([enters, leaves], 1.0), part([leaves, enters], -1.0)])
}

/// How far along a line it enters a convex outline and leaves it.
fn inside(corners: &[Point; 4], from: Point, along: Point) -> [f64; 2] {
    let mut within = [f64::NEG_INFINITY, f64::INFINITY];
    for (a, b) in polygon::sides(corners) {
        let side = scale(sub(b, a), 1.0 / distance(a, b));
        let (off, gain) = (cross(side, sub(from, a)), cross(side, along));
        if gain > TOLERANCE {
            within[0] = within[0].max(-off / gain);
        } else if gain < -TOLERANCE {
            within[1] = within[1].min(-off / gain);
        } else if off < 0.0 {
            within[1] = f64::NEG_INFINITY;
        }
    }
    within
}

/// The corners that are meant, in order: they follow each other round the outline.
fn run(is_meant: impl Fn(usize) -> bool) -> Vec<usize> {
    let first = (0..4).find(|&at| is_meant(at) && !is_meant((at + 3) % 4)).unwrap_or_default();
    (first..first + 4).map(|at| at % 4).take_while(|&at| is_meant(at)).collect()
}
