use std::collections::BTreeSet;

use toml::Spanned;
use toml::de::{DeInteger, DeTable, DeValue};

use crate::mistake::{MOST, Mistake, Text};
use crate::node::{Entry, Node, Value};
use crate::words::quoted;

/// The tree of a TOML text. Where the text breaks the grammar, that is noted, one mistake a line.
pub(crate) fn tree(text: &Text, noted: &mut Vec<Mistake>) -> Node {
    if text.text.trim_start().starts_with('{') {
        let says = "this file is written as JSON, but read as TOML";
        noted.push(text.mistake(0..1, says, "Give the file a name that ends in .json."));
        return Node::nothing();
    }
    let (root, errors) = DeTable::parse_recoverable(text.text);
    let mut lines = BTreeSet::new();
    for error in errors {
        let span = error.span().unwrap_or(0..0);
        let (says, remedy) = in_plain_words(error.message(), text.text.get(span.clone()).unwrap_or_default());
        let mistake = text.mistake(span, says, remedy);
        if lines.len() < MOST && lines.insert(mistake.line) {
            noted.push(mistake);
        }
    }
    Node::new(0..0, table(root.get_ref()))
}

fn node(value: &Spanned<DeValue>) -> Node {
    let inner = match value.get_ref() {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(digits) => whole(digits),
        DeValue::Float(digits) => Value::Number(digits.as_str().parse().unwrap_or(f64::NAN)),
        DeValue::Boolean(value) => Value::Bool(*value),
        DeValue::Datetime(_) => Value::Date,
        DeValue::Array(items) => Value::List(items.iter().map(node).collect()),
        DeValue::Table(entries) => table(entries),
    };
    Node::new(value.span(), inner)
}

/// A number too long for a whole one is read as any number.
fn whole(digits: &DeInteger) -> Value {
    match i64::from_str_radix(digits.as_str(), digits.radix()) {
        Ok(value) => Value::Whole(value),
        Err(_) => Value::Number(digits.as_str().parse().unwrap_or(f64::INFINITY)),
    }
}

fn table(entries: &DeTable) -> Value {
    let entry = |(key, value): (&Spanned<std::borrow::Cow<str>>, _)| Entry {
        key: key.get_ref().to_string(),
        key_span: key.span(),
        node: node(value),
    };
    Value::Table(entries.iter().map(entry).collect())
}

const QUOTES: &str =
    "Put the whole value in double quotes: \"8/12\", \"16 in\"; inches in quotes are written 6 in or 6\\\".";
const PAIR: &str = "Write one key = value on a line.";

/// What the parser says (a part of it), what we say, and the remedy.
const SAYINGS: [(&str, &str, &str); 20] = [
    (
        "invalid boolean",
        "this is neither true nor false, nor a text in quotes",
        "Put words in quotes; write true and false in small letters.",
    ),
    ("missing opening quote", "a quote stands here that none opens", QUOTES),
    ("unexpected key or value", "more stands here than one value", QUOTES),
    ("invalid basic string", "a quote is opened on this line and not closed", QUOTES),
    ("invalid literal string", "a quote is opened on this line and not closed", QUOTES),
    ("invalid multi-line", "a quote of three marks is opened and not closed", "Close it with the same three marks."),
    ("key with no value", "a key without a value", PAIR),
    ("missing value", "a key without a value", PAIR),
    ("invalid key-value pair", "this is not a key with its value", PAIR),
    ("unquoted keys cannot be empty", "a key is missing before the =", PAIR),
    ("invalid unquoted key", "this cannot stand in a key", "A key has letters, digits, - and _ only, then = and its value."),
    ("unclosed array table", "this header is not closed", "Close it with ]]."),
    ("unclosed table", "this header is not closed", "Close it with ]."),
    ("unclosed array", "a list is opened before this and not closed", "Close it with ]."),
    ("unclosed inline table", "a table is opened with { before this and not closed", "Close it with }."),
    ("missing comma", "a comma is missing here", "Put a comma between two values."),
    ("extra comma", "there is a comma too many here", "Remove it."),
    ("leading zero", "a number may not begin with 0", "Remove the 0 in front."),
    ("invalid mantissa", "a decimal point needs a digit before and after it", "Write 0.5 for .5 and 5.0 for 5."),
    ("invalid fraction", "a decimal point needs a digit before and after it", "Write 0.5 for .5 and 5.0 for 5."),
];

fn in_plain_words(message: &str, here: &str) -> (String, String) {
    if message.contains("string values must be quoted") {
        return unquoted(here);
    }
    if message.contains("duplicate key") {
        return (format!("{} stands here for the second time", quoted(here)), "Keep one of the two.".into());
    }
    match SAYINGS.iter().find(|(part, _, _)| message.contains(part)) {
        Some((_, says, remedy)) => ((*says).into(), (*remedy).into()),
        None => (format!("this is not TOML: {message}"), "Correct this line.".into()),
    }
}

fn unquoted(here: &str) -> (String, String) {
    if here.is_empty() {
        return ("a key without a value".into(), PAIR.into());
    }
    let remedy = if here.contains(['“', '”', '„']) { "Use straight quotes, \"...\", not curly ones." } else { QUOTES };
    (format!("{} is neither a number nor a text in quotes", quoted(here)), remedy.into())
}
