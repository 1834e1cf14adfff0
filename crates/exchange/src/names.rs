//! Names that people and files can carry.

use std::collections::BTreeSet;

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
pub(crate) struct Names(BTreeSet<String>);

impl Names {
    /// `wanted` if it is free, else with the first free number behind it.
    pub(crate) fn unlike_others(&mut self, wanted: &str, fallback: &str) -> String {
        let plain = plain(wanted);
        let base = if plain.is_empty() { fallback.to_owned() } else { plain };
        let numbered = (2..).map(|number| format!("{base} {number}"));
        let free = std::iter::once(base.clone()).chain(numbered).find(|name| !self.0.contains(name)).unwrap_or(base);
        self.0.insert(free.clone());
        free
    }
}

/// At most five of many, to show.
pub(crate) fn some_of(names: &[String]) -> String {
    let shown = names.iter().take(5).map(|name| plain(name)).collect::<Vec<_>>().join(", ");
    if names.len() > 5 { format!("{shown} and {} more", names.len() - 5) } else { shown }
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
