//! The two outlines of a plane: where units are cut, and where they are seen.

use covering::Covering;
use i_overlay::core::{fill_rule::FillRule, overlay_rule::OverlayRule};
use i_overlay::float::scale::FixedScaleFloatOverlay;
use roof::{EdgeKind, Place, Plane};
use units::Length;

use crate::cut::{NIL_AREA, area, sides};

/// Edges whose ends differ by less, in, are level or run straight up the slope.
const LEVEL: f64 = 1e-6;
/// Corners nearer than this, in, to each other or to the line between their neighbours are no corners.
const SAME: f64 = 1e-7;
/// A mitre longer than this many times the greater offset is cut square: the edges are nearly in line.
const LONGEST_MITRE: f64 = 10.0;
/// Steps of the grid of general polygon operations in 1 in: finer than any tape, coarser than rounding.
const GRID: f64 = 16_777_216.0;

/// Rings of places: outer ones counter-clockwise, holes clockwise.
pub(crate) type Rings = Vec<Vec<Place>>;

/// A side of the laid outline, the laid area on its left, and the edge of the plane that it belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct OutlineSide {
    pub(crate) line: [Place; 2],
    pub(crate) kind: EdgeKind,
}

/// The boundary that units are cut to: the plane with its projections at eaves and rakes, up to half the vent slot at
/// ridges, half the clear width at valleys, and the sheet's distance off walls.
#[must_use]
pub fn laid(plane: &Plane, covering: &Covering) -> Vec<Vec<Place>> {
    closed(&moved(plane, covering, |kind| projection(covering, kind)))
}

/// The sides of a laid outline, each with the kind of the edge that moved there: of those that run its way the nearest.
pub(crate) fn outline_sides(plane: &Plane, covering: &Covering, laid: &[Vec<Place>]) -> Vec<OutlineSide> {
    let moved = moved(plane, covering, |kind| projection(covering, kind));
    let edges: Vec<&MovedEdge> = moved.iter().flatten().collect();
    let side = |line: [Place; 2]| {
        let nearest = edges.iter().min_by(|a, b| a.unlike(line).total_cmp(&b.unlike(line)))?;
        Some(OutlineSide { line, kind: nearest.kind })
    };
    laid.iter().flat_map(|ring| sides(ring)).filter_map(side).collect()
}

/// The laid outline less what caps, aprons and the metal of high edges cover: what rain and people see.
#[must_use]
pub fn weathered(plane: &Plane, covering: &Covering) -> Vec<Vec<Place>> {
    let seen = closed(&moved(plane, covering, |kind| weather_line(covering, kind)));
    overlaid(&seen, &laid(plane, covering), OverlayRule::Intersect, FillRule::EvenOdd)
}

/// v of the highest point that the weather reaches; `None` where nothing is left.
pub(crate) fn weathered_top(plane: &Plane, covering: &Covering) -> Option<f64> {
    let seen = closed(&moved(plane, covering, |kind| weather_line(covering, kind)));
    seen.into_iter().flatten().map(|[_, v]| v).reduce(f64::max)
}

/// How far the laid outline stands out past an edge, at the top of a valley; negative where it stays back. On the
/// surface, square to the edge.
pub(crate) fn projection(covering: &Covering, kind: EdgeKind) -> f64 {
    let edges = &covering.edges;
    match kind {
        EdgeKind::Eave => edges.eave_projection.to_inches(),
        EdgeKind::Rake => edges.rake_projection.to_inches(),
        EdgeKind::Hip | EdgeKind::Break | EdgeKind::HighEdge => 0.0,
        EdgeKind::Ridge => -edges.ridge_slot.to_inches() / 2.0,
        EdgeKind::Valley => -edges.valley_clear.to_inches() / 2.0,
        EdgeKind::Sidewall
        | EdgeKind::Headwall
        | EdgeKind::DeadValley
        | EdgeKind::Sill
        | EdgeKind::Side
        | EdgeKind::Head => -edges.off_walls.to_inches(),
    }
}

