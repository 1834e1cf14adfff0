//! `headlap rules`, `explain` and `check` from outside.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;

/// Too flat for its sheet, in two planes.
const FLAT: &str = r#"format = 1
name = "Shed"
[covering]
sheet = "composite-slate"
[[block]]
name = "shed"
outline = [[0, 0], [12, 0], [12, 10], [0, 10]]
eave_height = 8
edges = [
  { eave = "2/12" },
  { gable = true },
  { eave = "2/12" },
  { gable = true },
]
"#;

/// An empty folder of a test's own with the job in it.
fn folder(name: &str, job: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder for the test");
    fs::write(folder.join("job.toml"), job).expect("the job is written");
    folder
}

fn headlap(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_headlap")).current_dir(folder).args(arguments).output().expect("the program runs")
}

fn ending(output: &Output) -> i32 {
    output.status.code().expect("it was not killed")
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn json(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).expect("it is JSON")
}

fn found<'a>(checks: &'a Value, rule: &str) -> &'a Value {
    checks.as_array().expect("a list").iter().find(|check| check["rule"] == rule).expect("the rule is there")
}

/// Everything that could cost the warranty stands in one list, people under a heading of their own, and nothing twice.
#[test]
fn one_list_of_what_endangers_the_warranty() {
    let here = folder("warranty", FLAT);
    let page = out(&headlap(&here, &["check", "job.toml"]));
    let after =
        |heading: &str| page.split_once(heading).expect(heading).1.split("\n\n").next().unwrap_or_default().to_owned();
    let list = after("What a maker could refuse the warranty for");
    let told = json(&headlap(&here, &["check", "job.toml", "--format", "json"]));
    for check in told.as_array().expect("a list") {
        let name = check["rule"].as_str().expect("a name");
        let is_found = ["fail", "attention"].contains(&check["outcome"].as_str().expect("an outcome"));
        let is_listed = list.lines().any(|line| line.ends_with(name));
        let endangers = check["endangers"].as_array().expect("a list").contains(&Value::from("warranty"));
        let is_kept = check["kept"].as_bool().expect("kept or not");
        assert_eq!(is_listed, is_found && endangers && !is_kept, "{name}: {list}");
        assert_eq!(page.matches(&format!("{name} (")).count(), 1, "{name}: {page}");
    }
    assert!(after("People on the roof").contains("falls-from-roof"), "{page}");
}

#[test]
fn every_rule_is_listed_with_source_and_remedy_and_has_a_page() {
    let here = folder("rules", FLAT);
    let list = json(&headlap(&here, &["rules", "--format", "json"]));
    let text = out(&headlap(&here, &["rules"]));
    for rule in list.as_array().expect("a list") {
        let name = rule["rule"].as_str().expect("a name");
        for key in ["rule", "title", "kind", "family", "source", "remedy", "page"] {
            assert!(rule[key].as_str().is_some_and(|words| !words.is_empty()), "{name}: {key}");
        }
        assert!(rule["read_source"].is_boolean() && rule["endangers"].is_array(), "{name}");
        assert!(text.contains(name), "{name}");
        let page = out(&headlap(&here, &["explain", name]));
        for heading in ["## What it finds", "## Why it matters", "## Remedy", "## Source"] {
            assert!(page.contains(heading), "{name}: {heading}");
        }
    }
    assert!(text.lines().all(|line| line.chars().count() <= 80));
    let unknown = headlap(&here, &["explain", "headlap-to-short"]);
    assert_eq!(ending(&unknown), 2);
    assert!(err(&unknown).contains("headlap-too-short"), "{}", err(&unknown));
}

#[test]
fn a_failing_check_ends_with_1_only_where_asked_and_not_where_silenced() {
    let here = folder("check-strict", FLAT);
    assert_eq!(ending(&headlap(&here, &["check", "job.toml"])), 0);
    let strict = headlap(&here, &["check", "job.toml", "--strict"]);
    assert_eq!(ending(&strict), 1);
    assert!(out(&strict).contains("FAIL  pitch-too-low (maker)"), "{}", out(&strict));
    assert!(out(&strict).lines().all(|line| line.chars().count() <= 80));
    let silence = "[[silence]]\nrule = \"pitch-too-low\"\nreason = \"A shed.\"\n";
    let here = folder("check-silenced", &format!("{FLAT}{silence}"));
    let silenced = headlap(&here, &["check", "job.toml", "--strict"]);
    assert_eq!(ending(&silenced), 0, "{}", out(&silenced));
    assert!(out(&silenced).contains("Silenced by the job: A shed."), "{}", out(&silenced));
    assert_eq!(ending(&headlap(&here, &["plan", "job.toml", "--strict"])), 0);
    let checks = json(&headlap(&here, &["check", "job.toml", "--format", "json"]));
    assert_eq!(found(&checks, "pitch-too-low")["outcome"], "fail");
    assert_eq!(found(&checks, "pitch-too-low")["silenced"], "A shed.");
}

