use serde::de::{Expected, Unexpected};

use crate::Format;

/// How many characters of a file's own text a message repeats.
const SHOWN: usize = 32;

/// A text in quotes, cut to a few words: a file can hold megabytes in one string.
#[must_use]
pub fn quoted(text: &str) -> String {
    format!("\"{}\"", cut(text))
}

/// At most a few words of a text.
pub(crate) fn cut(text: &str) -> String {
    match text.char_indices().nth(SHOWN) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_string(),
    }
}

/// What serde expected, in plain words.
pub(crate) fn expected(what: &dyn Expected) -> String {
    let what = what.to_string();
    let list = |of: &str| format!("a list of {} values", of.rsplit(' ').next().unwrap_or("some"));
    match what.as_str() {
        "f32" | "f64" => "a number".into(),
        "u8" | "u16" | "u32" | "u64" | "usize" => "a whole number, 0 or more,".into(),
        "i8" | "i16" | "i32" | "i64" | "isize" => "a whole number".into(),
        "a boolean" => "true or false".into(),
        "a string" | "a borrowed string" => "a text".into(),
        "a sequence" => "a list".into(),
        "a map" => "a table".into(),
        other if other.starts_with("an array of length ") || other.starts_with("a tuple of size ") => list(other),
        other if other.starts_with("tuple struct ") => "a list".into(),
        other if other.starts_with("struct ") => "a table".into(),
        other if other.starts_with("enum ") => "a word in quotes".into(),
        other => other.into(),
    }
}

/// What was found, in plain words.
pub(crate) fn found(what: &Unexpected) -> String {
    match what {
        Unexpected::Bool(value) => value.to_string(),
        Unexpected::Unsigned(value) => format!("the number {value}"),
        Unexpected::Signed(value) => format!("the number {value}"),
        Unexpected::Float(value) => format!("the number {value}"),
        Unexpected::Str(text) => format!("the text {}", quoted(text)),
        Unexpected::Seq => "a list".into(),
        Unexpected::Map => "a table".into(),
        Unexpected::Unit | Unexpected::Option => "nothing".into(),
        Unexpected::Other(other) => (*other).into(),
        _ => "something else".into(),
    }
}

/// How to write what was expected.
pub(crate) fn how_to_write(expected: &str, format: Format) -> String {
    let table = match format {
        Format::Toml => "Write a table: { key = value }, or a header in brackets with its keys below.",
        Format::Json => "Write a table: { \"key\": value }.",
    };
    match expected {
        "a number" => "Write the number without quotes, such as 12.5.".into(),
        "a whole number" | "a whole number, 0 or more," => "Write a whole number without quotes, such as 2.".into(),
        "true or false" => "Write true or false, without quotes.".into(),
        "a text" | "a word in quotes" => "Put it in double quotes: \"...\".".into(),
        "a table" => table.into(),
        other if other.starts_with("a list") => "Write a list in square brackets: [..., ...].".into(),
        other => format!("Write {other}."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_texts_are_cut_between_characters() {
        assert_eq!(quoted("eave"), "\"eave\"");
        assert_eq!(quoted(&"½".repeat(1000)), format!("\"{}…\"", "½".repeat(32)));
    }
}
