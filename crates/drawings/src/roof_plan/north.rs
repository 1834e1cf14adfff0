use crate::lettering::{LARGE, strong};
use crate::{Anchor, Fill, Item, LineType, Point};

/// Room for the arrow however it is turned, mm.
pub(crate) const SIZE: f64 = 24.0;
/// From the middle to the tip and to the tail, mm.
const HALF: f64 = 7.5;

/// An arrow whose right half is black, about the middle of its room; `turn` is the direction of north, degrees clockwise from up.
pub(crate) fn draw([left, top]: Point, turn: f64, letter: &str) -> Vec<Item> {
    let middle = [left + SIZE / 2.0, top + SIZE / 2.0];
    let [sin, cos] = [libm::sin(turn.to_radians()), libm::cos(turn.to_radians())];
    let at = |[x, y]: Point| [middle[0] + x * cos - y * sin, middle[1] + x * sin + y * cos];
    let half = |side: f64| vec![at([0.0, -HALF]), at([side * 2.6, HALF]), at([0.0, HALF * 0.6])];
    let shape = |side: f64, fill: Fill| Item::Shape { rings: vec![half(side)], line: LineType::Piece, fill };
    let [x, y] = at([0.0, -HALF - 2.6]);
    vec![shape(-1.0, Fill::Paper), shape(1.0, Fill::Ink), strong([x, y + LARGE / 2.0], LARGE, Anchor::Middle, letter)]
}
