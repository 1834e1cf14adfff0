//! Each kind of mistake, several in one run, and no text that makes the reader panic.

use std::collections::BTreeMap;

use proptest::prelude::*;
use reader::{Format, LARGEST, Mistake, decode, read};
use serde::Deserialize;

#[derive(Debug, PartialEq, Deserialize)]
struct Shop {
    name: String,
    #[serde(default)]
    open: bool,
    shelves: Vec<Shelf>,
    owner: Option<Owner>,
    #[serde(default)]
    stock: BTreeMap<String, u32>,
}

#[derive(Debug, PartialEq, Deserialize)]
struct Shelf {
    at: [f64; 2],
    boards: u32,
    wood: Wood,
    note: Option<String>,
}

#[derive(Debug, PartialEq, Deserialize)]
struct Owner {
    name: String,
    age: u8,
}

#[derive(Debug, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Wood {
    Oak,
    Pine,
    Mixed(Vec<String>),
}

const TOML: &str = "
name = \"corner\"
stock = { nails = 3 }
[owner]
name = \"Ida\"
age = 40
[[shelves]]
at = [1, 2.5]
boards = 4
wood = \"oak\"
[[shelves]]
at = [-1, 0]
boards = 2
wood = { mixed = [\"oak\", \"ash\"] }
note = \"½ full\"
";

const JSON: &str = r#"{ "name": "corner", "stock": { "nails": 3 }, "owner": { "name": "Ida", "age": 40 }, "shelves": [
  { "at": [1, 2.5], "boards": 4, "wood": "oak" },
  { "at": [-1, 0], "boards": 2, "wood": { "mixed": ["oak", "ash"] }, "note": "½ full" } ] }"#;

fn mistakes(text: &str, format: Format) -> Vec<Mistake> {
    let read = read::<Shop>(text, format);
    assert_eq!(read.value.is_none(), !read.mistakes.is_empty());
    read.mistakes
}

/// The only mistake in a text, as the text it marks, its path and what it says.
fn only(text: &str, format: Format) -> (String, String, String) {
    let found = mistakes(text, format);
    assert_eq!(found.len(), 1, "{found:#?}");
    let Mistake { span, path, says, remedy, .. } = found[0].clone();
    (text[span].to_string(), path, format!("{says} | {remedy}"))
}

/// The only mistake after one replacement in the sound TOML text.
fn spoilt(from: &str, to: &str) -> (String, String, String) {
    assert!(TOML.contains(from));
    only(&TOML.replacen(from, to, 1), Format::Toml)
}

#[test]
fn both_formats_give_the_same_value() {
    let value = read::<Shop>(TOML, Format::Toml).value.unwrap();
    assert_eq!(Some(value), read::<Shop>(JSON, Format::Json).value);
    let independent: Shop = serde_json::from_str(JSON).unwrap();
    assert_eq!(Some(independent), read::<Shop>(JSON, Format::Json).value);
}

