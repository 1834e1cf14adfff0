//! The room's one verb: from measured blocks to planes and lines.

use std::collections::{BTreeMap, BTreeSet};

use geom::skeleton::{Skeleton, Stuck, skeleton};
use geom::{Point, cross, distance, dot, polygon, scale, sub};
use units::{Area, Pitch};

use crate::classify::{Across, JOINED, crossing, height, kind};
use crate::outline::{Outline, fault, outlines};
use crate::overhang::{DripLine, drip_line};
use crate::problem::{Part, Problem, Severity};
use crate::rings::chain;
use crate::seam::{Stretch, stretches};
use crate::{Block, Edge, EdgeKind, Frame, Line, Plane, Ring, Roof, SideKind};

/// A roof as far as it could be built, with what is wrong beside it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Built {
    /// Planes and lines of every block without an error.
    pub roof: Roof,
    /// Errors and cautions.
    pub problems: Vec<Problem>,
}

/// Steeper than this, in 12, is a caution: few coverings are made for it.
const VERY_STEEP: f64 = 40.0;

/// Builds the roof of the blocks. `north_deg` is the direction of north in plan, degrees clockwise from +y.
///
/// # Example
/// ```
/// use roof::{Block, OutlineAt, Side, SideKind, build};
/// let eave = Side { kind: SideKind::Eave(units::Pitch::per_12(8.0).unwrap()), overhang: None };
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
    let mut built = Built::default();
    let mut raised = Raised::default();
    for block in blocks {
        match raise(block, north_deg, &mut built.problems) {
            Ok(block) => raised.append(block),
            Err(mut problems) => built.problems.append(&mut problems),
        }
    }
    built.roof = raised.into_roof();
    built
}

/// Planes without boundaries, their pieces in plan, and the walls they meet.
#[derive(Default)]
struct Raised {
    planes: Vec<Plane>,
    /// Plane of each piece.
    plane_of: Vec<usize>,
    pieces: Vec<Vec<Vec<Point>>>,
    walls: Vec<[Point; 2]>,
}

fn raise(block: &Block, north_deg: f64, cautions: &mut Vec<Problem>) -> Result<Raised, Vec<Problem>> {
    let outlines = outlines(block)?;
    let drip = drip_line(block, &outlines, cautions)?;
    let skeleton = skeleton(&drip.contours, drip.start).map_err(|stuck| vec![stuck_problem(block, stuck)])?;
    cautions.extend(very_steep(block, &outlines));
    let mut raised = Raised::default();
    for (side, face) in bearing_faces(&skeleton) {
        raised.plane_of.push(raised.planes.len());
        raised.planes.push(bare_plane(block, &outlines, &drip, side, north_deg));
        raised.pieces.push(rings_of(&skeleton, face));
    }
    raised.walls = walls(&outlines, &drip);
    name_planes(&mut raised.planes);
    Ok(raised)
}

/// The face of every side that carries a plane.
fn bearing_faces(skeleton: &Skeleton) -> impl Iterator<Item = (usize, usize)> + '_ {
    let carries = |face: &geom::skeleton::Face| !face.rings.is_empty();
    skeleton.faces.iter().enumerate().filter(move |(_, face)| carries(face)).map(|(index, face)| (face.side, index))
}

fn rings_of(skeleton: &Skeleton, face: usize) -> Vec<Vec<Point>> {
    let node = |rim: &geom::skeleton::Rim| [skeleton.nodes[rim.node][0], skeleton.nodes[rim.node][1]];
    skeleton.faces[face].rings.iter().map(|ring| ring.iter().map(node).collect()).collect()
}

