//! What is said, in the reader's language and measures. Every word of the book stands in `text/en.ftl` and `text/es.ftl`; what the
//! app says beyond it, in `text/screens-en.ftl` and `text/screens-es.ftl`.

use drawings::{English, Words};
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use units::Length;

use crate::BookError;
use crate::measure::Measures;
use crate::phrases::{Phrases, SAID};

/// The language that a book is printed in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Language {
    /// English of the United States.
    English,
    /// Spanish as crews in the United States speak it.
    Spanish,
}

impl Language {
    /// As BCP 47 has it: `en`, `es`.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
        }
    }

    const fn texts(self) -> [&'static str; 2] {
        match self {
            Self::English => [include_str!("../text/en.ftl"), include_str!("../text/screens-en.ftl")],
            Self::Spanish => [include_str!("../text/es.ftl"), include_str!("../text/screens-es.ftl")],
        }
    }
}

/// Says everything in one language and in one kind of measures.
pub(crate) struct Tongue {
    pub(crate) measures: Measures,
    bundle: FluentBundle<FluentResource>,
    phrases: Phrases,
}

impl Tongue {
    pub(crate) fn new(language: Language, measures: Measures) -> Result<Self, BookError> {
        Ok(Self { measures, bundle: bundle(language)?, phrases: Phrases::new(&resources(Language::English)?) })
    }

    /// A message without values.
    pub(crate) fn say(&self, name: &str) -> String {
        self.with(name, &[])
    }

    /// A message with its values.
    pub(crate) fn with(&self, name: &str, values: &[(&str, Value)]) -> String {
        let mut args = FluentArgs::new();
        for (name, value) in values {
            args.set(*name, FluentValue::from(value.clone()));
        }
        let pattern = self.bundle.get_message(name).and_then(|message| message.value());
        // A test proves that no message is missing in any language.
        let Some(pattern) = pattern else { return format!("«{name}»") };
        self.bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned()
    }

    fn has(&self, name: &str) -> bool {
        self.bundle.get_message(name).is_some()
    }

    /// The title of a rule, by its name; as the plan has it where this language has no form of it.
    pub(crate) fn titled(&self, rule: &str, title: &str) -> String {
        let name = format!("rule-{rule}");
        if self.has(&name) { self.say(&name) } else { title.to_owned() }
    }

    /// What keeps a rule, by its name; as the plan has it where this language has no form of it.
    pub(crate) fn remedy(&self, rule: &str, remedy: &str) -> String {
        let name = format!("remedy-{rule}");
        if self.has(&name) { self.say(&name) } else { remedy.to_owned() }
    }

    /// A key of the job file, or a word that stands for a value of one; as it is typed where this language has no form of it.
    pub(crate) fn typed(&self, sort: &str, word: &str) -> String {
        let plain = word.replace(['_', '-'], " ");
        let name = format!("{sort}-{}", plain.replace(' ', "-"));
        if self.has(&name) { self.say(&name) } else { plain }
    }

    /// What a plan says in English, if the book knows the phrase; lengths in it in the reader's measures.
    pub(crate) fn known(&self, says: &str) -> Option<String> {
        self.phrases.find(says).find_map(|(phrase, values, stop)| {
            let say = |(name, value): &(String, String)| Some((name.clone(), Value::Words(self.value(name, value)?)));
            let values: Vec<(String, Value)> = values.iter().map(say).collect::<Option<_>>()?;
            let values: Vec<(&str, Value)> = values.iter().map(|(name, value)| (name.as_str(), value.clone())).collect();
            Some(self.with(phrase, &values) + stop)
        })
    }

    fn value(&self, name: &str, says: &str) -> Option<String> {
        if name.starts_with(SAID) { self.known(says) } else { Some(self.local(says)) }
    }

    /// As [`Self::known`]; a list of what is known; a length in the reader's measures; names of planes and places, one or several; what
    /// is none of these, as it stands.
    pub(crate) fn local(&self, says: &str) -> String {
        if let Some(known) = self.listed(says).or_else(|| self.known(says)) {
            return known;
        }
        match says.parse::<Length>() {
            Ok(length) if says.ends_with(['"', '\'']) => self.length_like(says, length),
            _ => says.split("; ").map(|name| self.place(name)).collect::<Vec<_>>().join("; "),
        }
    }

