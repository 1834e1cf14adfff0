use plan::Opening;

use super::section::{between, framed, numbered, scale_for};
use crate::{Figure, Fill, Item, LineType, Words};

/// A chimney with its cricket, seen square to the slope; the fall is down the paper.
pub(super) fn draw(opening: &Opening, width: f64, words: &dyn Words) -> Option<Figure> {
    let cricket = opening.cricket.as_ref()?;
    let scale = scale_for(opening.width_in * 1.6, width * 0.6, words)?;
    let [half, high] = [scale.paper(opening.width_in / 2.0), scale.paper(opening.height_in)];
    let back = scale
        .paper(libm::sqrt((cricket.valley_in * cricket.valley_in - opening.width_in * opening.width_in / 4.0).max(0.0)));
    let told = |name: &str, inches: f64| format!("{} {}", words.word(name), words.length(inches));
    let mut items = vec![
        Item::Shape {
            rings: vec![vec![[-half, 0.0], [half, 0.0], [half, high], [-half, high]]],
            line: LineType::PlaneEdge,
            fill: Fill::Hatch,
        },
        Item::Line { points: vec![[-half, 0.0], [0.0, -back], [half, 0.0]], line: LineType::Valley },
        Item::Line { points: vec![[0.0, 0.0], [0.0, -back]], line: LineType::Ridge },
    ];
    items.extend(between([[-half, high + 8.0], [half, high + 8.0]], &words.length(opening.width_in)));
    items.extend(between([[half + 6.0, 0.0], [half + 6.0, high]], &words.length(opening.height_in)));
    items.extend(numbered(1, [-half / 2.0, -back / 2.0], [-half - 6.0, -back * 0.7]));
    items.extend(numbered(2, [0.0, -back * 0.4], [half * 0.9, -back * 0.9]));
    let keyed = vec![
        format!("1  {}", told("cricket valleys", cricket.valley_in)),
        format!("2  {}; {}", told("cricket ridge", cricket.ridge_in), told("cricket height", cricket.height_in)),
    ];
    Some(framed(items, scale, keyed))
}
