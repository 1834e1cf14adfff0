//! What is written on a sheet, and the paper it takes.

use drawings::{Anchor, Item, Scene, Text};

pub(crate) fn texts(scene: &Scene) -> impl Iterator<Item = &Text> {
    scene.items.iter().filter_map(|item| if let Item::Text(text) = item { Some(text) } else { None })
}

/// Left, top, right and bottom of lettering that is level or reads upwards, with letters of a middling width.
pub(crate) fn extent(text: &Text) -> [f64; 4] {
    let width = text.words.chars().count() as f64 * text.cap * if text.strong { 0.8 } else { 0.75 };
    let before = match text.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => width / 2.0,
        Anchor::End => width,
    };
    let [x, y] = text.at;
    if text.turn == 0.0 {
        [x - before, y - text.cap, x - before + width, y]
    } else {
        assert!((text.turn + 90.0).abs() < 1e-9, "{} is turned by {}", text.words, text.turn);
        [x - text.cap, y + before - width, x, y + before]
    }
}

pub(crate) fn overlap(a: [f64; 4], b: [f64; 4]) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}
