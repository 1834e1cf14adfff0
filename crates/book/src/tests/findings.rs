//! What rules find is said in Spanish: their sentences as they stand in the code, and as they are said of many roofs.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use covering::{Catalog, SHIPPED};
use plan::Plan;
use reader::Format;

use super::words::ENGLISH_ONLY;
use crate::tongue::Tongue;
use crate::{Language, Measures};

const PHRASES: &str = include_str!("../../text/en.ftl");

/// A new sentence of a rule fails here until it has a phrase, whether or not a roof of the tests makes the rule say it.
#[test]
fn every_sentence_of_a_rule_has_a_phrase() {
    let phrases: Vec<&str> = PHRASES.lines().filter(|line| line.starts_with("phrase-")).collect();
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("../checks/src/rules");
    let mut missing = Vec::new();
    for entry in fs::read_dir(rules).unwrap() {
        let path = entry.unwrap().path();
        let text = fs::read_to_string(&path).unwrap();
        let unsaid = said(&text).into_iter().filter(|says| !phrases.iter().any(|phrase| phrase.contains(says.as_str())));
        missing.extend(unsaid.map(|says| format!("{}: {says}", path.file_name().unwrap().display())));
    }
    assert_eq!(missing, Vec::<String>::new());
}

#[test]
fn a_sentence_without_a_phrase_is_caught() {
    let rule = "//! Page \"as it is\".\nfn f() {\n    // \"never said\"\n    format!(\"{} grows \\\"moss\\\" on \\\n        the north, {is} thick\")\n}\n#[cfg(test)]\nmod tests { \"not this one\" }";
    assert_eq!(said(rule), ["grows \"moss\" on the north"]);
}

/// Of every sentence in a rule's code the longest part between its values; neither keys of the job nor sources, which are cited as
/// they are published.
fn said(rule: &str) -> Vec<String> {
    let code = rule.split("#[cfg(test)]").next().unwrap_or_default();
    let lines: Vec<&str> = code.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
    let code = lines.join("\n").replace("\\\"", "\u{1}").replace("'\"'", "");
    let quoted = code.split('"').collect::<Vec<_>>();
    let is_source = |before: &str| before.trim_end().ends_with("source:") || before.trim_end().ends_with("source =");
    let pairs = quoted.chunks_exact(2).filter(|pair| !is_source(pair[0]));
    pairs.filter_map(|pair| longest_part(&joined(pair[1]))).collect()
}

/// Lines that are broken in the code only.
fn joined(literal: &str) -> String {
    let parts: Vec<&str> = literal.split("\\\n").collect();
    let rest = parts.iter().skip(1).map(|part| part.trim_start());
    parts.iter().take(1).copied().chain(rest).collect::<String>().replace('\u{1}', "\"")
}

fn longest_part(sentence: &str) -> Option<String> {
    let parts = sentence.split(['{', '}']).step_by(2);
    let part = parts.max_by_key(|part| part.len())?.trim_matches(|c: char| " ,;:.()\"".contains(c));
    let is_said = part.contains(' ') && !part.starts_with('[') && !AS_IT_IS.iter().any(|begins| part.starts_with(begins));
    is_said.then(|| part.to_owned())
}

/// Beginnings of sources in tables, and of the names of nails.
const AS_IT_IS: [&str; 5] = ["International", "3d", "4d", "5d", "6d"];

/// Everything that rules ask for.
const TOLD: &str = r#"
[deck]
kind = "plywood"
thickness = "5/8 in"
exposed_soffit = true
board_centers = "5 in"
gravity = 0.42
covering_load_psf = 4
snow_load_psf = 20
joints = "clips"
old_layers = 1

[fastener]
kind = "ring-nail"
metal = "stainless-steel"
length = "2 in"
shank = "0.12 in"
drive = "gun"

[site]
code = "2018"
winter = "20 F"
coldest = "-10 F"
built = 1950
trees = true
fire_class = "A"
impact_class = 4
wind_mph = 115
wind_exposure = "B"
mean_roof_height = "30 ft"
ground_snow_psf = 40
snow_exposure_factor = 1.0
snow_thermal_factor = 1.1
risk_category = 2

[laying]
unit_temperature = "40 F"
hours_conditioned = 12
store_temperature = "130 F"
air_temperature = "30 F"
chalk = "red"

[attic]
balanced = true
vapor_retarder = true

[attic.ridge_vent]
nfa_per_foot_sqin = 14
section = "4 ft"
framing = "ridge-board"

[attic.soffit_vent]
nfa_per_foot_sqin = 9
"#;

