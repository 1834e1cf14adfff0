use super::desk::Desk;
use super::order_of_work::fields;
use crate::content::{Block, Sheet};

/// Lines for those who answer for the roof.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let holds = desk.plan.details.order_of_work.iter().filter(|step| step.hold_point);
    let seen = |step: &plan::Step| {
        desk.with("sign-off-hold", &[("step", desk.words(step.title).into()), ("who", desk.words(step.who).into())])
    };
    let holds: Vec<String> = holds.map(seen).collect();
    let people = ["sign-crew-lead", "sign-contractor", "sign-official", "sign-owner"].iter().map(|name| desk.say(name));
    let blocks = vec![
        Block::Words { words: desk.say("sign-off-note") },
        Block::Beside {
            left: vec![
                Block::Heading { words: desk.say("sign-off-holds") },
                Block::Sign { lines: holds, fields: fields(desk) },
            ],
            right: vec![
                Block::Heading { words: desk.say("sign-off-people") },
                Block::Sign { lines: people.collect(), fields: fields(desk) },
            ],
        },
    ];
    vec![desk.sheet("sign-off", blocks)]
}
