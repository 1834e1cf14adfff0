use crate::lettering::{SMALL, small};
use crate::{Anchor, Fill, Item, LineType, Point, Scale, Words};
use units::Length;

/// Room for the bar and its words, mm.
pub(crate) const ROOM: [f64; 2] = [85.0, 10.0];

/// A bar of the largest round length that takes at most 45 mm of paper, in four parts of black and white; `at` is the left end of
/// its foot.
pub(crate) fn draw(scale: Scale, [left, base]: Point, words: &dyn Words) -> Vec<Item> {
    let (unit, inches) = if words.is_metric() { ("m", Length::metres(1.0).to_inches()) } else { ("ft", 12.0) };
    let rounds = [1000, 500, 400, 200, 100, 80, 40, 20, 10, 8, 4, 2];
    let long = rounds.into_iter().find(|&long| scale.paper(f64::from(long) * inches) <= 45.0).unwrap_or(1);
    let part = scale.paper(f64::from(long) * inches) / 4.0;
    let mut items: Vec<Item> =
        (0..4).map(|index| bar_part([left + f64::from(index) * part, base - 1.5], part, index % 2 == 0)).collect();
    items.push(small(
        [left + 4.0 * part + 2.0, base - 0.2],
        Anchor::Start,
        format!("{long} {unit} {} {}", words.word("at"), words.scale(scale)),
    ));
    items
}

fn bar_part([left, top]: Point, width: f64, black: bool) -> Item {
    let right = left + width;
    Item::Shape {
        rings: vec![vec![[left, top], [right, top], [right, top + SMALL / 2.0], [left, top + SMALL / 2.0]]],
        line: LineType::Piece,
        fill: if black { Fill::Ink } else { Fill::Paper },
    }
}
