//! What the app shows on a Spanish screen has its Spanish.

#![allow(clippy::unwrap_used, reason = "tests only")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use book::{Language, Speaker};
use covering::Catalog;
use reader::{Format, to_json};
use serde_json::{Value, json};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn speaker() -> Speaker {
    Speaker::new(Language::Spanish).unwrap()
}

/// Every file under a folder that ends so, one after the other.
fn texts(folder: &Path, endings: &[&str]) -> String {
    let mut paths: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    let text = |path: &PathBuf| match path.extension() {
        _ if path.is_dir() => texts(path, endings),
        Some(ending) if endings.iter().any(|wanted| ending == *wanted) => fs::read_to_string(path).unwrap(),
        _ => String::new(),
    };
    paths.iter().map(text).collect()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the forms are made from.
struct Forms {
    schemas: Value,
    seen: BTreeSet<String>,
    says: BTreeSet<String>,
    keys: BTreeSet<String>,
    choices: BTreeSet<String>,
}

impl Forms {
    /// Of all tables that the screens name.
    fn shown() -> Self {
        let document: Value = serde_json::from_str(&server::openapi()).unwrap();
        let schemas = document["components"]["schemas"].clone();
        let screens = texts(&root().join("web/src/form"), &["ts"]) + &texts(&root().join("web/src"), &["svelte"]);
        let named = screens.split('\'').filter(|word| word.ends_with("Table") || word.ends_with("File"));
        let tables: BTreeSet<&str> = named.filter(|name| schemas.get(name).is_some()).collect();
        assert!(tables.len() > 14, "{tables:?}");
        let empty = BTreeSet::new;
        let mut forms = Self { schemas: schemas.clone(), seen: empty(), says: empty(), keys: empty(), choices: empty() };
        tables.into_iter().for_each(|table| forms.table(table, &schemas[table]));
        forms
    }

    fn table(&mut self, name: &str, table: &Value) {
        if !self.seen.insert(name.to_owned()) {
            return;
        }
        for (key, field) in table["properties"].as_object().into_iter().flatten() {
            self.keys.insert(key.clone());
            self.says.insert(one_line(field["description"].as_str().unwrap_or_default()));
            let (of, field) = self.resolved(key, field);
            let words = field["enum"].as_array().into_iter().flatten().chain(
                field["oneOf"].as_array().into_iter().flatten().flat_map(|one| match &one["enum"] {
                    Value::Array(all) => all.iter().collect(),
                    _ => vec![&one["const"]],
                }),
            );
            self.choices.extend(words.filter_map(Value::as_str).map(str::to_owned));
            let (of, inner) = if field["items"].is_null() { (of, field) } else { self.resolved(&of, &field["items"]) };
            self.table(&of, &inner);
        }
    }

    /// What a reference, or the one choice beside null, leads to.
    fn resolved(&self, name: &str, field: &Value) -> (String, Value) {
        let choices = field["anyOf"].as_array().into_iter().flatten();
        let others: Vec<&Value> = choices.filter(|one| one["type"] != "null").collect();
        if let [only] = others[..] {
            return self.resolved(name, only);
        }
        match field["$ref"].as_str().and_then(|path| path.rsplit('/').next()) {
            Some(of) => self.resolved(of, &self.schemas[of]),
            None => (name.to_owned(), field.clone()),
        }
    }
}

#[test]
fn every_field_of_every_form_has_its_spanish() {
    let (forms, speaker) = (Forms::shown(), speaker());
    assert!(forms.says.len() > 300 && forms.keys.len() > 200 && forms.choices.len() > 60);
    let english: Vec<&String> = forms.says.iter().filter(|says| speaker.say(says) == **says && !says.is_empty()).collect();
    assert_eq!(english, Vec::<&String>::new());
    let spanish = fs::read_to_string(root().join("crates/book/text/screens-es.ftl")).unwrap();
    let has = |sort: &str, word: &str| spanish.contains(&format!("\n{sort}-{} = ", word.replace('_', "-")));
    assert_eq!(forms.keys.iter().filter(|key| !has("key", key)).collect::<Vec<_>>(), Vec::<&String>::new());
    // Years, classes and units are written alike.
    let is_word = |word: &&String| word.len() > 2 && word.chars().any(char::is_alphabetic);
    let words = forms.choices.iter().filter(is_word);
    assert_eq!(words.filter(|word| !has("choice", word)).collect::<Vec<_>>(), Vec::<&String>::new());
}

/// A key, a word or a sentence that nothing shows any more.
#[test]
fn no_form_of_a_word_is_idle() {
    let forms = Forms::shown();
    let spanish = fs::read_to_string(root().join("crates/book/text/screens-es.ftl")).unwrap();
    let idle = |sort: &str, used: &BTreeSet<String>| {
        let used: BTreeSet<String> = used.iter().map(|word| word.replace('_', "-")).collect();
        let names = spanish.lines().filter_map(|line| line.strip_prefix(sort)?.split_once(" = ")).map(|(name, _)| name);
        names.filter(|name| !used.contains(*name)).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!([idle("key-", &forms.keys), idle("choice-", &forms.choices)], [vec![], Vec::<String>::new()]);
    let mut said = forms.says.iter().map(|says| format!("{says}\n")).collect::<String>();
    said += &texts(&root().join("crates"), &["rs"]).replace("\\\"", "\"").replace("{{", "{").replace("}}", "}");
    said += &(texts(&root().join("coverings"), &["toml"]) + &texts(&root().join("rates"), &["toml"]));
    let said = one_line(&said).replace("\\ ", "").replace("\\\\", "\\");
    let english = fs::read_to_string(root().join("crates/book/text/screens-en.ftl")).unwrap();
    let mut idle = Vec::new();
    for line in english.lines().filter(|line| line.starts_with("phrase-") && !MADE.iter().any(|made| line.starts_with(made)))
    {
        let (name, words) = line.split_once(" = ").unwrap();
        let words = words.replace("{\"{\"}", "{").replace("{\"}\"}", "}");
        let own = words.split("{ $").map(|part| part.split_once(" }").map_or(part, |(_, own)| own));
        let own = own.max_by_key(|own| own.len()).unwrap().trim();
        if !said.contains(own) && !said.contains(&own.replace('"', "\\\"")) {
            idle.push(format!("{name}: nothing says {own:?}"));
        }
    }
    assert_eq!(idle, Vec::<String>::new());
}

/// Sentences that are put together where they are said.
const MADE: [&str; 11] = [
    "phrase-screen-cut-at-place-one",
    "phrase-screen-extra-",
    "phrase-screen-name-",
    "phrase-screen-note-pieces",
    "phrase-screen-no-plane-reaches",
    "phrase-screen-no-such-",
    "phrase-screen-planes-failed",
    "phrase-screen-random-straight",
    "phrase-screen-scope-interlayment",
    "phrase-screen-scope-underlayment",
    "phrase-screen-tell-unit",
];

/// The example houses, with options in every covering, an extra, and one extra that no rates know.
fn jobs() -> Vec<String> {
    let mut paths: Vec<PathBuf> =
        fs::read_dir(root().join("examples")).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "toml"));
    paths.sort();
    let with_options = |path: PathBuf| {
        let text = to_json(&fs::read_to_string(path).unwrap(), Format::Toml).unwrap();
        let mut job: Value = serde_json::from_str(&text).unwrap();
        let sheets = ["composite-slate", "natural-slate", "plain-tile", "sawn-shake", "wood-shingle"];
        let options = sheets.map(|sheet| json!({ "name": sheet, "sheet": sheet }));
        job["price"] = json!({ "extras": ["snow guards at the eaves", "gold"], "option": options });
        job.to_string()
    };
    paths.into_iter().map(with_options).collect()
}

