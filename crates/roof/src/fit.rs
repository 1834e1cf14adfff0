//! Where an opening fits into the whole roof, before anything is cut.

use geom::{Point, polygon};

use crate::astride::Astride;
use crate::classify::height;
use crate::clear::{CLEAR, Segment, overlap, touch};
use crate::cricket;
use crate::cut_out::flat;
use crate::opening::Footprint;
use crate::{EdgeKind, Opening, Place, Plane, Roof, Spot};

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
    /// The plane that holds its middle, and the one beyond the line that it stands astride of.
    pub(crate) planes: Vec<usize>,
}

#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Shape {
    Hole,
    HoleWithCricket,
    Astride(Astride),
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
        match (fit.in_the_way(others), &fit.shape) {
            (Some(other), _) => Err(Fault::Overlaps { other: other.clone() }),
            (None, Shape::Astride(astride)) => {
                // In a valley a cricket is no help: it is cautioned for itself.
                let may_have_one = astride.kind != EdgeKind::Valley;
                let is_short_of_room = may_have_one && cricket::is_needed(opening.kind, astride.head(roof));
                Ok(Self { is_short_of_room, ..fit })
            }
            (None, _) if cricket::is_needed(opening.kind, opening.width) => Ok(fit.with_cricket(roof, others)),
            (None, _) => Ok(fit),
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

/// Wholly inside its plane it is a hole; a line between two planes may pass through some.
fn shape(roof: &Roof, plane: usize, opening: &Opening, footprint: &Footprint) -> Result<(Shape, Vec<usize>), Fault> {
    let Some(edge) = edge_in_the_way(&roof.planes[plane], &footprint.corners()) else {
        return Ok((Shape::Hole, vec![plane]));
    };
    let across = || Fault::Across { plane: roof.planes[plane].name.clone(), edge };
    let astride = Astride::of(roof, plane, opening.kind, footprint).ok_or_else(across)?;
    let planes = astride.planes.to_vec();
    Ok((Shape::Astride(astride), planes))
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
