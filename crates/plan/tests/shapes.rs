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

const DORMER: &str = "[[dormer]]\nname = \"bath dormer\"\nkind = \"gable\"\non = \"house.0\"\nacross = 20\n\
    up = \"6 ft\"\nwidth = \"8 ft\"\nwall_height = \"3 ft\"\npitch = \"6/12\"\noverhang = 0\nrake_overhang = 0\n";

fn dormered() -> String {
    let edges = "{ eave = 12, overhang = 0 }, { gable = true, overhang = 0 }";
    house(&format!("{edges}, {edges}")) + DORMER
}

/// At 12 in 12 the cheeks run 3 ft back: 3 × 3 / 2 each; the dormer covers 8 × 3 + 8 × 2 / 2 of the plan.
#[test]
fn a_dormer_is_typed_on_its_plane_and_its_cheeks_are_walls() {
    let plan = planned(&dormered());
    let walls: Vec<(&str, f64)> = plan.roof.walls.iter().map(|wall| (wall.name.as_str(), wall.area_sqft)).collect();
    assert_eq!(walls.iter().map(|wall| wall.0).collect::<Vec<_>>(), ["bath dormer, left cheek", "bath dormer, right cheek"]);
    near(walls[0].1, 4.5);
    let plan_area: f64 = 40.0 * 24.0;
    near(plan.roof.totals.plan_area_sqft, plan_area);
    near(plan.roof.totals.area_sqft, (plan_area - 32.0) * 2f64.sqrt() + 32.0 * 5f64.sqrt() / 2.0);
    let ids: Vec<&str> = plan.roof.planes.iter().map(|plane| plane.id.as_str()).collect();
    assert_eq!(ids, ["house.0", "house.2", "bath dormer.1", "bath dormer.3"]);
}

#[test]
fn mistakes_of_a_dormer_are_named() {
    for (from, to, path) in [
        ("bath dormer", "house", "dormer[0].name"),
        ("width = \"8 ft\"", "width = 0", "dormer[0].width"),
        ("wall_height = \"3 ft\"", "wall_height = 0", "dormer[0].wall_height"),
        ("up = \"6 ft\"", "up = -1", "dormer[0].up"),
        ("\"gable\"", "\"eyebrow\"", "dormer[0].kind"),
        ("\"gable\"", "\"hip\"", "dormer[0].rake_overhang"),
    ] {
        mistaken(&dormered().replacen(from, to, if from == "\"gable\"" { 1 } else { usize::MAX }), path);
    }
}

#[test]
fn a_dormer_that_cannot_stand_is_named_and_the_house_planned() {
    let (job, _) = read_job(&dormered().replace("house.0", "house.1"), Format::Toml);
    let plan = plan(&job.unwrap(), &Catalog::shipped());
    let found: Vec<(&str, &str)> =
        plan.problems.iter().map(|problem| (problem.code.as_str(), problem.place.path.as_str())).collect();
    assert_eq!(found, [("dormer-on-unknown-plane", "dormer[0]")]);
    assert_eq!(plan.roof.planes.len(), 2);
}