#[test]
fn a_value_of_the_wrong_kind() {
    for (from, to, marks, path, says) in [
        (
            "boards = 4",
            "boards = \"4\"",
            "\"4\"",
            "shelves[0].boards",
            "a whole number, 0 or more, was expected, this is the text \"4\"",
        ),
        (
            "boards = 4",
            "boards = -4",
            "-4",
            "shelves[0].boards",
            "a whole number, 0 or more, was expected, this is the number -4",
        ),
        ("boards = 4", "boards = 4.5", "4.5", "shelves[0].boards", "was expected, this is the number 4.5"),
        ("boards = 4", "boards = nan", "nan", "shelves[0].boards", "this is not an ordinary number"),
        ("boards = 4", "boards = 2024-01-01", "2024-01-01", "shelves[0].boards", "this is a date"),
        ("[1, 2.5]", "[1, \"2.5\"]", "\"2.5\"", "shelves[0].at[1]", "a number was expected, this is the text \"2.5\""),
        ("[1, 2.5]", "[1]", "[1]", "shelves[0].at", "a list of 2 values was expected, this is a list of 1 value"),
        ("[1, 2.5]", "[1, 2, 3]", "[1, 2, 3]", "shelves[0].at", "a list of 2 values was expected, this is a list of 3"),
        ("[1, 2.5]", "[inf, 2]", "inf", "shelves[0].at[0]", "this is not an ordinary number"),
        ("\"corner\"", "true", "true", "name", "a text was expected, this is true"),
        ("age = 40", "age = 400", "400", "owner.age", "a whole number, 0 or more, was expected, this is the number 400"),
        ("\"oak\"\n", "3\n", "3", "shelves[0].wood", "a word in quotes was expected, this is the number 3"),
        ("\"oak\"\n", "\"aok\"\n", "\"aok\"", "shelves[0].wood", "\"aok\" is not a word known here | Did you mean \"oak\"?"),
        ("\"oak\"\n", "\"marble\"\n", "\"marble\"", "shelves[0].wood", "Known here: oak, pine, mixed."),
        ("\"oak\"\n", "\"mixed\"\n", "\"mixed\"", "shelves[0].wood", "needs a value"),
        ("nails = 3", "nails = []", "[]", "stock.nails", "this is a list"),
    ] {
        let (text, at, message) = spoilt(from, to);
        assert_eq!((text.as_str(), at.as_str()), (marks, path));
        assert!(message.contains(says), "{message}");
    }
}

#[test]
fn a_table_where_a_list_belongs_and_the_other_way_round() {
    let (_, path, message) = only("name = \"x\"\n[shelves]\nboards = 1\n", Format::Toml);
    assert_eq!(path, "shelves");
    assert!(message.contains("a list was expected, this is a table") && message.contains("[[shelves]]"), "{message}");
    let (marks, _, message) = spoilt("[owner]\nname = \"Ida\"\nage = 40", "owner = [\"Ida\", 40]");
    assert_eq!(marks, "[\"Ida\", 40]");
    assert!(message.contains("a table was expected, this is a list"), "{message}");
}

#[test]
fn an_unknown_key() {
    let (marks, path, message) = spoilt("note =", "remark =");
    assert_eq!((marks.as_str(), path.as_str()), ("remark", "shelves[1].remark"));
    assert!(message.contains("the key \"remark\" is not known here | Known here: at, boards, wood, note."), "{message}");
    let (marks, _, message) = spoilt("boards = 4", "bords = 4");
    assert_eq!(marks, "bords");
    assert!(message.contains("Did you mean \"boards\"?"), "a misspelt key is not reported as missing too: {message}");
}

#[test]
fn keys_that_are_missing() {
    let found = mistakes("[[shelves]]\nwood = \"oak\"\n", Format::Toml);
    let says: Vec<_> = found.iter().map(|mistake| (mistake.says.as_str(), mistake.path.as_str(), mistake.line)).collect();
    let expected = [
        ("\"at\" is missing here", "shelves[0]", 1),
        ("\"boards\" is missing here", "shelves[0]", 1),
        ("\"name\" is missing here", "", 1),
    ];
    assert_eq!(says, expected);
}

#[test]
fn many_mistakes_in_one_run_in_the_order_of_the_text() {
    let text = "nmae = 3\nopen = 1\ncolour = \"red\"\n[[shelves]]\nat = [1, \"x\"]\nboards = -1\nwood = \"ok\"\n[[shelves]]\n[owner]\nage = []\n";
    let found = mistakes(text, Format::Toml);
    let lines: Vec<_> = found.iter().map(|mistake| (mistake.line, mistake.path.as_str())).collect();
    let expected = [
        (1, "nmae"),
        (2, "open"),
        (3, "colour"),
        (5, "shelves[0].at[1]"),
        (6, "shelves[0].boards"),
        (7, "shelves[0].wood"),
        (8, "shelves[1]"),
        (8, "shelves[1]"),
        (8, "shelves[1]"),
        (9, "owner"),
        (10, "owner.age"),
    ];
    assert_eq!(lines, expected);
}

