//! Where an opening fits into the whole roof, before anything is cut.

use geom::{Point, polygon};

use crate::classify::{JOINED, height};
use crate::clear::{CLEAR, Segment, overlap, touch};
use crate::cricket;
use crate::cut_out::flat;
use crate::opening::Footprint;
use crate::{Edge, EdgeKind, Frame, Opening, OpeningKind, Place, Plane, Roof, Spot};

/// An opening that fits.
pub(crate) struct Fit<'a> {
    pub(crate) opening: &'a Opening,
    pub(crate) footprint: Footprint,
    /// Its middle on the plane that holds it.
    pub(crate) at: Place,
    pub(crate) shape: Shape,
    /// A cricket is asked for and does not fit.
    pub(crate) is_short_of_room: bool,
    /// All that it takes up in plan, the cricket too.
    outline: Vec<Point>,
    /// The plane that holds its middle, and the one beyond the ridge that it stands astride of.
    pub(crate) planes: Vec<usize>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Shape {
    Hole,
    HoleWithCricket,
    /// Astride of a ridge, which it meets at its right and its left side.
    Notch([Point; 2]),
}

/// Why an opening can't be cut out.
pub(crate) enum Fault {
    NoPlaneThere,
    Outside { plane: String },
    Across { plane: String, edge: EdgeKind },
    Overlaps { other: String },
}

impl<'a> Fit<'a> {
    pub(crate) fn of(roof: &Roof, opening: &'a Opening, others: &[Fit]) -> Result<Self, Fault> {
        let (plane, at) = spot(roof, opening.spot)?;
        let footprint = Footprint::new(opening, roof.planes[plane].frame, at);
        let (shape, planes) = shape(roof, plane, opening, &footprint)?;
        let outline = footprint.corners().to_vec();
        let fit = Self { opening, footprint, at, shape, is_short_of_room: false, outline, planes };
        match fit.in_the_way(others) {
            Some(other) => Err(Fault::Overlaps { other: other.clone() }),
            None if shape == Shape::Hole && cricket::is_needed(opening) => Ok(fit.with_cricket(roof, others)),
            None => Ok(fit),
        }
    }

    /// With a cricket if there is room for one.
    fn with_cricket(self, roof: &Roof, others: &[Fit]) -> Self {
        let [low_left, low_right, high_right, high_left] = self.footprint.corners();
        let outline = vec![low_left, low_right, high_right, cricket::apex(&self.footprint), high_left];
        let edge = edge_in_the_way(&roof.planes[self.planes[0]], &outline);
        let raised = Self { shape: Shape::HoleWithCricket, outline, ..self };
        if edge.is_none() && raised.in_the_way(others).is_none() {
            return raised;
        }
        let outline = raised.footprint.corners().to_vec();
        Self { shape: Shape::Hole, is_short_of_room: true, outline, ..raised }
    }

    /// The name of another opening of the same plane that this one overlaps or touches.
    fn in_the_way<'b>(&self, others: &'b [Fit]) -> Option<&'b String> {
        let shares = |other: &&Fit| other.planes.iter().any(|plane| self.planes.contains(plane));
        let other = others.iter().filter(shares).find(|other| overlap(&self.outline, &other.outline))?;
        Some(&other.opening.name)
    }
}

/// Wholly inside its plane it is a hole; a chimney may stand astride of a ridge.
fn shape(roof: &Roof, plane: usize, opening: &Opening, footprint: &Footprint) -> Result<(Shape, Vec<usize>), Fault> {
    let Some(edge) = edge_in_the_way(&roof.planes[plane], &footprint.corners()) else {
        return Ok((Shape::Hole, vec![plane]));
    };
    let notch = if opening.kind == OpeningKind::Chimney { notch(roof, plane, footprint) } else { None };
    let across = || Fault::Across { plane: roof.planes[plane].name.clone(), edge };
    let (ridge, beyond) = notch.ok_or_else(across)?;
    Ok((Shape::Notch(ridge), vec![plane, beyond]))
}

/// The plane and the place on it where the middle lies.
fn spot(roof: &Roof, spot: Spot) -> Result<(usize, Place), Fault> {
    match spot {
        Spot::On { plane, at } => {
            let surface = &roof.planes[plane];
            let [x, y, _] = surface.frame.point(at);
            if covers(surface, [x, y]) { Ok((plane, at)) } else { Err(Fault::Outside { plane: surface.name.clone() }) }
        }
        Spot::Over(p) => {
            let there = (0..roof.planes.len()).filter(|&plane| covers(&roof.planes[plane], p));
            let above = |&a: &usize, &b: &usize| {
                let z = |plane: usize| height(&roof.planes[plane].frame, p);
                z(a).total_cmp(&z(b)).then(b.cmp(&a))
            };
            let plane = there.max_by(above).ok_or(Fault::NoPlaneThere)?;
            Ok((plane, roof.planes[plane].frame.place(p[0], p[1])))
        }
    }
}

