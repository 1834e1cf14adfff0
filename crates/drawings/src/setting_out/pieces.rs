use plan::{Course, Cut, Run};

use super::sheet::Sheet;
use super::view::View;
use crate::clear::{Taken, boxed};
use crate::lettering::{SMALL, centred, width};
use crate::ring::crossings;
use crate::{Fill, Item, LineType, Point};

/// Course lines are drawn no nearer to each other than this, mm.
const NEAREST_LINES: f64 = 1.0;
/// Courses whose joints stand for all others: as many as any bond takes to repeat, and one more.
pub(crate) const JOINTED_COURSES: usize = 4;

pub(crate) fn draw(sheet: &Sheet, view: &View) -> Vec<Item> {
    let mut items = if sheet.shows_pieces() { every_piece(sheet, view) } else { course_lines(sheet, view) };
    items.extend(top_line(sheet, view));
    items
}

/// From the eave up, so that each course covers the heads below it as on the roof.
fn every_piece(sheet: &Sheet, view: &View) -> Vec<Item> {
    let courses = &sheet.laid.courses;
    let runs = |course| runs(sheet, view, course);
    let edges = edges(sheet, view);
    let numbers = |course| numbers(sheet, view, &edges, course);
    courses.iter().flat_map(runs).chain(courses.iter().flat_map(numbers)).collect()
}

/// The plane's boundary, drawn over the pieces.
fn edges(sheet: &Sheet, view: &View) -> Taken {
    let mut taken = Taken::default();
    let sides = sheet.plane.outlines_in.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    sides.for_each(|(&from, &to)| taken.add(&view.points(&[from, to])));
    taken
}

fn runs(sheet: &Sheet, view: &View, course: &Course) -> Vec<Item> {
    let shape = |run: &Run| Item::Shape {
        rings: rings(sheet, course, run).iter().map(|ring| view.points(ring)).collect(),
        line: LineType::Piece,
        fill: if run.cut.is_some() { Fill::Hatch } else { Fill::Paper },
    };
    course.runs.iter().map(shape).collect()
}

/// Outlines of a run's pieces on the plane.
fn rings(sheet: &Sheet, course: &Course, run: &Run) -> Vec<Vec<Point>> {
    let length = course.length_in;
    let whole = vec![vec![[0.0, 0.0], [run.width_in, 0.0], [run.width_in, length], [0.0, length]]];
    let parts = cut_of(sheet, run).map_or(&whole, |cut| &cut.parts_in);
    corners(sheet, course, run).flat_map(|[left, butt]| parts.iter().map(move |part| moved(part, left, butt))).collect()
}

fn cut_of<'a>(sheet: &'a Sheet, run: &Run) -> Option<&'a Cut> {
    run.cut.and_then(|cut| sheet.laid.cuts.get(cut as usize))
}

/// Lower left corners of the units.
fn corners(sheet: &Sheet, course: &Course, run: &Run) -> impl Iterator<Item = Point> + use<> {
    let ([left, step], [butt, down]) = ([run.left_in, run.step_in], [course.butt_in, sheet.laid.step_in]);
    let hangs = run.hangs;
    let is_low = move |index: u32| hangs.is_some_and(|first| index % 2 == first);
    let low = move |index| if is_low(index) { down } else { 0.0 };
    (0..run.count).map(move |index| [left + f64::from(index) * step, butt - low(index)])
}

fn moved(part: &[Point], right: f64, up: f64) -> Vec<Point> {
    part.iter().map(|&[u, v]| [u + right, v + up]).collect()
}

/// The numbers of cuts whose visible part has room for them.
fn numbers(sheet: &Sheet, view: &View, edges: &Taken, course: &Course) -> Vec<Item> {
    let numbered = course.runs.iter().filter_map(|run| Some((run, run.cut? + 1, cut_of(sheet, run)?)));
    numbered.flat_map(|(run, number, cut)| run_numbers(sheet, view, edges, course, run, number, cut)).collect()
}

/// Where in the exposure a number may stand, from its butts up.
const HEIGHTS: [f64; 3] = [0.5, 0.65, 0.35];

