//! A plane from its corners in space.

use geom::{Point, polygon};
use units::Pitch;

use super::fit::{Fit, dot3, minus, nearest, places};
use super::{Corner, Desk, EdgeName, Face, told};
use crate::problem::MeasuredPart;
use crate::{Frame, KnownBy, Point3};

/// Corners farther off their plane than this are worth a word.
const FLAT: f64 = 0.25;
/// Corners farther off than this are of two planes, or one is wrong.
const BENT: f64 = 1.0;
/// Corners nearer than one tape mark are one corner typed twice.
const LEAST_SIDE: f64 = 1.0 / 16.0;
/// Flatter than this, rise in 12, nobody can tell from corners which way the water runs.
const LEVEL: f64 = 0.25;
/// Smaller than a hand, in square inches, is no plane.
const LEAST_AREA: f64 = 10.0;

/// Corners of one ring with the index of the edge that leaves each; none for holes.
type Ring = Vec<(Point3, Option<usize>)>;

pub(super) fn face(desk: &mut Desk, outer: &[Point3], holes: &[Vec<Point3>], north_deg: f64) -> Option<Face> {
    no_corner_twice(desk, outer, None)?;
    holes.iter().enumerate().try_for_each(|(hole, ring)| no_corner_twice(desk, ring, Some(hole)))?;
    let corners: Vec<Point3> = outer.iter().chain(holes.iter().flatten()).copied().collect();
    let Some(free) = nearest(&corners) else {
        desk.error("corners-on-a-line", WHOLE, "has its corners on one line", "measure corners that enclose a surface");
        return None;
    };
    let pitch = pitch(desk, &free)?;
    let rings = upwards(outer, holes);
    let outer: Vec<Point3> = rings[0].iter().map(|&(corner, _)| corner).collect();
    let farthest = |fit: &Fit| corners.iter().map(|&corner| fit.off(corner).abs()).fold(0.0, f64::max);
    // An eave of a few inches must not tilt a long slope off its own corners.
    let level = free.along_its_eave(&corners, &outer).filter(|(fit, _)| farthest(fit) <= farthest(&free).max(FLAT));
    let (fit, start) = level.map_or((free, None), |(fit, start)| (fit, Some(start)));
    is_flat(desk, &fit, &rings)?;
    let pitch = Pitch::per_12(12.0 * fit.slope()).unwrap_or(pitch);
    let lowest = outer.iter().copied().reduce(|low, c| if c[2] < low[2] { c } else { low })?;
    let frame = fit.frame(pitch, start.unwrap_or(lowest));
    let rings: Vec<Vec<Corner>> = rings.iter().map(|ring| on_plane(desk, &fit, &frame, ring)).collect();
    is_simple(desk, &rings)?;
    desk.very_steep(pitch, WHOLE);
    let facing_deg = (libm::atan2(frame.right[1], -frame.right[0]).to_degrees() - north_deg).rem_euclid(360.0);
    let plane = desk.bare_plane(frame, facing_deg, KnownBy::Corners);
    Some(Face { of: desk.index, plane, rings })
}

const WHOLE: MeasuredPart = MeasuredPart::Key("corners");

fn no_corner_twice(desk: &mut Desk, ring: &[Point3], hole: Option<usize>) -> Option<()> {
    if ring.len() < 3 {
        let at = MeasuredPart::Corner { hole, corner: 0 };
        desk.error("outline-too-few-corners", at, "has fewer than three corners", "measure the missing corners");
        return None;
    }
    let twice = (0..ring.len()).find(|&at| {
        let between = minus(ring[(at + 1) % ring.len()], ring[at]);
        dot3(between, between) < LEAST_SIDE * LEAST_SIDE
    });
    let Some(at) = twice else { return Some(()) };
    let corner = (at + 1) % ring.len();
    let says = format!("has corners {at} and {corner} at the same place");
    desk.error("corner-repeated", MeasuredPart::Corner { hole, corner }, &says, "leave one of them out");
    None
}

fn pitch(desk: &mut Desk, fit: &Fit) -> Option<Pitch> {
    let rise = 12.0 * fit.slope();
    if rise < LEVEL {
        let says = format!("lies all but level, {rise:.2} in 12, so no fall can be told");
        desk.error("plane-level", WHOLE, &says, "leave it out: units that shed water by lapping need a slope");
        return None;
    }
    Pitch::per_12(rise)
        .map_err(|misread| desk.error("plane-is-a-wall", WHOLE, &format!("cannot be laid: {misread}"), "leave it out"))
        .ok()
}