/// As [`projection`], for the weathered outline.
pub(crate) fn weather_line(covering: &Covering, kind: EdgeKind) -> f64 {
    let covered = match kind {
        EdgeKind::Hip => covering.cap.hip_cover,
        EdgeKind::Ridge => covering.cap.cover,
        EdgeKind::Headwall | EdgeKind::Sill => covering.edges.apron_leg,
        EdgeKind::HighEdge => covering.edges.high_edge_metal,
        _ => return projection(covering, kind),
    };
    projection(covering, kind).min(-covered.to_inches())
}

/// Whether an edge is level in the plane's frame.
pub(crate) fn is_level([from, to]: [Place; 2]) -> bool {
    (to[1] - from[1]).abs() < LEVEL
}

/// Every edge with what a roofer calls it.
pub(crate) fn edges(plane: &Plane) -> impl Iterator<Item = ([Place; 2], EdgeKind)> + '_ {
    let rings = plane.places().into_iter().zip(&plane.rings);
    rings.flat_map(|(places, ring)| sides(&places).zip(ring.edges.iter().map(|edge| edge.kind)).collect::<Vec<_>>())
}

/// The plane's edges, each moved outwards along its own normal, ring by ring; those of open valleys also turned, as the
/// valley widens downwards.
fn moved(plane: &Plane, covering: &Covering, out: impl Fn(EdgeKind) -> f64) -> Vec<Vec<MovedEdge>> {
    let rings = plane.places().into_iter().zip(&plane.rings).map(|(places, ring)| {
        let kinds: Vec<EdgeKind> = ring.edges.iter().map(|edge| edge.kind).collect();
        let growth = Growth::of(covering, &places, &kinds);
        let edges = sides(&places).zip(&kinds).enumerate().filter_map(|(index, (side, &kind))| {
            let wider = side.map(|at| growth.as_ref().map_or(0.0, |growth| growth.at(index, at)));
            MovedEdge::new(side, kind, wider.map(|wider| out(kind) - wider))
        });
        edges.collect::<Vec<_>>()
    });
    rings.filter(|edges| edges.len() > 2).collect()
}

/// How an open valley widens from its top down, on one plane.
struct Growth {
    /// Of half the clear width, for each inch down the valley.
    rate: f64,
    /// The top of every valley in a ring, by its edge.
    tops: Vec<Option<Place>>,
}

impl Growth {
    /// `None` where nothing widens.
    fn of(covering: &Covering, places: &[Place], kinds: &[EdgeKind]) -> Option<Self> {
        let edges = &covering.edges;
        let grows = edges.valley_clear > Length::ZERO && edges.valley_growth > Length::ZERO;
        let has_valley = grows && kinds.contains(&EdgeKind::Valley);
        has_valley.then(|| Self {
            rate: edges.valley_growth.to_inches() / Length::feet(8.0).to_inches() / 2.0,
            tops: (0..kinds.len().min(places.len())).map(|index| valley_top(places, kinds, index)).collect(),
        })
    }

    fn at(&self, edge: usize, [u, v]: Place) -> f64 {
        self.tops.get(edge).copied().flatten().map_or(0.0, |top| self.rate * libm::hypot(top[0] - u, top[1] - v))
    }
}

/// The upper end of a sloping valley, past the corners at which it only changes its neighbour.
fn valley_top(places: &[Place], kinds: &[EdgeKind], edge: usize) -> Option<Place> {
    let side = |index: usize| [places[index % places.len()], places[(index + 1) % places.len()]];
    let rises = side(edge)[1][1] > side(edge)[0][1];
    if kinds[edge] != EdgeKind::Valley || is_level(side(edge)) {
        return None;
    }
    let onward = |index: usize| if rises { index + 1 } else { index + places.len() - 1 } % places.len();
    let goes_on = |&index: &usize| kinds.get(index) == Some(&EdgeKind::Valley) && in_line(side(edge), side(index));
    let chain = std::iter::successors(Some(edge), |&index| Some(onward(index)).filter(goes_on));
    let last = chain.take(places.len()).last()?;
    Some(side(last)[usize::from(rises)])
}

