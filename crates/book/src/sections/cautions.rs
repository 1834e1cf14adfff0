use super::desk::Desk;
use crate::content::{Block, Sheet};

/// The dangers of this roof, before anything else.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let mut blocks: Vec<Block> = vec![Block::Words { words: desk.say("cautions-defer") }];
    blocks.extend(desk.plan.cautions.iter().map(|says| Block::Caution { words: told(desk, says) }));
    let standing = ["cautions-slippery", "cautions-look"];
    blocks.extend(standing.map(|name| Block::Caution { words: desk.say(name) }));
    blocks.push(Block::Heading { words: desk.say("cautions-walk") });
    blocks.push(Block::List { items: walk(desk) });
    vec![desk.sheet("cautions", blocks)]
}

/// A caution of the plan is what a rule says and what to do.
fn told(desk: &Desk, caution: &str) -> String {
    let rule = desk.plan.checks.iter().find(|check| caution == format!("{} {}", check.says, check.remedy));
    rule.map_or_else(
        || desk.words(caution),
        |check| format!("{} {}", desk.words(&check.says), desk.tongue.remedy(check.rule, check.remedy)),
    )
}

/// What nobody may step on.
pub(crate) fn walk(desk: &Desk) -> Vec<String> {
    ["walk-courses", "walk-underlayment", "walk-metals", "walk-openings"].iter().map(|name| desk.say(name)).collect()
}
