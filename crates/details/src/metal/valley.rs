//! Metal of valleys: a lining that widens downwards under open ones, a piece for each course in closed ones and under mitred
//! hips.

use covering::Covering;
use geom::region::{area, common};
use roof::{EdgeKind, Line, Place, Plane, Point3};
use units::Length;

use super::{Along, FlashingChoices, MetalPiece, MetalRun, SheetStock};
use crate::Given;
use crate::surface::ends_on;

/// Distance over which a valley widens by the sheet's growth.
const GROWTH_OVER: Length = Length::feet(8.0);
/// Ends nearer than this, in, are one.
const SAME: f64 = 1e-3;
/// Two readings of one pitch may part by so much, rise in 12.
const SAME_PITCH: f64 = 0.1;

/// Width of the blank of an open valley's lining so far below its top.
///
/// Clear width + growth × distance / 8 ft + a flange, and a hem, at each side + twice the height of a rib. With 4 in clear,
/// 1 in growth, 4-in flanges and edges turned back 1/2 in it is 13 in + 1/8 in a foot (*Copper Flashings: A Manual*, Copper and
/// Brass Research Association, 1920s, specification 33).
#[must_use]
pub fn valley_girth(below_top: Length, covering: &Covering, flashing: &FlashingChoices, ribbed: bool) -> Length {
    let edges = &covering.edges;
    let grown = edges.valley_growth * (below_top.to_inches() / GROWTH_OVER.to_inches());
    let rib = if ribbed { flashing.rib * 2.0 } else { Length::ZERO };
    edges.valley_clear + grown + (edges.valley_flange + flashing.hem) * 2.0 + rib
}

/// Width of a piece of a closed valley: a flange and a hem each side.
#[must_use]
pub fn closed_valley_girth(covering: &Covering, flashing: &FlashingChoices) -> Length {
    let flange = covering.edges.valley_flange;
    // A sheet whose valleys are closed need not give one.
    let flange = if flange > Length::ZERO { flange } else { flashing.roof_leg };
    (flange + flashing.hem) * 2.0
}

/// Every valley of covered planes from its foot to its top. Those of a cricket belong to its metal.
pub(crate) fn lay_open(given: &Given<'_>) -> Vec<MetalRun> {
    let valleys = valleys(given).into_iter().filter(|valley| is_open(valley.covering));
    valleys.map(|valley| open(given, &valley)).collect()
}

/// A piece for each course of the plane with more courses there.
pub(crate) fn lay_closed(given: &Given<'_>) -> Vec<MetalRun> {
    let valleys = valleys(given).into_iter().filter(|valley| !is_open(valley.covering));
    valleys.filter_map(|valley| course_by_course(given, &valley)).collect()
}

/// As in closed valleys, under hips whose units are mitred.
pub(crate) fn lay_hips(given: &Given<'_>) -> Vec<MetalRun> {
    let hips = sloped(given, EdgeKind::Hip).into_iter().filter(|hip| hip.covering.cap.hip_cover <= Length::ZERO);
    hips.filter_map(|hip| course_by_course(given, &hip)).collect()
}

fn is_open(covering: &Covering) -> bool {
    covering.edges.valley_clear > Length::ZERO
}

/// A line where two planes meet.
pub(crate) struct Sloped<'a> {
    index: usize,
    pub(crate) line: &'a Line,
    /// The covered planes there, the first one's sheet rules.
    pub(crate) planes: Vec<usize>,
    pub(crate) covering: &'a Covering,
    /// Foot and top in space.
    ends: [Point3; 2],
    /// From its top up to where the whole valley begins, which may lie on the next lines.
    below_top: f64,
}

fn valleys<'a>(given: &Given<'a>) -> Vec<Sloped<'a>> {
    let mut valleys = sloped(given, EdgeKind::Valley);
    let crickets: Vec<usize> =
        given.roof.openings.iter().filter_map(|opening| opening.cricket).flat_map(|cricket| cricket.planes).collect();
    valleys.retain(|valley| !valley.line.planes.iter().any(|plane| crickets.contains(plane)));
    for at in 0..valleys.len() {
        valleys[at].below_top = above(&valleys, at);
    }
    valleys
}