/// The outer ring counter-clockwise seen from above, holes clockwise; a turned ring keeps the names of its edges.
fn upwards(outer: &[Point3], holes: &[Vec<Point3>]) -> Vec<Ring> {
    let outer: Ring = outer.iter().enumerate().map(|(at, &corner)| (corner, Some(at))).collect();
    let holes = holes.iter().map(|hole| hole.iter().map(|&corner| (corner, None)).collect::<Ring>());
    std::iter::once(outer).chain(holes).enumerate().map(|(index, ring)| running(ring, index == 0)).collect()
}

fn running(ring: Ring, counter_clockwise: bool) -> Ring {
    let flat: Vec<Point> = ring.iter().map(|&([x, y, _], _)| [x, y]).collect();
    if (polygon::area(&flat) > 0.0) == counter_clockwise {
        return ring;
    }
    let (mut corners, mut names): (Vec<Point3>, Vec<Option<usize>>) = ring.into_iter().unzip();
    corners.reverse();
    names.reverse();
    // Corner i was the start of edge i; now it is its end, so the names move on by one.
    names.rotate_left(1);
    corners.into_iter().zip(names).collect()
}

fn is_flat(desk: &mut Desk, fit: &Fit, rings: &[Ring]) -> Option<()> {
    let named = rings.iter().flatten();
    let farthest = named.max_by(|a, b| fit.off(a.0).abs().total_cmp(&fit.off(b.0).abs()))?;
    let off = fit.off(farthest.0);
    let corner = farthest.1.map_or_else(|| "a corner of a hole".into(), |at| format!("corner {at}"));
    let at = farthest.1.map_or(WHOLE, |corner| MeasuredPart::Corner { hole: None, corner });
    let side = if off > 0.0 { "above" } else { "below" };
    let says = format!("is not flat: {corner} lies {} {side} the plane nearest to all corners", told(off.abs()));
    if off.abs() > BENT {
        let remedy = "measure that corner again, or give the parts as planes of their own";
        desk.error("corners-not-flat", at, &says, remedy);
        return None;
    }
    if off.abs() > FLAT {
        desk.caution("corners-not-flat", at, &says, "lay a line over the deck there before you set out");
    }
    Some(())
}

fn on_plane(desk: &Desk, fit: &Fit, frame: &Frame, ring: &Ring) -> Vec<Corner> {
    let points: Vec<Point3> = ring.iter().map(|&(corner, _)| fit.onto(corner)).collect();
    let corner = |(at, &(measured, edge)): (_, &(Point3, Option<usize>))| {
        let name = edge.map(EdgeName::From);
        Corner { at, measured, name, kind: name.and_then(|name| desk.plane.kinds.get(&name).copied()) }
    };
    places(frame, &points).into_iter().zip(ring).map(corner).collect()
}

fn is_simple(desk: &mut Desk, rings: &[Vec<Corner>]) -> Option<()> {
    let flat: Vec<Vec<Point>> = rings.iter().map(|ring| ring.iter().map(|corner| corner.at).collect()).collect();
    let all: Vec<&[Point]> = flat.iter().map(Vec::as_slice).collect();
    if all.iter().any(|ring| polygon::first_fold(ring).is_some()) {
        let says = "has an outline that runs back over itself";
        desk.error("outline-folds-back", WHOLE, says, "correct or leave out the corner where it turns back");
    } else if polygon::first_crossing(&all).is_some() {
        let says = "has an outline that crosses or touches itself, or one of its holes";
        desk.error("outline-crosses-itself", WHOLE, says, "put the corners in the order in which you walk round the plane");
    } else if polygon::area(all[0]) < LEAST_AREA {
        let says = "encloses no area that could be laid";
        desk.error("outline-has-no-area", WHOLE, says, "check the corners' coordinates");
    } else if let Some(hole) = (1..all.len()).find(|&hole| !polygon::contains(all[0], all[hole][0])) {
        let at = MeasuredPart::Corner { hole: Some(hole - 1), corner: 0 };
        desk.error("hole-misplaced", at, "has a hole that does not lie inside it", "check the hole's corners");
    } else {
        return Some(());
    }
    None
}
