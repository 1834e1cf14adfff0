//! Zones of the wind: the lines that run along eaves and rakes at the width of the zones. Where two of them cross, the corner
//! begins.

use super::overhead::Overhead;
use super::stretch::stands_apart;
use crate::surface::{Place, Surface};

/// Ends in plan, feet; none where the plan tells no wind.
pub(crate) fn zones(overhead: &Overhead) -> Vec<[Place; 2]> {
    let Some(wind) = &overhead.plan.wind else { return Vec::new() };
    let standing = overhead.surfaces.iter().filter(|surface| !stands_apart(surface.plane));
    standing.flat_map(|surface| of_plane(overhead, surface, wind.zone_width_ft)).collect()
}

fn of_plane<'a>(overhead: &'a Overhead, surface: &'a Surface, width: f64) -> impl Iterator<Item = [Place; 2]> + use<'a> {
    let sides = surface.rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    let free = sides.zip(&surface.plane.edges).filter(|(_, edge)| ["eave", "rake", "high edge"].contains(&edge.kind));
    let inside = free.flat_map(move |((&from, &to), _)| inside(surface, [from, to], width));
    let above = overhead.above(surface);
    inside.filter(move |&[from, to]| {
        let middle = [f64::midpoint(from[0], to[0]), f64::midpoint(from[1], to[1])];
        !above.iter().any(|other| other.covers(middle) && other.height(middle) > surface.height(middle))
    })
}

/// What lies on the plane of the line at a distance inside one of its sides. The plane is to the left of each side.
fn inside(surface: &Surface, [from, to]: [Place; 2], width: f64) -> Vec<[Place; 2]> {
    let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    let length = libm::hypot(dx, dy).max(1e-9);
    let along = [dx / length, dy / length];
    let start = [from[0] - along[1] * width, from[1] + along[0] * width];
    let at = |part: f64| [start[0] + along[0] * part, start[1] + along[1] * part];
    let mut crossed: Vec<f64> = surface.rings.iter().flat_map(|ring| crossings(ring, start, along)).collect();
    crossed.sort_by(f64::total_cmp);
    let pieces = crossed.chunks_exact(2).map(|pair| [pair[0].max(-width), pair[1].min(length + width)]);
    pieces.filter(|[from, to]| to - from > 0.01).map(|piece| piece.map(at)).collect()
}

/// How far along a line the sides of a ring cross it.
fn crossings(ring: &[Place], start: Place, along: Place) -> impl Iterator<Item = f64> + use<'_> {
    let off = move |at: Place| along[0] * (at[1] - start[1]) - along[1] * (at[0] - start[0]);
    let far = move |at: Place| along[0] * (at[0] - start[0]) + along[1] * (at[1] - start[1]);
    ring.iter().zip(ring.iter().cycle().skip(1)).filter_map(move |(&a, &b)| {
        let [here, there] = [off(a), off(b)];
        ((here > 0.0) != (there > 0.0)).then(|| far(a) + (far(b) - far(a)) * here / (here - there))
    })
}
