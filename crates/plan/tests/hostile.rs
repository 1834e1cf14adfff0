//! Broken jobs and sheets are planned or refused, never a panic, and never take long. `make fuzz` runs many more.

use covering::{Catalog, SHIPPED, read_sheet};
use cpu_time::ThreadTime;
use plan::{plan, read_job};
use proptest::prelude::*;
use proptest::sample::Index;
use reader::Format;
use std::time::Duration;

const JOBS: [&str; 4] = [
    include_str!("../../../examples/gable.toml"),
    include_str!("../../../examples/hip.toml"),
    include_str!("../../../examples/ell.toml"),
    include_str!("../../../examples/chimney.toml"),
];

/// Of the processor, not of the clock, which runs on while others are served. Not a measure of speed, which depends on the
/// machine: what takes this long would not have ended for hours.
const PATIENCE: Duration = Duration::from_secs(10);

/// Values that have the right form and are out of all proportion, and some that have no form.
const VALUES: [&str; 31] = [
    "0",
    "-1",
    "1e-9",
    "0.0001",
    "1",
    "7",
    "99",
    "1234.5",
    "1e6",
    "1e308",
    "-1e308",
    "nan",
    "inf",
    "9223372036854775807",
    "\"1/16 in\"",
    "\"0 in\"",
    "\"999' 11-15/16\\\"\"",
    "\"9999999 ft\"",
    "\"1/0 in\"",
    "\"1/12\"",
    "\"400/12\"",
    "\"0/12\"",
    "\"\"",
    "\"½\"",
    "true",
    "[]",
    "{}",
    "[0, 0]",
    "[[0, 0], [1, 1]]",
    "[[[[[[",
    "\u{0}",
];

/// A change of a text.
#[derive(Debug, Clone)]
enum Change {
    /// One character becomes another.
    Flip(Index, char),
    /// A stretch goes.
    Cut(Index, usize),
    /// A stretch stands twice.
    Twice(Index, usize),
    /// A number or quoted text becomes a value of the list.
    Value(Index, &'static str),
    /// Some digits become others, so that the text stays readable and the house becomes odd.
    Digits(Index, u16),
    /// Two numbers, names or quoted texts change places.
    Swap(Index, Index),
    /// A line stands a second time, elsewhere.
    Line(Index, Index),
}

fn change() -> impl Strategy<Value = Change> {
    let at = any::<Index>;
    prop_oneof![
        1 => (at(), any::<char>()).prop_map(|(at, sign)| Change::Flip(at, sign)),
        1 => (at(), proptest::char::range('!', '~')).prop_map(|(at, sign)| Change::Flip(at, sign)),
        1 => (at(), 1..60usize).prop_map(|(at, count)| Change::Cut(at, count)),
        1 => (at(), 1..60usize).prop_map(|(at, count)| Change::Twice(at, count)),
        4 => (at(), prop::sample::select(VALUES.to_vec())).prop_map(|(at, value)| Change::Value(at, value)),
        6 => other_digits(),
        2 => (at(), at()).prop_map(|(a, b)| Change::Swap(a, b)),
        2 => (at(), at()).prop_map(|(from, to)| Change::Line(from, to)),
    ]
}

fn other_digits() -> impl Strategy<Value = Change> {
    let digits = prop_oneof![4 => 0..50u16, 2 => 0..400u16, 1 => any::<u16>()];
    (any::<Index>(), digits).prop_map(|(at, digits)| Change::Digits(at, digits))
}

fn changed(text: &str, changes: &[Change]) -> String {
    changes.iter().fold(text.to_owned(), |text, change| apply(&text, change))
}

fn apply(text: &str, change: &Change) -> String {
    let signs: Vec<char> = text.chars().collect();
    let part = |range: std::ops::Range<usize>| signs[range].iter().collect::<String>();
    let from = |at: &Index| at.index(signs.len() + 1);
    let end = |at: &Index, count: usize| (from(at) + count).min(signs.len());
    match change {
        Change::Flip(at, sign) => format!("{}{sign}{}", part(0..from(at)), part(end(at, 1)..signs.len())),
        Change::Cut(at, count) => part(0..from(at)) + &part(end(at, *count)..signs.len()),
        Change::Twice(at, count) => part(0..end(at, *count)) + &part(from(at)..signs.len()),
        Change::Value(at, value) => {
            with_token(text, |token| token.starts_with(['"', '.']) || token.parse::<f64>().is_ok(), at, value)
        }
        Change::Digits(at, digits) => with_digits(text, at, *digits),
        Change::Swap(a, b) => swapped(text, a, b),
        Change::Line(from, to) => with_line_again(text, from, to),
    }
}

/// Numbers, names and quoted texts, the rest sign by sign. Comments count as such: nothing here knows the grammar.
fn tokens(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let word = |sign: char| sign.is_alphanumeric() || "._-".contains(sign);
        let length = match first {
            '"' => rest[1..].find(['"', '\n']).map_or(rest.len(), |at| at + 2),
            _ if word(first) => rest.find(|sign| !word(sign)).unwrap_or(rest.len()),
            _ => first.len_utf8(),
        };
        let (token, left) = rest.split_at(length);
        found.push(token);
        rest = left;
    }
    found
}

