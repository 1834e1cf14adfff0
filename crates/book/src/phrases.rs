//! The plan speaks English. Here its sentences are found again among the phrases of the English text, so that they can be said
//! in another language or in other measures: `phrase-deck = The deck is { $kind }, { $thick } thick.`

use fluent_bundle::FluentResource;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use units::Length;

/// Messages of this name's beginning are phrases.
const PREFIX: &str = "phrase-";

/// No sentence of the plan is longer, bytes; a name that somebody typed may be.
const LONGEST: usize = 1_000;

/// Every phrase, those with most words of their own first.
pub(crate) struct Phrases(Vec<Phrase>);

struct Phrase {
    name: String,
    parts: Vec<Part>,
}

enum Part {
    Words(String),
    Value(String),
}

/// The values of a phrase, by their names.
type Values = Vec<(String, String)>;

impl Phrases {
    pub(crate) fn new(resources: &[FluentResource]) -> Self {
        let mut phrases: Vec<Phrase> = resources.iter().flat_map(FluentResource::entries).filter_map(phrase).collect();
        phrases.sort_by_key(|phrase| std::cmp::Reverse(phrase.own_words()));
        Self(phrases)
    }

    /// The phrase that says this, with its values.
    pub(crate) fn find(&self, says: &str) -> Option<(&str, Values)> {
        if says.len() > LONGEST {
            return None;
        }
        self.0.iter().find_map(|phrase| Some((phrase.name.as_str(), values(&phrase.parts, says)?)))
    }
}

impl Phrase {
    fn own_words(&self) -> usize {
        let words = self.parts.iter().map(|part| if let Part::Words(words) = part { words.len() } else { 0 });
        words.sum()
    }
}

fn phrase(entry: &Entry<&str>) -> Option<Phrase> {
    let Entry::Message(message) = entry else { return None };
    let name = message.id.name.strip_prefix(PREFIX).map(|_| message.id.name.to_owned())?;
    Some(Phrase { name, parts: parts(message.value.as_ref()?)? })
}

fn parts(pattern: &Pattern<&str>) -> Option<Vec<Part>> {
    pattern.elements.iter().map(part).collect()
}

fn part(element: &PatternElement<&str>) -> Option<Part> {
    match element {
        PatternElement::TextElement { value } => Some(Part::Words((*value).to_owned())),
        PatternElement::Placeable { expression: Expression::Inline(InlineExpression::VariableReference { id }) } => {
            Some(Part::Value(id.name.to_owned()))
        }
        // A brace is written `{"{"}`.
        PatternElement::Placeable { expression: Expression::Inline(InlineExpression::StringLiteral { value }) } => {
            Some(Part::Words((*value).to_owned()))
        }
        PatternElement::Placeable { .. } => None,
    }
}

/// What stands at the values' places, each as short as can be; none if the words differ.
fn values(parts: &[Part], says: &str) -> Option<Values> {
    match parts {
        [] => says.is_empty().then(Vec::new),
        [Part::Words(words), rest @ ..] => values(rest, says.strip_prefix(words.as_str())?),
        [Part::Value(name)] => may_be(name, says).then(|| vec![(name.clone(), says.to_owned())]),
        [Part::Value(name), rest @ ..] => {
            let ends = says.char_indices().map(|(at, _)| at).skip(1);
            let found = |end: usize| {
                may_be(name, &says[..end]).then_some(())?;
                let mut all = vec![(name.clone(), says[..end].to_owned())];
                all.extend(values(rest, &says[end..])?);
                Some(all)
            };
            { ends }.find_map(found)
        }
    }
}

/// Whether a value may say this. One whose name begins with `length` is a length, or from one to another, so that a name with a comma before it
/// stays whole; one called `shown` is a figure or a text in quotes, one called `file` ends as the name of a file does.
fn may_be(name: &str, says: &str) -> bool {
    let is_length = || says.trim_start_matches(", ").split(" to ").all(|length| length.parse::<Length>().is_ok());
    let is_shown = || says.parse::<f64>().is_ok() || (says.len() > 1 && says.starts_with('"') && says.ends_with('"'));
    let is_ending = |ending: &str| ending.len() < 9 && ending.chars().all(|letter| letter.is_ascii_alphanumeric());
    !says.is_empty()
        && match name {
            name if name.starts_with("length") => is_length(),
            "shown" => is_shown(),
            "file" => says.rsplit_once('.').is_some_and(|(_, ending)| is_ending(ending)),
            _ => true,
        }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn phrases(text: &str) -> Phrases {
        Phrases::new(&[FluentResource::try_new(text.to_owned()).unwrap()])
    }

    /// A name may hold a comma: only what is a length stands for one.
    #[test]
    fn a_name_with_a_comma_stays_whole() {
        let phrases = phrases("phrase-a = nails for { $covering }, { $length }\nphrase-b = nails for { $covering }\n");
        let (name, values) = phrases.find("nails for Slate, grey, 2\"").unwrap();
        assert_eq!((name, values[0].1.as_str(), values[1].1.as_str()), ("phrase-a", "Slate, grey", "2\""));
        assert_eq!(phrases.find("nails for Slate, grey").map(|found| found.0), Some("phrase-b"));
    }

    #[test]
    fn a_sentence_is_found_with_its_values() {
        let phrases =
            phrases("phrase-a = The deck is { $kind }, { $thick } thick.\nphrase-b = The deck is { $kind }.\nother = dry\n");
        let (name, values) = phrases.find("The deck is plywood, 5/8\" thick.").unwrap();
        assert_eq!(name, "phrase-a");
        assert_eq!(values, [("kind".into(), "plywood".into()), ("thick".into(), "5/8\"".into())]);
        assert_eq!(phrases.find("The deck is plywood.").map(|found| found.0), Some("phrase-b"));
        assert!(phrases.find("dry").is_none() && phrases.find("The deck is .").is_none());
    }
}
