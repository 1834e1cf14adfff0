//! The plan speaks English. Here its sentences are found again among the phrases of the English text, so that they can be said
//! in another language or in other measures: `phrase-deck = The deck is { $kind }, { $thick } thick.`

use fluent_bundle::FluentResource;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use units::Length;

/// Messages of this name's beginning are phrases.
const PREFIX: &str = "phrase-";

/// No sentence of the plan is longer, bytes; a name that somebody typed may be.
const LONGEST: usize = 1_000;

/// A value whose name begins so is what the plan says by itself: the phrase holds only if there is a phrase for it too.
pub(crate) const SAID: &str = "says";

/// Every phrase: first those that add something to what is said, then those with most words of their own.
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
        phrases.sort_by_key(|phrase| std::cmp::Reverse((phrase.adds(), phrase.own_words())));
        Self(phrases)
    }

    /// The phrases that may say this, with their values and a full stop that they leave out, the likeliest first.
    pub(crate) fn find<'a>(&'a self, says: &'a str) -> impl Iterator<Item = (&'a str, Values, &'static str)> {
        let phrases = if says.len() > LONGEST { &[] } else { self.0.as_slice() };
        let unstopped = says.strip_suffix('.');
        phrases.iter().filter_map(move |phrase| {
            let stopped = unstopped.and_then(|says| Some((values(&phrase.parts, says)?, ".")));
            let (values, stop) = stopped.or_else(|| Some((values(&phrase.parts, says)?, "")))?;
            Some((phrase.name.as_str(), values, stop))
        })
    }
}

impl Phrase {
    /// Whether it adds words at the end of what is said by itself.
    fn adds(&self) -> bool {
        matches!(self.parts.as_slice(), [Part::Value(name), .., Part::Words(_)] if name.starts_with(SAID))
    }

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

/// Whether a value may say this, by its name. One that begins with `length` is a length, or from one to another, so that a name with
/// a comma before it stays whole; a `course`, a `count` and a number of `places` are in digits; `one` is no list, a `sort` is words; a `key` of the job
/// stands in brackets; a `layer` is no sentence; what is `shown` is a figure or a text in quotes; a `file` ends as the name of one does.
fn may_be(name: &str, says: &str) -> bool {
    let is_length = || says.trim_start_matches(", ").split(" to ").all(|length| length.parse::<Length>().is_ok());
    let is_shown = || says.parse::<f64>().is_ok() || (says.len() > 1 && says.starts_with('"') && says.ends_with('"'));
    let is_ending = |ending: &str| ending.len() < 9 && ending.chars().all(|letter| letter.is_ascii_alphanumeric());
    let fits = match name {
        name if name.starts_with("length") => is_length(),
        "course" | "count" | "places" => says.bytes().all(|letter| letter.is_ascii_digit()),
        "sort" => says.chars().all(|letter| letter.is_alphabetic() || letter == ' '),
        "one" => !says.contains([',', ';']),
        "key" => says.starts_with('['),
        "layer" => !says.contains(['.', ':', ';', ',']) && !says.starts_with(char::is_uppercase),
        "shown" => is_shown(),
        "file" => says.rsplit_once('.').is_some_and(|(_, ending)| is_ending(ending)),
        _ => true,
    };
    fits && !says.is_empty()
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
        let (name, values, _) = phrases.find("nails for Slate, grey, 2\"").next().unwrap();
        assert_eq!((name, values[0].1.as_str(), values[1].1.as_str()), ("phrase-a", "Slate, grey", "2\""));
        assert_eq!(phrases.find("nails for Slate, grey").next().map(|found| found.0), Some("phrase-b"));
    }

    #[test]
    fn a_sentence_is_found_with_its_values() {
        let phrases =
            phrases("phrase-a = The deck is { $kind }, { $thick } thick.\nphrase-b = The deck is { $kind }.\nother = dry\n");
        let (name, values, _) = phrases.find("The deck is plywood, 5/8\" thick.").next().unwrap();
        assert_eq!(name, "phrase-a");
        assert_eq!(values, [("kind".into(), "plywood".into()), ("thick".into(), "5/8\"".into())]);
        assert_eq!(phrases.find("The deck is plywood.").next().map(|found| found.0), Some("phrase-b"));
        assert!(phrases.find("dry").next().is_none() && phrases.find("The deck is .").next().is_none());
    }

    /// A full stop that a phrase has not is no part of its last value.
    #[test]
    fn a_full_stop_belongs_to_no_value() {
        let phrases = phrases("phrase-a = it is { $is }\nphrase-b = it is so.\n");
        let found = |says: &str| {
            let (name, values, stop) = phrases.find(says).next().unwrap();
            (name.to_owned(), values, stop)
        };
        assert_eq!(found("it is 2."), ("phrase-a".into(), vec![("is".into(), "2".into())], "."));
        assert_eq!(found("it is so."), ("phrase-b".into(), vec![], ""));
    }

    /// What is added at the end is taken off before a sentence whose last value would swallow it.
    #[test]
    fn what_is_added_comes_off_first() {
        let phrases = phrases("phrase-a = it is { $is } long\nphrase-b = { $says }; { $places } places in all.\n");
        let found: Vec<_> = phrases.find("it is 2\"; or so long; 3 places in all.").collect();
        assert_eq!(found[0].0, "phrase-b");
        assert_eq!(found[0].1, [("says".into(), "it is 2\"; or so long".into()), ("places".into(), "3".into())]);
    }
}