/// Short words that only English has. The names of the examples have none of them.
fn is_english(says: &str) -> bool {
    const WORDS: [&str; 24] = [
        "the", "of", "and", "with", "from", "is", "are", "at", "to", "for", "or", "not", "piece", "pieces", "eave", "rake",
        "ridge", "valley", "south", "north", "east", "west", "course", "courses",
    ];
    // What stands in quotes is typed, or a key.
    let said: String = says.split('"').step_by(2).collect();
    said.split(|c: char| !c.is_alphabetic()).any(|word| WORDS.contains(&word.to_lowercase().as_str()))
}

fn left_in_english(says: &BTreeSet<String>) -> Vec<String> {
    let speaker = speaker();
    says.iter().map(|says| speaker.say(says)).filter(|said| is_english(said)).collect()
}

#[test]
fn what_a_price_says_has_its_spanish() {
    let rates = price::shipped().unwrap();
    let mut says: BTreeSet<String> = rates.exclusions.iter().chain([&rates.name]).cloned().collect();
    says.extend(rates.unit_prices.iter().flat_map(|of| [of.what.clone(), of.unit.clone()]));
    for text in jobs() {
        let job = plan::read_job(&text, Format::Json).0.unwrap();
        for way in plan::price(&job, &Catalog::shipped(), &rates) {
            says.extend(way.scope);
            says.extend(way.compared.lost_why);
            says.extend(way.quote.unpriced.into_iter().flat_map(|of| [of.what, of.says, of.remedy]));
            says.extend(way.quote.materials.into_iter().chain(way.quote.costs).flat_map(|line| [line.what, line.unit]));
            says.extend(way.quote.labor.into_iter().flat_map(|line| [line.task, line.unit.to_owned()]));
            says.extend(way.quote.draws.into_iter().map(|draw| draw.when));
            says.extend(way.places.into_values().flatten().map(|place| place.at));
        }
    }
    assert!(says.len() > 300, "{}", says.len());
    assert_eq!(left_in_english(&says), Vec::<String>::new());
}

