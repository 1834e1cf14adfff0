//! The weighted straight skeleton of a polygon with holes.
//!
//! Every side moves inwards at a speed of its own; where moving sides meet, ridges, hips and valleys are traced. A side
//! may stand still, start late, or change its speed at given heights. Time is height: a side that runs 1.5 inches inward
//! for each inch of height traces a plane of 8 in 12.
//!
//! Method: a wavefront advanced from event to event, in `f64` and, where that cannot be proved sound, once more in numbers of
//! 71 digits. Everything that touches at one place at one instant is
//! resolved together: what has shrunk to nothing is dropped, and the sides that leave the place are joined again by
//! their order around it, so that simultaneous events need no special cases. See `docs/skeleton.md` for the sources
//! and the proof that the joining keeps the front free of crossings.

mod event;
mod faces;
mod line;
mod ray;
mod wavefront;

use crate::{Number, Point};
use line::{Care, Meant};

/// A closed outline with its sides: the outer one counter-clockwise, holes clockwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Contour {
    /// Corners in order.
    pub corners: Vec<Point>,
    /// `sides[i]` runs from corner `i` to corner `i + 1`, the last to the first.
    pub sides: Vec<Side>,
}

/// How one side moves.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// Plan distance inwards for each unit of height, from the start on; 0 stands still. Never negative.
    pub run: f64,
    /// Later runs, in the order of their heights.
    pub changes: Vec<Change>,
}

/// From a height on, a side runs otherwise and traces a new face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// Height, not below the start.
    pub at: f64,
    /// The new run.
    pub run: f64,
}

impl Side {
    /// A side of one run.
    #[must_use]
    pub const fn running(run: f64) -> Self {
        Self { run, changes: Vec::new() }
    }
}

/// How a skeleton was found, the surest and fastest way first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Traced {
    /// In `f64`.
    #[default]
    Narrow,
    /// In numbers of 71 digits, because `f64` lost too many.
    Wide,
    /// In `f64`, after sides were made parallel and corners one so coarsely that a corner at the end of a 100-ft side may
    /// have moved by 1/100 in.
    Coarse,
}

/// The faces that the sides trace.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Skeleton {
    /// How it was found.
    pub traced: Traced,
    /// Plan x, plan y, height.
    pub nodes: Vec<[f64; 3]>,
    /// One face for each stage of each side: first every side's first stage in the order of contours and sides, then
    /// the later stages in the same order.
    pub faces: Vec<Face>,
}

/// What one stage of one side traces.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// Counted over all contours.
    pub side: usize,
    /// 0 for the side's first run, then one for each change.
    pub stage: usize,
    /// Plan distance for each unit of height; a face with 0 is upright and has no rings.
    pub run: f64,
    /// Closed boundaries, counter-clockwise.
    pub rings: Vec<Vec<Rim>>,
}

/// One edge of a face: from its node to the node of the next rim.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rim {
    /// Index in [`Skeleton::nodes`].
    pub node: usize,
    /// The face on the other side; `None` along the outline.
    pub other: Option<usize>,
}

/// Why no skeleton was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stuck {
    /// Only sides that stand still are left around this place: no side ever reaches it.
    NeverCovered(Point),
    /// The arithmetic could not settle what happens here.
    Unresolved(Point),
}

/// Traces the skeleton from height `start` up, in `f64` first. What cannot be proved sound is traced again in wide numbers: as
/// drawn, to the last digit; then, for a part that is left open only because parallel sides were rounded, with sides made
/// parallel that were meant to be. Last it is made straight coarsely. [`Skeleton::traced`] tells which of these it was.
///
/// The contours must be simple, disjoint, and run as [`Contour`] says; neighbouring sides on one line must have one run.
///
/// # Errors
/// [`Stuck`], with a place.
pub fn skeleton(contours: &[Contour], start: f64) -> Result<Skeleton, Stuck> {
    proved(contours, start, Care::narrow(Meant::PARALLEL), Traced::Narrow)
        .or_else(|_| proved(contours, start, Care::narrower(), Traced::Narrow))
        .or_else(|_| proved(contours, start, Care::wide(Meant::AS_DRAWN), Traced::Wide))
        .or_else(|stuck| proved(contours, start, Care::wide(Meant::PARALLEL), Traced::Wide).map_err(|_| stuck))
        .or_else(|stuck| proved(contours, start, Care::coarse(), Traced::Coarse).map_err(|_| stuck))
}