fn with_token(text: &str, fits: impl Fn(&str) -> bool, at: &Index, value: &'static str) -> String {
    let mut tokens = tokens(text);
    let fitting: Vec<usize> = (0..tokens.len()).filter(|&index| fits(tokens[index])).collect();
    if !fitting.is_empty() {
        tokens[fitting[at.index(fitting.len())]] = value;
    }
    tokens.concat()
}

fn with_digits(text: &str, at: &Index, digits: u16) -> String {
    let mut runs: Vec<&str> = text.split_inclusive(|sign: char| !sign.is_ascii_digit()).collect();
    let numbers: Vec<usize> = (0..runs.len()).filter(|&run| runs[run].len() > 1).collect();
    let Some(&run) = numbers.get(at.index(numbers.len().max(1))) else { return text.to_owned() };
    let changed = format!("{digits}{}", runs[run].trim_start_matches(|sign: char| sign.is_ascii_digit()));
    runs[run] = &changed;
    runs.concat()
}

fn swapped(text: &str, a: &Index, b: &Index) -> String {
    let mut tokens = tokens(text);
    let long: Vec<usize> = (0..tokens.len()).filter(|&index| tokens[index].len() > 1).collect();
    if !long.is_empty() {
        tokens.swap(long[a.index(long.len())], long[b.index(long.len())]);
    }
    tokens.concat()
}

fn with_line_again(text: &str, from: &Index, to: &Index) -> String {
    let mut lines: Vec<&str> = text.split('\n').collect();
    let line = lines[from.index(lines.len())];
    lines.insert(to.index(lines.len()), line);
    lines.join("\n")
}

/// The same job as JSON.
fn json(toml: &str) -> String {
    let value: serde_json::Value = reader::read(toml, Format::Toml).value.expect("an example is good TOML");
    serde_json::to_string_pretty(&value).expect("a value can be written")
}

fn reads_and_plans(text: &str, format: Format, catalog: &Catalog) {
    in_time(text, || {
        let (job, mistakes) = read_job(text, format);
        assert!(job.is_some() != mistakes.iter().any(|mistake| !mistake.says.is_empty()), "{mistakes:?}");
        if let Some(job) = job {
            let plan = plan(&job, catalog);
            assert!(serde_json::to_string(&plan).is_ok());
        }
    });
}

fn in_time(text: &str, work: impl FnOnce()) {
    let began = ThreadTime::now();
    work();
    assert!(began.elapsed() < PATIENCE, "took {:?}:\n{text}", began.elapsed());
}

fn changes() -> impl Strategy<Value = Vec<Change>> {
    prop::collection::vec(change(), 1..5)
}

proptest! {
    // A case that takes long would be made smaller for hours.
    #![proptest_config(ProptestConfig { max_shrink_time: 60_000, ..ProptestConfig::default() })]

    #[test]
    fn changed_jobs(job in 0..JOBS.len(), changes in changes()) {
        reads_and_plans(&changed(JOBS[job], &changes), Format::Toml, &Catalog::shipped());
    }

    /// Most of these are read, and many are houses.
    #[test]
    fn odd_houses(job in 0..JOBS.len(), changes in prop::collection::vec(other_digits(), 1..4)) {
        reads_and_plans(&changed(JOBS[job], &changes), Format::Toml, &Catalog::shipped());
    }

    #[test]
    fn changed_jobs_in_json(job in 0..JOBS.len(), changes in changes()) {
        reads_and_plans(&changed(&json(JOBS[job]), &changes), Format::Json, &Catalog::shipped());
    }

    #[test]
    fn changed_sheets(
        sheet in 0..SHIPPED.len(), job in 0..JOBS.len(),
        changes in prop_oneof![changes(), prop::collection::vec(other_digits(), 1..4)],
    ) {
        let (_, text) = SHIPPED[sheet];
        let text = changed(text, &changes);
        let read = read_sheet(&text, Format::Toml);
        prop_assert!(read.value.is_some() || !read.mistakes.is_empty());
        if let Some(covering) = read.value {
            let named = format!("sheet = \"{}\"", covering.id);
            let mut catalog = Catalog::default();
            catalog.add(covering);
            let start = JOBS[job].find("sheet = ").expect("a job names its sheet");
            let end = start + JOBS[job][start..].find('\n').expect("a line has an end");
            let with_it = [&JOBS[job][..start], &named, &JOBS[job][end..]].concat();
            in_time(&text, || reads_and_plans(&with_it, Format::Toml, &catalog));
        }
    }
}