/// Length of the valleys that go on above one in its line.
fn above(valleys: &[Sloped<'_>], at: usize) -> f64 {
    let mut length = 0.0;
    let mut here = at;
    // Each is passed once.
    for _ in 0..valleys.len() {
        let Some(next) = valleys.iter().position(|other| goes_on(&valleys[here], other)) else { break };
        length += valleys[next].line.length().to_inches();
        here = next;
    }
    length
}

fn goes_on(lower: &Sloped<'_>, upper: &Sloped<'_>) -> bool {
    let along = |ends: [Point3; 2]| -> Point3 { std::array::from_fn(|axis| ends[1][axis] - ends[0][axis]) };
    let dot = |a: Point3, b: Point3| (0..3).map(|axis| a[axis] * b[axis]).sum::<f64>();
    let [a, b, gap] = [along(lower.ends), along(upper.ends), along([lower.ends[1], upper.ends[0]])];
    dot(gap, gap) < SAME * SAME && dot(a, b) > (1.0 - 1e-9) * libm::sqrt(dot(a, a) * dot(b, b))
}

pub(crate) fn sloped<'a>(given: &Given<'a>, kind: EdgeKind) -> Vec<Sloped<'a>> {
    let found = given.lines(kind).filter_map(|(index, line)| {
        let planes: Vec<usize> = line.planes.iter().copied().filter(|&plane| given.covering(plane).is_some()).collect();
        let covering = given.covering(*planes.first()?)?;
        let [a, b] = line.ends;
        let ends = if a[2] <= b[2] { [a, b] } else { [b, a] };
        Some(Sloped { index, line, planes, covering, ends, below_top: 0.0 })
    });
    found.filter(|sloped| sloped.line.length().to_inches() > SAME).collect()
}

impl Sloped<'_> {
    pub(crate) fn run(&self, pieces: Vec<MetalPiece>) -> MetalRun {
        let along = Along { plane: self.planes[0], line: Some(self.index), opening: None };
        MetalRun::of(along, pieces)
    }

    /// Foot and top on a plane.
    pub(crate) fn on(&self, given: &Given<'_>, plane: usize) -> [Place; 2] {
        let ends = ends_on(&given.roof.planes[plane], self.line);
        if ends[0][1] <= ends[1][1] { ends } else { [ends[1], ends[0]] }
    }
}

fn open(given: &Given<'_>, valley: &Sloped<'_>) -> MetalRun {
    let flashing = given.flashing;
    let ends = valley.on(given, valley.planes[0]);
    let line = geom::distance(ends[0], ends[1]);
    // Carried down to where the units end past the eave, and over the top by a joint's lap.
    let past_foot = past_foot(valley.covering, ends);
    let lap = flashing.valley_lap.to_inches();
    let ribbed = flows_differ(given, valley);
    let place = |along: f64| {
        let share = along / line.max(f64::MIN_POSITIVE);
        [ends[0][0] + (ends[1][0] - ends[0][0]) * share, ends[0][1] + (ends[1][1] - ends[0][1]) * share]
    };
    let cut = |[from, to]: [f64; 2]| {
        let below_top = Length::inches(valley.below_top + line - from);
        let girth = valley_girth(below_top, valley.covering, flashing, ribbed);
        MetalPiece { course: None, ends: [place(from), place(to)], girth, length: Length::inches(to - from) }
    };
    let pieces: Vec<MetalPiece> = from_foot(line + past_foot + lap, given.sheet_metal, lap)
        .into_iter()
        .map(|at| at.map(|at| at - past_foot))
        .map(cut)
        .collect();
    MetalRun { ribbed, ..valley.run(pieces) }
}

/// How far a line must be carried on past its foot, along it, to where the units end past the eave.
pub(crate) fn past_foot(covering: &Covering, [foot, top]: [Place; 2]) -> f64 {
    let rise = (top[1] - foot[1]).max(f64::MIN_POSITIVE);
    covering.edges.eave_projection.to_inches() * (geom::distance(foot, top) / rise).min(LONGEST_FOOT)
}

/// A line flatter on its plane than 1 in 10 is not carried further past the eave.
const LONGEST_FOOT: f64 = 10.0;

/// From and to of pieces that make up a length, whole ones from the low end on, each lapped over the one below.
pub(crate) fn from_foot(length: f64, stock: &SheetStock, lap: f64) -> Vec<[f64; 2]> {
    let whole = stock.length.to_inches();
    let advance = (whole - lap).max(1.0);
    let count = 1 + ((length - whole) / advance - 1e-9).ceil().max(0.0) as u32;
    (0..count).map(|piece| f64::from(piece) * advance).map(|from| [from, (from + whole).min(length)]).collect()
}

