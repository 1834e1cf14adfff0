//! The text of a job file reads back as what was imported.

mod common;

use common::{json, told};
use exchange::{Facet, Imported, Outline, job_file};
use proptest::prelude::*;
use reader::Format;
use toml::Table;
use units::LengthUnit;

const WITH_COURT: &str = r#"{"type":"FeatureCollection","features":[
  {"type":"Feature","properties":{"name":"the \"old\" \\ house\n\u0007"},"geometry":{"type":"Polygon","coordinates":[
    [[0,0],[44.27,0],[44.27,24.75],[17.333,24.75],[17.333,36.17],[0,36.17],[0,0]],
    [[4,4],[4,10],[10,10],[10,4],[4,4]]]}},
  {"type":"Feature","properties":{"name":"shed"},"geometry":{"type":"Polygon","coordinates":[[[60,0],[70,0],[70,8]]]}}]}"#;

#[test]
fn blocks_read_back_and_are_the_same() {
    let found = json(WITH_COURT, &told(LengthUnit::Ft)).unwrap();
    let text = job_file(&found, "Heron\n\"house\"");
    let (job, mistakes) = plan::read_job(&text, Format::Toml);
    let job = job.unwrap_or_else(|| panic!("{mistakes:?}\n{text}"));
    assert_eq!(job.name, "Heron \"house\"");
    assert_eq!(job.blocks.len(), 2);
    for (block, outline) in job.blocks.iter().zip(&found.outlines) {
        assert_eq!(block.name, outline.name);
        assert_eq!(block.outline, outline.corners);
        assert_eq!(block.holes.iter().map(|hole| hole.outline.clone()).collect::<Vec<_>>(), outline.holes);
    }
    assert_eq!(text.matches("pitch to be measured").count(), 6 + 4 + 3);
}

#[test]
fn a_footprint_under_planes_is_a_comment() {
    let square = vec![[0.0, 0.0], [120.0, 0.0], [120.0, 120.0], [0.0, 120.0]];
    let outline = Outline { name: "a".into(), corners: square, holes: vec![], eave_height: 96.0, has_planes: true };
    let plane =
        Facet { name: "a, plane 1".into(), corners: vec![[0.0; 3], [120.0, 0.0, 0.0], [0.0, 90.0, 60.0]], holes: vec![] };
    let text = job_file(&Imported { outlines: vec![outline], planes: vec![plane], notes: vec!["one\ntwo".into()] }, "a");
    let table: Table = text.parse().unwrap();
    assert!(!table.contains_key("block"));
    // Without the marks it is a block.
    let bare: String = text
        .lines()
        .map(|line| line.strip_prefix("# ").filter(|rest| rest.contains(['[', '=', '{', ']'])).unwrap_or(line))
        .map(|line| format!("{line}\n"))
        .collect();
    assert_eq!(bare.parse::<Table>().unwrap()["block"][0]["eave_height"].as_str(), Some("8' 0\""));
    assert!(table["plane"][0]["corners"].is_array());
    assert!(text.contains("corners = [[0, 0, 0], [10, 0, 0], [0, 7.5, 5]]"), "{text}");
}

proptest! {
    #[test]
    fn no_name_and_no_note_breaks_the_text(name in "\\PC{0,80}|[\\x00-\\x7f]{0,20}", note in "[\\x00-\\x7f\\PC]{0,40}") {
        let corners = vec![[0.0; 3], [120.0, 0.0, 0.0], [0.0, 90.0, 60.0]];
        let hole = vec![[10.0, 10.0, 1.0], [20.0, 10.0, 1.0], [10.0, 20.0, 1.0]];
        let plane = Facet { name: name.clone(), corners, holes: vec![hole] };
        let text = job_file(&Imported { outlines: vec![], planes: vec![plane], notes: vec![note] }, &name);
        let table: Table = text.parse().map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        prop_assert_eq!(table["plane"][0]["name"].as_str(), Some(name.as_str()));
    }
}
