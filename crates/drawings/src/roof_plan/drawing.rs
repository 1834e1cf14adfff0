use super::kinds::{is_at_wall, line_type};
use super::legend::Entry;
use super::names::{Paper, place};
use super::opening::Opening;
use super::overhead::Overhead;
use super::region::Region;
use super::start::Start;
use super::stretch::{Cover, Stretch};
use super::view::View;
use super::zones::zones;
use crate::{Item, LineType, Point, Scale};

/// Room around the roof for marks and letters, mm.
pub(crate) const AROUND: f64 = 6.0;
/// A wall line right under the edge of a higher plane is drawn this far beside it, mm.
const BESIDE: f64 = 0.9;

/// The roof at a scale, with the upper left corner of its bounds at the origin.
pub(crate) struct Drawing {
    pub(crate) items: Vec<Item>,
    /// Planes that have a letter for their name, and openings by number.
    pub(crate) listed: Vec<Entry>,
}

/// `None` if there is no room even for letters.
pub(crate) fn draw(overhead: &Overhead, scale: Scale) -> Option<Drawing> {
    let view = View::of(overhead, scale);
    let zones = zones(overhead).into_iter().map(|ends| ends.map(|end| view.point(end)));
    let zones: Vec<[Point; 2]> = zones.collect();
    let lines = lines(overhead, &view);
    let openings = openings(overhead, &view);
    let starts: Vec<Start> =
        overhead.surfaces.iter().filter_map(|surface| Start::of(overhead.plan, surface, &view)).collect();
    let mut paper = Paper::new(view.size.map(|long| long + AROUND - 0.5), AROUND - 0.5);
    lines.iter().for_each(|(ends, _)| paper.lines.add(ends));
    zones.iter().for_each(|ends| paper.lines.add(ends));
    openings.iter().for_each(|opening| paper.lines.add(&opening.corners));
    starts.iter().for_each(|start| paper.words.add(&start.room()));
    let regions: Vec<Region> = overhead.surfaces.iter().map(|surface| Region::of(overhead, surface, &view)).collect();
    let names = place(&regions, &openings, &mut paper)?;
    let zones = zones.into_iter().map(|ends| (ends, LineType::Limit));
    let lines = zones.chain(lines);
    let mut items: Vec<Item> = lines.map(|(ends, line)| Item::Line { points: ends.to_vec(), line }).collect();
    items.extend(openings.iter().flat_map(Opening::draw));
    items.extend(starts.iter().map(Start::draw));
    items.extend(names.items);
    Some(Drawing { items, listed: names.listed })
}

fn openings<'a>(overhead: &'a Overhead, view: &View) -> Vec<Opening<'a>> {
    overhead.plan.roof.openings.iter().map(|opening| Opening::of(opening, view)).collect()
}

/// Ends on the paper and type of every line that is drawn, the narrow ones first so that none hides a wider one.
fn lines(overhead: &Overhead, view: &View) -> Vec<([Point; 2], LineType)> {
    let drawn = overhead.stretches.iter().filter_map(|stretch| Some((ends(stretch, view), line_of(stretch)?)));
    let mut lines: Vec<([Point; 2], LineType)> = drawn.collect();
    lines.sort_by(|(_, a), (_, b)| a.width().total_cmp(&b.width()));
    lines
}

/// `None` right under the edge of a higher plane, which is drawn there; but a wall stands there and is drawn.
pub(crate) fn line_of(stretch: &Stretch) -> Option<LineType> {
    let line = line_type(stretch.kind)?;
    match stretch.cover {
        Cover::Hidden => Some(LineType::Hidden),
        Cover::Open => Some(line),
        Cover::EdgeAtLeft | Cover::EdgeAtRight => is_at_wall(stretch.kind).then_some(line),
    }
}

fn ends(stretch: &Stretch, view: &View) -> [Point; 2] {
    let ends = stretch.ends.map(|end| view.point(end));
    let side = match stretch.cover {
        Cover::EdgeAtLeft => -1.0,
        Cover::EdgeAtRight => 1.0,
        Cover::Open | Cover::Hidden => 0.0,
    };
    let [dx, dy] = [ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]];
    let off = side * BESIDE / libm::hypot(dx, dy).max(1e-9);
    ends.map(|[x, y]| [x + dy * off, y - dx * off])
}
