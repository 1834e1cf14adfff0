use std::fmt;

use crate::tally::counted;
use crate::text::Text;
use crate::{Edition, Facts, Family, Outcome, Place, Reading};

/// A rule: where it comes from, what it guards, and the page that tells a roofer about it.
#[derive(Clone, Copy)]
pub struct Rule {
    /// Named after the fault, `headlap-too-short`.
    pub name: &'static str,
    /// Who asks for it.
    pub kind: Kind,
    /// What part of the work it is about.
    pub family: Family,
    /// What breaking it endangers.
    pub endangers: &'static [Danger],
    /// How well its source is known.
    pub reading: Reading,
    /// Path in the job file of what it is about, and where its findings stand that point at no plane: `fastener.length`.
    pub about: &'static str,
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
    /// What it rests on, where the rule has several texts; none for the rule's own source.
    pub(crate) text: Option<Text>,
}

impl Verdict {
    pub(crate) fn new(outcome: Outcome, says: impl Into<String>) -> Self {
        Self { outcome, says: says.into(), places: Vec::new(), text: None }
    }

    pub(crate) fn not_applicable(says: impl Into<String>) -> Self {
        Self::new(Outcome::NotApplicable, says)
    }

    pub(crate) fn pass(says: impl Into<String>) -> Self {
        Self::new(Outcome::Pass, says)
    }

    pub(crate) fn attention(says: impl Into<String>) -> Self {
        Self::new(Outcome::Attention, says)
    }

    /// A pass or a failure.
    pub(crate) fn judged(is_kept: bool, says: impl Into<String>) -> Self {
        Self::new(if is_kept { Outcome::Pass } else { Outcome::Fail }, says)
    }

    /// Of values that are all needed, the job lacks these: `[site] code`.
    pub(crate) fn missing(keys: &[&str]) -> Self {
        Self::not_applicable(format!("The job does not give {}.", keys.join(" and ")))
    }

    /// A sheet that says nothing about it.
    pub(crate) fn not_in_sheet(what: &str) -> Self {
        Self::not_applicable(format!("The covering's sheet does not give {what}."))
    }

    /// Something found at places, which are counted if there are several.
    pub(crate) fn found(outcome: Outcome, says: String, places: Vec<Place>) -> Self {
        Self::new(outcome, counted(says, places.len())).at(places)
    }

    pub(crate) fn at(self, places: Vec<Place>) -> Self {
        Self { places, ..self }
    }

    pub(crate) fn by(self, text: Option<Text>) -> Self {
        Self { text, ..self }
    }

    /// Where a rule only wants somebody to look, there is no failure.
    pub(crate) fn looked_at(self) -> Self {
        let outcome = if self.outcome == Outcome::Fail { Outcome::Attention } else { self.outcome };
        Self { outcome, ..self }
    }

    /// Where something was left out of the reckoning, there is no pass.
    pub(crate) fn at_best_attention(self) -> Self {
        let outcome = if self.outcome == Outcome::Pass { Outcome::Attention } else { self.outcome };
        Self { outcome, ..self }
    }
}

/// The keys whose values are absent.
pub(crate) fn absent<'a>(wanted: &[(bool, &'a str)]) -> Vec<&'a str> {
    wanted.iter().filter(|(given, _)| !given).map(|(_, key)| *key).collect()
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

    /// A code whose text in force was not read cannot be found kept.
    pub(crate) fn at_best(&self, outcome: Outcome, reading: Reading, code: Option<Edition>) -> Outcome {
        match outcome {
            Outcome::Pass if self.kind == Kind::Code && !reading.covers(code) => Outcome::Attention,
            _ => outcome,
        }
    }

    /// What a finding by a code says of the edition.
    pub(crate) fn edition_note(&self, outcome: Outcome, reading: Reading, code: Option<Edition>) -> String {
        let is_code = self.kind == Kind::Code && outcome != Outcome::NotApplicable;
        match code {
            _ if !is_code => String::new(),
            None => " The job names no edition of the code, [site] code.".into(),
            Some(_) if reading.covers(code) => String::new(),
            Some(edition) => format!(" The text of the {} edition was not read.", edition.name()),
        }
    }

    /// The source was read, not remembered; of a code, in some edition.
    #[must_use]
    pub const fn read_source(&self) -> bool {
        self.reading.is_read()
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
        family: Family::Fastening,
        endangers: &[Danger::Leak],
        reading: Reading::In(&[Edition::Of2018]),
        about: "fastener",
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
    fn a_code_whose_edition_was_not_read_is_at_best_looked_at() {
        let at_best = |kind, reading, code| Rule { kind, ..RULE }.at_best(Outcome::Pass, reading, code);
        let [old, new] = [Some(Edition::Of2018), Some(Edition::Of2021)];
        assert_eq!(at_best(Kind::Code, RULE.reading, old), Outcome::Pass);
        assert_eq!(at_best(Kind::Code, RULE.reading, new), Outcome::Attention);
        assert_eq!(at_best(Kind::Code, RULE.reading, None), Outcome::Attention);
        assert_eq!(at_best(Kind::Code, Reading::Memory, old), Outcome::Attention);
        assert_eq!(at_best(Kind::Maker, Reading::Memory, None), Outcome::Pass);
        assert_eq!(RULE.at_best(Outcome::Fail, Reading::Memory, None), Outcome::Fail);
    }

    #[test]
    fn a_finding_says_what_edition_it_is_by() {
        let note = |code| RULE.edition_note(Outcome::Pass, RULE.reading, code);
        assert_eq!(note(Some(Edition::Of2018)), "");
        assert_eq!(note(Some(Edition::Of2024)), " The text of the 2024 edition was not read.");
        assert_eq!(note(None), " The job names no edition of the code, [site] code.");
        assert_eq!(RULE.edition_note(Outcome::NotApplicable, RULE.reading, None), "");
    }
}
