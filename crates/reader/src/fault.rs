use std::fmt::{self, Display};

use serde::de::{self, Expected, Unexpected};

use crate::words;

/// Why serde refused a value, and at which node once that is known.
#[derive(Debug)]
pub(crate) struct Fault {
    pub(crate) at: Option<usize>,
    pub(crate) kind: Kind,
}

#[derive(Debug)]
pub(crate) enum Kind {
    /// A key that must be there is not.
    Missing(&'static str),
    /// One thing was expected and another found.
    Unexpected { expected: String, found: String },
    /// The value has the right kind and is wrong in itself.
    Wrong { says: String, remedy: String },
    /// No stand-in could take the seat of a value that was refused before: nothing new to report.
    Follows,
}

impl Fault {
    fn new(kind: Kind) -> Self {
        Self { at: None, kind }
    }

    pub(crate) fn wrong(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::new(Kind::Wrong { says: says.into(), remedy: remedy.into() })
    }

    pub(crate) fn follows(at: usize) -> Self {
        Self { at: Some(at), kind: Kind::Follows }
    }

    /// Sets the place unless a deeper one is known.
    pub(crate) fn at(self, node: usize) -> Self {
        Self { at: self.at.or(Some(node)), ..self }
    }
}

impl Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}", self.kind)
    }
}

impl std::error::Error for Fault {}

impl de::Error for Fault {
    fn custom<T: Display>(says: T) -> Self {
        Self::wrong(says.to_string(), "")
    }

    fn invalid_type(found: Unexpected, expected: &dyn Expected) -> Self {
        Self::new(Kind::Unexpected { expected: words::expected(expected), found: words::found(&found) })
    }

    fn invalid_value(found: Unexpected, expected: &dyn Expected) -> Self {
        Self::invalid_type(found, expected)
    }

    fn invalid_length(length: usize, expected: &dyn Expected) -> Self {
        let found = match length {
            1 => "a list of 1 value".into(),
            _ => format!("a list of {length} values"),
        };
        Self::new(Kind::Unexpected { expected: words::expected(expected), found })
    }

    fn unknown_variant(word: &str, known: &'static [&'static str]) -> Self {
        let says = format!("{} is not a word known here", words::quoted(word));
        Self::wrong(says, one_of(word, known))
    }

    fn unknown_field(key: &str, known: &'static [&'static str]) -> Self {
        Self::wrong(format!("the key {} is not known here", words::quoted(key)), one_of(key, known))
    }

    fn missing_field(key: &'static str) -> Self {
        Self::new(Kind::Missing(key))
    }

    fn duplicate_field(key: &'static str) -> Self {
        Self::wrong(format!("\"{key}\" stands here twice"), "Keep one of the two.")
    }
}

/// Which known word was meant, or all of them.
pub(crate) fn one_of(word: &str, known: &[&str]) -> String {
    match crate::nearest(word, known.iter().copied()) {
        Some(meant) => format!("Did you mean \"{meant}\"?"),
        None if known.is_empty() => "Remove it.".into(),
        None => format!("Known here: {}.", known.join(", ")),
    }
}
