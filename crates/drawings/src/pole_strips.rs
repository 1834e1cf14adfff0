//! Story poles in full size, in strips that are cut out and taped end to end.

use plan::{Plan, Pole};

use crate::lettering::{LARGE, SMALL, small, strong, strong_width, width};
use crate::page::Page;
use crate::{Anchor, Figure, Fill, Item, LineType, Point, Scale, Scene, Words};

/// Of pole on one strip, inches.
const STRIP: f64 = 9.0;
/// Width of a strip, mm.
const WIDE: f64 = 17.0;
/// From one strip to the next, mm.
const APART: f64 = 27.0;
/// Tab under the next strip, mm.
const TAB: f64 = 8.0;
/// Room over the strips for the line that proves the print, mm.
const CHECK: f64 = 16.0;
/// Arm of a registration mark, mm.
const CROSS: f64 = 3.0;
const MM: f64 = 25.4;

/// Draws one pole of a plane in full size on as many figures as it takes, each no larger than the room: width and height in mm.
/// Strips are joined at their crosses. None if the plan has no such pole, or if there is no room for a strip.
#[must_use]
pub fn pole_strips(plan: &Plan, plane_id: &str, pole: usize, within: [f64; 2], words: &dyn Words) -> Vec<Figure> {
    let laid = plan.layout.planes.iter().find(|laid| laid.id == plane_id);
    let Some(pole) = laid.and_then(|laid| laid.poles.get(pole)) else { return Vec::new() };
    let rows = ((within[1] - CHECK) / APART).max(0.0) as usize;
    if rows == 0 || within[0] < STRIP * MM + 2.0 * TAB {
        return Vec::new();
    }
    let plane = plan.roof.planes.iter().find(|plane| plane.id == plane_id);
    let title = plane.map_or_else(String::new, |plane| plane.name.clone());
    let strips = Strips { pole, title, words, count: count(pole) };
    let all: Vec<usize> = (0..strips.count).collect();
    all.chunks(rows).map(|shown| strips.figure(within, shown)).collect()
}

/// Strips that reach from zero to the top line.
fn count(pole: &Pole) -> usize {
    (pole.top_in.max(0.1) / STRIP).ceil() as usize
}

struct Strips<'a> {
    pole: &'a Pole,
    /// Of the plane.
    title: String,
    words: &'a dyn Words,
    count: usize,
}

impl Strips<'_> {
    fn figure(&self, within: [f64; 2], shown: &[usize]) -> Figure {
        let mut items = self.check_line([TAB, CHECK - 8.0]);
        for (row, &strip) in shown.iter().enumerate() {
            items.extend(self.strip([TAB, CHECK + APART * row as f64], strip));
        }
        let (title, description) = (self.title.clone(), self.title.clone());
        let scene = Scene { page: Page::of_figure(within), title, description, items };
        Figure { scene, scale: Scale { ratio: 1.0 }, keyed: Vec::new() }
    }

    /// A line whose length anybody can check with a tape.
    fn check_line(&self, [left, y]: Point) -> Vec<Item> {
        let inches = if self.words.is_metric() { 150.0 / MM } else { 6.0 };
        let right = left + inches * MM;
        let tick = |x: f64| Item::Line { points: vec![[x, y - 2.0], [x, y + 2.0]], line: LineType::Course };
        let words = format!("{} {}", self.words.word("check line"), self.words.length(inches));
        vec![
            Item::Line { points: vec![[left, y], [right, y]], line: LineType::Course },
            tick(left),
            tick(right),
            small([right + 3.0, y + SMALL / 2.0], Anchor::Start, words),
        ]
    }

    fn strip(&self, [left, top]: Point, strip: usize) -> Vec<Item> {
        let from = STRIP * strip as f64;
        let to = (from + STRIP).min(self.pole.top_in);
        let x = |inches: f64| left + (inches - from) * MM;
        let [right, base] = [x(to), top + WIDE];
        let is_last = strip + 1 == self.count;
        let mut items = vec![Item::Shape {
            rings: vec![vec![[left, top], [right, top], [right, base], [left, base]]],
            line: LineType::Course,
            fill: Fill::Paper,
        }];
        if !is_last {
            items.push(tab([right, top]));
        }
        items.extend([left, right].iter().flat_map(|&x| [cross([x, top]), cross([x, base])]).flatten());
        items.extend(self.marks(from, to, top, &x));
        let of = format!("{}, {} {} / {}", self.title, self.words.word("strip"), strip + 1, self.count);
        items.push(small([left, base + SMALL + 4.0], Anchor::Start, of));
        items
    }

    /// What of a strip lies about a mark between the lines that cross the whole strip.
    fn between_butts(&self, at: f64, from: f64, to: f64) -> [f64; 2] {
        let butts = || self.pole.marks.iter().map(|mark| mark.butt_in);
        let left = butts().filter(|&butt| butt <= at).fold(from, f64::max);
        let right = butts().filter(|&butt| butt > at).fold(to, f64::min);
        [left, right]
    }

    fn marks(&self, from: f64, to: f64, top: f64, x: &dyn Fn(f64) -> f64) -> Vec<Item> {
        // A mark at the joint of two strips stands on the later one, but the top line ends the last.
        let ends_here = to >= self.pole.top_in;
        let is_here = |inches: f64| from <= inches && (inches < to || (ends_here && inches <= to));
        let mut items = Vec::new();
        for mark in &self.pole.marks {
            let name = |word: &str, inches: f64| {
                let zero = if inches == 0.0 { format!(" ({})", self.words.word("zero")) } else { String::new() };
                [format!("{} {}", self.words.word(word), mark.course + 1), format!("{}{zero}", self.words.length(inches))]
            };
            if is_here(mark.butt_in) {
                items.extend(butt(x(mark.butt_in), x(to), top, &name("butt", mark.butt_in)));
            }
            if let Some(hang) = mark.hang_in.filter(|&hang| is_here(hang)) {
                items.extend(self::hang(x(hang), x(from), top, &name("low butt", hang)));
            }
            if let Some(head) = mark.head_in.filter(|&head| is_here(head)) {
                let clear = self.between_butts(head, from, to).map(x);
                items.extend(self::head(x(head), clear, top, &name("head", head)));
            }
        }
        if is_here(self.pole.top_in) {
            let at = x(self.pole.top_in);
            items.push(Item::Line { points: vec![[at, top], [at, top + WIDE]], line: LineType::PlaneEdge });
            let words = format!("{} {}", self.words.word("top line"), self.words.length(self.pole.top_in));
            items.push(small([at + 2.0, top + WIDE / 2.0 + SMALL / 2.0], Anchor::Start, words));
        }
        items
    }
}

