use plan::Starters;

use super::sheet::Sheet;
use super::view::View;
use crate::{Fill, Item, LineType, Point, Scale};

/// The starters are drawn this far below the edge that they lie under, mm.
const APART: f64 = 1.5;

/// No butt stands out further past its edge, inches: starters further down belong to another edge.
const FURTHEST: f64 = 12.0;

/// Room for the starters below an edge, mm.
pub(crate) fn height(sheet: &Sheet, scale: Scale) -> f64 {
    let tallest = sheet.laid.starters.iter().map(|starters| starters.height_in).fold(0.0, f64::max);
    if tallest > 0.0 { APART + scale.paper(tallest) } else { 0.0 }
}

/// How far below a low edge at `v` the drawn starters reach, mm: they hang from the butts, which stand out past the edge.
pub(crate) fn depth_below(sheet: &Sheet, scale: Scale, v: f64) -> f64 {
    let below = sheet.laid.starters.iter().map(|starters| v - starters.butt_in);
    let projection = below.filter(|depth| (0.0..FURTHEST).contains(depth));
    projection.reduce(f64::min).map_or(0.0, |depth| scale.paper(depth) + height(sheet, scale))
}

/// The under-eave course, drawn below the edge as it will be hidden by the first course.
pub(crate) fn draw(sheet: &Sheet, view: &View) -> Vec<Item> {
    sheet.laid.starters.iter().map(|starters| strip(sheet, view, starters)).collect()
}

/// What the starters take up.
pub(crate) fn rooms(sheet: &Sheet, view: &View) -> Vec<Vec<Point>> {
    sheet.laid.starters.iter().map(|starters| whole(view, starters)).collect()
}

fn whole(view: &View, starters: &Starters) -> Vec<Point> {
    let top = top(view, starters);
    view.points(&rectangle(starters.span_in, [top - starters.height_in, top]))
}

/// Heads of the starters as drawn, inches.
fn top(view: &View, starters: &Starters) -> f64 {
    starters.butt_in - APART * view.scale.ratio / 25.4
}

fn strip(sheet: &Sheet, view: &View, starters: &Starters) -> Item {
    let top = top(view, starters);
    let piece = |index: u32| piece(sheet, starters, index, top);
    let pieces = (0..starters.count).filter_map(piece).map(|ring| view.points(&ring));
    let rings = if sheet.shows_pieces() { pieces.collect() } else { vec![whole(view, starters)] };
    Item::Shape { rings, line: LineType::Piece, fill: Fill::Paper }
}

fn piece(sheet: &Sheet, starters: &Starters, index: u32, top: f64) -> Option<Vec<Point>> {
    let left = starters.left_in + f64::from(index) * starters.step_in;
    let right = left + starters.step_in - sheet.plan.covering.gap_in;
    let [from, to] = [left.max(starters.span_in[0]), right.min(starters.span_in[1])];
    (from < to).then(|| rectangle([from, to], [top - starters.height_in, top]))
}

fn rectangle([left, right]: [f64; 2], [low, high]: [f64; 2]) -> Vec<Point> {
    vec![[left, low], [right, low], [right, high], [left, high]]
}