/// Slopes or areas of the two sides differ so much that the stronger water would shoot across.
fn flows_differ(given: &Given<'_>, valley: &Sloped<'_>) -> bool {
    let [one, other] = valley.line.planes[..] else { return false };
    let planes = [one, other].map(|plane| &given.roof.planes[plane]);
    let [a, b] = [one, other].map(|plane| drained(&given.roof.planes[plane], valley.on(given, plane)));
    let ratio = a.max(b) / a.min(b).max(f64::MIN_POSITIVE);
    (planes[0].pitch.rise() - planes[1].pitch.rise()).abs() > SAME_PITCH || ratio > given.flashing.area_ratio
}

/// Area of a plane straight up the slope from a valley, whose water runs into it.
fn drained(plane: &Plane, [foot, top]: [Place; 2]) -> f64 {
    let highest = plane.places().iter().flatten().map(|at| at[1]).fold(top[1], f64::max) + 1.0;
    let mut above = vec![foot, [foot[0], highest], [top[0], highest], top];
    if geom::polygon::area(&above) < 0.0 {
        above.reverse();
    }
    area(&common(&plane.places(), &[above]))
}

/// Pieces of a closed valley or a mitred hip. Each lies under the units of its course, reaches from their butts to those of
/// the next course and laps that piece.
fn course_by_course(given: &Given<'_>, at: &Sloped<'_>) -> Option<MetalRun> {
    let of_plane = |&plane: &usize| Some((plane, given.layout.planes.iter().find(|laid| laid.plane == plane)?));
    let pieces_on = |(plane, laid): (usize, &layout::LaidPlane)| {
        let [foot, top] = at.on(given, plane);
        let rise = (top[1] - foot[1]).max(f64::MIN_POSITIVE);
        let slant = geom::distance(foot, top) / rise;
        let place = |v: f64| [foot[0] + (top[0] - foot[0]) * (v - foot[1]) / rise, v];
        let seen = laid.courses.iter().enumerate().filter_map(|(index, row)| {
            let [from, to] = [row.butt.max(foot[1]), (row.butt + row.exposure).min(top[1])];
            (to - from > SAME).then_some((index, [from, to]))
        });
        let piece = |(index, [from, to]): (usize, [f64; 2])| {
            let length = Length::inches((to - from) * slant) + given.flashing.course_lap;
            let ends = [place(from), place(from + length.to_inches() / slant)];
            let girth = closed_valley_girth(at.covering, given.flashing);
            MetalPiece { course: Some(index as u32), ends, girth, length }
        };
        (plane, seen.map(piece).collect::<Vec<_>>())
    };
    // Of two planes with as many courses the first.
    let most = at.planes.iter().filter_map(of_plane).map(pieces_on).reduce(|a, b| if b.1.len() > a.1.len() { b } else { a });
    let (plane, pieces) = most.filter(|(_, pieces)| !pieces.is_empty())?;
    let along = Along { plane, ..at.run(Vec::new()).along };
    Some(MetalRun { along, ..at.run(pieces) })
}

/// Cleats along both edges of every lining, at most so far apart, one at each end.
pub(crate) fn cleats(given: &Given<'_>, linings: &[MetalRun]) -> Vec<MetalRun> {
    let [width, length] = CLEAT;
    let of_run = |run: &MetalRun| {
        let (first, last) = (run.pieces.first()?, run.pieces.last()?);
        let ends = [first.ends[0], last.ends[1]];
        let long = geom::distance(ends[0], ends[1]);
        let steps = ((long / given.flashing.cleats_apart.to_inches() - 1e-9).ceil().max(1.0)) as u32;
        let at = |step: u32| {
            let share = f64::from(step) / f64::from(steps);
            geom::add(ends[0], geom::scale(geom::sub(ends[1], ends[0]), share))
        };
        let cleat = |step: u32| MetalPiece { course: None, ends: [at(step); 2], girth: width, length };
        let pieces = (0..=steps).flat_map(|step| [cleat(step); 2]).collect();
        Some(MetalRun::of(run.along, pieces))
    };
    linings.iter().filter_map(of_run).collect()
}

/// Width and length of a cleat's blank (from memory, not read).
const CLEAT: [Length; 2] = [Length::inches(2.0), Length::inches(3.0)];
