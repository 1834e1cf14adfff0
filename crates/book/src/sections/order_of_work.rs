use plan::Step;

use super::desk::Desk;
use crate::content::{Block, Sheet};

/// The steps of the work, each with what must be seen and, at a hold point, where to sign.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let steps = &desk.plan.details.order_of_work;
    if steps.is_empty() {
        return Vec::new();
    }
    let blocks = steps.iter().enumerate().flat_map(|(index, step)| told(desk, index + 1, step)).collect();
    let columns = Block::Columns { count: 2, blocks };
    vec![desk.sheet("order-of-work", vec![Block::Words { words: desk.say("order-of-work-note") }, columns])]
}

fn told(desk: &Desk, number: usize, step: &Step) -> Vec<Block> {
    let mut blocks = vec![
        Block::Heading { words: format!("{number}  {}", desk.words(step.title)) },
        Block::Boxes { items: step.see.iter().map(|says| desk.words(says)).collect() },
        Block::Words { words: desk.with("step-photo", &[("photo", desk.words(&step.photo).into())]) },
    ];
    let who = desk.words(step.who);
    if step.hold_point {
        blocks.push(Block::Sign { lines: vec![desk.with("step-hold", &[("who", who.into())])], fields: fields(desk) });
    } else {
        blocks.push(Block::Words { words: desk.with("step-who", &[("who", who.into())]) });
    }
    blocks
}

/// What everyone who signs fills in.
pub(crate) fn fields(desk: &Desk) -> Vec<String> {
    vec![desk.say("sign-name"), desk.say("sign-signature"), desk.say("sign-date")]
}
