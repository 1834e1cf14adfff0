//! The room's one verb: from measured blocks to planes and lines.

use std::collections::BTreeMap;

use geom::region::Region;
use geom::{Point, cross, distance, dot, scale, sub};
use units::Area;

use crate::classify::{Across, JOINED, crossing, height, kind};
use crate::envelope::{Standing, visible};
use crate::problem::{Part, Problem, Severity};
use crate::raise::{End, Raised, raise};
use crate::rings::chain;
use crate::sanity::sanity_check;
use crate::seam::{Stretch, stretches};
use crate::snap::{is_straight, snap};
use crate::{Block, Edge, EdgeKind, Frame, Line, Plane, Point3, Ring, Roof};

/// A roof as far as it could be built, with what is wrong beside it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Built {
    /// Planes and lines of every block without an error.
    pub roof: Roof,
    /// Errors and cautions.
    pub problems: Vec<Problem>,
}

/// An inner gable stands out of the roof in which it was meant to vanish.
pub(crate) const POKES_THROUGH: &str = "gable-pokes-through";

/// Builds the roof of the blocks. `north_deg` is the direction of north in plan, degrees clockwise from +y.
///
/// # Example
/// ```
/// use roof::{Block, OutlineAt, Side, SideKind, build};
/// let eave = Side::new(SideKind::Eave(units::Pitch::per_12(8.0).unwrap()));
/// let house = Block {
///     name: "house".into(),
///     outline: vec![[0.0, 0.0], [600.0, 0.0], [600.0, 360.0], [0.0, 360.0]],
///     outline_at: OutlineAt::DripLine,
///     sides: vec![eave; 4],
///     holes: vec![],
///     eave_height: 108.0,
/// };
/// let built = build(&[house], 0.0);
/// assert_eq!(built.roof.planes.len(), 4);
/// ```
#[must_use]
pub fn build(blocks: &[Block], north_deg: f64) -> Built {
    build_with(blocks, &[], north_deg)
}

/// Builds the roof of blocks with dormers standing on it.
pub(crate) fn build_with(blocks: &[Block], dormers: &[Block], north_deg: f64) -> Built {
    let mut problems = Vec::new();
    let mut raised = Vec::new();
    let all = blocks.iter().map(|block| (block, false)).chain(dormers.iter().map(|dormer| (dormer, true)));
    for (block, is_dormer) in all {
        match raise(block, north_deg, &mut problems) {
            Ok(block) => raised.push(Raised { is_dormer, ..block }),
            Err(mut found) => problems.append(&mut found),
        }
    }
    let roof = Joined::of(raised, &mut problems).into_roof(&mut problems);
    problems.extend(sanity_check(&roof).into_iter().map(not_proven));
    Built { roof, problems }
}

/// A roof that does not pass its own proof must not be ordered from.
pub(crate) fn not_proven(flaw: String) -> Problem {
    Problem {
        code: "roof-not-proven",
        severity: Severity::Error,
        block: String::new(),
        part: Part::Whole,
        says: format!("the roof does not pass its own proof: {flaw}"),
        remedy: "do not order from this plan; move the corners near there by a tape mark, or draw the part otherwise".into(),
    }
}

/// The planes of all blocks with what is seen of each.
struct Joined {
    /// Without boundaries yet.
    planes: Vec<Plane>,
    /// Plane of each piece.
    plane_of: Vec<usize>,
    pieces: Vec<Region>,
    /// Sides along which no plane rises, by block.
    ends: BTreeMap<String, Vec<End>>,
    standing: Standing,
}

impl Joined {
    fn of(blocks: Vec<Raised>, problems: &mut Vec<Problem>) -> Self {
        let visible = snap(&visible(&blocks, problems));
        let name = |block: &Raised| block.planes.first().map_or_else(String::new, |plane| plane.block.clone());
        let ends = blocks.iter().map(|block| (name(block), block.ends.clone())).collect();
        let planes = blocks.iter().flat_map(|block| block.planes.iter().cloned()).collect();
        let plane_of = (0..visible.len()).collect();
        Self { planes, plane_of, pieces: visible, ends, standing: Standing::of(blocks) }
    }