fn in_line(a: [Place; 2], b: [Place; 2]) -> bool {
    let along = |[from, to]: [Place; 2]| [to[0] - from[0], to[1] - from[1]];
    let [a, b] = [along(a), along(b)];
    let lengths = libm::hypot(a[0], a[1]) * libm::hypot(b[0], b[1]);
    (a[0] * b[1] - a[1] * b[0]).abs() < LEVEL * lengths && a[0] * b[0] + a[1] * b[1] > 0.0
}

/// The rings that moved edges close.
fn closed(rings: &[Vec<MovedEdge>]) -> Rings {
    let corners: Rings = rings.iter().map(|edges| moved_ring(edges)).collect();
    let kept_direction =
        rings.iter().zip(&corners).all(|(edges, corners)| edges.len() == corners.len() && none_flipped(edges, corners));
    let clean = if kept_direction && !any_cross(&corners) {
        corners
    } else {
        overlaid(&corners, &Rings::new(), OverlayRule::Subject, FillRule::Positive)
    };
    clean.into_iter().map(tidied).filter(|ring| ring.len() > 2 && area(ring).abs() > NIL_AREA).collect()
}

/// An edge and how far it moves.
#[derive(Clone, Copy)]
struct MovedEdge {
    kind: EdgeKind,
    from: Place,
    to: Place,
    /// Of the line that it moves to.
    direction: Place,
    /// From each of its ends square to the new line.
    out: [f64; 2],
}

impl MovedEdge {
    /// `out` is how far each end moves, square to the edge.
    fn new([from, to]: [Place; 2], kind: EdgeKind, out: [f64; 2]) -> Option<Self> {
        let along = [to[0] - from[0], to[1] - from[1]];
        let length = libm::hypot(along[0], along[1]);
        if length <= SAME {
            return None;
        }
        let [cos, sin] = along.map(|part| part / length);
        let turned = libm::hypot(length, out[0] - out[1]);
        let [ahead, aside] = [length / turned, (out[1] - out[0]) / turned];
        let direction = [cos * ahead + sin * aside, sin * ahead - cos * aside];
        Some(Self { kind, from, to, direction, out: out.map(|out| out * ahead) })
    }

    /// The points of the new line square to its old ends.
    fn ends(&self) -> [Place; 2] {
        let moved = |[u, v]: Place, out: f64| [u + self.direction[1] * out, v - self.direction[0] * out];
        [moved(self.from, self.out[0]), moved(self.to, self.out[1])]
    }

    /// How little a side of the outline is this edge: how far its middle lies off, and a mile if it runs another way.
    fn unlike(&self, [from, to]: [Place; 2]) -> f64 {
        let middle = [f64::midpoint(from[0], to[0]), f64::midpoint(from[1], to[1])];
        let length = libm::hypot(to[0] - from[0], to[1] - from[1]).max(SAME);
        let ahead = ((to[0] - from[0]) * self.direction[0] + (to[1] - from[1]) * self.direction[1]) / length;
        let off = distance_to(self.ends(), middle);
        if ahead > 1.0 - LEVEL { off } else { off + Length::feet(5280.0).to_inches() }
    }
}

/// From a point to the nearest one of a stretch.
pub(crate) fn distance_to([from, to]: [Place; 2], [u, v]: Place) -> f64 {
    let along = [to[0] - from[0], to[1] - from[1]];
    let square = (along[0] * along[0] + along[1] * along[1]).max(f64::MIN_POSITIVE);
    let share = (((u - from[0]) * along[0] + (v - from[1]) * along[1]) / square).clamp(0.0, 1.0);
    libm::hypot(u - from[0] - along[0] * share, v - from[1] - along[1] * share)
}