fn bare_plane(block: &Block, outlines: &[Outline], drip: &DripLine, side: usize, north_deg: f64) -> Plane {
    let (outline, at) = locate(outlines, side);
    let corners = &drip.contours[outline].corners;
    let (a, b) = (corners[at], corners[(at + 1) % corners.len()]);
    let right = scale(sub(b, a), 1.0 / distance(a, b));
    let measured = outlines[outline].sides[at];
    let index = measured.index;
    let SideKind::Eave(pitch) = measured.side.kind else { unreachable!("only eave sides move, so only they trace faces") };
    let facing_deg = (libm::atan2(right[1], -right[0]).to_degrees() - north_deg).rem_euclid(360.0);
    let id = match outlines[outline].hole {
        None => format!("{}.{index}", block.name),
        Some(hole) => format!("{}.hole{hole}.{index}", block.name),
    };
    Plane {
        id,
        name: format!("{}, {}", block.name, compass(facing_deg)),
        block: block.name.clone(),
        pitch,
        facing_deg,
        frame: Frame { origin: [a[0], a[1], block.eave_height + drip.begins[side]], right, pitch },
        rings: Vec::new(),
    }
}

/// Outline and position in it of a side counted over all outlines.
fn locate(outlines: &[Outline], mut side: usize) -> (usize, usize) {
    for (index, outline) in outlines.iter().enumerate() {
        if side < outline.sides.len() {
            return (index, side);
        }
        side -= outline.sides.len();
    }
    unreachable!("every face belongs to a side of an outline")
}

fn compass(facing_deg: f64) -> &'static str {
    const NAMES: [&str; 8] = ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];
    NAMES[((facing_deg / 45.0).round() as usize) % 8]
}

/// Planes that face the same way get numbers after the first: `house, south 2`.
fn name_planes(planes: &mut [Plane]) {
    let mut seen: BTreeMap<String, u32> = BTreeMap::new();
    for plane in planes {
        let count = seen.entry(plane.name.clone()).or_insert(0);
        *count += 1;
        if *count > 1 {
            plane.name = format!("{} {count}", plane.name);
        }
    }
}

fn walls(outlines: &[Outline], drip: &DripLine) -> Vec<[Point; 2]> {
    let sides = outlines.iter().flat_map(|outline| &outline.sides);
    let lines = drip.contours.iter().flat_map(|contour| polygon::sides(&contour.corners));
    sides.zip(lines).filter(|(side, _)| side.side.kind == SideKind::Wall).map(|(_, (a, b))| [a, b]).collect()
}

fn stuck_problem(block: &Block, stuck: Stuck) -> Problem {
    let (code, place, says, remedy) = match stuck {
        Stuck::NeverCovered([x, y]) => (
            "part-never-covered",
            [x, y],
            "no plane ever reaches the part of the outline",
            "give a pitch to a side there, or draw that part as a block of its own",
        ),
        Stuck::Unresolved([x, y]) => (
            "roof-not-resolved",
            [x, y],
            "the planes could not be worked out",
            "check the corners for slips of the tape, or draw the part as a block of its own",
        ),
    };
    let says = format!("{says} near x = {:.2} ft, y = {:.2} ft", place[0] / 12.0, place[1] / 12.0);
    fault(block, code, Part::Whole, says, remedy)
}

fn very_steep(block: &Block, outlines: &[Outline]) -> Vec<Problem> {
    let steep = |pitch: Pitch| pitch.rise() > VERY_STEEP;
    let all = outlines.iter().flat_map(|outline| outline.sides.iter().map(move |side| (outline.hole, side)));
    all.filter_map(|(hole, side)| match side.side.kind {
        SideKind::Eave(pitch) if steep(pitch) => Some(Problem {
            code: "very-steep",
            severity: Severity::Caution,
            block: block.name.clone(),
            part: Part::Side { hole, side: side.index },
            says: format!("side {} is pitched {pitch}, steeper than 40/12", side.index),
            remedy: "measure it again; a surface this steep is usually clad as a wall".into(),
        }),
        _ => None,
    })
    .collect()
}

impl Raised {
    fn append(&mut self, mut other: Self) {
        let first = self.planes.len();
        self.plane_of.extend(other.plane_of.iter().map(|plane| plane + first));
        self.planes.append(&mut other.planes);
        self.pieces.append(&mut other.pieces);
        self.walls.append(&mut other.walls);
    }

    fn into_roof(mut self) -> Roof {
        let stretches = stretches(&self.pieces);
        self.merge_coplanar(&stretches);
        let edges = self.edges(&stretches);
        let lines = lines(&self.planes, &edges);
        for (plane, edges) in &edges {
            self.planes[*plane].rings = chain(edges, &self.planes[*plane].frame);
        }
        let used: Vec<bool> = self.planes.iter().map(|plane| !plane.rings.is_empty()).collect();
        assemble(self.planes, lines, &used)
    }