fn run_numbers(sheet: &Sheet, view: &View, edges: &Taken, course: &Course, run: &Run, number: u32, cut: &Cut) -> Vec<Item> {
    let number = &number.to_string();
    let room = [width(number, SMALL) + 0.8, SMALL + 0.8];
    if view.scale.paper(course.exposure_in) < room[1] {
        return Vec::new();
    }
    let within = |at: &Point| {
        let [x, y] = view.point(*at);
        edges.is_clear(&boxed([x, y], room, 0.0))
    };
    let place = |[left, butt]: Point, part: &[Point]| {
        let at = |height: f64| {
            let [from, to] = crossing(part, height).filter(|[from, to]| view.scale.paper(to - from) >= room[0])?;
            Some([left + (from + to) / 2.0, butt + height])
        };
        // In the middle of what shows; where the plane's edge runs through there, a little higher or lower.
        HEIGHTS.iter().filter_map(|share| at(share * course.exposure_in)).find(within)
    };
    let corners = corners(sheet, course, run);
    let places = corners.flat_map(|corner| cut.parts_in.iter().filter_map(move |part| place(corner, part)));
    places.flat_map(|at| number_at(view.point(at), number, room)).collect()
}

/// Where a level line enters and leaves a part.
fn crossing(part: &[Point], height: f64) -> Option<[f64; 2]> {
    let us = crossings(part, height);
    Some([us.first().copied()?, us.last().copied()?])
}

/// The number on a patch of blank paper.
fn number_at([x, y]: Point, number: &str, [width, height]: [f64; 2]) -> [Item; 2] {
    let [left, right, top, base] = [x - width / 2.0, x + width / 2.0, y - height / 2.0, y + height / 2.0];
    let patch = vec![vec![[left, top], [right, top], [right, base], [left, base]]];
    [Item::Shape { rings: patch, line: LineType::Unseen, fill: Fill::Paper }, centred([x, y], 0.0, number)]
}

/// Each how many-th course line is drawn where pieces are not.
pub(crate) fn line_step(sheet: &Sheet, view: &View) -> usize {
    let spacing = view.scale.paper(sheet.least_exposure()).max(1e-9);
    (NEAREST_LINES / spacing).ceil().max(1.0) as usize
}

fn course_lines(sheet: &Sheet, view: &View) -> Vec<Item> {
    let courses = &sheet.laid.courses;
    let lines = courses.iter().step_by(line_step(sheet, view)).flat_map(|course| butts(view, course));
    let joints = courses.iter().take(JOINTED_COURSES).flat_map(|course| joints(view, course));
    lines.chain(joints).collect()
}

fn butts(view: &View, course: &Course) -> Vec<Item> {
    let line = |&[from, to]: &[f64; 2]| Item::Line {
        points: view.points(&[[from, course.butt_in], [to, course.butt_in]]),
        line: LineType::Piece,
    };
    course.spans_in.iter().map(line).collect()
}

fn joints(view: &View, course: &Course) -> Vec<Item> {
    let top = course.butt_in + course.exposure_in;
    let line = |&u: &f64| Item::Line { points: view.points(&[[u, course.butt_in], [u, top]]), line: LineType::Piece };
    let mut last = f64::NEG_INFINITY;
    let far_enough = |u: &&f64| {
        let apart = view.scale.paper(**u - last) >= NEAREST_LINES;
        last = if apart { **u } else { last };
        apart
    };
    course.joints_in.iter().filter(far_enough).map(line).collect()
}

/// The line up to which caps or aprons cover the units.
fn top_line(sheet: &Sheet, view: &View) -> Vec<Item> {
    let top = sheet.laid.top_in;
    let mut us: Vec<f64> = sheet.laid.laid_in.iter().flat_map(|ring| crossings(ring, top)).collect();
    us.sort_by(f64::total_cmp);
    let line = |pair: &[f64]| Item::Line { points: view.points(&[[pair[0], top], [pair[1], top]]), line: LineType::Limit };
    us.chunks_exact(2).map(line).collect()
}