fn moved_ring(edges: &[MovedEdge]) -> Vec<Place> {
    let before = edges.iter().cycle().skip(edges.len() - 1);
    edges.iter().zip(before).flat_map(|(edge, before)| corner(before, edge)).collect()
}

/// The corner between two moved neighbours: their mitre, or a step where they are nearly in line.
fn corner(before: &MovedEdge, edge: &MovedEdge) -> Vec<Place> {
    let (a, b) = (before.direction, edge.direction);
    let turn = a[0] * b[1] - a[1] * b[0];
    let [out_before, out] = [before.out[1], edge.out[0]];
    let shift = [out_before * -b[0] + out * a[0], out_before * -b[1] + out * a[1]].map(|part| part / turn);
    let longest = LONGEST_MITRE * out_before.abs().max(out.abs()) + SAME;
    let one_line = (out_before - out).abs() < SAME && turn.abs() < SAME && a[0] * b[0] + a[1] * b[1] > 0.0;
    if one_line {
        vec![edge.ends()[0]]
    } else if libm::hypot(shift[0], shift[1]) <= longest {
        vec![[edge.from[0] + shift[0], edge.from[1] + shift[1]]]
    } else {
        vec![before.ends()[1], edge.ends()[0]]
    }
}

fn none_flipped(edges: &[MovedEdge], corners: &[Place]) -> bool {
    sides(corners)
        .zip(edges)
        .all(|([from, to], edge)| (to[0] - from[0]) * edge.direction[0] + (to[1] - from[1]) * edge.direction[1] >= -SAME)
}

fn any_cross(rings: &[Vec<Place>]) -> bool {
    let all: Vec<[Place; 2]> = rings.iter().flat_map(|ring| sides(ring)).collect();
    all.iter().enumerate().any(|(index, &side)| all[index + 1..].iter().any(|&other| cross(side, other)))
}

fn cross(a: [Place; 2], b: [Place; 2]) -> bool {
    let side =
        |[from, to]: [Place; 2], at: Place| (to[0] - from[0]) * (at[1] - from[1]) - (to[1] - from[1]) * (at[0] - from[0]);
    let parted = |line, other: [Place; 2]| side(line, other[0]) * side(line, other[1]) < 0.0;
    parted(a, b) && parted(b, a)
}

/// A general polygon operation on the fixed grid. Coordinates are inches of a roof, so the grid never overflows.
pub(crate) fn overlaid(subject: &Rings, clip: &Rings, rule: OverlayRule, fill: FillRule) -> Rings {
    // The operation is not made for shapes smaller than its grid.
    if subject.iter().all(|ring| area(ring).abs() < NIL_AREA) {
        return Rings::new();
    }
    let shapes = subject.overlay_with_fixed_scale_as::<i64>(clip, rule, fill, GRID).unwrap_or_default();
    shapes.into_iter().flatten().collect()
}

/// Level edges exactly level, upright ones exactly upright, and no corners that are none.
fn tidied(mut ring: Vec<Place>) -> Vec<Place> {
    for _ in 0..2 {
        straighten(&mut ring);
    }
    while let Some(needless) = (0..ring.len()).find(|&at| ring.len() > 2 && !is_corner(&ring, at)) {
        ring.remove(needless);
    }
    ring
}

fn straighten(ring: &mut [Place]) {
    for index in 0..ring.len() {
        let next = (index + 1) % ring.len();
        for axis in [0, 1] {
            if (ring[next][axis] - ring[index][axis]).abs() < LEVEL {
                ring[next][axis] = ring[index][axis];
            }
        }
    }
}

fn is_corner(ring: &[Place], at: usize) -> bool {
    let [before, here, after] = [at + ring.len() - 1, at, at + 1].map(|index| ring[index % ring.len()]);
    let along = [after[0] - before[0], after[1] - before[1]];
    let to = [here[0] - before[0], here[1] - before[1]];
    let off_line = (along[0] * to[1] - along[1] * to[0]).abs();
    off_line > SAME * libm::hypot(along[0], along[1]).max(SAME)
}
