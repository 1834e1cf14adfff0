use plan::Plane;

use crate::lettering::{SMALL, centred, small, width};
use crate::page::Page;
use crate::{Anchor, Figure, Fill, Item, LineType, Point, Scale, Scene, Words};

/// Radius of a number's ring, mm.
const RING: f64 = 2.6;
/// Middle of words over the line of a dimension, mm: their descenders stay clear of its ticks.
const OVER: f64 = 3.3;

/// A place in a section: inches along it, mm square to it.
pub(super) type Along = [f64; 2];

/// A cut through a roof along a straight line: `v` inches along it, `w` mm square to it.
pub(super) struct Section {
    pub(super) foot: Point,
    /// Degrees up from level.
    pub(super) turn: f64,
    pub(super) scale: Scale,
}

impl Section {
    /// Up the slope of a plane, of so many inches along it, as large as the room allows.
    pub(super) fn up_slope(plane: &Plane, inches: f64, room: f64, words: &dyn Words) -> Option<Self> {
        let turn = libm::atan2(plane.pitch, 12.0).to_degrees();
        let scale = scale_for(inches * libm::cos(turn.to_radians()), room, words)?;
        Some(Self { foot: [0.0, 0.0], turn, scale })
    }

    pub(super) fn at(&self, v: f64, w: f64) -> Point {
        let (sin, cos) = (libm::sin(self.turn.to_radians()), libm::cos(self.turn.to_radians()));
        let along = self.scale.paper(v);
        [self.foot[0] + along * cos - w * sin, self.foot[1] - along * sin - w * cos]
    }

    /// A strip between two heights at its foot and two at its head.
    pub(super) fn band(&self, [from, to]: [f64; 2], foot: [f64; 2], head: [f64; 2], fill: Fill) -> Item {
        let ring = vec![self.at(from, foot[0]), self.at(to, head[0]), self.at(to, head[1]), self.at(from, foot[1])];
        Item::Shape { rings: vec![ring], line: LineType::Piece, fill }
    }

    pub(super) fn line(&self, places: &[[f64; 2]], line: LineType) -> Item {
        Item::Line { points: places.iter().map(|&[v, w]| self.at(v, w)).collect(), line }
    }

    /// A dimension along the section, its words in the middle of it.
    pub(super) fn measure(&self, [from, to]: [f64; 2], w: f64, words: &str) -> Vec<Item> {
        let tick = |v: f64| self.line(&[[v, w - 1.2], [v, w + 1.2]], LineType::Piece);
        let middle = self.at(f64::midpoint(from, to), w + OVER);
        vec![self.line(&[[from, w], [to, w]], LineType::Piece), tick(from), tick(to), centred(middle, -self.turn, words)]
    }

    /// Numbers parts from 1 on: where each lies, where its number stands, and what it is. The numbers with their leaders, and
    /// their key.
    pub(super) fn key(&self, parts: Vec<(Along, Along, String)>) -> (Vec<Item>, Vec<String>) {
        let numbers = (1..)
            .zip(&parts)
            .flat_map(|(number, ([v, w], [to_v, to_w], _))| numbered(number, self.at(*v, *w), self.at(*to_v, *to_w)));
        let keyed = (1..).zip(&parts).map(|(number, (_, _, told))| format!("{number}  {told}"));
        (numbers.collect(), keyed.collect())
    }
}

/// A number in a ring, with a leader to what it stands for.
pub(super) fn numbered(number: usize, part: Point, at: Point) -> Vec<Item> {
    let ring = (0..24).map(|step| f64::from(step) * 15.0_f64.to_radians());
    let ring = ring.map(|turn| [at[0] + RING * libm::cos(turn), at[1] + RING * libm::sin(turn)]).collect();
    vec![
        Item::Line { points: vec![part, at], line: LineType::Piece },
        Item::Shape { rings: vec![ring], line: LineType::Piece, fill: Fill::Paper },
        centred(at, 0.0, number.to_string()),
    ]
}

/// A level or upright dimension between two places on the paper.
pub(super) fn between([from, to]: [Point; 2], words: &str) -> Vec<Item> {
    let is_level = (from[1] - to[1]).abs() < (from[0] - to[0]).abs();
    let tick = |[x, y]: Point| {
        let points = if is_level { vec![[x, y - 1.2], [x, y + 1.2]] } else { vec![[x - 1.2, y], [x + 1.2, y]] };
        Item::Line { points, line: LineType::Piece }
    };
    let [x, y] = [f64::midpoint(from[0], to[0]), f64::midpoint(from[1], to[1])];
    let words =
        if is_level { centred([x, y - OVER], 0.0, words) } else { small([x + 2.0, y + SMALL / 2.0], Anchor::Start, words) };
    vec![Item::Line { points: vec![from, to], line: LineType::Piece }, tick(from), tick(to), words]
}

/// Everything moved into the corner of a figure of its own.
pub(super) fn framed(items: Vec<Item>, scale: Scale, keyed: Vec<String>) -> Figure {
    const BLANK: f64 = 2.0;
    let [left, top, right, base] = bounds(&items);
    let by = [BLANK - left, BLANK - top];
    let page = Page::of_figure([right - left + 2.0 * BLANK, base - top + 2.0 * BLANK]);
    let items = items.into_iter().map(|item| item.shifted(by)).collect();
    Figure { scene: Scene { page, title: String::new(), description: String::new(), items }, scale, keyed }
}

fn bounds(items: &[Item]) -> [f64; 4] {
    let mut all = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    let mut take = |[x, y]: Point| all = [all[0].min(x), all[1].min(y), all[2].max(x), all[3].max(y)];
    for item in items {
        match item {
            Item::Line { points, .. } => points.iter().for_each(|&at| take(at)),
            Item::Shape { rings, .. } => rings.iter().flatten().for_each(|&at| take(at)),
            Item::Text(text) => {
                // However it is turned.
                let long = width(&text.words, text.cap);
                let [back, on] = match text.anchor {
                    Anchor::Start => [0.0, long],
                    Anchor::Middle => [long / 2.0, long / 2.0],
                    Anchor::End => [long, 0.0],
                };
                let (sin, cos) = (libm::sin(text.turn.to_radians()), libm::cos(text.turn.to_radians()));
                for far in [-back, on] {
                    for up in [0.0, text.cap] {
                        take([text.at[0] + far * cos + up * sin, text.at[1] + far * sin - up * cos]);
                    }
                }
            }
        }
    }
    all
}

/// The largest scale at which so many inches find room in so many mm.
pub(super) fn scale_for(inches: f64, room: f64, words: &dyn Words) -> Option<Scale> {
    words.scales().into_iter().find(|scale| scale.paper(inches) <= room)
}
