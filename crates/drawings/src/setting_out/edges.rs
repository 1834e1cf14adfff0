use plan::Edge;

use super::openings;
use super::sheet::Sheet;
use super::starters;
use super::view::View;
use crate::clear::{Taken, boxed};
use crate::lettering::{SMALL, centred, letter, width};
use crate::ring::crossings;
use crate::{Fill, Item, LineType, Point};

/// Middle of a label from its edge, mm.
const OFF: f64 = 3.3;

/// The plane's boundary with its labels.
pub(crate) struct Edges {
    pub(crate) items: Vec<Item>,
    /// What the letters at short edges stand for.
    pub(crate) keyed: Vec<String>,
    taken: Taken,
    /// The plane on the paper.
    rings: Vec<Vec<Point>>,
}

/// An edge on the paper, with what is written at it.
struct Labelled {
    ends: [Point; 2],
    words: String,
    /// Middle of its label from it, mm.
    off: f64,
}

impl Labelled {
    /// `None` for an edge of no length, or of an opening.
    fn of(sheet: &Sheet, view: &View, ends: [Point; 2], edge: &Edge) -> Option<Self> {
        let words = format!("{} {}", sheet.words.word(edge.kind), sheet.words.length(edge.length_ft * 12.0));
        let labelled = Self { ends: ends.map(|end| view.point(end)), words, off: OFF + starters_below(sheet, ends, view) };
        (labelled.length() > 0.0 && !openings::EDGES.contains(&edge.kind)).then_some(labelled)
    }

    fn length(&self) -> f64 {
        let [from, to] = self.ends;
        libm::hypot(to[0] - from[0], to[1] - from[1])
    }

    fn fits(&self) -> bool {
        width(&self.words, SMALL) + 1.0 <= self.length()
    }

    fn turn(&self) -> f64 {
        let [from, to] = self.ends;
        upright(libm::atan2(to[1] - from[1], to[0] - from[0]).to_degrees())
    }
}

/// Draws the boundary and writes along each edge what it is and how long; edges without room for it get a letter.
pub(crate) fn draw(sheet: &Sheet, view: &View) -> Edges {
    let rings: Vec<Vec<Point>> = sheet.plane.outlines_in.iter().map(|ring| view.points(ring)).collect();
    let items = rings.iter().filter_map(|ring| boundary(ring)).collect();
    let mut edges = Edges { items, keyed: Vec::new(), taken: Taken::default(), rings };
    let labelled = labelled(sheet, view);
    edges.take_boundary();
    edges.take_drawn(sheet, view);
    let short: Vec<Labelled> = labelled.into_iter().filter(|edge| !edges.write(edge)).collect();
    short.into_iter().for_each(|edge| edges.write_letter(edge));
    edges
}

fn labelled(sheet: &Sheet, view: &View) -> Vec<Labelled> {
    let rings = sheet.plane.outlines_in.iter();
    let sides = rings.flat_map(|ring| ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)));
    sides.zip(&sheet.plane.edges).filter_map(|((from, to), edge)| Labelled::of(sheet, view, [from, to], edge)).collect()
}

fn boundary(ring: &[Point]) -> Option<Item> {
    let closing = ring.first().copied();
    let points: Vec<Point> = ring.iter().copied().chain(closing).collect();
    closing.map(|_| Item::Line { points, line: LineType::PlaneEdge })
}

/// Step by which a letter is moved away from its edge and along it until it stands clear of lines and labels, mm.
const STEP: f64 = 1.0;
/// Steps at most.
const STEPS: i32 = 12;

impl Edges {
    /// Whether there is room along the edge.
    fn write(&mut self, edge: &Labelled) -> bool {
        let middle = outside(edge.ends, [0.0, edge.off]);
        let room = label_room(middle, edge.turn(), &edge.words);
        let fits = edge.fits() && self.taken.is_clear(&room);
        if fits {
            self.taken.add(&room);
            self.items.extend(patched(middle, edge.turn(), &edge.words));
        }
        fits
    }

    fn write_letter(&mut self, edge: Labelled) {
        let letter = self.key(edge.words);
        let place =
            |[along, away]: [i32; 2]| outside(edge.ends, [f64::from(along) * STEP, edge.off + f64::from(away) * STEP]);
        let is_clear = |at: &Point| self.taken.is_clear(&label_room(*at, 0.0, &letter));
        // Beside the plane; about a small opening there may only be room on the units.
        let beside = steps().map(place).find(|at| !self.is_on_plane(*at) && is_clear(at));
        let inside = |[along, away]: [i32; 2]| outside(edge.ends, [f64::from(along) * STEP, -OFF - f64::from(away) * STEP]);
        let middle = beside.or_else(|| steps().map(inside).find(is_clear)).unwrap_or_else(|| place([0, 0]));
        self.taken.add(&label_room(middle, 0.0, &letter));
        self.items.extend(patched(middle, 0.0, &letter));
    }

    fn take_boundary(&mut self) {
        let sides = self.rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
        sides.for_each(|(&from, &to)| self.taken.add(&[from, to]));
    }

    /// Numbers of openings, and starters below other edges.
    fn take_drawn(&mut self, sheet: &Sheet, view: &View) {
        openings::rooms(sheet, view).iter().for_each(|room| self.taken.add(room));
        starters::rooms(sheet, view).iter().for_each(|room| self.taken.add(room));
    }

    fn is_on_plane(&self, [x, y]: Point) -> bool {
        let left_of_it = |ring: &Vec<Point>| crossings(ring, y).into_iter().filter(|&crossing| crossing < x).count();
        self.rings.iter().map(left_of_it).sum::<usize>() % 2 == 1
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

/// Steps along an edge and away from it, the fewest in all first.
fn steps() -> impl Iterator<Item = [i32; 2]> {
    let of = |total: i32| (0..=total).flat_map(move |along| [[along, total - along], [-along, total - along]]);
    (0..=STEPS).flat_map(of)
}

/// So far along from the middle of an edge, and so far outside, mm. On paper, y down, the plane lies at the left of its edges as
/// walked.
fn outside([from, to]: [Point; 2], [along, off]: [f64; 2]) -> Point {
    let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    let long = libm::hypot(dx, dy);
    [(from[0] + to[0]) / 2.0 + (dx * along - dy * off) / long, (from[1] + to[1]) / 2.0 + (dy * along + dx * off) / long]
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
    let patch = boxed(middle, [width(words, SMALL), SMALL + 1.0], turn).to_vec();
    [Item::Shape { rings: vec![patch], line: LineType::Unseen, fill: Fill::Paper }, centred(middle, turn, words)]
}

/// The box of a label with some blank paper about it.
fn label_room(middle: Point, turn: f64, words: &str) -> [Point; 4] {
    boxed(middle, [width(words, SMALL) + 1.5, SMALL + 1.0], turn)
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
