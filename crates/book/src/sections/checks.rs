use plan::Check;

use super::desk::Desk;
use crate::content::{Block, Column, Sheet, Table};

/// Every rule's outcome with its figures and its source; code, maker and practice apart.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let kinds = [("code", "checks-code"), ("maker", "checks-maker"), ("practice", "checks-practice")];
    let mut sheets: Vec<Sheet> = kinds.iter().filter_map(|(kind, title)| of_kind(desk, kind, title)).collect();
    sheets.extend(not_applicable(desk));
    sheets
}

/// The gravest first.
const OUTCOMES: [&str; 3] = ["fail", "attention", "pass"];

fn of_kind(desk: &Desk, kind: &str, title: &str) -> Option<Sheet> {
    let of =
        |outcome: &'static str| desk.plan.checks.iter().filter(move |check| check.kind == kind && check.outcome == outcome);
    let rows: Vec<Vec<String>> = OUTCOMES.into_iter().flat_map(of).map(|check| row(desk, check)).collect();
    let columns = vec![
        Column::left(desk.say("checks-outcome")),
        Column::wide(desk.say("checks-rule"), 3),
        Column::wide(desk.say("checks-figures"), 6),
        Column::wide(desk.say("checks-source"), 5),
    ];
    let table = Block::Table(Table { columns, rows: rows.clone(), size: 8.5 });
    (!rows.is_empty()).then(|| desk.sheet(title, vec![Block::Words { words: desk.say(&format!("{title}-note")) }, table]))
}

fn row(desk: &Desk, check: &Check) -> Vec<String> {
    let read = if check.read_source { String::new() } else { format!(" {}", desk.say("checks-unread")) };
    vec![
        outcome(desk, check.outcome),
        desk.tongue.titled(check.rule, check.title),
        figures(desk, check),
        format!("{}{read}", check.source),
    ]
}

pub(crate) fn outcome(desk: &Desk, outcome: &str) -> String {
    desk.say(&format!("outcome-{outcome}"))
}

/// What was found; where something must be done, what; who accepts it.
fn figures(desk: &Desk, check: &Check) -> String {
    let mut says = desk.words(&check.says);
    if !check.kept {
        says = format!("{says} {} {}", desk.say("checks-remedy"), desk.tongue.remedy(check.rule, check.remedy));
    }
    match &check.silenced {
        Some(reason) => format!("{says} {}", desk.with("checks-silenced", &[("reason", reason.as_str().into())])),
        None => says,
    }
}

/// Rules that this roof or this job does not meet, each with the reason.
fn not_applicable(desk: &Desk) -> Option<Sheet> {
    let rules = desk.plan.checks.iter().filter(|check| check.outcome == "not-applicable");
    let rows: Vec<Vec<String>> =
        rules.map(|check| vec![desk.tongue.titled(check.rule, check.title), desk.words(&check.says)]).collect();
    let columns = vec![Column::wide(desk.say("checks-rule"), 2), Column::wide(desk.say("checks-why-not"), 3)];
    let table = Block::Table(Table { columns, rows: rows.clone(), size: 7.5 });
    let blocks = vec![
        Block::Words { words: desk.say("checks-not-applicable-note") },
        Block::Columns { count: 2, blocks: vec![table] },
    ];
    (!rows.is_empty()).then(|| desk.sheet("checks-not-applicable", blocks))
}
