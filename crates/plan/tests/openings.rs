//! Openings from the job to the plan.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use covering::Catalog;
use plan::{MeasuredSpot, Plan, Severity, plan, read_job};
use proptest::prelude::*;
use reader::Format;

/// 40 by 20 ft at 12 in 12; the ridge lies 120 in from the eaves seen in plan.
const HOUSE: &str = r#"
format = 1
name   = "Plover house"
units  = "in"
[covering]
sheet = "natural-slate"
[[block]]
name    = "house"
outline = [[0, 0], [480, 0], [480, 240], [0, 240]]
edges   = [{ eave = 12 }, { gable = true }, { eave = 12 }, { gable = true }]
"#;

const LIGHT: &str = r#"
[[opening]]
name   = "light"
kind   = "skylight"
plane  = "house.0"
up     = 80
across = "10 ft"
width  = 24
height = 46
"#;

fn planned(text: &str) -> Plan {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    plan(&job.unwrap(), &Catalog::shipped())
}

fn with(opening: &str) -> Plan {
    planned(&format!("{HOUSE}{opening}"))
}

/// Paths and texts of the mistakes after one replacement in the skylight.
fn spoilt(from: &str, to: &str) -> Vec<(String, String)> {
    assert!(LIGHT.contains(from), "{from}");
    let (_, mistakes) = read_job(&format!("{HOUSE}{}", LIGHT.replacen(from, to, 1)), Format::Toml);
    mistakes.into_iter().map(|mistake| (mistake.path, mistake.says)).collect()
}

#[track_caller]
fn near(is: f64, should: f64) {
    assert!((is - should).abs() < 1e-9 * (1.0 + should.abs()), "{is} is not {should}");
}

#[test]
#[allow(clippy::float_cmp, reason = "whole inches")]
fn an_opening_is_read_as_meant() {
    let job = read_job(&format!("{HOUSE}{LIGHT}"), Format::Toml).0.unwrap();
    let opening = &job.openings[0];
    assert_eq!((opening.name.as_str(), opening.width.to_inches(), opening.height.to_inches()), ("light", 24.0, 46.0));
    let MeasuredSpot::On { plane, across, up } = &opening.spot else { panic!("it is placed on a plane") };
    assert_eq!((plane.as_str(), across.to_inches(), up.to_inches()), ("house.0", 120.0, 80.0));
}

#[test]
fn each_mistake_is_named_with_its_place() {
    for (from, to, path) in [
        ("width  = 24", "width = 0", "opening[0].width"),
        ("height = 46", "height = -46", "opening[0].height"),
        ("width  = 24\n", "", "opening[0]"),
        ("width  = 24", "width = 24\ndiameter = 4", "opening[0]"),
        ("\"skylight\"", "\"pipe\"", "opening[0]"),
        ("\"skylight\"", "\"skyligth\"", "opening[0].kind"),
        ("up     = 80\n", "", "opening[0]"),
        ("up     = 80", "up = 80\nat = [1, 2]", "opening[0].at"),
        ("plane  = \"house.0\"\nup     = 80\nacross = \"10 ft\"\n", "", "opening[0]"),
        ("\"light\"", "\" \"", "opening[0].name"),
        ("across", "acros", "opening[0].acros"),
    ] {
        let found = spoilt(from, to);
        assert_eq!(found.len(), 1, "{to}: {found:?}");
        assert_eq!(found[0].0, path, "{to}: {found:?}");
    }
    let (_, mistakes) = read_job(&format!("{HOUSE}{LIGHT}{LIGHT}"), Format::Toml);
    assert_eq!(mistakes[0].says, "two openings are called \"light\"");
}

#[test]
fn what_does_not_fit_is_an_error_with_its_place_and_the_rest_is_planned() {
    for (from, to, code, path) in [
        ("house.0", "hose.0", "unknown-plane", "opening[0].plane"),
        ("up     = 80", "up = 300", "opening-outside", "opening[0]"),
        ("up     = 80", "up = 10", "opening-across-edge", "opening[0]"),
    ] {
        let plan = with(&LIGHT.replacen(from, to, 1));
        let problem = &plan.problems[0];
        assert_eq!((problem.code.as_str(), problem.severity), (code, Severity::Error));
        assert_eq!(problem.place.path, path);
        assert!(problem.place.line >= 11, "{problem:?}");
        assert!(plan.roof.openings.is_empty() && plan.layout.pieces > 0);
    }
    assert_eq!(with(&LIGHT.replace("house.0", "hose.0")).problems[0].remedy, "did you mean \"house.0\"?");
}