/// One thing told otherwise at a time.
const OTHERWISE: [(&str, &str); 24] = [
    ("", ""),
    ("code = \"2018\"\n", ""),
    ("code = \"2018\"", "code = \"2009\""),
    ("code = \"2018\"", "code = \"2024\""),
    ("kind = \"plywood\"", "kind = \"spaced-boards\""),
    ("metal = \"stainless-steel\"", "metal = \"hot-dip-galvanized\""),
    ("metal = \"stainless-steel\"", "metal = \"aluminum\""),
    ("metal = \"stainless-steel\"", "metal = \"copper\""),
    ("kind = \"ring-nail\"", "kind = \"screw\""),
    ("length = \"2 in\"", "length = \"1 in\""),
    ("length = \"2 in\"", "length = \"3 in\""),
    ("drive = \"gun\"", "drive = \"hand\""),
    ("winter = \"20 F\"", "winter = \"45 F\""),
    ("winter = \"20 F\"", "ice_barrier = true"),
    ("fire_class = \"A\"", "fire_class = \"C\""),
    ("wind_mph = 115", "wind_mph = 180"),
    ("ground_snow_psf = 40", "ground_snow_psf = 0"),
    ("built = 1950", "built = 2005"),
    ("air_temperature = \"30 F\"", "air_temperature = \"100 F\""),
    ("chalk = \"red\"", "chalk = \"blue\""),
    ("exposed_soffit = true", "exposed_soffit = false"),
    ("nfa_per_foot_sqin = 14", "nfa_per_foot_sqin = 2"),
    (
        "[site]",
        "[metal]\nkind = \"copper\"\n\n[dry_in.drip_edge]\nmetal = \"zinc\"\nlap = \"1-1/2 in\"\nat_rakes = \"under\"\n\n[site]",
    ),
    ("[site]", "[flashing]\nroof_leg = \"3 in\"\nvalley_lap = \"3 in\"\n\n[dry_in]\npast_wall = \"6 in\"\n\n[site]"),
];

/// Roofs of the examples, their pitch otherwise in some; the first has most that rules look at.
fn roofs() -> Vec<String> {
    let example = |name: &str| {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(format!("{name}.toml"));
        let text = fs::read_to_string(path).unwrap();
        text.split("[deck]").next().unwrap().to_owned()
    };
    let chimney = example("chimney");
    let ell = example("ell");
    let flat = chimney.replace("8/12", "3/12");
    let steep = ell.replace("10/12", "19/12");
    vec![chimney, ell, flat, steep, example("gambrel"), example("manor")]
}

fn told(roof: &str, sheet: &str, [from, to]: [&str; 2]) -> Plan {
    let own = roof.split("sheet = \"").nth(1).unwrap().split('"').next().unwrap();
    let told = if from.is_empty() { TOLD.to_owned() } else { TOLD.replacen(from, to, 1) };
    let text = roof.replace(&format!("sheet = \"{own}\""), &format!("sheet = \"{sheet}\"")) + &told;
    let (job, mistakes) = plan::read_job(&text, Format::Toml);
    plan::plan(&job.unwrap_or_else(|| panic!("{mistakes:?}\n{text}")), &Catalog::shipped())
}

/// The roofs in every covering with everything told, the first with one thing told otherwise too.
pub(super) fn many() -> impl Iterator<Item = Plan> {
    let otherwise = |index: usize| if index == 0 { &OTHERWISE[..] } else { &OTHERWISE[..1] };
    roofs().into_iter().enumerate().flat_map(move |(index, roof)| {
        let jobs = SHIPPED.iter().flat_map(move |(sheet, _)| otherwise(index).iter().map(move |change| (*sheet, *change)));
        jobs.map(move |(sheet, (from, to))| told(&roof, sheet, [from, to]))
    })
}

#[test]
fn what_rules_find_on_many_roofs_is_said_in_spanish() {
    let tongue = Tongue::new(Language::Spanish, Measures::Customary).unwrap();
    let mut heard: BTreeSet<&str> = BTreeSet::new();
    let mut unsaid: BTreeSet<String> = BTreeSet::new();
    for check in many().flat_map(|plan| plan.checks) {
        heard.insert(check.rule);
        let says = tongue.known(&check.says).unwrap_or_else(|| format!("UNKNOWN {}", check.says));
        let is_english = says.split(|c: char| !c.is_alphabetic()).any(|word| ENGLISH_ONLY.contains(&word));
        if is_english || says.starts_with("UNKNOWN") {
            unsaid.insert(format!("{}: {says}", check.rule));
        }
    }
    assert_eq!(unsaid, BTreeSet::new());
    assert_eq!(heard.len(), 77, "the rules of `checks`");
}
