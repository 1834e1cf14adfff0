use std::fmt;

use crate::{Facts, Outcome, Place};

/// A rule: where it comes from, what it guards, and the page that tells a roofer about it.
#[derive(Clone, Copy)]
pub struct Rule {
    /// Named after the fault, `headlap-too-short`.
    pub name: &'static str,
    /// Who asks for it.
    pub kind: Kind,
    /// What breaking it endangers.
    pub endangers: &'static [Danger],
    /// The source was read, not remembered.
    pub read_source: bool,
    /// Groups of the covering's sheet whose figures it uses.
    pub(crate) groups: &'static [&'static str],
    /// The rule's own file; its doc comment is the page.
    pub(crate) file: &'static str,
    pub(crate) run: fn(&Facts) -> Verdict,
}

/// Who asks for a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A building code.
    Code,
    /// The maker's sheet.
    Maker,
    /// Good practice of the trade.
    Practice,
}

/// What breaking a rule endangers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Danger {
    /// Water comes in.
    Leak,
    /// The maker may refuse.
    Warranty,
    /// The official may refuse.
    Code,
    /// Somebody may be hurt.
    Safety,
}

/// What a rule says of a roof.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Verdict {
    pub(crate) outcome: Outcome,
    pub(crate) says: String,
    pub(crate) places: Vec<Place>,
}

impl Verdict {
    pub(crate) fn not_applicable(says: impl Into<String>) -> Self {
        Self { outcome: Outcome::NotApplicable, says: says.into(), places: Vec::new() }
    }
}

impl Rule {
    /// The page in Markdown.
    #[must_use]
    pub fn page(&self) -> String {
        self.doc().map(|line| format!("{line}\n")).collect()
    }

    /// The fault in words.
    #[must_use]
    pub fn title(&self) -> &'static str {
        self.doc().find_map(|line| line.strip_prefix("# ")).unwrap_or(self.name)
    }

    /// What to do, in one line.
    #[must_use]
    pub fn remedy(&self) -> &'static str {
        self.section("Remedy")
    }

    /// Where the rule comes from, in one line.
    #[must_use]
    pub fn source(&self) -> &'static str {
        self.section("Source")
    }

    fn section(&self, heading: &str) -> &'static str {
        self.lines_under(heading).next().unwrap_or_default()
    }

    /// The lines under a heading of the page; none if there is no such heading.
    pub(crate) fn lines_under(&self, heading: &str) -> impl Iterator<Item = &'static str> {
        self.doc()
            .skip_while(move |line| line.strip_prefix("## ") != Some(heading))
            .skip(1)
            .take_while(|line| !line.starts_with('#'))
    }

    /// Lines of the file's doc comment, which comes first.
    fn doc(&self) -> impl Iterator<Item = &'static str> + use<> {
        self.file.lines().map_while(|line| line.strip_prefix("//!")).map(|line| line.strip_prefix(' ').unwrap_or(line))
    }

    /// A code nobody has read cannot be found kept.
    pub(crate) fn at_best(&self, outcome: Outcome) -> Outcome {
        match outcome {
            Outcome::Pass if self.kind == Kind::Code && !self.read_source => Outcome::Attention,
            _ => outcome,
        }
    }
}

impl Kind {
    /// As it stands in the plan file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Code => "code",
            Self::Maker => "maker",
            Self::Practice => "practice",
        }
    }
}

impl Danger {
    /// As it stands in the plan file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Leak => "leak",
            Self::Warranty => "warranty",
            Self::Code => "code",
            Self::Safety => "safety",
        }
    }
}

/// A rule is its name.
impl PartialEq for Rule {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl fmt::Debug for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RULE: Rule = Rule {
        name: "nail-bent",
        kind: Kind::Code,
        endangers: &[Danger::Leak],
        read_source: false,
        groups: &[],
        file: "//! # Nail bent\n//!\n//! ## Remedy\n//! Draw it.\n//! ## Source\n//! A book.\n\nuse x;\n//! # Not this\n",
        run: |_| Verdict::not_applicable(""),
    };

    #[test]
    fn the_doc_comment_is_the_page() {
        assert_eq!(RULE.page(), "# Nail bent\n\n## Remedy\nDraw it.\n## Source\nA book.\n");
        assert_eq!(
            [RULE.title(), RULE.remedy(), RULE.source(), RULE.section("Colour")],
            ["Nail bent", "Draw it.", "A book.", ""]
        );
    }

    #[test]
    fn a_code_that_was_not_read_is_at_best_looked_at() {
        assert_eq!(RULE.at_best(Outcome::Pass), Outcome::Attention);
        assert_eq!(RULE.at_best(Outcome::Fail), Outcome::Fail);
        assert_eq!(Rule { read_source: true, ..RULE }.at_best(Outcome::Pass), Outcome::Pass);
        assert_eq!(Rule { kind: Kind::Maker, ..RULE }.at_best(Outcome::Pass), Outcome::Pass);
    }
}
