use drawings::Detail;

use super::desk::Desk;
use crate::content::{Block, Picture, Sheet};

/// Between two details side by side, mm.
const BETWEEN: f64 = 8.0;

/// What cannot be seen on the sheets of planes, drawn for this roof.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let width = (desk.room()[0] - BETWEEN) / 2.0;
    let details = drawings::details(&desk.plan, width, desk.tongue);
    if details.is_empty() {
        return Vec::new();
    }
    let drawn = details.iter().enumerate().map(|(index, detail)| one(desk, index, detail)).collect();
    vec![desk.sheet(
        "details",
        vec![Block::Words { words: desk.say("details-note") }, Block::Columns { count: 2, blocks: drawn }],
    )]
}

fn one(desk: &Desk, index: usize, detail: &Detail) -> Block {
    let title = desk.with(&format!("detail-{}", detail.name), &[("of", desk.words(&detail.of).into())]);
    let alt = desk.with("details-alt", &[("title", title.as_str().into())]);
    let scale = drawings::Words::scale(desk.tongue, detail.figure.scale);
    let picture = Picture::of(&format!("detail-{index}"), &detail.figure, alt, String::new());
    let mut blocks = vec![Block::Heading { words: format!("{title}  ({scale})") }, Block::Figure(picture)];
    blocks.push(Block::Key { items: detail.figure.keyed.clone() });
    Block::Together { blocks }
}
