use std::ops::Range;

use crate::mistake::{Mistake, Text, line_at};
use crate::node::Node;

/// Where every value of a text stands, found by paths such as `block[0].edges[2].eave`.
///
/// A path that leads nowhere gives the place of the nearest parent that exists.
#[derive(Debug, Clone)]
pub struct Places {
    root: Node,
    /// Where each line of the text ends.
    line_ends: Vec<usize>,
    /// Paths are counted from here; nothing for the whole text.
    base: String,
}

impl Places {
    pub(crate) fn new(text: &Text, mut root: Node) -> Self {
        root.number(0);
        Self { root, line_ends: text.line_ends.clone(), base: String::new() }
    }

    pub(crate) fn root(&self) -> &Node {
        &self.root
    }

    /// The places of a table within the text: paths are counted from there, and mistakes tell them whole.
    #[must_use]
    pub fn below(&self, path: &str) -> Self {
        Self { base: self.whole(path), ..self.clone() }
    }

    fn whole(&self, path: &str) -> String {
        match (self.base.as_str(), path) {
            ("", path) => path.into(),
            (base, "") => base.into(),
            (base, path) => format!("{base}.{path}"),
        }
    }

    /// The bytes of the value at a path; for a TOML table under a header, those of the header. `None` if nothing of
    /// the path exists.
    #[must_use]
    pub fn span(&self, path: &str) -> Option<Range<usize>> {
        let mut node = &self.root;
        for step in steps(&self.whole(path)) {
            let below = match step {
                Step::Key(key) => node.get(key),
                Step::Item(index) => node.item(index),
            };
            let Some(below) = below else { break };
            node = below;
        }
        (node.id != 0).then(|| node.span.clone())
    }

    /// The line of the value at a path, counted from 1.
    #[must_use]
    pub fn line(&self, path: &str) -> Option<usize> {
        self.span(path).map(|span| line_at(&self.line_ends, span.start))
    }

    /// A mistake about the value at a path.
    #[must_use]
    pub fn mistake(&self, path: &str, says: impl Into<String>, remedy: impl Into<String>) -> Mistake {
        let span = self.span(path).unwrap_or(0..0);
        let line = line_at(&self.line_ends, span.start);
        let line_end = self.line_ends.get(line - 1).copied().unwrap_or(span.end);
        let span = span.start..span.end.min(line_end);
        Mistake { span, line, path: self.whole(path), says: says.into(), remedy: remedy.into() }
    }
}

enum Step<'a> {
    Key(&'a str),
    Item(usize),
}

/// `a.b[2]` is the key a, the key b, the item 2.
fn steps(path: &str) -> impl Iterator<Item = Step<'_>> {
    path.split(['.', '[']).filter(|step| !step.is_empty()).map(|step| {
        match step.strip_suffix(']').and_then(|index| index.parse().ok()) {
            Some(index) => Step::Item(index),
            None => Step::Key(step),
        }
    })
}

#[cfg(test)]
mod tests {
    use crate::{Format, Read, read};

    #[test]
    fn a_path_leads_to_its_text() {
        let text = "name = \"x\"\n[[block]]\nedges = [{ eave = 8 }, { eave = 9 }]\n[[block]]\n";
        let Read { places, .. } = read::<serde::de::IgnoredAny>(text, Format::Toml);
        let shown = |path| places.span(path).map(|span| &text[span]);
        assert_eq!(shown("name"), Some("\"x\""));
        assert_eq!(shown("block[1]"), Some("[[block]]"));
        assert_eq!(shown("block[0].edges[1].eave"), Some("9"));
        assert_eq!(shown("block[0].edges[1].wall"), Some("{ eave = 9 }"));
        assert_eq!(shown("nowhere"), None);
        assert_eq!(places.line("block[0].edges[1].eave"), Some(3));
        assert_eq!(places.line("block[1].edges"), Some(4));
        assert_eq!(places.mistake("block[1]", "", "").line, 4);
    }

    #[test]
    fn a_path_is_counted_from_a_table_within() {
        let text = "name = \"x\"\n[[block]]\nedges = [{ eave = 8 }, { eave = 9 }]\n";
        let Read { places, .. } = read::<serde::de::IgnoredAny>(text, Format::Toml);
        let within = places.below("block[0]");
        assert_eq!(within.span("edges[1].eave").map(|span| &text[span]), Some("9"));
        let mistake = within.below("edges[1]").mistake("eave", "", "");
        assert_eq!((mistake.path.as_str(), mistake.line), ("block[0].edges[1].eave", 3));
        assert_eq!(within.mistake("", "", "").path, "block[0]");
    }
}