    fn into_roof(mut self, problems: &mut Vec<Problem>) -> Roof {
        let stretches = stretches(&self.pieces, |pieces, ends| self.nearness(pieces, ends));
        self.merge_coplanar(&stretches);
        let edges = self.edges(&stretches);
        problems.extend(self.ends_that_poke_through(&stretches));
        let lines = lines(&edges);
        for (plane, edges) in &edges {
            self.planes[*plane].rings = chain(edges, &self.planes[*plane].frame);
        }
        let used: Vec<bool> = self.planes.iter().map(|plane| !plane.rings.is_empty()).collect();
        assemble(self.planes, lines, &used)
    }

    /// Pieces of one plane are nearest, then pieces of one block, which never lie one above the other; pieces of different
    /// blocks are neighbours only where they meet at one height.
    fn nearness(&self, pieces: [usize; 2], ends: [Point; 2]) -> Option<u8> {
        let [first, second] = pieces.map(|piece| self.plane_of[piece]);
        let [a, b] = [first, second].map(|plane| &self.planes[plane]);
        let joined = ends.iter().all(|&p| (height(&a.frame, p) - height(&b.frame, p)).abs() <= JOINED);
        match (joined, a.block == b.block) {
            (true, _) if self.is_one_plane(first, second) => Some(0),
            (true, true) => Some(1),
            (true, false) => Some(2),
            (false, true) => Some(3),
            (false, false) => None,
        }
    }

    /// Pieces of one plane that touch become the plane with the lowest bearing side.
    fn merge_coplanar(&mut self, stretches: &[Stretch]) {
        let mut leads_to: Vec<usize> = (0..self.planes.len()).collect();
        let lowest = |leads_to: &[usize], mut plane: usize| {
            while leads_to[plane] != plane {
                plane = leads_to[plane];
            }
            plane
        };
        for stretch in stretches {
            let Some(other) = stretch.other else { continue };
            let [a, b] = [stretch.piece, other].map(|piece| lowest(&leads_to, self.plane_of[piece]));
            if a != b && self.is_one_plane(a, b) {
                let (kept, gone) = (a.min(b), a.max(b));
                leads_to[gone] = kept;
                self.start_further_left(kept, gone);
            }
        }
        for plane in &mut self.plane_of {
            *plane = lowest(&leads_to, *plane);
        }
    }

    fn is_one_plane(&self, a: usize, b: usize) -> bool {
        let (a, b) = (&self.planes[a].frame, &self.planes[b].frame);
        let slope = |frame: &Frame| scale(frame.inward(), frame.pitch.rise() / 12.0);
        distance(slope(a), slope(b)) < 1e-7 && (height(a, [b.origin[0], b.origin[1]]) - b.origin[2]).abs() < JOINED
    }

    /// u is counted from the leftmost of the merged bearing sides.
    fn start_further_left(&mut self, kept: usize, gone: usize) {
        let [x, y, _] = self.planes[gone].frame.origin;
        let frame = &mut self.planes[kept].frame;
        let along = dot(frame.right, sub([x, y], [frame.origin[0], frame.origin[1]]));
        if along < 0.0 {
            frame.origin[0] += along * frame.right[0];
            frame.origin[1] += along * frame.right[1];
        }
    }

    /// Every plane's boundary, classified, in no order.
    fn edges(&self, stretches: &[Stretch]) -> BTreeMap<usize, Vec<Bound>> {
        let mut edges: BTreeMap<usize, Vec<Bound>> = BTreeMap::new();
        for stretch in stretches {
            let plane = self.plane_of[stretch.piece];
            let other = stretch.other.map(|piece| self.plane_of[piece]);
            if other != Some(plane) {
                edges.entry(plane).or_default().extend(self.bounds(stretch, plane, other));
            }
        }
        edges
    }