/// 48 in wide, 24 in deep, at 12 in 12: the cricket is 24 in high; its planes are measured and not laid.
#[test]
fn a_cricket_is_told_and_not_laid() {
    let plan = with("[[opening]]\nname = \"stack\"\nkind = \"chimney\"\nat = [200, 40]\nwidth = 48\nheight = 24\n");
    assert!(plan.problems.is_empty(), "{:?}", plan.problems);
    let opening = &plan.roof.openings[0];
    let cricket = opening.cricket.as_ref().unwrap();
    assert_eq!((opening.kind, opening.planes.as_slice()), ("chimney", &["house.0".to_owned()][..]));
    near(cricket.height_in, 24.0);
    near(cricket.ridge_in, 24.0);
    assert_eq!(cricket.planes, ["stack.left", "stack.right"]);
    assert!(cricket.planes.iter().all(|id| plan.roof.planes.iter().any(|plane| plane.id == *id)));
    let laid: Vec<&str> = plan.layout.planes.iter().map(|laid| laid.id.as_str()).collect();
    assert_eq!(laid, ["house.0", "house.2"]);
    let totals = &plan.roof.totals;
    near(totals.plan_area_sqft, (480.0 * 240.0 - 48.0 * 24.0) / 144.0);
    near(totals.area_sqft, totals.plan_area_sqft * 2f64.sqrt());
    near(totals.opening_sill_ft, 4.0);
    near(totals.opening_side_ft, 4.0 * 2f64.sqrt());
    near(totals.headwall_ft + totals.sidewall_ft, 0.0);
    let caps = plan.order.iter().find(|line| line.id == "caps").unwrap();
    assert!(
        caps.places.iter().all(|place| !place.at.contains("stack")),
        "the cricket's ridge has no caps: {:?}",
        caps.places
    );
}

/// Of the ridge, 40 ft long, a chimney astride of it takes 3 ft.
#[test]
fn a_chimney_astride_of_the_ridge_shortens_it() {
    let plan = with("[[opening]]\nname = \"stack\"\nkind = \"chimney\"\nat = [200, 120]\nwidth = 36\nheight = 24\n");
    assert!(plan.problems.is_empty(), "{:?}", plan.problems);
    near(plan.roof.totals.ridge_ft, 37.0);
    assert_eq!(plan.roof.openings[0].planes, ["house.0", "house.2"]);
    assert!(plan.roof.openings[0].cricket.is_none());
}

/// The wing's valleys run from its corners under 45° into the south slope.
#[test]
fn a_pipe_in_a_valley_is_planned_and_cautioned_at_its_place() {
    let wing = "[[block]]\nname = \"wing\"\noutline = [[100, -90], [300, -90], [300, 120], [100, 120]]\n\
                edges = [{ gable = true, overhang = 0 }, { eave = 12, overhang = 0 }, { gable = true, overhang = 0 }, \
                { eave = 12, overhang = 0 }]\n";
    let house = HOUSE.replace(" }", ", overhang = 0 }");
    let pipe = "[[opening]]\nname = \"soil\"\nkind = \"pipe\"\nat = [150, 50]\ndiameter = 4\n";
    let plan = planned(&format!("{house}{wing}{pipe}"));
    let problem = &plan.problems[0];
    assert_eq!((problem.code.as_str(), problem.severity), ("opening-in-valley", Severity::Caution));
    assert_eq!(problem.place.path, "opening[0]");
    assert_eq!(plan.roof.openings[0].planes.len(), 2);
    assert!(plan.layout.pieces > 0);
}

proptest! {
    /// However a job places openings, it is planned, its areas add up, and what is laid leaves the openings free.
    #[test]
    fn any_openings_are_planned(is_hipped: bool, openings in prop::collection::vec((0usize..4, 0.0..480.0f64, 0.0..240.0f64, 2.0..60.0f64, 2.0..60.0f64), 1..6)) {
        let mut text = if is_hipped { HOUSE.replace("gable = true", "eave = 12") } else { HOUSE.to_owned() };
        for (index, (kind, x, y, width, height)) in openings.iter().enumerate() {
            let word = ["chimney", "skylight", "vent", "pipe"][*kind];
            let size = if *kind == 3 { format!("diameter = {width}") } else { format!("width = {width}\nheight = {height}") };
            text += &format!("[[opening]]\nname = \"o{index}\"\nkind = \"{word}\"\nat = [{x}, {y}]\n{size}\n");
        }
        let plan = planned(&text);
        let lost: f64 = plan.roof.openings.iter().map(|opening| {
            // Whole on one plane or bent over a line, all at 12 in 12: as much on the slope.
            opening.width_in * opening.height_in
        }).sum();
        near(plan.roof.totals.area_sqft * 144.0, 480.0 * 240.0 * 2f64.sqrt() - lost);
        let errors = plan.problems.iter().filter(|problem| problem.severity == Severity::Error).count();
        prop_assert_eq!(errors + plan.roof.openings.len(), openings.len());
        for opening in plan.roof.openings.iter().filter(|opening| opening.planes.len() == 1) {
            let laid = plan.layout.planes.iter().find(|laid| laid.id == opening.planes[0]).unwrap();
            let [half_width, half_height] = [opening.width_in / 2.0, opening.height_in / 2.0];
            let inside = |u: f64, v: f64| (u - opening.across_in).abs() < half_width && (v - opening.up_in).abs() < half_height;
            for course in &laid.courses {
                for run in &course.runs {
                    for count in 0..run.count {
                        let left = run.left_in + f64::from(count) * run.step_in;
                        let whole = vec![vec![[0.0, 0.0], [run.width_in, 0.0], [run.width_in, plan.covering.length_in], [0.0, plan.covering.length_in]]];
                        let parts = run.cut.map_or(&whole, |cut| &laid.cuts[cut as usize].parts_in);
                        for [u, v] in parts.iter().flatten() {
                            prop_assert!(!inside(left + u, course.butt_in + v), "{} {:?}", opening.name, course);
                        }
                    }
                }
            }
        }
    }
}
