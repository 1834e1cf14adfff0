//! Names that people and files can carry.

use std::collections::{BTreeMap, BTreeSet};

/// Longer names are cut.
const LONGEST: usize = 60;

/// One line of ordinary characters, at most 60.
pub(crate) fn plain(name: &str) -> String {
    let spaced: String = name.chars().take(4 * LONGEST).map(|c| if c.is_control() { ' ' } else { c }).collect();
    let words: Vec<&str> = spaced.split_whitespace().collect();
    words.join(" ").chars().take(LONGEST).collect::<String>().trim_end().to_owned()
}

/// Names that were given already.
#[derive(Debug, Default)]
pub(crate) struct Names {
    given: BTreeSet<String>,
    /// The last number that was tried behind a name, so that many of one name take no long search.
    numbers: BTreeMap<String, usize>,
}

impl Names {
    /// `wanted` if it is free, else with the first free number behind it.
    pub(crate) fn unlike_others(&mut self, wanted: &str, fallback: &str) -> String {
        let plain = plain(wanted);
        let base = if plain.is_empty() { fallback.to_owned() } else { plain };
        let number = self.numbers.entry(base.clone()).or_insert(1);
        let mut free = base.clone();
        while !self.given.insert(free.clone()) {
            *number += 1;
            free = format!("{base} {number}");
        }
        free
    }
}

/// At most five of many, to show; names have commas in them.
pub(crate) fn some_of(names: &[String]) -> String {
    first_of(names, 5)
}

/// At most thirty, to choose from.
pub(crate) fn choice_of(names: &[String]) -> String {
    first_of(names, 30)
}

fn first_of(names: &[String], most: usize) -> String {
    let shown = names.iter().take(most).map(|name| plain(name)).collect::<Vec<_>>().join("; ");
    if names.len() > most { format!("{shown} and {} more", names.len() - most) } else { shown }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_differ_and_fit_a_line() {
        let mut names = Names::default();
        assert_eq!(names.unlike_others(" barn\n\u{7}", "x"), "barn");
        assert_eq!(names.unlike_others("barn", "x"), "barn 2");
        assert_eq!(names.unlike_others("\t", "house"), "house");
        assert_eq!(names.unlike_others(&"é".repeat(500), "x").chars().count(), LONGEST);
    }
}