    /// A wing's inner gable is meant to vanish under the other roof; where part of it stands out it shows as a wall.
    fn ends_that_poke_through(&self, stretches: &[Stretch]) -> Vec<Problem> {
        let mut of_block: BTreeMap<&str, Vec<&Stretch>> = BTreeMap::new();
        for stretch in stretches {
            of_block.entry(self.block_of(stretch.piece)).or_default().push(stretch);
        }
        let ends = self.ends.iter().flat_map(|(block, ends)| ends.iter().map(move |end| (block, end)));
        let found = ends.filter(|(block, end)| {
            let own = of_block.get(block.as_str()).into_iter().flatten().copied();
            let on_it = |stretch: &&Stretch| lies_on(&end.line, scale(geom::add(stretch.from, stretch.to), 0.5));
            self.pokes_through(block, end, own.filter(on_it))
        });
        found
            .map(|(block, end)| Problem {
                code: POKES_THROUGH,
                severity: Severity::Caution,
                block: block.clone(),
                part: end.part,
                says: "part of this gable stands out above the other roof and would show as a wall".into(),
                remedy: "end the wing further inside, under the other roof's slope, or lower its ridge".into(),
            })
            .collect()
    }

    /// Whether an end is seen over another roof in part and hidden in part, told from the stretches along it.
    fn pokes_through<'a>(&self, block: &str, end: &End, own: impl Iterator<Item = &'a Stretch>) -> bool {
        let (mut seen, mut over) = (0.0, 0.0);
        for stretch in own {
            let length = distance(stretch.from, stretch.to);
            seen += length;
            if self.stands_over(block, stretch) {
                over += length;
            }
        }
        over > 1.0 && distance(end.line[0], end.line[1]) - seen > 1.0
    }

    /// Whether the roof beyond a stretch is another block's and no higher.
    fn stands_over(&self, block: &str, stretch: &Stretch) -> bool {
        let beyond = beyond(stretch.from, stretch.to);
        let own = height(&self.planes[stretch.piece].frame, scale(geom::add(stretch.from, stretch.to), 0.5));
        self.standing.covers(block, beyond) && !self.standing.stands_above(block, beyond, own)
    }

    /// The block that a piece was raised in: its plane may since have become one with another block's.
    fn block_of(&self, piece: usize) -> &str {
        &self.planes[piece].block
    }

    fn bounds(&self, stretch: &Stretch, plane: usize, other: Option<usize>) -> Vec<Bound> {
        let Stretch { from, to, .. } = *stretch;
        let here = &self.planes[plane].frame;
        let Some(other) = other else {
            let across = if self.along_wall(stretch, here) { Across::Wall } else { Across::Open };
            return vec![Bound { from, to, kind: kind(here, from, to, across), meets: None }];
        };
        let there = &self.planes[other].frame;
        let halves = match crossing(here, there, from, to) {
            Some(middle) => vec![(from, middle), (middle, to)],
            None => vec![(from, to)],
        };
        halves.into_iter().map(|(from, to)| bound(here, there, other, from, to)).collect()
    }

    /// Whether a free stretch runs along a wall: a side marked as one, or another block that stands higher just beyond.
    fn along_wall(&self, &Stretch { piece, from, to, .. }: &Stretch, frame: &Frame) -> bool {
        let middle = scale(geom::add(from, to), 0.5);
        let block = self.block_of(piece);
        let is_marked = |end: &End| end.is_wall && lies_on(&end.line, middle);
        self.ends.get(block).is_some_and(|ends| ends.iter().any(is_marked))
            || self.standing.stands_above(block, beyond(from, to), height(frame, middle))
    }
}

/// A plan point just to the right of the middle of a stretch.
fn beyond(from: Point, to: Point) -> Point {
    let along = scale(sub(to, from), BEYOND / distance(from, to));
    geom::add(scale(geom::add(from, to), 0.5), [along[1], -along[0]])
}

/// How far beyond an edge to look for a wall, in inches: within the thickness of any.
const BEYOND: f64 = 0.25;

fn lies_on(&[a, b]: &[Point; 2], p: Point) -> bool {
    let along = scale(sub(b, a), 1.0 / distance(a, b));
    cross(along, sub(p, a)).abs() < JOINED && (0.0..=distance(a, b)).contains(&dot(along, sub(p, a)))
}

