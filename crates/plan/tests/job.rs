//! A job file is read as meant, and whatever cannot be meant is named with its place.

use plan::{DeckKind, Drive, Job, job_schema, read_job, sheet_schema};
use proptest::prelude::*;
use reader::Format;
use roof::{OutlineAt, SideKind};

const HOUSE: &str = r#"
format = 1
name   = "Heron house"
units  = "ft"

[covering]
sheet = "composite-slate"

[[block]]
name        = "house"
outline_at  = "walls"
outline     = [[0, 0], ["40 ft", 0], [40, "28' 6\""], [0, 28.5]]
holes       = [{ outline = [[10, 10], [20, 10], [20, 20]], edges = [{ eave = 4 }, { eave = 4 }, { gable = true }] }]
eave_height = "9 ft"
edges = [
  { eave = "8/12" },
  { gable = true },
  { eave = "45 deg", overhang = "16 in" },
  { wall = true },
]

[deck]
kind           = "plywood"
thickness      = "5/8 in"
exposed_soffit = true

[fastener]
kind   = "ring-nail"
metal  = "copper"
length = "1-3/4 in"
shank  = "3 mm"
drive  = "hand"

[site]
north_deg = 30
"#;

fn sound(text: &str, format: Format) -> Job {
    let (job, mistakes) = read_job(text, format);
    assert_eq!(mistakes, []);
    job.expect("a sound job")
}

/// Paths and marked texts of the mistakes after one replacement in the sound job.
fn spoilt(from: &str, to: &str) -> Vec<(String, String)> {
    assert!(HOUSE.contains(from), "{from}");
    let text = HOUSE.replacen(from, to, 1);
    let (job, mistakes) = read_job(&text, Format::Toml);
    assert_eq!(job.is_none(), !mistakes.is_empty());
    mistakes.into_iter().map(|mistake| (mistake.path, text[mistake.span].to_string())).collect()
}

#[test]
#[allow(clippy::float_cmp, reason = "feet and inches are exact in binary")]
fn a_job_is_read_as_meant() {
    let job = sound(HOUSE, Format::Toml);
    assert_eq!(
        (job.name.as_str(), job.covering.sheet.as_str(), job.covering.is_file),
        ("Heron house", "composite-slate", false)
    );
    assert_eq!(job.north_deg, 30.0);
    let block = &job.blocks[0];
    assert_eq!(block.outline, [[0.0, 0.0], [480.0, 0.0], [480.0, 342.0], [0.0, 342.0]]);
    assert_eq!((block.outline_at, block.eave_height), (OutlineAt::Walls, 108.0));
    let rises = block.sides.iter().map(|side| match side.kind {
        SideKind::Eave(pitch) => (pitch.rise() * 1e6).round() / 1e6,
        SideKind::Gable => -1.0,
        SideKind::Wall => -2.0,
    });
    assert_eq!(rises.collect::<Vec<_>>(), [8.0, -1.0, 12.0, -2.0]);
    let overhangs: Vec<_> = block.sides.iter().map(|side| side.overhang.map(units::Length::to_inches)).collect();
    assert_eq!(overhangs, [None, None, Some(16.0), None], "an absent overhang is unknown, not zero");
    assert_eq!((block.holes[0].outline[1], block.holes[0].sides.len()), ([240.0, 120.0], 3));
    let (deck, fastener) = (job.deck.unwrap(), job.fastener.unwrap());
    assert_eq!((deck.kind, deck.thickness.unwrap().to_inches()), (Some(DeckKind::Plywood), 0.625));
    assert_eq!((fastener.drive, fastener.length.unwrap().to_inches()), (Some(Drive::Hand), 1.75));
    assert_eq!(job.places.line("block[0].edges[2].eave"), Some(18));
}

#[test]
#[allow(clippy::float_cmp, reason = "what is absent is exactly nothing")]
fn what_is_absent_has_its_default() {
    let text = r#"{ "format": 1, "name": "shed", "covering": { "sheet": "./my-slate.toml" },
        "block": [{ "name": "shed", "outline": [[0, 0], [10, 0], [10, 8]],
                    "edges": [{ "eave": 6 }, { "gable": true }, { "gable": true }] }] }"#;
    let job = sound(text, Format::Json);
    assert!(job.covering.is_file && job.deck.is_none() && job.fastener.is_none());
    assert_eq!((job.blocks[0].outline_at, job.blocks[0].eave_height, job.north_deg), (OutlineAt::DripLine, 0.0, 0.0));
    assert_eq!(job.blocks[0].outline[1], [120.0, 0.0], "bare lengths are feet unless the file says otherwise");
}

