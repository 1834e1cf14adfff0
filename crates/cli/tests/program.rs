//! The program from outside: what it prints where, and what it ends with.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// An empty folder of a test's own.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder for the test");
    folder
}

fn headlap(folder: &Path, arguments: &[&str]) -> Output {
    let program = env!("CARGO_BIN_EXE_headlap");
    Command::new(program).current_dir(folder).args(arguments).output().expect("the program runs")
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

/// Plans a job given as text.
fn planned(name: &str, job: &str, more: &[&str]) -> Output {
    let folder = folder(name);
    fs::write(folder.join("job.toml"), job).expect("the job is written");
    headlap(&folder, &[&["plan", "job.toml"], more].concat())
}

const SHED: &str = r#"format = 1
name = "Shed"
[covering]
sheet = "composite-slate"
[[block]]
name = "shed"
outline = [[0, 0], [12, 0], [12, 10], [0, 10]]
eave_height = 8
edges = [{ eave = "8/12" }, { gable = true }, { eave = "8/12" }, { gable = true }]
"#;

#[test]
fn an_example_is_planned_on_a_page_of_80_columns() {
    for example in ["gable", "hip", "ell", "manor", "cottage"] {
        let output = headlap(&root(), &["plan", &format!("examples/{example}.toml")]);
        assert_eq!(ending(&output), 0, "{}", err(&output));
        let page = out(&output);
        assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
        assert!(!page.contains('\u{1b}'), "no colour where no terminal is");
        for part in ["Planes", "Lines", "Courses", "Order", "Checks", "Cautions"] {
            assert!(page.lines().any(|line| line.starts_with(part)), "{part} in\n{page}");
        }
    }
}

#[test]
fn json_goes_to_standard_output_and_is_the_same_every_time() {
    let run = || headlap(&root(), &["plan", "examples/hip.toml", "--format", "json"]);
    let output = run();
    let plan: serde_json::Value = serde_json::from_slice(&output.stdout).expect("it is JSON");
    assert_eq!(plan["format"], 1);
    for key in ["problems", "roof", "layout", "order", "checks"] {
        assert!(!plan[key].is_null(), "{key}");
    }
    assert_eq!(output.stdout, run().stdout);
}

#[test]
fn the_roof_plan_and_a_sheet_for_each_plane_are_written_and_told_on_standard_error() {
    let folder = folder("sheets-of-planes");
    fs::write(folder.join("job.toml"), SHED).expect("the job is written");
    let output = headlap(&folder, &["plan", "job.toml", "--out", "new/papers"]);
    assert_eq!(ending(&output), 0, "{}", err(&output));
    for sheet in ["roof-plan.svg", "setting-out-shed.0.svg", "setting-out-shed.2.svg"] {
        let drawing = fs::read_to_string(folder.join("new/papers").join(sheet)).expect("it is there");
        assert!(drawing.starts_with("<svg ") && drawing.ends_with("</svg>\n"));
        assert!(err(&output).contains(sheet));
    }
}

#[test]
fn sheets_that_cannot_be_written_end_with_1() {
    let folder = folder("papers-in-the-way");
    fs::write(folder.join("job.toml"), SHED).expect("the job is written");
    fs::write(folder.join("papers"), "in the way").expect("a file in the way");
    let output = headlap(&folder, &["plan", "job.toml", "--out", "papers"]);
    assert_eq!(ending(&output), 1);
    assert!(err(&output).contains("papers cannot be written"), "{}", err(&output));
}

#[test]
fn the_order_is_printed_with_its_places_and_its_deliveries() {
    let job = format!(
        "{SHED}[order]\nattic_stock = 12\n[[order.delivery]]\nday = 1\nplanes = [\"shed.2\"]\n\
         [[order.delivery]]\nday = 2\nplanes = []\n"
    );
    let folder = folder("order");
    fs::write(folder.join("job.toml"), &job).expect("the job is written");
    let page = headlap(&folder, &["order", "job.toml"]);
    assert_eq!(ending(&page), 0, "{}", err(&page));
    let page = out(&page);
    assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
    for part in ["shed, south: ", "Chance of running short, 12 units left", "(ordered)", "Day 1, for shed, north"] {
        assert!(page.replace("\n             ", " ").contains(part), "{part} in\n{page}");
    }
    let json: serde_json::Value =
        serde_json::from_slice(&headlap(&folder, &["order", "job.toml", "--format", "json"]).stdout).expect("it is JSON");
    assert_eq!(json["deliveries"][1]["planes"][0], "shed.0", "what is not named comes with the last");
    assert_eq!(json["order"][0]["spare"]["breakage_told_by"], "sheet");
    fs::write(folder.join("job.toml"), job.replace("shed.2", "shed.3")).expect("the job is written");
    let wrong = headlap(&folder, &["order", "job.toml"]);
    assert_eq!(ending(&wrong), 1);
    assert!(err(&wrong).contains("no plane \"shed.3\"") && err(&wrong).contains("job.toml:14:"), "{}", err(&wrong));
}

const PRICED: &str = "[deck]\nold_layers = 1\n[price]\nextras = [\"snow guards at the eaves\"]\n\
                      [[price.option]]\nname = \"In slate\"\nsheet = \"natural-slate\"\n";

#[test]
fn a_price_and_a_proposal_are_printed() {
    let folder = folder("price");
    fs::write(folder.join("job.toml"), format!("{SHED}{PRICED}")).expect("the job is written");
    let costs = headlap(&folder, &["price", "job.toml"]);
    assert_eq!(ending(&costs), 0, "{}{}", err(&costs), out(&costs));
    let proposal = headlap(&folder, &["price", "job.toml", "--proposal"]);
    assert_eq!(ending(&proposal), 0, "{}", err(&proposal));
    for page in [out(&costs), out(&proposal)] {
        assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
        assert!(page.contains("INVENTED") && page.contains("Total, In slate"), "{page}");
    }
    assert!(out(&costs).contains("Margin") && !out(&proposal).contains("Margin"), "the owner does not read the margin");
    for part in ["Take off the old covering.", "Not in the price", "At signing", "Deck sheet of 4 x 8 ft", "Signed"] {
        assert!(out(&proposal).contains(part), "{part} in\n{}", out(&proposal));
    }
    let json = headlap(&folder, &["price", "job.toml", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_slice(&json.stdout).expect("it is JSON");
    let cents = |amount: &serde_json::Value| amount.as_str().and_then(|text| text.replace('.', "").parse().ok());
    for way in json["ways"].as_array().expect("a list") {
        let draws = way["quote"]["draws"].as_array().expect("a list").iter();
        let sum: i64 = draws.map(|draw| cents(&draw["amount"]).expect("an amount")).sum();
        assert_eq!(Some(sum), cents(&way["quote"]["sums"]["total"]));
    }
}

#[test]
fn rates_of_ones_own_are_read_and_what_they_lack_is_told() {
    let folder = folder("own-rates");
    fs::write(folder.join("job.toml"), format!("{SHED}{PRICED}").replace("[price]", "[price]\nrates = \"mine.toml\""))
        .expect("the job is written");
    let missing = headlap(&folder, &["price", "job.toml"]);
    assert_eq!(ending(&missing), 2);
    assert!(
        err(&missing).contains("there is no file mine.toml") && err(&missing).contains("job.toml:13:"),
        "{}",
        err(&missing)
    );
    let rates = out(&headlap(&folder, &["rates"]));
    fs::write(folder.join("mine.toml"), rates.replace("\"caps\"\nprice", "\"cap\"\nprice")).expect("the rates are written");
    let unpriced = headlap(&folder, &["price", "job.toml"]);
    assert_eq!(ending(&unpriced), 1);
    assert!(out(&unpriced).contains("NO PRICE") && out(&unpriced).contains("NO TOTAL"), "{}", out(&unpriced));
    assert!(!out(&unpriced).contains("Total, Composite") && err(&unpriced).contains("has no price"), "{}", err(&unpriced));
    let proposal = headlap(&folder, &["price", "job.toml", "--proposal"]);
    assert!(out(&proposal).contains("NO TOTAL") && !out(&proposal).contains("At signing"), "{}", out(&proposal));
    fs::write(folder.join("broken.toml"), rates.replace("hours = 6", "huors = 6")).expect("the rates are written");
    let broken = headlap(&folder, &["price", "job.toml", "--rates", "broken.toml"]);
    assert_eq!(ending(&broken), 2);
    assert!(err(&broken).contains("broken.toml:") && err(&broken).contains("Did you mean \"hours\"?"), "{}", err(&broken));
}

#[test]
fn loads_are_told_and_the_stage_map_is_drawn() {
    let folder = folder("stage");
    fs::write(folder.join("job.toml"), format!("{SHED}[deck]\nlive_load_psf = 20\nold_psf = 3\n")).expect("it is written");
    let output = headlap(&folder, &["stage", "job.toml", "--out", "papers"]);
    assert_eq!(ending(&output), 0, "{}", err(&output));
    let page = out(&output);
    assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
    for part in ["shed, south: new ", "old covering 3.00 psf", "licensed engineer", "pallet", "#1 "] {
        assert!(page.contains(part), "{part} in\n{page}");
    }
    for paper in ["stage-map.svg", "stage-list-1.svg"] {
        let drawing = fs::read_to_string(folder.join("papers").join(paper)).expect("it is there");
        assert!(drawing.starts_with("<svg ") && err(&output).contains(paper));
    }
    fs::write(folder.join("job.toml"), SHED).expect("the job is written");
    let untold = out(&headlap(&folder, &["stage", "job.toml"]));
    assert!(untold.contains("NOT TOLD") && untold.contains("[deck] old_psf"), "{untold}");
    let json = headlap(&folder, &["stage", "job.toml", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_slice(&json.stdout).expect("it is JSON");
    assert!(json["piles"][0]["units"].is_u64() && json["live_load_psf"].is_null());
}

#[test]
fn every_mistake_is_shown_in_one_run_with_its_text_underlined() {
    let job = SHED
        .replace("gable = true }, { eave", "gabel = true }, { eave")
        .replace("eave_height = 8", "eave_height = \"8 fet\"");
    let output = planned("mistakes", &job, &[]);
    assert_eq!(ending(&output), 2);
    assert_eq!(out(&output), "");
    let told = err(&output);
    assert!(told.contains("gabel") && told.contains("Did you mean \"gable\"?"), "{told}");
    assert!(told.contains("job.toml:9:") && told.contains("job.toml:8:"), "{told}");
    assert!(told.contains("8 │ eave_height = \"8 fet\""), "{told}");
    assert!(told.contains("2 mistakes in job.toml"), "{told}");
}

#[test]
fn a_job_in_json_is_read_by_its_ending() {
    let job = r#"{ "format": 1, "name": "Shed", "covering": { "sheet": "composite-slate" }, "block": [{ "name": "shed",
        "outline": [[0, 0], [12, 0], [12, 10], [0, 10]], "eave_height": 8,
        "edges": [{ "eave": "8/12" }, { "gable": true }, { "eave": "8/12" }, { "gable": true }] }] }"#;
    let folder = folder("json");
    fs::write(folder.join("job.json"), job).expect("the job is written");
    fs::write(folder.join("wrong.json"), job.replace("\"gable\"", "\"gabel\"")).expect("the job is written");
    assert_eq!(ending(&headlap(&folder, &["plan", "job.json"])), 0);
    let wrong = headlap(&folder, &["plan", "wrong.json"]);
    assert_eq!(ending(&wrong), 2);
    assert!(err(&wrong).contains("wrong.json:3:"), "{}", err(&wrong));
}

#[test]
fn a_roof_that_cannot_be_built_ends_with_1_and_the_rest_is_there() {
    let crossed = "[[block]]\nname = \"bow tie\"\noutline = [[20, 0], [30, 10], [30, 0], [20, 10]]\neave_height = 8\n\
                   edges = [{ eave = \"8/12\" }, { eave = \"8/12\" }, { eave = \"8/12\" }, { eave = \"8/12\" }]\n";
    let output = planned("bow-tie", &format!("{SHED}{crossed}"), &[]);
    assert_eq!(ending(&output), 1, "{}", err(&output));
    assert!(err(&output).contains("bow tie: the outline crosses"), "{}", err(&output));
    assert!(err(&output).contains("job.toml:12:"), "it points into the file: {}", err(&output));
    assert!(out(&output).contains("NOT ALL IS PLANNED") && out(&output).contains("shed, south"), "{}", out(&output));
}

#[test]
fn an_unknown_sheet_leaves_the_roof_measured() {
    let output = planned("unknown-sheet", &SHED.replace("composite-slate", "composit-slate"), &[]);
    assert_eq!(ending(&output), 1);
    assert!(err(&output).contains("composite-slate"), "{}", err(&output));
    assert!(out(&output).contains("shed, south") && out(&output).contains("Nothing is laid."), "{}", out(&output));
}

#[test]
fn strictness_turns_a_failing_check_into_1() {
    let low = SHED.replace("8/12", "2/12");
    assert_eq!(ending(&planned("lax", &low, &[])), 0);
    let output = planned("strict", &low, &["--strict"]);
    assert_eq!(ending(&output), 1);
    assert!(out(&output).contains("FAIL"), "{}", out(&output));
}

#[test]
fn what_cannot_be_read_ends_with_2_and_says_why() {
    let folder = folder("unreadable");
    fs::write(folder.join("noise.toml"), [0xff, 0xfe, 0x00]).expect("noise is written");
    fs::write(folder.join("empty.toml"), "").expect("nothing is written");
    fs::write(folder.join("huge.toml"), "x".repeat(5 << 20)).expect("much is written");
    for (name, says) in [
        ("nowhere.toml", "there is no file nowhere.toml"),
        (".", ". is a folder, not a file"),
        ("noise.toml", "not plain text in UTF-8"),
        ("empty.toml", "format"),
        ("huge.toml", "larger than 4 MB"),
    ] {
        let output = headlap(&folder, &["plan", name]);
        assert_eq!(ending(&output), 2, "{name}");
        assert!(err(&output).contains(says), "{name}: {}", err(&output));
        assert_eq!(out(&output), "");
    }
    assert_eq!(ending(&headlap(&folder, &["plan"])), 2);
    assert_eq!(ending(&headlap(&folder, &["paint"])), 2);
}

#[test]
fn a_sheet_of_ones_own_is_found_beside_the_job() {
    let folder = folder("own-sheet");
    fs::create_dir_all(folder.join("jobs")).expect("a folder for the job");
    let sheet = out(&headlap(&folder, &["sheets", "composite-slate"]));
    fs::write(folder.join("jobs/mine.toml"), &sheet).expect("the sheet is written");
    fs::write(folder.join("jobs/job.toml"), SHED.replace("composite-slate", "mine.toml")).expect("the job is written");
    let output = headlap(&folder, &["plan", "jobs/job.toml"]);
    assert_eq!(ending(&output), 0, "{}", err(&output));
    assert!(out(&output).contains("Composite slate"), "{}", out(&output));
    assert!(out(&output).contains(", headlap "), "the page knows the sheet: {}", out(&output));
}

#[test]
fn mistakes_in_a_sheet_of_ones_own_are_shown_in_that_sheet() {
    let folder = folder("own-sheet-broken");
    let sheet = out(&headlap(&folder, &["sheets", "composite-slate"]));
    fs::write(folder.join("mine.toml"), sheet.replacen("\nname", "\nnmae", 1)).expect("the sheet is written");
    fs::write(folder.join("job.toml"), SHED.replace("composite-slate", "mine.toml")).expect("the job is written");
    let output = headlap(&folder, &["plan", "job.toml"]);
    assert_eq!(ending(&output), 2);
    assert!(err(&output).contains("mine.toml:") && err(&output).contains("nmae"), "{}", err(&output));
}

#[test]
fn a_missing_sheet_is_shown_where_the_job_names_it() {
    let output = planned("own-sheet-missing", &SHED.replace("composite-slate", "gone.toml"), &[]);
    assert_eq!(ending(&output), 2);
    assert!(err(&output).contains("there is no file gone.toml") && err(&output).contains("job.toml:4:"), "{}", err(&output));
}

#[test]
fn sheets_are_listed_for_people_and_for_programs() {
    let list = headlap(&root(), &["sheets"]);
    assert!(out(&list).contains("composite-slate") && out(&list).lines().all(|line| line.chars().count() <= 80));
    let json: serde_json::Value =
        serde_json::from_slice(&headlap(&root(), &["sheets", "--format", "json"]).stdout).expect("it is JSON");
    let ids: Vec<&str> = json.as_array().expect("a list").iter().filter_map(|sheet| sheet["id"].as_str()).collect();
    assert_eq!(ids, ["composite-slate", "natural-slate", "plain-tile", "sawn-shake", "wood-shingle"]);
    let unknown = headlap(&root(), &["sheets", "composit slate"]);
    assert_eq!(ending(&unknown), 2);
    assert!(err(&unknown).contains("composite-slate"));
}

#[test]
fn the_schemas_are_the_ones_checked_in() {
    for (of, file) in [("job", "job.schema.json"), ("covering", "covering.schema.json"), ("rates", "rates.schema.json")] {
        let checked_in = fs::read_to_string(root().join("schema").join(file)).expect("the schema is there");
        assert_eq!(out(&headlap(&root(), &["schema", of])), checked_in);
    }
}

#[test]
fn the_starter_plans_without_a_word_and_overwrites_nothing() {
    let folder = folder("starter");
    let printed = headlap(&folder, &["new"]);
    let written = headlap(&folder, &["new", "north barn"]);
    assert_eq!((ending(&printed), ending(&written)), (0, 0));
    let text = fs::read_to_string(folder.join("north barn.toml")).expect("it is written");
    assert_eq!(text, out(&printed).replace("\"My roof\"", "\"north barn\""));
    let plan = headlap(&folder, &["plan", "north barn.toml", "--strict"]);
    assert_eq!((ending(&plan), err(&plan).as_str()), (0, ""));
    assert!(out(&plan).starts_with("north barn\n"));
    let again = headlap(&folder, &["new", "north barn.toml"]);
    assert_eq!(ending(&again), 2);
    assert!(err(&again).contains("is there already"), "{}", err(&again));
    assert_eq!(fs::read_to_string(folder.join("north barn.toml")).expect("it is still there"), text);
}

#[test]
fn a_reader_that_stops_early_is_no_error() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_headlap"))
        .current_dir(root())
        .args(["plan", "examples/ell.toml", "--format", "json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert_eq!((ending(&output), err(&output).as_str()), (0, ""));
}

/// 24 courses of 189.44 in at the sheet's 8 in at most: the pole is 15' 9-7/16" long. Thirteen lie at 102.61 in by the plan;
/// ten courses more than the one that was read are left.
#[test]
fn courses_are_spread_anew_from_readings() {
    let reading = r#"house.2, course 14, left 8' 7", right 8' 6-3/4""#;
    let output = headlap(&root(), &["relay", "examples/gable.toml", "--reading", reading]);
    assert_eq!(ending(&output), 0, "{}", err(&output));
    let page = out(&output);
    assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
    assert!(page.contains("left 8' 7\", 3/8\" too high; right 8' 6-3/4\", 1/8\" too high"), "{page}");
    // (189.44 − 103) / 11 = 7.858 to a thousandth or so, as the top line is 15' 9-7/16" to a sixteenth.
    assert!(page.contains("10 courses above, as many as planned.") && page.contains("Exposures left 7.85"), "{page}");
    let on_mark = r#"house, north, course 1, left 0", right 0""#;
    let output = headlap(&root(), &["relay", "examples/gable.toml", "--format", "json", "--reading", on_mark]);
    let json: serde_json::Value = serde_json::from_str(&out(&output)).expect("JSON");
    assert_eq!(json["planes"][0]["outcome"], "as-planned");
    assert_eq!(json["planes"][0]["courses"].as_array().map(Vec::len), Some(24));
}

#[test]
fn courses_that_have_no_room_end_with_1_and_readings_that_mean_nothing_with_2() {
    // The last course shows all that is left: a foot too low is more than any course may show.
    let low = r#"house.2, course 24, left 14' 2", right 14' 2""#;
    let output = headlap(&root(), &["relay", "examples/gable.toml", "--reading", low]);
    assert_eq!(ending(&output), 1, "{}", err(&output));
    assert!(out(&output).contains("NO ROOM") && out(&output).contains("Ways out:"), "{}", out(&output));
    for (readings, says) in [
        (&["shed, course 2, left 1', right 1'"][..], "no plane \"shed\" is laid"),
        (&["house.0, course 99, left 1', right 1'"], "its courses are 1, at the eave, to 24"),
        (&["house.0, course 2, left 999999', right 1'"], "so far up there is no roof"),
        (&["house.0, course 2, left 1', right 1'", "house.0, course 3, left 9\", right 9\""], "no higher than course 2"),
        (&["house.0, course 2, left 1', right 1'", "house, south, course 2, left 1', right 1'"], "read twice"),
    ] {
        let asked = readings.iter().flat_map(|reading| ["--reading", reading]);
        let output = headlap(&root(), &["relay", "examples/gable.toml"].into_iter().chain(asked).collect::<Vec<_>>());
        assert_eq!(ending(&output), 2);
        assert!(err(&output).replace("\n  │ ", " ").contains(says), "{}", err(&output));
    }
}

#[test]
fn choices_stand_side_by_side_on_80_columns() {
    let output = headlap(&root(), &["compare", "examples/hip.toml"]);
    assert_eq!(ending(&output), 0, "{}", err(&output));
    let page = out(&output);
    assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
    for choice in [
        "natural-slate ",
        "natural-slate, hips mitred",
        "natural-slate, random ",
        "natural-slate, graduated",
        "plain-tile ",
        "wood-shingle ",
    ] {
        assert!(page.lines().any(|line| line.starts_with(choice)), "{choice} in\n{page}");
    }
    let named =
        ["--covering", "composite-slate", "--covering", "natural-slate", "--exposure", "7 in", "--exposure", "7-1/2 in"];
    let output = headlap(&root(), &[&["compare", "examples/hip.toml", "--format", "json"][..], &named].concat());
    let json: serde_json::Value = serde_json::from_str(&out(&output)).expect("JSON");
    let options = json["options"].as_array().expect("options");
    assert_eq!(options.len(), 4);
    for option in options {
        let most = option["exposure_in"].as_f64().expect("chosen");
        assert!(option["exposures_in"][1].as_f64().is_some_and(|shows| shows <= most + 1e-9), "{option}");
        assert!(option["lost"].as_f64().is_some_and(|lost| lost > 0.0));
    }
    // The first option is what the plan of the job says of itself.
    let output = headlap(&root(), &["compare", "examples/hip.toml", "--format", "json"]);
    let compared: serde_json::Value = serde_json::from_str(&out(&output)).expect("JSON");
    let plan: serde_json::Value =
        serde_json::from_str(&out(&headlap(&root(), &["plan", "examples/hip.toml", "--format", "json"]))).expect("JSON");
    for figure in ["pieces", "cut", "stock", "stock_bound"] {
        assert_eq!(compared["options"][0][figure], plan["layout"][figure], "{figure}");
    }
    let lost = |value: &serde_json::Value| value.as_f64().expect("a number");
    let difference = lost(&compared["options"][0]["lost"]) - lost(&plan["layout"]["waste"][0]["lost"]);
    assert!(difference.abs() < 1e-6);
}

#[test]
fn choices_that_are_none_end_with_2() {
    for (choice, says) in [
        (["--covering", "natural-slat"], "Did you mean natural-slate?"),
        (["--covering", "nowhere.toml"], "there is no file nowhere.toml"),
        (["--exposure", "7"], "a length in quotes needs its unit"),
        (["--exposure", "9 ft"], "an exposure is between 1 in and 36 in"),
        (["--bond", "quarter"], "possible values: half, third, random, staggered, graduated"),
        (["--hips", "open"], "possible values: capped, matched, mitred"),
    ] {
        let output = headlap(&root(), &[&["compare", "examples/hip.toml"][..], &choice].concat());
        assert_eq!(ending(&output), 2);
        assert!(err(&output).contains(says), "{}", err(&output));
    }
}
