//! Cuts what fits out of planes and lines: an opening wholly inside its plane as a hole with its exact corners, one
//! astride of a line as a notch in both planes.

use geom::{Point, distance, off_segment, polygon};
use units::Length;

use crate::astride::{self, Astride};
use crate::classify::{JOINED, height};
use crate::clear::Segment;
use crate::cricket::{self, cricket};
use crate::cut_out::flat;
use crate::fit::{Fit, Shape};
use crate::{Cricket, Edge, EdgeKind, Line, PlacedOpening, Point3, Ring, Roof};

pub(crate) fn carve(roof: &mut Roof, fit: Fit) {
    let main = fit.planes[0];
    let footprint = fit.footprint.corners();
    let [low_left, low_right, high_right, high_left] = footprint;
    let around = [low_left, high_left, high_right, low_right];
    match &fit.shape {
        Shape::Hole => {
            let edges = [EdgeKind::Side, EdgeKind::Head, EdgeKind::Side, EdgeKind::Sill].map(free);
            hole(roof, main, &around, &edges);
            placed(roof, &fit, footprint.map(|p| (main, p)).to_vec(), None);
        }
        Shape::HoleWithCricket => {
            let cricket = hole_with_cricket(roof, &fit, around);
            placed(roof, &fit, footprint.map(|p| (main, p)).to_vec(), Some(cricket));
        }
        Shape::Astride(astride) => {
            shorten(&mut roof.lines, astride);
            let [here, beyond] = astride.planes;
            notch(roof, here, beyond, &astride.paths[0]);
            notch(roof, beyond, here, &astride.paths[1]);
            let mut corners = astride.around();
            let first = corners.iter().position(|&(_, p)| distance(p, low_left) < JOINED).unwrap_or_default();
            corners.rotate_left(first);
            placed(roof, &fit, corners, None);
        }
    }
}

/// Notes an opening that was cut with its corners, each on its plane, counter-clockwise.
fn placed(roof: &mut Roof, fit: &Fit, corners: Vec<(usize, Point)>, cricket: Option<Cricket>) {
    let frame = |plane: usize| roof.planes[plane].frame;
    let [low, high] = fit.footprint.up;
    let opening = PlacedOpening {
        name: fit.opening.name.clone(),
        kind: fit.opening.kind,
        at: fit.at,
        width: Length::inches(fit.opening.width),
        height: Length::inches((high - low) * frame(fit.planes[0]).pitch.slope_factor()),
        corners: corners.into_iter().map(|(plane, p)| [p[0], p[1], height(&frame(plane), p)]).collect(),
        planes: fit.planes.clone(),
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

/// Puts a path into the edge that a plane shares with another, from where that meets the opening to where it goes on.
fn notch(roof: &mut Roof, plane: usize, beyond: usize, path: &[Point]) {
    let frame = roof.planes[plane].frame;
    let kinds: Vec<EdgeKind> = path.windows(2).map(|ends| astride::kind(&frame, [ends[0], ends[1]])).collect();
    let corners: Vec<Point3> = path.iter().map(|&p| [p[0], p[1], height(&frame, p)]).collect();
    for (ends, &kind) in corners.windows(2).zip(&kinds) {
        roof.lines.push(Line { kind, ends: [ends[0], ends[1]], planes: vec![plane] });
    }
    for ring in &mut roof.planes[plane].rings {
        let sides: Vec<Segment> = polygon::sides(&flat(ring)).collect();
        let through = |&at: &usize| astride::is_passed(sides[at], &ring.edges[at], beyond, path);
        let Some(at) = (0..sides.len()).find(through) else { continue };
        let rest = ring.edges[at].clone();
        let edges = kinds.iter().copied().map(free).chain([rest]);
        ring.edges.splice(at + 1..at + 1, edges);
        ring.corners.splice(at + 1..at + 1, corners.iter().copied());
    }
}

/// Takes the stretch inside an opening out of the line that passes through it.
fn shorten(lines: &mut Vec<Line>, astride: &Astride) {
    let path = &astride.paths[0];
    let between = [path[0], path[path.len() - 1]];
    let on_it = |line: &Line, p: Point| {
        let [from, to] = line.ends.map(|end| [end[0], end[1]]);
        off_segment(p, from, to) < JOINED
    };
    let passes = |line: &Line| {
        line.kind == astride.kind
            && astride.planes.iter().all(|plane| line.planes.contains(plane))
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