#[test]
fn mistakes_are_capped() {
    let items = "\"x\",".repeat(500);
    let found = mistakes(&format!("name = \"x\"\nshelves = [{items}]"), Format::Toml);
    assert_eq!(found.len(), 100);
}

#[test]
fn toml_that_breaks_the_grammar() {
    for (line, marks, says) in [
        ("a = 8/12", "8/12", "\"8/12\" is neither a number nor a text in quotes | Put the whole value in double quotes"),
        ("a = 16 in", "16 in", "\"16 in\" is neither"),
        ("a = “x”", "“x”", "Use straight quotes"),
        ("a = \"12' 6-1/2\"\"", "", "more stands here than one value"),
        ("a = 'x", "", "a quote is opened on this line and not closed"),
        ("a =", "", "a key without a value"),
        ("a", "", "a key without a value"),
        ("a = 1\na = 2", "a", "\"a\" stands here for the second time"),
        ("[a", "", "this header is not closed"),
        ("a = [1, 2", "", "not closed"),
        ("a = {x = 1", "", "not closed"),
        ("a = [1,,2]", ",", "a comma too many"),
        ("a = True", "True", "neither true nor false"),
        ("a = .5", "", "a decimal point needs a digit"),
        ("a = 007", "0", "a number may not begin with 0"),
        ("{ \"name\": 1 }", "{", "Give the file a name that ends in .json."),
    ] {
        let (text, _, message) = only(line, Format::Toml);
        assert_eq!(text, marks, "{line}");
        assert!(message.contains(says), "{line}: {message}");
    }
    let found = mistakes("a = 8/12\nb = 3\nc = 16 in\n[[d]\n", Format::Toml);
    assert_eq!(found.iter().map(|mistake| mistake.line).collect::<Vec<_>>(), [1, 3, 4]);
}

#[test]
fn json_that_breaks_the_grammar() {
    for (text, marks, says) in [
        ("{\"a\": 1,}", ",", "there is a comma after the last value"),
        ("{\"a\": 1 // x\n}", "// x", "JSON has no comments"),
        ("{a: 1}", "a", "a key must stand in double quotes"),
        ("{\"a\" 1}", "1", "a colon is missing"),
        ("{\"a\": 1 \"b\": 2}", "", "a comma is missing"),
        ("{\"a\": 'x'}", "'", "double quotes"),
        ("{\"a\": NaN}", "NaN", "neither a number nor a text"),
        ("{\"a\": [1}", "}", "neither a number"),
        ("{\"a\": \"x", "\"x", "this text in quotes cannot be read"),
        ("{} {}", "{", "more follows"),
        ("{\"a\": 1, \"a\": 2}", "\"a\"", "\"a\" stands here for the second time"),
        ("{\"a\": \"x\ny\"}", "\"x", "a text in quotes must stand on one line"),
        ("{\"a\": 1", "{\"a\": 1", "a table is opened with { and not closed"),
    ] {
        let (shown, _, message) = only(text, Format::Json);
        assert_eq!(shown, marks, "{text}");
        assert!(message.contains(says), "{text}: {message}");
    }
    let huge = JSON.replace("2.5", "1e999");
    let (shown, path, message) = only(&huge, Format::Json);
    assert_eq!((shown.as_str(), path.as_str()), ("1e999", "shelves[0].at[1]"));
    assert!(message.contains("not an ordinary number"));
}

#[test]
fn a_mark_at_the_beginning_of_the_file_does_no_harm() {
    for (text, format) in [(TOML, Format::Toml), (JSON, Format::Json)] {
        let marked = format!("\u{feff}{text}");
        assert!(read::<Shop>(&marked, format).value.is_some());
        let spoilt = marked.replace("\"oak\"", "7");
        let found = mistakes(&spoilt, format);
        assert_eq!(&spoilt[found[0].span.clone()], "7");
    }
}