/// A classified stretch of a plane's boundary.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bound {
    pub(crate) from: Point,
    pub(crate) to: Point,
    pub(crate) kind: EdgeKind,
    pub(crate) meets: Option<usize>,
}

fn bound(here: &Frame, there: &Frame, other: usize, from: Point, to: Point) -> Bound {
    let above = [from, to].map(|p| height(here, p) - height(there, p));
    let joined = above.iter().all(|above| above.abs() <= JOINED);
    let (across, meets) = match above[0] + above[1] > 0.0 {
        _ if joined => (Across::Plane(there), Some(other)),
        true => (Across::Open, None),
        false => (Across::Wall, None),
    };
    Bound { from, to, kind: kind(here, from, to, across), meets }
}

/// Every line once: a joint of two planes is seen from both and counted from the first.
fn lines(edges: &BTreeMap<usize, Vec<Bound>>) -> Vec<(EdgeKind, [Point; 2], Vec<usize>)> {
    let mut lines = Vec::new();
    for (&plane, bounds) in edges {
        for bound in bounds.iter().filter(|bound| bound.meets.is_none_or(|other| plane < other)) {
            let of = std::iter::once(plane).chain(bound.meets).collect();
            lines.push((bound.kind, [bound.from, bound.to], of));
        }
    }
    lines
}

/// Leaves out planes that were merged into others and numbers the rest anew.
fn assemble(planes: Vec<Plane>, lines: Vec<(EdgeKind, [Point; 2], Vec<usize>)>, used: &[bool]) -> Roof {
    let number: Vec<usize> =
        used.iter().scan(0, |next, &used| Some(std::mem::replace(next, *next + usize::from(used)))).collect();
    let lines = lines.into_iter().map(|(kind, [a, b], of)| {
        let frame = &planes[of[0]].frame;
        let point = |p: Point| [p[0], p[1], height(frame, p)];
        Line { kind, ends: [point(a), point(b)], planes: of.iter().map(|&plane| number[plane]).collect() }
    });
    let lines = join_lines(lines.collect());
    let mut planes: Vec<Plane> = planes.into_iter().zip(used).filter(|(_, used)| **used).map(|(plane, _)| plane).collect();
    for edge in planes.iter_mut().flat_map(|plane| &mut plane.rings).flat_map(|ring: &mut Ring| &mut ring.edges) {
        let Edge { meets, .. } = edge;
        *meets = meets.map(|plane| number[plane]);
    }
    let plan_area: Area = planes.iter().map(Plane::plan_area).sum();
    let heights = planes.iter().flat_map(|plane| &plane.rings).flat_map(|ring| &ring.corners).map(|corner| corner[2]);
    let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| (low.min(z), high.max(z)));
    Roof { height: (high - low).max(0.0), planes, lines, plan_area, openings: Vec::new() }
}

/// Lines of one kind between the same planes that run on straight are one line.
pub(crate) fn join_lines(lines: Vec<Line>) -> Vec<Line> {
    let mut alike: BTreeMap<(EdgeKind, Vec<usize>), Vec<Line>> = BTreeMap::new();
    for mut line in lines {
        let same = alike.entry((line.kind, line.planes.clone())).or_default();
        while let Some((at, ends)) = same.iter().enumerate().find_map(|(at, other)| Some((at, joined(other, &line)?))) {
            line.ends = ends;
            same.swap_remove(at);
        }
        same.push(line);
    }
    alike.into_values().flatten().collect()
}

/// The ends of the line that two lines make, if either runs on into the other.
fn joined(line: &Line, other: &Line) -> Option<[Point3; 2]> {
    match (runs_on(line, other), runs_on(other, line)) {
        (true, _) => Some([line.ends[0], other.ends[1]]),
        (_, true) => Some([other.ends[0], line.ends[1]]),
        _ => None,
    }
}

fn runs_on(line: &Line, next: &Line) -> bool {
    let near = |a: [f64; 3], b: [f64; 3]| (0..3).all(|i| (a[i] - b[i]).abs() < JOINED);
    let way = [line.ends[0], line.ends[1], next.ends[1]].map(|[x, y, _]| [x, y]);
    near(line.ends[1], next.ends[0]) && is_straight(way)
}