#[test]
fn each_mistake_is_named_with_its_place() {
    for (from, to, path, marked) in [
        ("format = 1", "format = 3", "format", "3"),
        ("\"Heron house\"", "\"\"", "name", "\"\""),
        ("\"composite-slate\"", "\" \"", "covering.sheet", "\" \""),
        ("name        = \"house\"", "name = \"\"", "block[0].name", "\"\""),
        ("\"walls\"", "\"wals\"", "block[0].outline_at", "\"wals\""),
        ("[[0, 0], [\"40 ft\"", "[[0, 10001], [\"40 ft\"", "block[0].outline[0][1]", "10001"),
        ("[[0, 0], [\"40 ft\"", "[[nan, 0], [\"40 ft\"", "block[0].outline[0][0]", "nan"),
        ("[[0, 0], [\"40 ft\"", "[[0, -inf], [\"40 ft\"", "block[0].outline[0][1]", "-inf"),
        ("[[0, 0], [\"40 ft\"", "[[0], [\"40 ft\"", "block[0].outline[0]", "[0]"),
        (", [0, 28.5]]", "]", "block[0].edges", "["),
        ("  { wall = true },\n", "", "block[0].edges", "["),
        ("{ eave = 4 }, { gable", "{ gable", "block[0].holes[0].edges", "[{ eave = 4 }, { gable = true }]"),
        ("\"9 ft\"", "\"9 feets\"", "block[0].eave_height", "\"9 feets\""),
        ("{ eave = \"8/12\" }", "{ eave = \"88 deg\" }", "block[0].edges[0].eave", "\"88 deg\""),
        ("{ eave = \"8/12\" }", "{ eave = -8 }", "block[0].edges[0].eave", "-8"),
        ("{ eave = \"8/12\" }", "{ eave = 0 }", "block[0].edges[0].eave", "0"),
        ("{ eave = \"8/12\" }", "{ }", "block[0].edges[0]", "{ }"),
        ("{ eave = \"8/12\" }", "{ eave = 8, wall = true }", "block[0].edges[0]", "{ eave = 8, wall = true }"),
        ("  { gable = true }", "  { gable = false }", "block[0].edges[1].gable", "false"),
        ("{ wall = true }", "{ wall = true, overhang = 1 }", "block[0].edges[3].overhang", "1"),
        ("\"16 in\"", "\"-16 in\"", "block[0].edges[2].overhang", "\"-16 in\""),
        ("\"16 in\"", "\"16 yd\"", "block[0].edges[2].overhang", "\"16 yd\""),
        ("\"5/8 in\"", "0.625", "deck.thickness", "0.625"),
        ("\"1-3/4 in\"", "0", "fastener.length", "0"),
        ("\"copper\"", "\"coper\"", "fastener.metal", "\"coper\""),
        ("north_deg = 30", "north_deg = 400", "site.north_deg", "400"),
        ("north_deg = 30", "wind_mhp = 115", "site.wind_mhp", "wind_mhp"),
        ("north_deg = 30", "wind_mph = 1150", "site.wind_mph", "1150"),
        ("north_deg = 30", "code = \"2019\"", "site.code", "\"2019\""),
        ("north_deg = 30", "code = 2018", "site.code", "2018"),
        ("north_deg = 30", "risk_category = 5", "site.risk_category", "5"),
        ("north_deg = 30", "winter = 20", "site.winter", "20"),
        ("north_deg = 30", "coldest = \"20\"", "site.coldest", "\"20\""),
        ("[site]", "[attick]\n[site]", "attick", "attick"),
        ("[site]", "[attic]\narea_sqft = 0\n[site]", "attic.area_sqft", "0"),
        ("[site]", "[attic.soffit_vent]\nnfa_per_foot_sqin = -9\n[site]", "attic.soffit_vent.nfa_per_foot_sqin", "-9"),
        ("[site]", "[dry_in]\npast_wall = \"-2 in\"\n[site]", "dry_in.past_wall", "\"-2 in\""),
        ("[site]", "[dry_in.drip_edge]\nlength = \"1 in\"\n[site]", "dry_in.drip_edge.length", "\"1 in\""),
        ("[site]", "[dry_in.fasteners]\nbox_count = 0\n[site]", "dry_in.fasteners.box_count", "0"),
        ("north_deg = 30", "climate_zone = 9", "site.climate_zone", "9"),
    ] {
        let found = spoilt(from, to);
        assert_eq!(found, [(path.to_string(), marked.to_string())], "{to}");
    }
}

