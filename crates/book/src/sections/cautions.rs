use super::desk::Desk;
use crate::content::{Block, Sheet};

/// The dangers of this roof, before anything else.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let told = desk.plan.cautions.iter().map(|says| Block::Caution { words: desk.words(says) });
    let mut blocks: Vec<Block> = vec![Block::Words { words: desk.say("cautions-defer") }];
    blocks.extend(told);
    blocks.push(Block::Heading { words: desk.say("cautions-walk") });
    blocks.push(Block::List { items: walk(desk) });
    vec![desk.sheet("cautions", blocks)]
}

/// What nobody may step on.
pub(crate) fn walk(desk: &Desk) -> Vec<String> {
    ["walk-courses", "walk-underlayment", "walk-metals", "walk-openings"].iter().map(|name| desk.say(name)).collect()
}