#[test]
fn what_a_plan_orders_and_asks_has_its_spanish() {
    let mut says = BTreeSet::new();
    for text in jobs() {
        let job = plan::read_job(&text, Format::Json).0.unwrap();
        let plan = plan::plan(&job, &Catalog::shipped());
        says.extend(plan.order.iter().flat_map(|line| [line.item.clone(), line.unit.to_string(), line.pack.clone()]));
        says.extend(plan.order.into_iter().flat_map(|line| line.places).map(|place| place.at));
        says.extend(plan.problems.into_iter().flat_map(|problem| [problem.says, problem.remedy]));
        says.extend(plan.roof.planes.into_iter().map(|plane| plane.name));
    }
    assert_eq!(left_in_english(&says), Vec::<String>::new());
}

/// A job with one thing wrong.
fn broken(path: &[&str], value: Value) -> String {
    let mut job: Value = serde_json::from_str(&jobs()[0]).unwrap();
    let mut at = &mut job;
    for step in path {
        at = match step.parse::<usize>() {
            Ok(index) => &mut at[index],
            Err(_) => &mut at[*step],
        };
    }
    *at = value;
    job.to_string()
}

#[test]
fn what_is_typed_wrong_is_told_in_spanish() {
    let edge = ["block", "0", "edges", "0"];
    let texts = [
        broken(&["block", "0", "eave_height"], json!("nine")),
        broken(&["block", "0", "eave_height"], json!("9' 7/16 m")),
        broken(&["block", "0", "eave_height"], json!(true)),
        broken(&["block", "0", "name"], json!("")),
        broken(&["block", "0", "outline"], json!([[0, 0], [10, 0]])),
        broken(&edge, json!({ "eave": "89 deg" })),
        broken(&edge, json!({ "eave": "0/12" })),
        broken(&edge, json!({ "eave": "8/12", "overhang": "x" })),
        broken(&["fastener"], json!({ "length": "90 in", "per_lb": -3, "kind": "tack" })),
        broken(&["site"], json!({ "winter": "cold", "north_deg": 4000, "wind_mph": 0, "code": "1900" })),
        broken(&["deck"], json!({ "old_layers": 40, "gravity": "x", "live_load_psf": -1 })),
        broken(&["attic"], json!({ "area_sqft": 0 })),
        broken(&["order"], json!({ "breakage_percent": 90, "delivery": [{ "day": 2 }, { "day": 1 }] })),
        broken(&["opening"], json!([{ "name": "", "kind": "pipe", "at": [1, 2], "width": "3 in" }])),
        broken(&["dormer"], json!([{ "name": "" }])),
        broken(&["price", "option"], json!([{ "name": "" }, { "name": "a" }, { "name": "a" }])),
        broken(&["name"], json!("")),
        "{".to_owned(),
    ];
    let mistakes = texts.iter().flat_map(|text| {
        let (job, mistakes) = plan::read_job(text, Format::Json);
        assert!(job.is_none() && !mistakes.is_empty(), "{text}");
        mistakes.into_iter().flat_map(|mistake| [mistake.says, mistake.remedy])
    });
    assert_eq!(left_in_english(&mistakes.collect()), Vec::<String>::new());
}
