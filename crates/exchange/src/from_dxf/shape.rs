//! Entities as closed lines of corners.

use roof::Point3;

use super::bulge;
use super::entity::{Entity, number, whole};
use super::pairs::Pair;
use crate::refused::Refused;
use crate::ring::distance;
use crate::scale::Scale;

/// A closed line, in inches.
#[derive(Debug)]
pub(super) struct Shape {
    pub(super) corners: Vec<Point3>,
    /// A piece of roof rather than an outline.
    pub(super) is_plane: bool,
    /// Arcs that became straight sides.
    pub(super) arcs: usize,
}

/// What is to be done with an entity.
pub(super) enum Drawn {
    Shapes(Vec<Shape>),
    /// It is no use; why, as a note names several.
    Passed(&'static str),
}

/// A vertex of a polyline and the bulge of the side that starts there.
type Vertex = (Point3, f64);

/// Corners of a level outline differ in height by no more than this, in inches.
const LEVEL: f64 = 1.0;
/// The last corner is the first again when nearer than this, in inches.
const SAME: f64 = 1.0 / 16.0;

// Flags of a polyline and of its vertices, group 70.
const CLOSED: i64 = 1;
const IN_SPACE: i64 = 8;
const MESH: i64 = 16;
const POLYFACE: i64 = 64;
const SPLINE_FRAME: i64 = 16;
const CORNER_OF_POLYFACE: i64 = 64;
const OF_POLYFACE: i64 = 128;

pub(super) fn shape(entity: &Entity, scale: Scale) -> Result<Drawn, Refused> {
    if entity.is_on_paper() {
        return Ok(Drawn::Passed("things on sheets of paper, outside the model"));
    }
    match entity.kind {
        "LWPOLYLINE" => light_polyline(entity, scale),
        "POLYLINE" => polyline(entity, scale),
        "3DFACE" => face(entity.pairs, scale),
        "INSERT" => Ok(Drawn::Passed("inserted blocks; explode them to import what they hold")),
        "MESH" | "3DSOLID" | "BODY" | "REGION" => {
            Ok(Drawn::Passed("solids and meshes; turn them into faces to import them"))
        }
        _ => Ok(Drawn::Passed("texts, dimensions, single lines and the like")),
    }
}

/// Group codes of a corner: `10`, `20`, `30` and the like.
fn corner(pairs: &[Pair], first: i32, scale: Scale) -> Result<Point3, Refused> {
    let at = |axis: i32| Ok(number(pairs, first + 10 * axis, 0.0)? * scale.inches);
    Ok([at(0)?, at(1)?, at(2)?])
}

fn light_polyline(entity: &Entity, scale: Scale) -> Result<Drawn, Refused> {
    let height = number(entity.pairs, 38, 0.0)? * scale.inches;
    let starts: Vec<usize> = (0..entity.pairs.len()).filter(|&at| entity.pairs[at].code == 10).collect();
    let ends = starts.iter().skip(1).copied().chain([entity.pairs.len()]);
    let vertex = |(start, end): (&usize, usize)| {
        let own = &entity.pairs[*start..end];
        let [x, y, _] = corner(own, 10, scale)?;
        Ok(([x, y, height], number(own, 42, 0.0)?))
    };
    let vertices: Result<Vec<Vertex>, Refused> = starts.iter().zip(ends).map(vertex).collect();
    level_outline(entity, vertices?, whole(entity.pairs, 70)?)
}

fn polyline(entity: &Entity, scale: Scale) -> Result<Drawn, Refused> {
    let flags = whole(entity.pairs, 70)?;
    if flags & POLYFACE != 0 {
        return polyface(entity, scale);
    }
    if flags & MESH != 0 {
        return Ok(Drawn::Passed("solids and meshes; turn them into faces to import them"));
    }
    let mut vertices = Vec::new();
    for own in &entity.vertices {
        if whole(own, 70)? & SPLINE_FRAME == 0 {
            vertices.push((corner(own, 10, scale)?, number(own, 42, 0.0)?));
        }
    }
    if flags & IN_SPACE != 0 {
        return Ok(line_in_space(vertices, flags));
    }
    let height = number(entity.pairs, 30, 0.0)? * scale.inches;
    vertices.iter_mut().for_each(|(corner, _)| corner[2] = height);
    level_outline(entity, vertices, flags)
}

/// Its coordinates are those of a level plane, seen from above or, when the plane faces down, from below.
fn level_outline(entity: &Entity, vertices: Vec<Vertex>, flags: i64) -> Result<Drawn, Refused> {
    let facing = [number(entity.pairs, 210, 0.0)?, number(entity.pairs, 220, 0.0)?, number(entity.pairs, 230, 1.0)?];
    let side = facing[2].signum();
    if facing[0].abs() > 1e-9 || facing[1].abs() > 1e-9 {
        return Ok(Drawn::Passed("polylines that are not drawn level"));
    }
    let seen = |([x, y, z], bulge): Vertex| ([side * x, y, side * z], side * bulge);
    let Some(vertices) = closed(vertices.into_iter().map(seen).collect(), flags) else { return Ok(OPEN) };
    let mut corners = Vec::new();
    for (&(from, bulge), &(to, _)) in vertices.iter().zip(vertices.iter().cycle().skip(1)) {
        corners.push(from);
        if bulge.abs() > 1e-12 {
            let arc = bulge::between([from[0], from[1]], [to[0], to[1]], bulge)?;
            corners.extend(arc.into_iter().map(|[x, y]| [x, y, from[2]]));
        }
    }
    let arcs = vertices.iter().filter(|(_, bulge)| bulge.abs() > 1e-12).count();
    Ok(Drawn::Shapes(vec![Shape { corners, is_plane: false, arcs }]))
}

const OPEN: Drawn = Drawn::Passed("polylines that are not closed");

/// Without the first corner again at the end; `None` if it is open.
fn closed(mut vertices: Vec<Vertex>, flags: i64) -> Option<Vec<Vertex>> {
    let ends_at_start = vertices.len() > 3 && distance(vertices[0].0, vertices[vertices.len() - 1].0) < SAME;
    if ends_at_start {
        vertices.pop();
    }
    (ends_at_start || flags & CLOSED != 0).then_some(vertices)
}

/// Level it is an outline, sloping a piece of roof.
fn line_in_space(vertices: Vec<Vertex>, flags: i64) -> Drawn {
    let Some(vertices) = closed(vertices, flags) else { return OPEN };
    let corners: Vec<Point3> = vertices.into_iter().map(|(corner, _)| corner).collect();
    let heights = || corners.iter().map(|corner| corner[2]);
    let rise = heights().fold(f64::MIN, f64::max) - heights().fold(f64::MAX, f64::min);
    Drawn::Shapes(vec![Shape { corners, is_plane: rise > LEVEL, arcs: 0 }])
}

fn face(pairs: &[Pair], scale: Scale) -> Result<Drawn, Refused> {
    let mut corners = vec![corner(pairs, 10, scale)?, corner(pairs, 11, scale)?, corner(pairs, 12, scale)?];
    if pairs.iter().any(|pair| pair.code == 13) {
        corners.push(corner(pairs, 13, scale)?);
    }
    Ok(Drawn::Shapes(vec![Shape { corners, is_plane: true, arcs: 0 }]))
}

/// Corners first, then faces that name them by number from 1; below 0 the side that follows is drawn unseen.
fn polyface(entity: &Entity, scale: Scale) -> Result<Drawn, Refused> {
    let (mut corners, mut shapes) = (Vec::new(), Vec::new());
    for own in &entity.vertices {
        let flags = whole(own, 70)?;
        if flags & CORNER_OF_POLYFACE != 0 {
            corners.push(corner(own, 10, scale)?);
        } else if flags & OF_POLYFACE != 0 {
            shapes.push(polyface_face(own, &corners)?);
        }
    }
    Ok(Drawn::Shapes(shapes))
}

fn polyface_face(pairs: &[Pair], corners: &[Point3]) -> Result<Shape, Refused> {
    let mut own = Vec::new();
    for code in 71..=74 {
        let number = whole(pairs, code)?.unsigned_abs();
        if number == 0 {
            continue;
        }
        let corner = usize::try_from(number - 1).ok().and_then(|at| corners.get(at));
        let says = || format!("a face names corner {number} of {}", corners.len());
        own.push(*corner.ok_or_else(|| Refused::new(says(), "Save the drawing again."))?);
    }
    Ok(Shape { corners: own, is_plane: true, arcs: 0 })
}