/// Across the whole strip: here the butts of a course stand.
fn butt(x: f64, end: f64, top: f64, [name, mark]: &[String; 2]) -> Vec<Item> {
    let wide = strong_width(name, LARGE).max(width(mark, SMALL));
    let (at, anchor) = beside(x, wide, end);
    vec![
        Item::Line { points: vec![[x, top], [x, top + WIDE]], line: LineType::PlaneEdge },
        strong([at, top + 1.5 + LARGE], LARGE, anchor, name),
        small([at, top + 3.0 + LARGE + SMALL], anchor, mark),
    ]
}

/// Across the upper half, dashed: here the butts stand that hang below the course's line. Nothing else stands to the left; to the
/// right is the line they hang below, and less room.
fn hang(x: f64, start: f64, top: f64, [name, mark]: &[String; 2]) -> Vec<Item> {
    let words = format!("{name}: {mark}");
    let mut items = vec![Item::Line { points: vec![[x, top], [x, top + WIDE / 2.0]], line: LineType::Hidden }];
    if x - 1.5 - width(&words, SMALL) >= start {
        items.push(small([x - 1.5, top + WIDE / 2.0 - 1.5], Anchor::End, words));
    } else {
        let line = |row: f64| [x + 1.5, top + row * (SMALL + 1.0)];
        items.push(small(line(1.0), Anchor::Start, name.clone()));
        items.push(small(line(2.0), Anchor::Start, mark.clone()));
    }
    items
}

/// Across the lower half, dashed: here the heads are chalked. Words stand at one side of it, in two rows where neither side has
/// room for one.
fn head(x: f64, [left, right]: [f64; 2], top: f64, [name, mark]: &[String; 2]) -> Vec<Item> {
    let words = format!("{name}: {mark}");
    let base = top + WIDE - 1.5;
    let mut items = vec![Item::Line { points: vec![[x, top + WIDE / 2.0], [x, top + WIDE]], line: LineType::Hidden }];
    let wide = width(&words, SMALL) + 3.0;
    if x + wide <= right {
        items.push(small([x + 1.5, base], Anchor::Start, words));
    } else if x - wide >= left {
        items.push(small([x - 1.5, base], Anchor::End, words));
    } else {
        let (at, anchor) = beside(x, width(name, SMALL).max(width(mark, SMALL)), right);
        items.push(small([at, base - SMALL - 1.0], anchor, name.clone()));
        items.push(small([at, base], anchor, mark.clone()));
    }
    items
}

/// To the right of a mark, or to its left where the strip ends too soon.
fn beside(x: f64, wide: f64, end: f64) -> (f64, Anchor) {
    if x + 1.5 + wide <= end { (x + 1.5, Anchor::Start) } else { (x - 1.5, Anchor::End) }
}

/// Left on for glue or tape.
fn tab([left, top]: Point) -> Item {
    let [right, base] = [left + TAB - 1.0, top + WIDE];
    Item::Line {
        points: vec![[left, top + 2.0], [right, top + 4.0], [right, base - 4.0], [left, base - 2.0]],
        line: LineType::Piece,
    }
}

/// Where two strips lie on each other.
fn cross([x, y]: Point) -> [Item; 2] {
    [
        Item::Line { points: vec![[x - CROSS, y], [x + CROSS, y]], line: LineType::Piece },
        Item::Line { points: vec![[x, y - CROSS], [x, y + CROSS]], line: LineType::Piece },
    ]
}
