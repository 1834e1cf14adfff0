//! The two outlines of a plane: where units are cut, and where they are seen.

use covering::Covering;
use i_overlay::core::{fill_rule::FillRule, overlay_rule::OverlayRule};
use i_overlay::float::scale::FixedScaleFloatOverlay;
use roof::{EdgeKind, Place, Plane};

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

/// The boundary that units are cut to: the plane with its projections at eaves and rakes, up to half the vent slot at
/// ridges, half the clear width at valleys, and the sheet's distance off walls.
#[must_use]
pub fn laid(plane: &Plane, covering: &Covering) -> Vec<Vec<Place>> {
    moved(plane, |kind| projection(covering, kind))
}

/// The laid outline less what caps, aprons and the metal of high edges cover: what rain and people see.
#[must_use]
pub fn weathered(plane: &Plane, covering: &Covering) -> Vec<Vec<Place>> {
    let seen = moved(plane, |kind| weather_line(covering, kind));
    overlaid(&seen, &laid(plane, covering), OverlayRule::Intersect, FillRule::EvenOdd)
}

/// v of the highest point that the weather reaches; `None` where nothing is left.
pub(crate) fn weathered_top(plane: &Plane, covering: &Covering) -> Option<f64> {
    let seen = moved(plane, |kind| weather_line(covering, kind));
    seen.into_iter().flatten().map(|[_, v]| v).reduce(f64::max)
}

/// How far the laid outline stands out past an edge; negative where it stays back. On the surface, square to the edge.
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
        EdgeKind::Hip | EdgeKind::Ridge => covering.cap.cover,
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

/// The plane's rings with every edge moved outwards along its own normal.
fn moved(plane: &Plane, out: impl Fn(EdgeKind) -> f64) -> Rings {
    let rings = plane.places().into_iter().zip(&plane.rings).map(|(places, ring)| {
        let kinds = ring.edges.iter().map(|edge| edge.kind);
        let offsets = sides(&places).zip(kinds).map(|(side, kind)| MovedEdge::new(side, out(kind)));
        offsets.flatten().collect::<Vec<_>>()
    });
    let rings: Vec<_> = rings.filter(|edges| edges.len() > 2).collect();
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
    from: Place,
    direction: Place,
    out: f64,
}

impl MovedEdge {
    fn new([from, to]: [Place; 2], out: f64) -> Option<Self> {
        let along = [to[0] - from[0], to[1] - from[1]];
        let length = libm::hypot(along[0], along[1]);
        (length > SAME).then(|| Self { from, direction: along.map(|part| part / length), out })
    }

    /// A point of the old line on the new one.
    fn moved(&self, [u, v]: Place) -> Place {
        [u + self.direction[1] * self.out, v - self.direction[0] * self.out]
    }
}

fn moved_ring(edges: &[MovedEdge]) -> Vec<Place> {
    let before = edges.iter().cycle().skip(edges.len() - 1);
    edges.iter().zip(before).flat_map(|(edge, before)| corner(before, edge)).collect()
}

/// The corner between two moved neighbours: their mitre, or a step where they are nearly in line.
fn corner(before: &MovedEdge, edge: &MovedEdge) -> Vec<Place> {
    let (a, b) = (before.direction, edge.direction);
    let turn = a[0] * b[1] - a[1] * b[0];
    let shift = [before.out * -b[0] + edge.out * a[0], before.out * -b[1] + edge.out * a[1]].map(|part| part / turn);
    let longest = LONGEST_MITRE * before.out.abs().max(edge.out.abs()) + SAME;
    let one_line = (before.out - edge.out).abs() < SAME && turn.abs() < SAME && a[0] * b[0] + a[1] * b[1] > 0.0;
    if one_line {
        vec![edge.moved(edge.from)]
    } else if libm::hypot(shift[0], shift[1]) <= longest {
        vec![[edge.from[0] + shift[0], edge.from[1] + shift[1]]]
    } else {
        vec![before.moved(edge.from), edge.moved(edge.from)]
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
