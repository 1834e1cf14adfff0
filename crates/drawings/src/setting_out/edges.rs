use plan::Edge;
use units::Length;

use super::sheet::Sheet;
use super::starters;
use super::view::View;
use crate::lettering::{SMALL, centred, letter, width};
use crate::{Fill, Item, LineType, Point};

/// Middle of a label from its edge, mm.
const OFF: f64 = 3.3;

/// The plane's boundary with its labels.
pub(crate) struct Edges {
    pub(crate) items: Vec<Item>,
    /// What the letters at short edges stand for.
    pub(crate) keyed: Vec<String>,
}

/// Draws the boundary and writes along each edge what it is and how long; short edges get a letter.
pub(crate) fn draw(sheet: &Sheet, view: &View) -> Edges {
    let mut edges = Edges { items: Vec::new(), keyed: Vec::new() };
    let mut of_ring = sheet.plane.edges.iter();
    for ring in &sheet.plane.outlines_in {
        edges.items.extend(boundary(view, ring));
        let sides = ring.iter().zip(ring.iter().cycle().skip(1));
        for ((&from, &to), edge) in sides.zip(of_ring.by_ref()) {
            edges.label(sheet, [from, to], view, edge);
        }
    }
    edges
}

fn boundary(view: &View, ring: &[Point]) -> Option<Item> {
    let closing = ring.first().copied();
    let points: Vec<Point> = ring.iter().copied().chain(closing).collect();
    closing.map(|_| Item::Line { points: view.points(&points), line: LineType::PlaneEdge })
}

impl Edges {
    fn label(&mut self, sheet: &Sheet, ends: [Point; 2], view: &View, edge: &Edge) {
        let [from, to] = ends.map(|end| view.point(end));
        let long = libm::hypot(to[0] - from[0], to[1] - from[1]);
        if long <= 0.0 {
            return;
        }
        let words = format!("{} {}", edge.kind, Length::feet(edge.length_ft));
        let fits = width(&words, SMALL) + 1.0 <= long;
        let shown = if fits { words } else { self.key(words) };
        let off = OFF + starters_below(sheet, ends, view);
        let middle = outside([from, to], off);
        let turn = if fits { upright(libm::atan2(to[1] - from[1], to[0] - from[0]).to_degrees()) } else { 0.0 };
        self.items.extend(patched(middle, turn, &shown));
    }

    /// A letter that stands for the words.
    fn key(&mut self, words: String) -> String {
        let name = letter(self.keyed.len());
        self.keyed.push(format!("{name}: {words}"));
        name
    }
}

/// How far starters drawn under this edge push its label outwards, mm.
fn starters_below(sheet: &Sheet, [from, to]: [Point; 2], view: &View) -> f64 {
    let is_low_edge = (from[1] - to[1]).abs() < 1e-6 && from[0] < to[0];
    if is_low_edge { starters::depth_below(sheet, view.scale, from[1]) } else { 0.0 }
}

/// `off` mm outside the middle of an edge. On paper, y down, the plane lies at the left of its edges as walked.
fn outside([from, to]: [Point; 2], off: f64) -> Point {
    let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    let long = libm::hypot(dx, dy);
    [(from[0] + to[0]) / 2.0 - dy / long * off, (from[1] + to[1]) / 2.0 + dx / long * off]
}

/// The same direction, readable from below or from the right.
fn upright(turn: f64) -> f64 {
    let half_turns = if turn >= 90.0 - 1e-9 {
        -180.0
    } else if turn < -90.0 - 1e-9 {
        180.0
    } else {
        0.0
    };
    turn + half_turns
}

/// Words on blank paper, so that they stay readable where another part of the drawing reaches under them.
fn patched(middle: Point, turn: f64, words: &str) -> [Item; 2] {
    let [along, across] = [width(words, SMALL) / 2.0, SMALL / 2.0 + 0.5];
    let [sin, cos] = [libm::sin(turn.to_radians()), libm::cos(turn.to_radians())];
    let corner = |[a, b]: [f64; 2]| [middle[0] + a * cos - b * sin, middle[1] + a * sin + b * cos];
    let corners = [[-along, -across], [along, -across], [along, across], [-along, across]];
    let patch = Item::Shape { rings: vec![corners.map(corner).to_vec()], line: LineType::Unseen, fill: Fill::Paper };
    [patch, centred(middle, turn, words)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lettering_is_never_upside_down() {
        for turn in [-180.0, -135.0, -90.0, -45.0, 0.0, 45.0, 90.0, 135.0, 180.0] {
            let turned = upright(turn);
            assert!((-90.0..90.0).contains(&turned), "{turn} became {turned}");
            assert!(((turned - turn) / 180.0).fract().abs() < 1e-12);
        }
    }
}
