//! Cuts what fits out of planes and lines: an opening wholly inside its plane as a hole with its exact corners, a chimney
//! astride of a ridge as a notch in both planes.

use geom::{Point, distance, off_segment, polygon};
use units::Length;

use crate::classify::{JOINED, height};
use crate::clear::Segment;
use crate::cricket::{self, cricket};
use crate::cut_out::flat;
use crate::fit::{Fit, Shape, is_ridge_through};
use crate::{Cricket, Edge, EdgeKind, Line, PlacedOpening, Point3, Ring, Roof};

pub(crate) fn carve(roof: &mut Roof, fit: Fit) {
    let [low_left, low_right, high_right, high_left] = fit.footprint.corners();
    let around = [low_left, high_left, high_right, low_right];
    match fit.shape {
        Shape::Hole => {
            let edges = [EdgeKind::Side, EdgeKind::Head, EdgeKind::Side, EdgeKind::Sill].map(free);
            hole(roof, fit.planes[0], &around, &edges);
            placed(roof, fit, vec![low_left, low_right, high_right, high_left], None);
        }
        Shape::HoleWithCricket => {
            let cricket = hole_with_cricket(roof, &fit, around);
            placed(roof, fit, vec![low_left, low_right, high_right, high_left], Some(cricket));
        }
        Shape::Notch([right, left]) => {
            let [here, beyond] = [fit.planes[0], fit.planes[1]];
            shorten_ridge(&mut roof.lines, [here, beyond], [right, left]);
            notch(roof, here, beyond, [right, low_right, low_left, left]);
            notch(roof, beyond, here, [left, high_left, high_right, right]);
            placed(roof, fit, vec![low_left, low_right, right, high_right, high_left, left], None);
        }
    }
}

/// Notes an opening that was cut with its corners, counter-clockwise.
fn placed(roof: &mut Roof, fit: Fit, corners: Vec<Point>, cricket: Option<Cricket>) {
    let frame = |plane: &usize| roof.planes[*plane].frame;
    // On both sides of a ridge the lower plane is the one that is there.
    let surface = |p: Point| fit.planes.iter().map(|plane| height(&frame(plane), p)).fold(f64::INFINITY, f64::min);
    let [low, high] = fit.footprint.up;
    let opening = PlacedOpening {
        name: fit.opening.name.clone(),
        kind: fit.opening.kind,
        at: fit.at,
        width: Length::inches(fit.opening.width),
        height: Length::inches((high - low) * frame(&fit.planes[0]).pitch.slope_factor()),
        corners: corners.into_iter().map(|p| [p[0], p[1], surface(p)]).collect(),
        planes: fit.planes,
        cricket,
    };
    roof.openings.push(opening);
}

const fn free(kind: EdgeKind) -> Edge {
    Edge { kind, meets: None }
}

fn hole_with_cricket(roof: &mut Roof, fit: &Fit, [low_left, high_left, high_right, low_right]: [Point; 4]) -> Cricket {
    let main = fit.planes[0];
    let planes = cricket::raise(roof, main, &fit.opening.name, &fit.footprint);
    let valley = |plane| Edge { kind: EdgeKind::Valley, meets: Some(plane) };
    let side = free(EdgeKind::Side);
    let edges = [side.clone(), valley(planes[0]), valley(planes[1]), side, free(EdgeKind::Sill)];
    let apex = cricket::apex(&fit.footprint);
    hole(roof, main, &[low_left, high_left, apex, high_right, low_right], &edges);
    cricket(fit.opening.width, roof.planes[main].pitch, planes)
}

/// Cuts a ring of its own into a plane and adds its free edges to the lines.
fn hole(roof: &mut Roof, plane: usize, corners: &[Point], edges: &[Edge]) {
    let frame = roof.planes[plane].frame;
    let corners: Vec<Point3> = corners.iter().map(|&p| [p[0], p[1], height(&frame, p)]).collect();
    for (at, edge) in edges.iter().enumerate().filter(|(_, edge)| edge.meets.is_none()) {
        let ends = [corners[at], corners[(at + 1) % corners.len()]];
        roof.lines.push(Line { kind: edge.kind, ends, planes: vec![plane] });
    }
    roof.planes[plane].rings.push(Ring { corners, edges: edges.to_vec() });
}

/// Puts a path, from ridge to ridge down one side and up the other, into the ridge of a plane.
fn notch(roof: &mut Roof, plane: usize, beyond: usize, path: [Point; 4]) {
    const ALONG: [EdgeKind; 3] = [EdgeKind::Side, EdgeKind::Sill, EdgeKind::Side];
    let frame = roof.planes[plane].frame;
    let corners = path.map(|p| [p[0], p[1], height(&frame, p)]);
    for (ends, kind) in corners.windows(2).zip(ALONG) {
        roof.lines.push(Line { kind, ends: [ends[0], ends[1]], planes: vec![plane] });
    }
    for ring in &mut roof.planes[plane].rings {
        let sides: Vec<Segment> = polygon::sides(&flat(ring)).collect();
        let through = |&at: &usize| is_ridge_through(sides[at], &ring.edges[at], beyond, [path[0], path[3]]);
        let Some(at) = (0..sides.len()).find(through) else { continue };
        let rest = ring.edges[at].clone();
        let edges = ALONG.into_iter().map(free).chain([rest]);
        ring.edges.splice(at + 1..at + 1, edges);
        ring.corners.splice(at + 1..at + 1, corners);
    }
}

/// Takes the stretch between two places on it out of the ridge of two planes.
fn shorten_ridge(lines: &mut Vec<Line>, planes: [usize; 2], between: [Point; 2]) {
    let on_it = |line: &Line, p: Point| {
        let [from, to] = line.ends.map(|end| [end[0], end[1]]);
        off_segment(p, from, to) < JOINED
    };
    let passes = |line: &Line| {
        line.kind == EdgeKind::Ridge
            && planes.iter().all(|plane| line.planes.contains(plane))
            && between.iter().all(|&p| on_it(line, p))
    };
    let Some(at) = lines.iter().position(passes) else { return };
    let [from, to] = lines[at].ends;
    let far = |p: Point| distance(p, [from[0], from[1]]);
    let [near, further] = if far(between[0]) < far(between[1]) { between } else { [between[1], between[0]] };
    let point = |p: Point| {
        let share = far(p) / far([to[0], to[1]]);
        [p[0], p[1], from[2] + (to[2] - from[2]) * share]
    };
    lines[at].ends = [from, point(near)];
    lines.insert(at + 1, Line { ends: [point(further), to], ..lines[at].clone() });
}
