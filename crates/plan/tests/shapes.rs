//! Profiles, turrets and bays as typed in a job file.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use covering::Catalog;
use plan::{Plan, plan, read_job};
use reader::Format;

const HEAD: &str = "format = 1\nname = \"Heron house\"\n[covering]\nsheet = \"composite-slate\"\n";

fn house(edges: &str) -> String {
    format!("{HEAD}[[block]]\nname = \"house\"\noutline = [[0, 0], [40, 0], [40, 24], [0, 24]]\nedges = [{edges}]\n")
}

#[track_caller]
fn planned(text: &str) -> Plan {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert_eq!(mistakes, []);
    let plan = plan(&job.unwrap(), &Catalog::shipped());
    let errors: Vec<_> = plan.problems.iter().filter(|problem| problem.severity == plan::Severity::Error).collect();
    assert!(errors.is_empty(), "{errors:?}");
    plan
}

#[track_caller]
fn mistaken(text: &str, path: &str) {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(job.is_none());
    assert_eq!(mistakes.iter().map(|mistake| mistake.path.as_str()).collect::<Vec<_>>(), [path]);
}

#[track_caller]
fn near(is: f64, should: f64) {
    assert!((is - should).abs() < 1e-6 * (1.0 + should), "{is} is not {should}");
}

/// Worked in the tests of the roof: 24 in 12 for 8 ft up, then 6 in 12.
#[test]
fn a_gambrel_is_typed_with_breaks() {
    let side = "{ eave = \"24/12\", breaks = [{ rise = \"8 ft\", pitch = \"6/12\" }] }";
    let plan = planned(&house(&format!("{side}, {{ gable = true }}, {side}, {{ gable = true }}")));
    near(plan.roof.totals.break_ft, 80.0);
    near(plan.roof.totals.height_ft, 12.0);
    let ids: Vec<&str> = plan.roof.planes.iter().map(|plane| plane.id.as_str()).collect();
    assert_eq!(ids, ["house.0", "house.0/1", "house.2", "house.2/1"]);
    // A break is one line between both planes; the courses of the upper one begin on it.
    let upper = &plan.roof.planes[1];
    let low = upper.edges.iter().find(|edge| edge.kind == "break").unwrap();
    assert_eq!(low.meets, "house.0");
    assert!(plan.layout.planes.iter().any(|plane| plane.id == "house.0/1" && !plane.starters.is_empty()));
}

#[test]
fn half_hips_gablets_and_saltboxes_have_keys_of_their_own() {
    let half_hip = "{ gable = true, hip_from = \"6 ft\", pitch = \"8/12\" }";
    let plan = planned(&house(&format!("{{ eave = 8 }}, {half_hip}, {{ eave = 8 }}, {half_hip}")));
    near(plan.roof.totals.hip_ft, 4.0 * 22f64.sqrt());
    let gablet = "{ eave = \"8/12\", gable_from = \"5 ft\" }";
    let plan = planned(&house(&format!("{{ eave = 8 }}, {gablet}, {{ eave = 8 }}, {gablet}")));
    near(plan.roof.totals.headwall_ft, 18.0);
    let plan = planned(&house("{ eave = 8, eave_height = \"9 ft\" }, { gable = true }, { eave = 8 }, { gable = true }"));
    // From 9 ft over x and from 0 over 24 − x at 8 in 12: x = (24 − 9 × 12/8) / 2 = 5.25, ridge at 9 + 3.5.
    near(plan.roof.totals.height_ft, 12.5);
}

#[test]
fn keys_that_do_not_suit_a_side_are_named() {
    for (edge, key) in [
        ("{ gable = true, breaks = [{ rise = 3, pitch = 6 }] }", ".breaks"),
        ("{ gable = true, gable_from = 3 }", ".gable_from"),
        ("{ gable = true, eave_height = 3 }", ".eave_height"),
        ("{ eave = 8, hip_from = 3, pitch = 6 }", ".hip_from"),
        ("{ gable = true, pitch = 6 }", ".pitch"),
        ("{ gable = true, hip_from = 3 }", ".hip_from"),
        ("{ eave = 8, breaks = [{ rise = 3, pitch = 6 }, { rise = 3, pitch = 4 }] }", ".breaks[1].rise"),
        ("{ eave = 8, breaks = [{ rise = 3, pitch = 6 }], gable_from = 2 }", ".gable_from"),
        ("{ eave = 8, breaks = [{ rise = -1, pitch = 6 }] }", ".breaks[0].rise"),
    ] {
        let text = house(&format!("{{ eave = 8 }}, {edge}, {{ eave = 8 }}, {{ gable = true }}"));
        let (job, mistakes) = read_job(&text, Format::Toml);
        assert!(job.is_none(), "{edge}");
        let path = format!("block[0].edges[1]{key}");
        assert!(mistakes.iter().any(|mistake| mistake.path == path), "{edge}: {mistakes:?}");
    }
}

/// Eight sides, 10 ft across, 12 in 12: the roof rises 5 ft; area in plan 10² × 2(√2 − 1).
#[test]
fn a_turret_is_three_figures() {
    let text = format!(
        "{HEAD}[[block]]\nname = \"turret\"\nturret = {{ center = [0, 0], sides = 8, across = \"10 ft\" }}\n\
         edges = [{{ eave = \"12/12\" }}]\n"
    );
    let plan = planned(&text);
    near(plan.roof.totals.plan_area_sqft, 200.0 * (2f64.sqrt() - 1.0));
    near(plan.roof.totals.height_ft, 5.0);
    let names: Vec<&str> = plan.roof.planes.iter().take(3).map(|plane| plane.name.as_str()).collect();
    assert_eq!(names, ["turret, south", "turret, southeast", "turret, east"]);
    mistaken(&text.replace("sides = 8", "sides = 2"), "block[0].turret.sides");
    mistaken(&text.replace("across = \"10 ft\"", "across = \"1 in\""), "block[0].turret.across");
    mistaken(&text.replace("edges = [", "edges = [{ eave = 4 }, "), "block[0].edges");
    mistaken(&text.replace("edges =", "outline = [[0, 0], [1, 0], [1, 1]]\nedges ="), "block[0]");
}

/// Half a hexagon 10 ft wide against a wall along y = 0: sides of 5 ft, three planes at 12 in 12.
#[test]
fn a_bay_is_its_two_ends_at_the_wall() {
    let text = format!(
        "{HEAD}[[block]]\nname = \"bay\"\nbay = {{ from = [10, 0], to = [20, 0], sides = 6 }}\n\
         edges = [{{ eave = \"12/12\" }}]\n"
    );
    let plan = planned(&text);
    near(plan.roof.totals.eave_ft, 15.0);
    near(plan.roof.totals.plan_area_sqft, 3.0 * 25.0 * 3f64.sqrt() / 4.0);
    assert!(plan.roof.planes.iter().flat_map(|plane| &plane.outlines_ft[0]).all(|corner| corner[1] < 1e-9));
    mistaken(&text.replace("sides = 6", "sides = 7"), "block[0].bay.sides");
    mistaken(&text.replace("[20, 0]", "[10, 0]"), "block[0].bay");
}