/// Whether a plan point lies over or under a plane, its edges included.
fn covers(plane: &Plane, [x, y]: Point) -> bool {
    let rings: Vec<Vec<Point>> = plane.rings.iter().map(flat).collect();
    let beside = [[0.0, 0.0], [CLEAR, 0.0], [-CLEAR, 0.0], [0.0, CLEAR], [0.0, -CLEAR]];
    beside.iter().any(|&[dx, dy]| geom::region::contains(&rings, [x + dx, y + dy]))
}

/// The first edge of a plane that an outline with its middle on the plane comes near to or reaches beyond.
fn edge_in_the_way(plane: &Plane, outline: &[Point]) -> Option<EdgeKind> {
    sides_of(plane).find(|&(side, _)| near(outline, side)).map(|(_, kind)| kind)
}

fn near(outline: &[Point], side: Segment) -> bool {
    polygon::contains(outline, side.0) || polygon::sides(outline).any(|own| touch(own, side))
}

fn sides_of(plane: &Plane) -> impl Iterator<Item = (Segment, EdgeKind)> + '_ {
    plane.rings.iter().flat_map(|ring| {
        polygon::sides(&flat(ring)).zip(&ring.edges).map(|(side, edge)| (side, edge.kind)).collect::<Vec<_>>()
    })
}

/// Where a chimney stands astride of a ridge of its plane: the places at which the ridge meets its right and its left side,
/// and the plane beyond. `None` unless it keeps clear of all other edges.
fn notch(roof: &Roof, plane: usize, footprint: &Footprint) -> Option<([Point; 2], usize)> {
    let ridges = roof.planes[plane].rings.iter().flat_map(|ring| {
        let ends = polygon::sides(&flat(ring)).collect::<Vec<_>>();
        ends.into_iter().zip(&ring.edges).filter(|(_, edge)| edge.kind == EdgeKind::Ridge)
    });
    ridges.filter_map(|(side, edge)| Some((crossed(&roof.planes[plane].frame, footprint, side)?, edge.meets?))).find(
        |&([right, left], beyond)| {
            let [low_left, low_right, high_right, high_left] = footprint.corners();
            is_clear(&roof.planes[plane], beyond, &[right, low_right, low_left, left])
                && is_clear(&roof.planes[beyond], plane, &[left, high_left, high_right, right])
        },
    )
}

/// Where a ridge passes through a footprint from its right to its left side.
fn crossed(frame: &Frame, footprint: &Footprint, (from, to): Segment) -> Option<[Point; 2]> {
    let place = |p: Point| {
        let [u, v] = frame.place(p[0], p[1]);
        [u, v / frame.pitch.slope_factor()]
    };
    let [from, to] = [place(from), place(to)];
    let [[left, right], [low, high]] = [footprint.across, footprint.up];
    let run_at = |u: f64| from[1] + (to[1] - from[1]) * ((u - from[0]) / (to[0] - from[0]));
    let within = |u: f64| run_at(u) > low + CLEAR && run_at(u) < high - CLEAR;
    let passes = to[0] < left - CLEAR && from[0] > right + CLEAR && within(left) && within(right);
    passes.then(|| [right, left].map(|u| footprint.point([u, run_at(u)])))
}

/// Whether a path from ridge to ridge keeps clear of all edges of its plane but that ridge.
fn is_clear(plane: &Plane, beyond: usize, path: &[Point; 4]) -> bool {
    let sides = plane.rings.iter().flat_map(|ring| {
        let sides: Vec<Segment> = polygon::sides(&flat(ring)).collect();
        sides.into_iter().zip(&ring.edges)
    });
    sides
        .filter(|(side, edge)| !is_ridge_through(*side, edge, beyond, [path[0], path[3]]))
        .all(|(side, _)| !polygon::contains(path, side.0) && path.windows(2).all(|own| !touch((own[0], own[1]), side)))
}

pub(crate) fn is_ridge_through((from, to): Segment, edge: &Edge, beyond: usize, at: [Point; 2]) -> bool {
    let on_it = |p: Point| geom::off_segment(p, from, to) < JOINED;
    edge.kind == EdgeKind::Ridge && edge.meets == Some(beyond) && at.into_iter().all(on_it)
}