#[test]
fn an_empty_file_says_what_to_write() {
    for (text, format) in [("", Format::Toml), ("# nothing yet\n", Format::Toml), ("", Format::Json), ("{}", Format::Json)] {
        let says: Vec<_> = mistakes(text, format).into_iter().map(|mistake| mistake.says).collect();
        assert_eq!(says, ["\"name\" is missing here", "\"shelves\" is missing here", "the file has no content"]);
    }
}

#[test]
fn hostile_texts_are_refused_at_once() {
    let long = format!("name = \"{}\"", "x".repeat(50_000_000));
    let (_, _, message) = only(&long, Format::Toml);
    assert!(message.contains("too large: 47.7 MB"), "{message}");
    let (_, _, message) = only("name = \"a\0b\"", Format::Json);
    assert!(message.contains("U+0000"), "{message}");
    let deep = 2_000_000;
    for (text, format) in [
        (format!("a = {}", "[".repeat(deep)), Format::Toml),
        (format!("a{} = 1", ".a".repeat(deep)), Format::Toml),
        (format!("[a{}]", ".a".repeat(deep)), Format::Toml),
        (format!("a = {}", "{a.a.a.a=".repeat(deep / 9)), Format::Toml),
        ("[".repeat(deep), Format::Json),
        ("{\"a\":".repeat(deep / 5), Format::Json),
    ] {
        let (_, _, message) = only(&text, format);
        assert!(message.contains("more than 64 deep"), "{message}");
    }
    assert_eq!(decode(b"a = 1\nb = \xff").unwrap_err().line, 2);
}

#[test]
fn a_hostile_text_of_the_largest_size_ends() {
    let values = LARGEST / 4;
    for text in [format!("shelves = [{}]", "{},".repeat(values)), "a=1\n".repeat(values), "!? \n".repeat(values)] {
        assert!(!mistakes(&text[..text.len().min(LARGEST)], Format::Toml).is_empty());
    }
}

fn spans_lie_in(text: &str, format: Format) -> Result<(), TestCaseError> {
    for Mistake { span, line, .. } in mistakes(text, format) {
        prop_assert!(text.get(span.clone()).is_some_and(|marked| !marked.contains('\n')), "{span:?}");
        prop_assert_eq!(line, 1 + text[..span.start].matches('\n').count());
    }
    Ok(())
}

fn mutated(text: &str, at: usize, length: usize, with: &str) -> String {
    let start = text.floor_char_boundary(at % text.len());
    let end = text.ceil_char_boundary(start + length);
    format!("{}{with}{}", &text[..start], &text[end..])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: ProptestConfig::default().cases.max(2000), ..ProptestConfig::default() })]

    #[test]
    fn no_noise_panics(text in "\\PC{0,60}|[\\[\\]{}=\",.#'a-c1-3\\\\ \n½]{0,60}") {
        spans_lie_in(&text, Format::Toml)?;
        spans_lie_in(&text, Format::Json)?;
    }

    #[test]
    fn no_mutation_panics(at in 0usize..1000, length in 0usize..30, with in "[\\[\\]{}=:\",.#'a-c1-3\\\\ \n½\u{0}]{0,6}") {
        spans_lie_in(&mutated(TOML, at, length, &with), Format::Toml)?;
        spans_lie_in(&mutated(JSON, at, length, &with), Format::Json)?;
    }

    #[test]
    fn what_an_independent_parser_takes_is_taken(at in 0usize..1000, length in 0usize..8, with in "[\\[\\]{}:\",.a-c1-3\\\\ ]{0,3}") {
        // serde_json lets unknown keys, lists for tables and repeated unknown keys pass; what it refuses, we refuse.
        let text = mutated(JSON, at, length, &with);
        if serde_json::from_str::<Shop>(&text).is_err() {
            prop_assert!(!mistakes(&text, Format::Json).is_empty());
        }
    }
}