fn proved<N: Number>(contours: &[Contour], start: f64, care: Care<N>, traced: Traced) -> Result<Skeleton, Stuck> {
    let skeleton = Skeleton { traced, ..wavefront::trace(contours, start, care)? };
    match skeleton.flaw(contours, start) {
        None => Ok(skeleton),
        Some(place) => Err(Stuck::Unresolved(place)),
    }
}

/// How far a corner may lie off its plane, in plan: a quarter of the finest mark on a tape.
const OFF_PLANE: f64 = 1.0 / 64.0;

/// Two stretches of a ring that leave one corner this close to each other, in plan, over more than a mark of the tape,
/// are the same way there and back.
const THERE_AND_BACK: f64 = 16.0 * crate::TOLERANCE;
const MARK: f64 = 1.0 / 16.0;

impl Skeleton {
    /// Re-proves the skeleton: the faces fill the contours exactly, every corner of a face lies on the plane that its
    /// side traces, and no face runs out along a neighbour and back, which adds nothing to its area and still
    /// raises its top. Returns a place where this fails.
    #[must_use]
    pub fn flaw(&self, contours: &[Contour], start: f64) -> Option<Point> {
        let covered: f64 = self.faces.iter().flat_map(|face| &face.rings).map(|ring| self.ring_area(ring)).sum();
        let given: f64 = contours.iter().map(|contour| crate::polygon::area(&contour.corners)).sum();
        let girth: f64 = contours
            .iter()
            .flat_map(|contour| crate::polygon::sides(&contour.corners))
            .map(|(a, b)| crate::distance(a, b))
            .sum();
        if (covered - given).abs() > 16.0 * crate::TOLERANCE * girth {
            return contours.first().and_then(|contour| contour.corners.first().copied());
        }
        self.node_off_its_plane(contours, start).or_else(|| self.spike())
    }

    /// Where a face runs along a neighbour and back along the same one. Out along one and back along another is sound:
    /// so a wall ends that two planes reach at once.
    fn spike(&self) -> Option<Point> {
        let rings = self.faces.iter().flat_map(|face| &face.rings);
        let corners = rings.flat_map(|ring| {
            let rim = |index: usize| ring[index % ring.len()];
            (0..ring.len()).map(move |index| [rim(index), rim(index + 1), rim(index + 2)])
        });
        let at = |rim: Rim| [self.nodes[rim.node][0], self.nodes[rim.node][1]];
        let along_one = corners.filter(|[out, back, _]| out.other == back.other);
        along_one.map(|rims| rims.map(at)).find(|&[a, tip, b]| is_there_and_back(a, tip, b)).map(|[_, tip, _]| tip)
    }

    fn node_off_its_plane(&self, contours: &[Contour], start: f64) -> Option<Point> {
        let lines: Vec<(Point, Point)> =
            contours.iter().flat_map(|contour| crate::polygon::sides(&contour.corners)).collect();
        let sides: Vec<&Side> = contours.iter().flat_map(|contour| &contour.sides).collect();
        for face in &self.faces {
            let (a, b) = lines[face.side];
            let along = crate::scale(crate::sub(b, a), 1.0 / crate::distance(a, b));
            for rim in face.rings.iter().flatten() {
                let [x, y, height] = self.nodes[rim.node];
                let inward = crate::cross(along, crate::sub([x, y], a));
                if (inward - sides[face.side].distance_at(height, start)).abs() > OFF_PLANE {
                    return Some([x, y]);
                }
            }
        }
        None
    }

    fn ring_area(&self, ring: &[Rim]) -> f64 {
        let corners: Vec<Point> = ring.iter().map(|rim| [self.nodes[rim.node][0], self.nodes[rim.node][1]]).collect();
        crate::polygon::area(&corners)
    }
}

fn is_there_and_back(a: Point, tip: Point, b: Point) -> bool {
    let (out, back) = (crate::sub(a, tip), crate::sub(b, tip));
    let (short, long) =
        (crate::distance(a, tip).min(crate::distance(b, tip)), crate::distance(a, tip).max(crate::distance(b, tip)));
    short > MARK && crate::dot(out, back) > 0.0 && crate::cross(out, back).abs() < THERE_AND_BACK * long
}

impl Side {
    /// How far inwards the side is at a height.
    fn distance_at(&self, height: f64, start: f64) -> f64 {
        let mut distance = 0.0;
        let (mut from, mut run) = (start, self.run);
        for change in self.changes.iter().filter(|change| change.at < height) {
            distance += (change.at - from) * run;
            (from, run) = (change.at, change.run);
        }
        distance + (height - from) * run
    }
}