    /// Pieces of one plane that touch become the plane with the lowest bearing side.
    fn merge_coplanar(&mut self, stretches: &[Stretch]) {
        loop {
            let next = stretches.iter().find_map(|stretch| {
                let (a, b) = (self.plane_of[stretch.piece], self.plane_of[stretch.other?]);
                (a != b && self.is_one_plane(a, b)).then_some((a.min(b), a.max(b)))
            });
            let Some((kept, gone)) = next else { return };
            for plane in &mut self.plane_of {
                if *plane == gone {
                    *plane = kept;
                }
            }
            self.start_further_left(kept, gone);
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
                edges.entry(plane).or_default().extend(self.bounds(plane, other, stretch.from, stretch.to));
            }
        }
        edges
    }

    fn bounds(&self, plane: usize, other: Option<usize>, from: Point, to: Point) -> Vec<Bound> {
        let here = &self.planes[plane].frame;
        let Some(other) = other else {
            let across = if self.along_wall(from, to) { Across::Wall } else { Across::Open };
            return vec![Bound { from, to, kind: kind(here, from, to, across), meets: None }];
        };
        let there = &self.planes[other].frame;
        let halves = match crossing(here, there, from, to) {
            Some(middle) => vec![(from, middle), (middle, to)],
            None => vec![(from, to)],
        };
        halves.into_iter().map(|(from, to)| bound(here, there, other, from, to)).collect()
    }

    fn along_wall(&self, from: Point, to: Point) -> bool {
        let middle = scale(geom::add(from, to), 0.5);
        self.walls.iter().any(|&[a, b]| {
            let along = scale(sub(b, a), 1.0 / distance(a, b));
            let at = dot(along, sub(middle, a));
            cross(along, sub(middle, a)).abs() < JOINED && (0.0..=distance(a, b)).contains(&at)
        })
    }
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
fn lines(planes: &[Plane], edges: &BTreeMap<usize, Vec<Bound>>) -> Vec<(EdgeKind, [Point; 2], Vec<usize>)> {
    let mut lines = Vec::new();
    let mut told: BTreeSet<(usize, usize)> = BTreeSet::new();
    for (&plane, bounds) in edges {
        for bound in bounds {
            match bound.meets {
                Some(other) if other < plane => debug_assert!(told.contains(&(other, plane))),
                Some(other) => {
                    told.insert((plane, other));
                    lines.push((bound.kind, [bound.from, bound.to], vec![plane, other]));
                }
                None => lines.push((bound.kind, [bound.from, bound.to], vec![plane])),
            }
        }
    }
    debug_assert!(lines.iter().all(|line| line.2.iter().all(|&plane| plane < planes.len())));
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
    Roof { height: (high - low).max(0.0), planes, lines, plan_area }
}

/// Lines of one kind between the same planes that run on straight are one line.
fn join_lines(mut lines: Vec<Line>) -> Vec<Line> {
    let mut at = 0;
    while at < lines.len() {
        match (0..lines.len()).find(|&next| next != at && runs_on(&lines[at], &lines[next])) {
            Some(next) => {
                lines[at].ends[1] = lines[next].ends[1];
                lines.remove(next);
                at = at.min(next);
            }
            None => at += 1,
        }
    }
    lines
}

fn runs_on(line: &Line, next: &Line) -> bool {
    let near = |a: [f64; 3], b: [f64; 3]| (0..3).all(|i| (a[i] - b[i]).abs() < JOINED);
    let flat = |line: &Line| sub([line.ends[1][0], line.ends[1][1]], [line.ends[0][0], line.ends[0][1]]);
    let (a, b) = (flat(line), flat(next));
    line.kind == next.kind
        && line.planes == next.planes
        && near(line.ends[1], next.ends[0])
        && dot(a, b) > 0.0
        && cross(a, b).abs() <= 1e-6 * (dot(a, a) * dot(b, b)).sqrt()
}