/// A silence for one plane hides nothing of another.
#[test]
fn a_silence_holds_for_its_plane_alone() {
    let silence = |plane| format!("[[silence]]\nrule = \"pitch-too-low\"\nreason = \"Hidden.\"\nplane = \"{plane}\"\n");
    let here = folder("check-silence-one", &format!("{FLAT}{}", silence("shed.0")));
    assert_eq!(ending(&headlap(&here, &["check", "job.toml", "--strict"])), 1);
    let here = folder("check-silence-both", &format!("{FLAT}{}{}", silence("shed.0"), silence("shed.2")));
    assert_eq!(ending(&headlap(&here, &["check", "job.toml", "--strict"])), 0);
    let here = folder("check-silence-lost", &format!("{FLAT}{}", silence("shed.7")));
    let lost = headlap(&here, &["check", "job.toml"]);
    assert!(err(&lost).contains("there is no plane \"shed.7\"") && err(&lost).contains("job.toml:18"), "{}", err(&lost));
}

#[test]
fn a_silence_names_a_rule_and_a_reason() {
    for (silence, says) in [
        ("rule = \"pich-too-low\"\nreason = \"x\"", "Did you mean \"pitch-too-low\"?"),
        ("rule = \"pitch-too-low\"\nreason = \" \"", "nothing is said why"),
        ("rule = \"pitch-too-low\"", "reason"),
    ] {
        let here = folder("check-silence-wrong", &format!("{FLAT}[[silence]]\n{silence}\n"));
        let wrong = headlap(&here, &["check", "job.toml"]);
        assert_eq!(ending(&wrong), 2);
        assert!(err(&wrong).contains(says), "{}", err(&wrong));
    }
}

/// Required properties: SARIF 2.1.0 (OASIS Standard), sections 3.13, 3.14, 3.18, 3.27, 3.30, 3.35.
#[test]
fn sarif_points_at_the_lines_of_the_job() {
    let here = folder("check-sarif", FLAT);
    let log = json(&headlap(&here, &["check", "job.toml", "--format", "sarif"]));
    assert_eq!(log["version"], "2.1.0");
    let run = &log["runs"][0];
    let rules = run["tool"]["driver"]["rules"].as_array().expect("rules");
    let results = run["results"].as_array().expect("results");
    assert!(!results.is_empty());
    for result in results {
        let id = result["ruleId"].as_str().expect("an id");
        if let Some(index) = result["ruleIndex"].as_u64() {
            assert_eq!(rules[index as usize]["id"], id);
        }
        assert!(["error", "warning"].contains(&result["level"].as_str().expect("a level")));
        assert!(!result["message"]["text"].as_str().expect("a message").is_empty());
        let place = &result["locations"][0]["physicalLocation"];
        assert_eq!(place["artifactLocation"]["uri"], "job.toml");
        let lines = FLAT.lines().count() as u64;
        assert!((1..=lines).contains(&place["region"]["startLine"].as_u64().expect("a line")), "{id}");
    }
    let flat = results.iter().find(|result| result["ruleId"] == "pitch-too-low").expect("it is found");
    let region = &flat["locations"][0]["physicalLocation"]["region"];
    assert_eq!(
        (region["startLine"].as_u64(), region["startColumn"].as_u64(), region["endColumn"].as_u64()),
        (Some(10), Some(3), Some(20))
    );
    let related: Vec<u64> = flat["relatedLocations"]
        .as_array()
        .expect("places")
        .iter()
        .filter_map(|place| place["physicalLocation"]["region"]["startLine"].as_u64())
        .collect();
    assert_eq!(related, [10, 12], "both planes");
}

#[test]
fn a_silenced_finding_is_a_suppressed_result() {
    let here =
        folder("check-sarif-silenced", &format!("{FLAT}[[silence]]\nrule = \"pitch-too-low\"\nreason = \"A shed.\"\n"));
    let log = json(&headlap(&here, &["check", "job.toml", "--format", "sarif"]));
    let results = log["runs"][0]["results"].as_array().expect("results").clone();
    let flat = results.iter().find(|result| result["ruleId"] == "pitch-too-low").expect("it stays");
    assert_eq!(flat["suppressions"][0]["justification"], "A shed.");
}