#[test]
fn fewer_than_three_corners_are_no_outline() {
    let hole = "block[0].holes[0]";
    let paths: Vec<String> = spoilt(", [20, 20]], edges", "], edges").into_iter().map(|(path, _)| path).collect();
    assert_eq!(paths, [format!("{hole}.outline"), format!("{hole}.edges")], "and the edges are now one too many");
}

#[test]
fn blocks_need_names_of_their_own() {
    let (_, block) = HOUSE.split_once("[[block]]").unwrap();
    let (block, _) = block.split_once("[deck]").unwrap();
    let (_, mistakes) = read_job(&format!("{HOUSE}\n[[block]]{block}"), Format::Toml);
    assert_eq!(mistakes.len(), 1);
    assert_eq!((mistakes[0].path.as_str(), mistakes[0].says.as_str()), ("block[1].name", "two blocks are called \"house\""));
    let (_, mistakes) = read_job("format = 1\nname = \"x\"\nblock = []\ncovering = { sheet = \"a\" }\n", Format::Toml);
    assert_eq!(mistakes.len(), 1);
    assert_eq!(mistakes[0].path, "block");
}

#[test]
fn mistakes_come_in_the_order_of_the_file() {
    let text = HOUSE.replace("format = 1", "format = 2").replace("\"16 in\"", "\"90 ft\"").replace("= 30", "= 999");
    let (_, mistakes) = read_job(&text, Format::Toml);
    let paths: Vec<&str> = mistakes.iter().map(|mistake| mistake.path.as_str()).collect();
    assert_eq!(paths, ["format", "block[0].edges[2].overhang", "site.north_deg"]);
}

#[test]
fn the_schemas_that_are_checked_in_are_current() {
    for (name, checked_in, current) in [
        ("job", include_str!("../../../schema/job.schema.json"), job_schema()),
        ("covering", include_str!("../../../schema/covering.schema.json"), sheet_schema()),
    ] {
        let remedy = format!("keep what `headlap schema` prints as schema/{name}.schema.json");
        assert!(checked_in == current, "the schema of the {name} file has changed: {remedy}");
    }
}

#[test]
fn every_key_is_explained_in_the_schemas() {
    for text in [job_schema(), sheet_schema()] {
        let schema: serde_json::Value = serde_json::from_str(&text).unwrap();
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
        let tables = schema["$defs"].as_object().unwrap().values().chain([&schema]);
        let keys = tables.filter_map(|table| table["properties"].as_object()).flatten();
        let unexplained: Vec<_> = keys.filter(|(_, key)| key["description"].as_str().is_none_or(str::is_empty)).collect();
        assert!(unexplained.is_empty(), "{unexplained:?}");
    }
}

proptest! {
    #[test]
    fn no_mutation_of_a_job_panics(at in 0usize..1000, length in 0usize..40, with in "[\\[\\]{}=\",.#a-z0-9/' \n-]{0,8}") {
        let start = HOUSE.floor_char_boundary(at % HOUSE.len());
        let end = HOUSE.ceil_char_boundary(start + length);
        let text = format!("{}{with}{}", &HOUSE[..start], &HOUSE[end..]);
        let (job, mistakes) = read_job(&text, Format::Toml);
        prop_assert_eq!(job.is_none(), !mistakes.is_empty());
        for mistake in mistakes {
            prop_assert!(text.get(mistake.span).is_some());
        }
        if let Some(job) = job {
            for block in job.blocks {
                prop_assert_eq!(block.outline.len(), block.sides.len());
                prop_assert!(block.outline.iter().flatten().all(|inches| inches.abs() <= 120_000.0));
            }
        }
    }
}
