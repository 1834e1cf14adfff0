//! Outlines of turrets and bays: regular and half polygons.

use std::f64::consts::PI;

use geom::{Point, add, distance, scale, sub};

/// Corners of a regular polygon with `sides` sides, at least 3, counter-clockwise. Its first side faces -y. `across` is
/// twice the distance from the middle to a side: with an even number the distance from a side to the opposite one.
#[must_use]
pub fn turret_outline(center: [f64; 2], sides: u32, across: f64) -> Vec<[f64; 2]> {
    let half_side = PI / f64::from(sides);
    let reach = across / 2.0 / libm::cos(half_side);
    let corner = |at: u32| {
        let angle = f64::from(at) * 2.0 * half_side - half_side - PI / 2.0;
        [center[0] + reach * libm::cos(angle), center[1] + reach * libm::sin(angle)]
    };
    (0..sides).map(corner).collect()
}

/// Corners of half a regular polygon, from `from` round to `to`, to the right of the way between them and with a side in
/// front. `sides` counts the whole polygon, an even number from 4: of 8, 12, 16 ... sides the wall cuts two in half, of
/// the rest it ends at corners.
#[must_use]
pub fn bay_outline(from: [f64; 2], to: [f64; 2], sides: u32) -> Vec<[f64; 2]> {
    let half_side = PI / f64::from(sides);
    let width = distance(from, to);
    let middle = scale(add(from, to), 0.5);
    let along = scale(sub(to, from), 1.0 / width);
    let out: Point = [along[1], -along[0]];
    let cuts_sides = sides.is_multiple_of(4);
    let reach = width / 2.0 / if cuts_sides { libm::cos(half_side) } else { 1.0 };
    let between = if cuts_sides { sides / 2 } else { sides / 2 - 1 };
    let corner = |at: u32| {
        let angle = half_side * (2.0 * f64::from(at) - f64::from(between - 1));
        add(middle, add(scale(along, reach * libm::sin(angle)), scale(out, reach * libm::cos(angle))))
    };
    std::iter::once(from).chain((0..between).map(corner)).chain(std::iter::once(to)).collect()
}
