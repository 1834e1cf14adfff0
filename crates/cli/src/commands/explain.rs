use checks::{Edition, RULES, Rule};

use crate::Ending;
use crate::note::Note;
use crate::output::{print, tell};

/// Print the page of one rule: what it finds, why it matters, remedy, source
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The rule's name, such as headlap-too-short
    rule: String,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    match RULES.iter().find(|rule| rule.name == arguments.rule) {
        Some(rule) => print(&page(rule)),
        None => {
            tell(&[unknown(&arguments.rule)]);
            Ending::Unread
        }
    }
}

/// The rule's own page, and what is known of it without the page.
fn page(rule: &Rule) -> String {
    let dangers: Vec<&str> = rule.endangers.iter().map(|danger| danger.name()).collect();
    let editions: Vec<&str> = rule.reading.editions().iter().copied().map(Edition::name).collect();
    let read = match (rule.read_source(), editions.is_empty()) {
        (false, _) => "The source was not read; it is known from memory or not published.".to_owned(),
        (true, true) => "The source was read.".to_owned(),
        (true, false) => format!("Read in the edition of {}; others are taken to say the same.", editions.join(", ")),
    };
    let (kind, family) = (rule.kind.name(), rule.family.name());
    format!("{}\n{}: {kind}, {family}; endangers: {}.\n{read}\n", rule.page(), rule.name, dangers.join(", "))
}

fn unknown(rule: &str) -> Note {
    let remedy = match reader::nearest(rule, RULES.iter().map(|rule| rule.name)) {
        Some(meant) => format!("Did you mean {meant}?"),
        None => "`headlap rules` lists them.".to_owned(),
    };
    Note::plain(format!("no rule is called {}", reader::quoted(rule)), remedy)
}
