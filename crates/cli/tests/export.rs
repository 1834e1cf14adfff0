//! The command `export`, from outside.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn headlap(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_headlap")).args(arguments).output().expect("headlap runs")
}

fn example() -> String {
    format!("{}/../../examples/gable.toml", env!("CARGO_MANIFEST_DIR"))
}

fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join(name)
}

/// Exports the example; what the program ends with, says, and writes.
fn exported(name: &str, more: &[&str]) -> (i32, String, Vec<u8>) {
    let out = file(name);
    let _ = fs::remove_file(&out);
    let job = example();
    let output = headlap(&[&["export", &job, "--out", out.to_str().expect("a name")], more].concat());
    let said = String::from_utf8(output.stderr).expect("UTF-8");
    (output.status.code().expect("an ending"), said, fs::read(&out).unwrap_or_default())
}

#[test]
fn every_format_is_written_and_told_on_standard_error() {
    for (word, begins) in [
        ("dxf", "0\nSECTION\n"),
        ("gltf", "glTF"),
        ("geojson", "{\"type\":\"FeatureCollection\""),
        ("cityjson", "{\"type\":\"CityJSON\",\"version\":\"2.0\""),
        ("json", "{\n  \"format\": 1"),
        ("csv", "id,item,size,quantity"),
    ] {
        let (ending, said, bytes) = exported(&format!("gable.{word}"), &["--to", word]);
        assert_eq!(ending, 0, "{word}: {said}");
        assert!(said.contains("planning …") && said.contains("wrote "), "{said}");
        assert!(bytes.starts_with(begins.as_bytes()), "{word}");
    }
}

#[test]
fn the_plan_as_json_is_the_one_that_is_printed() {
    let (_, _, bytes) = exported("gable-plan.json", &["--to", "json"]);
    assert!(bytes == headlap(&["plan", &example(), "--format", "json"]).stdout);
}

/// The example does not tell how many old layers come off.
#[test]
fn what_has_no_price_is_told_and_ends_with_1() {
    for more in [&["--to", "xlsx"][..], &["--to", "csv", "--table", "price"]] {
        let (ending, said, bytes) = exported("gable-price", more);
        assert_eq!(ending, 1, "{said}");
        assert!(said.contains("no price for Take off old covering") && !bytes.is_empty(), "{said}");
    }
}

#[test]
fn what_cannot_be_written_or_read_says_why() {
    let job = example();
    let unwritten = headlap(&["export", &job, "--to", "dxf", "--out", "/nowhere/at/all.dxf"]);
    assert_eq!(unwritten.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&unwritten.stderr).contains("cannot be written"));
    let out = file("never");
    let out = out.to_str().unwrap();
    for arguments in [["export", "missing.toml", "--to", "dxf", "--out", out], ["export", &job, "--to", "doc", "--out", out]]
    {
        assert_eq!(headlap(&arguments).status.code(), Some(2), "{arguments:?}");
    }
    let rates = headlap(&["export", &job, "--to", "xlsx", "--rates", "missing.toml", "--out", out]);
    assert_eq!(rates.status.code(), Some(2));
    assert!(!Path::new(out).exists());
}

/// What would change nothing in the file is refused before anything is planned.
#[test]
fn an_option_that_the_format_has_no_use_for_is_refused() {
    for more in [&["--to", "dxf", "--table", "price"][..], &["--to", "csv", "--rates", "rates.toml"]] {
        let (ending, said, bytes) = exported("needless", more);
        assert!(ending == 2 && bytes.is_empty() && said.contains("Leave --"), "{more:?}: {said}");
    }
}
