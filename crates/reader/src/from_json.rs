use std::collections::BTreeSet;
use std::ops::Range;

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;
use jsonc_parser::errors::{ParseError, ParseErrorKind};
use jsonc_parser::{CollectOptions, ParseOptions, parse_to_ast};

use crate::mistake::{MOST, Mistake, Text};
use crate::node::{Entry, Node, Value};
use crate::words::quoted;

/// Everything that the standard does not have is off.
const STRICT: ParseOptions = ParseOptions {
    allow_comments: false,
    allow_loose_object_property_names: false,
    allow_trailing_commas: false,
    allow_missing_commas: false,
    allow_single_quoted_strings: false,
    allow_hexadecimal_numbers: false,
    allow_unary_plus_numbers: false,
    allow_bare_decimal_point_numbers: false,
    allow_non_finite_numbers: false,
    allow_extended_string_escapes: false,
};

/// The tree of a JSON text. The parser stops where the text first breaks the grammar, which is noted.
pub(crate) fn tree(text: &Text, noted: &mut Vec<Mistake>) -> Node {
    let body = text.text.trim_start_matches('\u{feff}');
    let mut builder = Builder { text, shift: text.text.len() - body.len(), noted };
    match parse_to_ast(body, &CollectOptions::default(), &STRICT) {
        Ok(parsed) => parsed.value.map_or_else(Node::nothing, |value| builder.node(value)),
        Err(error) => {
            builder.note_error(&error);
            Node::nothing()
        }
    }
}

struct Builder<'a> {
    text: &'a Text<'a>,
    /// Bytes of a byte order mark before the body.
    shift: usize,
    noted: &'a mut Vec<Mistake>,
}

impl Builder<'_> {
    fn span(&self, range: jsonc_parser::common::Range) -> Range<usize> {
        range.start + self.shift..range.end + self.shift
    }

    fn note(&mut self, span: Range<usize>, says: impl Into<String>, remedy: &str) {
        if self.noted.len() < MOST {
            self.noted.push(self.text.mistake(span, says, remedy));
        }
    }

    fn note_error(&mut self, error: &ParseError) {
        let (says, remedy) = in_plain_words(error.kind());
        self.note(self.span(error.range()), says, remedy);
    }

    fn node(&mut self, value: ast::Value) -> Node {
        let span = self.span(value.range());
        let inner = match value {
            ast::Value::NullKeyword(_) => Value::Nothing,
            ast::Value::BooleanLit(literal) => Value::Bool(literal.value),
            ast::Value::NumberLit(literal) => number(literal.value),
            ast::Value::StringLit(literal) => self.one_line(&span, literal.value.into_owned()),
            ast::Value::Array(array) => Value::List(array.elements.into_iter().map(|item| self.node(item)).collect()),
            ast::Value::Object(object) => self.table(object.properties),
        };
        Node::new(span, inner)
    }

    /// The parser lets a raw line end pass in a string; the standard does not.
    fn one_line(&mut self, span: &Range<usize>, text: String) -> Value {
        if self.text.text[span.clone()].contains(['\n', '\r', '\t']) {
            self.note(span.clone(), "a text in quotes must stand on one line", "Close the quote, or write \\n and \\t.");
        }
        Value::Text(text)
    }

    fn table(&mut self, properties: Vec<ast::ObjectProp>) -> Value {
        let mut keys = BTreeSet::new();
        let mut entries = Vec::new();
        for property in properties {
            let key_span = self.span(property.name.range());
            let key = property.name.into_string();
            let node = self.node(property.value);
            if keys.insert(key.clone()) {
                entries.push(Entry { key, key_span, node });
            } else {
                self.note(key_span, format!("{} stands here for the second time", quoted(&key)), "Keep one of the two.");
            }
        }
        Value::Table(entries)
    }
}

fn number(digits: &str) -> Value {
    match digits.parse() {
        Ok(whole) => Value::Whole(whole),
        Err(_) => Value::Number(digits.parse().unwrap_or(f64::NAN)),
    }
}

fn in_plain_words(kind: &ParseErrorKind) -> (String, &'static str) {
    use ParseErrorKind as Kind;
    const QUOTES: &str = "Put keys and texts in double quotes; inches in quotes are written 6 in or 6\\\".";
    let (says, remedy) = match kind {
        Kind::CommentsNotAllowed | Kind::UnterminatedCommentBlock => {
            ("JSON has no comments", "Remove it, or write the file as TOML, which has them.")
        }
        Kind::ExpectedColonAfterObjectKey => ("a colon is missing after the key", "Write \"key\": value."),
        Kind::ExpectedObjectValue => ("a key without a value", "Write \"key\": value."),
        Kind::ExpectedStringObjectProperty => ("a key must stand in double quotes", QUOTES),
        Kind::ExpectedComma => ("a comma is missing here", "Put a comma between two values."),
        Kind::TrailingCommasNotAllowed => ("there is a comma after the last value", "Remove it."),
        Kind::UnexpectedComma => ("there is a comma too many here", "Remove it."),
        Kind::MultipleRootJsonValues => {
            ("more follows after the end of the JSON value", "Remove what follows, or close the { later.")
        }
        Kind::SingleQuotedStringsNotAllowed => ("texts stand in double quotes, not in single ones", QUOTES),
        Kind::String(_) => {
            ("this text in quotes cannot be read", "Close the quote; after \\ only \" \\ / b f n r t or u and four digits.")
        }
        Kind::UnterminatedArray => ("a list is opened with [ and not closed", "Close it with ]."),
        Kind::UnterminatedObject => ("a table is opened with { and not closed", "Close it with }."),
        Kind::BareDecimalPointNumbersNotAllowed => {
            ("a decimal point needs a digit before and after it", "Write 0.5 for .5 and 5.0 for 5.")
        }
        Kind::UnaryPlusNumbersNotAllowed
        | Kind::HexadecimalNumbersNotAllowed
        | Kind::NonFiniteNumbersNotAllowed
        | Kind::ExpectedDigit
        | Kind::ExpectedDigitFollowingNegativeSign
        | Kind::ExpectedPlusMinusOrDigitInNumberLiteral => {
            ("this is not an ordinary number", "Write a number such as 12.5.")
        }
        _ => ("this is neither a number nor a text in quotes, nor a list or a table", QUOTES),
    };
    (says.into(), remedy)
}