    /// What stands between semicolons and is no sentence, if all of it is known; a phrase could take more than one of them for a
    /// value.
    fn listed(&self, says: &str) -> Option<String> {
        if !says.contains("; ") || says.ends_with('.') {
            return None;
        }
        let known: Option<Vec<String>> = says.split("; ").map(|one| self.known(one)).collect();
        known.map(|known| known.join("; "))
    }

    fn length_like(&self, says: &str, length: Length) -> String {
        match self.measures {
            Measures::Customary => says.to_owned(),
            Measures::Metric => self.measures.long(length.to_inches()),
        }
    }

    /// A place of the plan: what lies there, then the planes, `apron, headwall, house, south / wing, east`.
    fn place(&self, says: &str) -> String {
        let mut rest = says;
        let mut what = String::new();
        while let Some((first, more)) = rest.split_once(", ") {
            let Some(known) = self.known(first) else { break };
            what += &format!("{known}, ");
            rest = more;
        }
        let planes: Vec<String> = rest.split(" / ").map(|name| self.plane(name)).collect();
        what + &planes.join(" / ")
    }

    /// The name of a plane, of which the program made what follows the last comma.
    pub(crate) fn plane(&self, name: &str) -> String {
        let mut rest = name;
        let mut sides = Vec::new();
        while let Some((block, side)) = rest.rsplit_once(", ") {
            let Some(side) = self.side(side) else { break };
            sides.push(side);
            rest = block;
        }
        // A plane that somebody measured by itself may be named by its side alone.
        if sides.is_empty()
            && let Some(side) = self.known(rest)
        {
            return side;
        }
        sides.iter().rev().fold(rest.to_owned(), |name, side| format!("{name}, {side}"))
    }

    /// Where it faces, with a number where several planes of a block face there.
    fn side(&self, side: &str) -> Option<String> {
        let numbered = side.rsplit_once(' ').filter(|(_, number)| number.bytes().all(|digit| digit.is_ascii_digit()));
        let (side, number) = numbered.map_or((side, None), |(side, number)| (side, Some(number)));
        let side = self.known(side)?;
        Some(number.map_or_else(|| side.clone(), |number| format!("{side} {number}")))
    }
}

/// A value of a message.
#[derive(Debug, Clone)]
pub(crate) enum Value {
    /// As they stand.
    Words(String),
    /// By which a language chooses singular or plural.
    Count(u64),
}

impl From<Value> for FluentValue<'_> {
    fn from(value: Value) -> Self {
        match value {
            Value::Words(words) => words.into(),
            Value::Count(count) => count.into(),
        }
    }
}

impl From<String> for Value {
    fn from(words: String) -> Self {
        Self::Words(words)
    }
}

impl From<&str> for Value {
    fn from(words: &str) -> Self {
        Self::Words(words.to_owned())
    }
}

impl From<usize> for Value {
    fn from(count: usize) -> Self {
        Self::Count(count as u64)
    }
}

impl From<u64> for Value {
    fn from(count: u64) -> Self {
        Self::Count(count)
    }
}

fn bundle(language: Language) -> Result<FluentBundle<FluentResource>, BookError> {
    let broken = || BookError::Text { language };
    let locale = language.code().parse().map_err(|_| broken())?;
    let mut bundle = FluentBundle::new(vec![locale]);
    // Marks that isolate directions would stand as boxes in the drawings; both languages run to the right.
    bundle.set_use_isolating(false);
    for resource in resources(language)? {
        bundle.add_resource(resource).map_err(|_| broken())?;
    }
    Ok(bundle)
}

fn resources(language: Language) -> Result<Vec<FluentResource>, BookError> {
    let broken = |_| BookError::Text { language };
    language.texts().into_iter().map(|text| FluentResource::try_new(text.to_owned()).map_err(broken)).collect()
}

impl Words for Tongue {
    fn word(&self, name: &str) -> String {
        let message = format!("drawing-{}", name.replace(' ', "-"));
        if self.has(&message) { self.say(&message) } else { English.word(name) }
    }

    fn length(&self, inches: f64) -> String {
        self.measures.long(inches)
    }

    fn is_metric(&self) -> bool {
        self.measures == Measures::Metric
    }
}
