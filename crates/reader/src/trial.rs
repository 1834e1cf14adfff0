use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use serde::de::DeserializeOwned;

use crate::fault::{Fault, Kind, one_of};
use crate::mistake::{self, MOST, Mistake, Text};
use crate::node::{Entry, Node, Value, key_step};
use crate::places::Places;
use crate::walk::Walk;
use crate::{Format, words};

/// How many nodes all readings of one text may visit together, so that a hostile file ends in good time.
const MOST_VISITS: usize = 20_000_000;

/// What the readings of one text have found so far.
pub(crate) struct Trial<'t> {
    text: &'t Text<'t>,
    format: Format,
    root: &'t Node,
    refused: BTreeSet<usize>,
    /// Keys that a table lacks, or has under a misspelt name.
    missing: RefCell<BTreeSet<(usize, &'static str)>>,
    /// By the byte of their key.
    unknown: RefCell<BTreeMap<usize, Mistake>>,
    mistakes: Vec<Mistake>,
}

/// Reads the tree into a `T` again and again, each time past the mistakes of the times before.
pub(crate) fn run<T: DeserializeOwned>(text: &Text, format: Format, places: &Places) -> (Option<T>, Vec<Mistake>) {
    let root = places.root();
    let mut trial = Trial {
        text,
        format,
        root,
        refused: BTreeSet::new(),
        missing: RefCell::default(),
        unknown: RefCell::default(),
        mistakes: Vec::new(),
    };
    if root.is_empty_table() {
        trial.mistakes.push(text.mistake(0..0, "the file has no content", "Begin with the keys named below."));
    }
    for _ in 0..=MOST_VISITS / root.end {
        match T::deserialize(Walk { node: root, trial: &trial }) {
            Ok(value) => return (Some(value), trial.all_mistakes()),
            Err(fault) => {
                if !trial.learn(fault) || trial.mistakes.len() >= MOST {
                    break;
                }
            }
        }
    }
    (None, trial.all_mistakes())
}

impl Trial<'_> {
    pub(crate) fn is_refused(&self, node: usize) -> bool {
        self.refused.contains(&node)
    }

    pub(crate) fn is_missing(&self, table: usize, key: &'static str) -> bool {
        self.missing.borrow().contains(&(table, key))
    }

    /// Notes the keys of a table that its type does not know.
    pub(crate) fn note_unknown(&self, table: usize, entries: &[Entry], known: &'static [&'static str]) {
        for entry in entries.iter().filter(|entry| !known.contains(&entry.key.as_str())) {
            let mut unknown = self.unknown.borrow_mut();
            if unknown.len() >= MOST || unknown.contains_key(&entry.key_span.start) {
                continue;
            }
            unknown.insert(entry.key_span.start, self.unknown_key(table, entry, known));
            let absent = |key: &str| entries.iter().all(|entry| entry.key != key);
            let meant = crate::nearest(&entry.key, known.iter().copied()).filter(|key| absent(key));
            if let Some(key) = known.iter().find(|key| Some(**key) == meant) {
                self.missing.borrow_mut().insert((table, key));
            }
        }
    }

    fn unknown_key(&self, table: usize, entry: &Entry, known: &[&str]) -> Mistake {
        let (_, path) = self.root.find(table);
        let says = format!("the key {} is not known here", words::quoted(&entry.key));
        let mistake = self.text.mistake(entry.key_span.clone(), says, one_of(&entry.key, known));
        Mistake { path: format!("{path}{}", key_step(&path, &entry.key)), ..mistake }
    }

    /// Takes in why a reading stopped; false if reading again would stop at the same place.
    fn learn(&mut self, fault: Fault) -> bool {
        let at = fault.at.unwrap_or(0);
        let (node, path) = self.root.find(at);
        let mistake = match fault.kind {
            Kind::Missing(key) => {
                self.mistakes.push(self.missing_key(node, path, key));
                return self.missing.get_mut().insert((at, key));
            }
            Kind::Follows => None,
            Kind::Wrong { says, remedy } => Some((says, remedy)),
            Kind::Unexpected { expected, found } => Some(self.unexpected(node, &expected, &found)),
        };
        // A whole that is refused after one of its parts was is refused for a stand-in's sake.
        let is_new = self.refused.range(at..node.end).next().is_none() && self.lacks_nothing(node);
        if let Some((says, remedy)) = mistake.filter(|_| is_new) {
            self.mistakes.push(Mistake { path, ..self.text.mistake(node.span.clone(), says, remedy) });
        }
        self.refused.insert(at) && at != 0
    }

    fn lacks_nothing(&self, node: &Node) -> bool {
        self.missing.borrow().range((node.id, "")..(node.end, "")).next().is_none()
    }

    fn missing_key(&self, node: &Node, path: String, key: &str) -> Mistake {
        let remedy = match self.format {
            Format::Toml => format!("Add it: {key} = ..."),
            Format::Json => format!("Add it: \"{key}\": ..."),
        };
        Mistake { path, ..self.text.mistake(node.span.clone(), format!("\"{key}\" is missing here"), remedy) }
    }

    fn unexpected(&self, node: &Node, expected: &str, found: &str) -> (String, String) {
        let typed = &self.text.text[node.span.clone()];
        let remedy = match &node.value {
            Value::Table(_) if expected.starts_with("a list") && typed.starts_with('[') => {
                format!("Write the header with double brackets, [{}], once for each.", words::cut(typed))
            }
            _ => words::how_to_write(expected, self.format),
        };
        (format!("{expected} was expected, this is {found}"), remedy)
    }

    fn all_mistakes(self) -> Vec<Mistake> {
        mistake::in_order(self.mistakes.into_iter().chain(self.unknown.into_inner().into_values()).collect())
    }
}
