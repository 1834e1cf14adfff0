use checks::{Edition, Family, RULES, Rule};
use serde_json::{Value, json};

use super::PrintedAs;
use crate::Ending;
use crate::output::print;
use crate::page::text::Page;

/// List every rule by what part of the work it is about
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// How the list is printed
    #[arg(long, value_enum, default_value_t)]
    format: PrintedAs,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    print(&match arguments.format {
        PrintedAs::Text => list(),
        PrintedAs::Json => format!("{:#}\n", Value::from_iter(RULES.iter().map(figures))),
    })
}

fn list() -> String {
    let mut page = Page::default();
    for family in Family::ALL {
        let rules: Vec<&Rule> = RULES.iter().filter(|rule| rule.family == family).collect();
        if !rules.is_empty() {
            page.title(family.name());
            rules.iter().for_each(|rule| page.wrapped(2, &told(rule)));
            page.blank();
        }
    }
    page.wrapped(0, "`headlap explain RULE` tells what one finds, why it matters, what to do, and where it comes from.");
    page.finished()
}

fn told(rule: &Rule) -> String {
    let memory = if rule.read_source() { "" } else { ", source not read" };
    format!("{} ({}{memory})", rule.name, rule.kind.name())
}

fn figures(rule: &Rule) -> Value {
    let editions: Vec<&str> = rule.reading.editions().iter().copied().map(Edition::name).collect();
    json!({
        "rule": rule.name,
        "title": rule.title(),
        "kind": rule.kind.name(),
        "family": rule.family.name(),
        "endangers": rule.endangers.iter().map(|danger| danger.name()).collect::<Vec<_>>(),
        "source": rule.source(),
        "remedy": rule.remedy(),
        "read_source": rule.read_source(),
        "read_editions": editions,
        "about": rule.about,
        "page": rule.page(),
    })
}
