//! Turrets and bays: regular and half polygons, from a few figures to an outline with its sides.

use roof::{Side, SideKind, bay_outline, turret_outline};
use units::{Length, Measure};

use super::file::{BayTable, EdgeTable, TurretTable};
use super::resolve::{Desk, coordinate};
use super::side::side;

/// More sides are a circle to a roofer.
const MOST_SIDES: u32 = 24;
/// Narrower than this is no roof.
const NARROWEST: Length = Length::feet(1.0);
/// Nothing is wider.
const WIDEST: Length = Length::feet(200.0);

/// Corners in inches, counter-clockwise, and their sides.
type Ring = (Vec<[f64; 2]>, Vec<Side>);

pub(super) fn turret(desk: &mut Desk, table: &TurretTable, edges: &[EdgeTable], path: &str) -> Ring {
    let center = point(desk, table.center, &format!("{path}.turret.center"));
    let across = desk.length(&format!("{path}.turret.across"), table.across, NARROWEST, WIDEST).to_inches();
    let says = || format!("a turret of {} sides is none; it has 3 to {MOST_SIDES}", table.sides);
    let known = (3..=MOST_SIDES).contains(&table.sides);
    desk.expect(known, &format!("{path}.turret.sides"), says, "Count its sides.");
    if !known {
        return (Vec::new(), Vec::new());
    }
    (turret_outline(center, table.sides, across), alike(desk, edges, table.sides as usize, path))
}

pub(super) fn bay(desk: &mut Desk, table: &BayTable, edges: &[EdgeTable], path: &str) -> Ring {
    let from = point(desk, table.from, &format!("{path}.bay.from"));
    let to = point(desk, table.to, &format!("{path}.bay.to"));
    let width = ((to[0] - from[0]) * (to[0] - from[0]) + (to[1] - from[1]) * (to[1] - from[1])).sqrt();
    let known = (4..=MOST_SIDES).contains(&table.sides) && table.sides.is_multiple_of(2);
    let says = || format!("half of {} sides is no bay; the whole polygon has 4, 6, 8 ... {MOST_SIDES}", table.sides);
    desk.expect(known, &format!("{path}.bay.sides"), says, "Write 6 for three sides, 8 for three and two halves.");
    let wide = (NARROWEST.to_inches()..=WIDEST.to_inches()).contains(&width);
    let says = || format!("a bay {} wide is none", Length::inches(width));
    desk.expect(wide, &format!("{path}.bay"), says, "Measure where its outline leaves the wall and comes back to it.");
    if !known || !wide {
        return (Vec::new(), Vec::new());
    }
    let corners = bay_outline(from, to, table.sides);
    let mut sides = alike(desk, edges, corners.len() - 1, path);
    sides.push(Side::new(SideKind::Wall));
    (corners, sides)
}

fn point(desk: &mut Desk, [x, y]: [Measure; 2], path: &str) -> [f64; 2] {
    [coordinate(desk, x, &format!("{path}[0]")), coordinate(desk, y, &format!("{path}[1]"))]
}

/// One edge for all sides, or one for each.
fn alike(desk: &mut Desk, edges: &[EdgeTable], sides: usize, path: &str) -> Vec<Side> {
    let path = format!("{path}.edges");
    let says = || format!("this shape has {sides} sides, but {} edges are given", edges.len());
    desk.expect([1, sides].contains(&edges.len()), &path, says, "Give one edge for all sides, or one for each.");
    let read: Vec<Side> =
        edges.iter().enumerate().filter_map(|(index, edge)| side(desk, edge, &format!("{path}[{index}]"))).collect();
    match &read[..] {
        [one] => vec![one.clone(); sides],
        _ => read,
    }
}
