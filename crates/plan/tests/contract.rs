//! What other programs rely on in the printed plan: its keys, and what they promise of each other.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use covering::Catalog;
use plan::{plan, read_job};
use reader::Format;
use serde_json::Value;

const JOBS: [&str; 5] = [
    include_str!("../../../examples/gable.toml"),
    include_str!("../../../examples/hip.toml"),
    include_str!("../../../examples/ell.toml"),
    include_str!("../../../examples/chimney.toml"),
    include_str!("../../../examples/cottage.toml"),
];

fn printed(text: &str) -> Value {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    serde_json::to_value(plan(&job.unwrap(), &Catalog::shipped())).unwrap()
}

fn list<'a>(value: &'a Value, key: &str) -> &'a Vec<Value> {
    value[key].as_array().unwrap_or_else(|| panic!("{key} is a list"))
}

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().unwrap_or_else(|| panic!("{key} is a number"))
}

#[test]
fn the_keys_are_there() {
    let plan = printed(JOBS[2]);
    assert_eq!(plan["format"], 1);
    list(&plan, "problems");
    let plane = &list(&plan["roof"], "planes")[0];
    for key in ["pitch", "facing_deg", "area_sqft"] {
        number(plane, key);
    }
    assert!(plane["id"].is_string() && plane["name"].is_string());
    assert_eq!(plane["outlines_ft"][0][0].as_array().unwrap().len(), 3);
    assert!(plane["edges"][0]["kind"].is_string() && plane["edges"][0]["meets"].is_string());
    for key in [
        "area_sqft",
        "plan_area_sqft",
        "eave_ft",
        "rake_ft",
        "ridge_ft",
        "hip_ft",
        "valley_ft",
        "sidewall_ft",
        "headwall_ft",
        "break_ft",
        "high_edge_ft",
        "dead_valley_ft",
        "height_ft",
    ] {
        number(&plan["roof"]["totals"], key);
    }
    for key in ["pieces", "whole", "cut", "stock", "stock_bound"] {
        number(&plan["layout"], key);
    }
    let laid = &list(&plan["layout"], "planes")[0];
    for key in ["first_butt_in", "top_in"] {
        number(laid, key);
    }
    let course = &list(laid, "courses")[0];
    number(course, "butt_in");
    number(course, "exposure_in");
    list(course, "spans_in");
    list(course, "joints_in");
    for line in list(&plan, "order") {
        assert!(line["id"].is_string() && line["item"].is_string() && line["unit"].is_string() && line["pack"].is_string());
        number(line, "quantity");
        number(line, "packs");
    }
    for check in list(&plan, "checks") {
        assert!(["code", "maker", "practice"].contains(&check["kind"].as_str().unwrap()));
        assert!(["pass", "fail", "attention", "not-applicable"].contains(&check["outcome"].as_str().unwrap()));
        assert!(check["rule"].is_string() && check["says"].is_string() && check["source"].is_string());
        assert!(check["read_source"].is_boolean());
        list(check, "where");
    }
}

#[test]
fn a_problem_tells_its_place() {
    let plan = printed(&JOBS[0].replace("composite-slate", "composit-slate"));
    let problem = &list(&plan, "problems")[0];
    assert_eq!(problem["code"], "unknown-sheet");
    assert_eq!(problem["where"]["line"], 7);
    assert!(problem["says"].is_string() && problem["remedy"].as_str().unwrap().contains("composite-slate"));
    assert!(problem["where"]["block"].is_string() && problem["where"]["plane"].is_string());
}

#[test]
fn pieces_are_spans_and_joints() {
    for text in JOBS {
        let plan = printed(text);
        let mut pieces = 0;
        for course in list(&plan["layout"], "planes").iter().flat_map(|plane| list(plane, "courses")) {
            let joints: Vec<f64> = list(course, "joints_in").iter().map(|joint| joint.as_f64().unwrap()).collect();
            assert!(joints.windows(2).all(|pair| pair[0] < pair[1]));
            pieces += joints.len() + list(course, "spans_in").len();
        }
        let told = |key: &str| plan["layout"][key].as_u64().unwrap();
        assert_eq!(pieces as u64, told("pieces"));
        assert_eq!(told("whole") + told("cut"), told("pieces"));
        assert!(told("stock_bound") <= told("stock"));
    }
}

/// u_i ≥ the sheet's offset away from the joints it must miss: the next course for double lap, the next two for triple.
#[test]
fn joints_keep_their_offset_or_a_check_fails() {
    for (text, across, least) in [(JOBS[0], 1, 3.0), (JOBS[1], 1, 3.25), (JOBS[2], 2, 1.75), (JOBS[3], 1, 3.0)] {
        let plan = printed(text);
        for plane in list(&plan["layout"], "planes") {
            let rows: Vec<Vec<f64>> = list(plane, "courses")
                .iter()
                .map(|course| list(course, "joints_in").iter().map(|joint| joint.as_f64().unwrap()).collect())
                .collect();
            for (index, row) in rows.iter().enumerate() {
                for above in rows.iter().skip(index + 1).take(across) {
                    let nearest = row.iter().flat_map(|a| above.iter().map(move |b| (a - b).abs())).fold(f64::MAX, f64::min);
                    assert!(nearest >= least - 1e-6, "{nearest} in course {index} of {}", plane["id"]);
                }
            }
        }
    }
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    for text in JOBS {
        assert_eq!(printed(text).to_string(), printed(text).to_string());
    }
}

#[test]
fn order_lines_are_the_sum_of_their_places() {
    for text in JOBS {
        for line in list(&printed(text), "order") {
            let sum: f64 = list(line, "places").iter().map(|place| number(place, "quantity")).sum();
            assert!((sum - number(line, "quantity")).abs() < 1e-6, "{line}");
        }
    }
}

/// 4 in 12 at 180 mph in exposure B, 30 ft high: −32.0 and +20.2 psf, International Residential Code 2018, Table R301.2(2).
#[test]
fn the_wind_of_the_place_is_told_where_the_job_gives_it() {
    assert!(printed(JOBS[0])["wind"].is_null());
    let flat = JOBS[0].replace("eave = \"8/12\"", "eave = \"4/12\"");
    let site = "[site]\ncode = \"2018\"\nwind_mph = 180\nwind_exposure = \"B\"\nmean_roof_height = \"30 ft\"\n";
    let wind = &printed(&format!("{flat}\n{site}"))["wind"];
    let plane = &list(wind, "planes")[0];
    assert_eq!(plane["plane"], "house.0");
    assert!((plane["zones_psf"][0].as_f64().unwrap() + 32.0).abs() < 0.06, "{plane}");
    assert!((number(plane, "inward_psf") - 20.2).abs() < 0.06, "{plane}");
    assert!(number(wind, "zone_width_ft") >= 3.0);
}
