use plan::{Line, Plane, Roof};

use crate::surface::{HIGHER, Place, Surface};

/// A part of a line of the roof over which the same planes pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stretch {
    /// As for [`plan::Line::kind`].
    pub(crate) kind: &'static str,
    /// In plan, feet.
    pub(crate) ends: [Place; 2],
    pub(crate) cover: Cover,
}

/// What lies over a stretch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cover {
    /// The sky.
    Open,
    /// The edge of a higher plane, which lies to the right as one walks along the stretch.
    EdgeAtRight,
    /// The same, to the left.
    EdgeAtLeft,
    /// A higher plane.
    Hidden,
}

/// How far beside a line one looks for planes over it, feet.
const BESIDE: f64 = 0.01;
/// Parts of a line shorter than this, feet, are not told apart.
const SHORTEST: f64 = 0.02;

/// Every line of the roof, cut where the edges of planes pass over it.
pub(crate) fn stretches(roof: &Roof, surfaces: &[Surface]) -> Vec<Stretch> {
    lines(roof).iter().flat_map(|line| of_line(line, surfaces)).collect()
}

/// The lines of the roof; around planes whose place in plan is unknown, which stand apart, each one's own edges.
fn lines(roof: &Roof) -> Vec<Line> {
    let apart: Vec<&Plane> = roof.planes.iter().filter(|plane| stands_apart(plane)).collect();
    let bounds_one = |line: &&Line| line.planes.iter().any(|id| apart.iter().any(|plane| plane.id == *id));
    let others = roof.lines.iter().filter(|line| !bounds_one(line)).cloned();
    others.chain(apart.iter().flat_map(|plane| own_lines(plane))).collect()
}

/// Measured by tape alone: nobody knows where it lies in plan.
pub(crate) fn stands_apart(plane: &Plane) -> bool {
    plane.known_by == "tape"
}

fn own_lines(plane: &Plane) -> impl Iterator<Item = Line> + '_ {
    let rings = plane.outlines_ft.iter();
    let sides = rings.flat_map(|ring| ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)));
    sides.zip(&plane.edges).map(|((from, to), edge)| Line {
        kind: edge.kind,
        length_ft: edge.length_ft,
        ends_ft: [from, to],
        planes: vec![plane.id.clone()],
    })
}

fn of_line(line: &Line, surfaces: &[Surface]) -> Vec<Stretch> {
    let over: Vec<&Surface> = surfaces.iter().filter(|surface| reaches_over(surface, line)).collect();
    let cuts = cuts(line, &over);
    let mut found: Vec<Stretch> = Vec::new();
    for pair in cuts.windows(2) {
        let cover = cover(line, (pair[0] + pair[1]) / 2.0, &over);
        let end = at(line, pair[1]).1;
        match found.last_mut() {
            Some(last) if last.cover == cover => last.ends[1] = end,
            _ => found.push(Stretch { kind: line.kind, ends: [at(line, pair[0]).1, end], cover }),
        }
    }
    found
}

/// Whether the plane's bounds touch the line's and some corner stands above the line's lower end.
fn reaches_over(surface: &Surface, line: &Line) -> bool {
    let [a, b] = line.ends_ft;
    let [left, low, right, high] = surface.bounds;
    let touches = a[0].min(b[0]) <= right && a[0].max(b[0]) >= left && a[1].min(b[1]) <= high && a[1].max(b[1]) >= low;
    let top = surface.plane.outlines_ft.iter().flatten().map(|corner| corner[2]).fold(f64::NEG_INFINITY, f64::max);
    touches && top > a[2].min(b[2]) + HIGHER
}

/// Height and plan place at a part of the way along the line.
fn at(line: &Line, part: f64) -> (f64, Place) {
    let [a, b] = line.ends_ft;
    let [x, y, z] = [0, 1, 2].map(|axis| a[axis] + (b[axis] - a[axis]) * part);
    (z, [x, y])
}

/// Parts of the way at which an edge of a plane crosses, from 0 to 1.
fn cuts(line: &Line, over: &[&Surface]) -> Vec<f64> {
    let [a, b] = line.ends_ft.map(|[x, y, _]| [x, y]);
    let long = libm::hypot(b[0] - a[0], b[1] - a[1]).max(SHORTEST);
    let mut cuts: Vec<f64> =
        over.iter().flat_map(|surface| surface.sides()).filter_map(|side| crossing([a, b], side)).collect();
    cuts.retain(|cut| (SHORTEST..=long - SHORTEST).contains(&(cut * long)));
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|next, last| (*next - *last) * long < SHORTEST);
    [0.0].into_iter().chain(cuts).chain([1.0]).collect()
}

/// Part of the way from `a` to `b` at which a side, ends included, crosses.
fn crossing([a, b]: [Place; 2], [from, to]: [Place; 2]) -> Option<f64> {
    let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    let off = |[x, y]: Place| dx * (y - a[1]) - dy * (x - a[0]);
    let [start, end] = [off(from), off(to)];
    let near = BESIDE * libm::hypot(dx, dy);
    if (start - end).abs() <= near || start.min(end) > near || start.max(end) < -near {
        return None;
    }
    let part = (start / (start - end)).clamp(0.0, 1.0);
    let [x, y] = [from[0] + (to[0] - from[0]) * part, from[1] + (to[1] - from[1]) * part];
    Some(((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy))
}

fn cover(line: &Line, part: f64, over: &[&Surface]) -> Cover {
    let (z, [x, y]) = at(line, part);
    let [a, b] = line.ends_ft;
    let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    let step = BESIDE / libm::hypot(dx, dy).max(1e-9);
    let is_covered = |side: f64| {
        let beside = [x + dy * step * side, y - dx * step * side];
        over.iter().any(|surface| surface.height(beside) > z + HIGHER && surface.covers(beside))
    };
    match [is_covered(-1.0), is_covered(1.0)] {
        [false, false] => Cover::Open,
        [true, false] => Cover::EdgeAtLeft,
        [false, true] => Cover::EdgeAtRight,
        [true, true] => Cover::Hidden,
    }
}
