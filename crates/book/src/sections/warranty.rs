use super::checks::outcome;
use super::desk::Desk;
use crate::content::{Block, Column, Sheet, Table};

/// On one page: what the maker may hold against the roof, and how it stands.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let holds = |check: &&plan::Check| check.endangers.contains(&"warranty") && check.outcome != "not-applicable";
    let mut checks: Vec<&plan::Check> = desk.plan.checks.iter().filter(holds).collect();
    // The gravest first; otherwise in the order of the rules.
    checks.sort_by_key(|check| ["fail", "attention", "pass"].iter().position(|outcome| *outcome == check.outcome));
    if checks.is_empty() {
        return Vec::new();
    }
    let row = |check: &&plan::Check| {
        vec![
            outcome(desk, check.outcome),
            desk.tongue.titled(check.rule, check.title),
            desk.tongue.remedy(check.rule, check.remedy),
        ]
    };
    let columns = vec![
        Column::left(desk.say("checks-outcome")),
        Column::wide(desk.say("warranty-voids"), 2),
        Column::wide(desk.say("warranty-keeps"), 4),
    ];
    let rows = checks.iter().map(row).collect();
    let blocks = vec![Block::Words { words: desk.say("warranty-note") }, Block::Table(Table { columns, rows, size: 8.5 })];
    vec![desk.sheet("warranty", blocks)]
}
