use covering::Catalog;
use plan::{Plan, read_job};
use reader::Format;

use super::text::{COLUMNS, width};
use super::*;

const GABLE: &str = include_str!("../../../../examples/gable.toml");
const ELL: &str = include_str!("../../../../examples/ell.toml");
const CHIMNEY: &str = include_str!("../../../../examples/chimney.toml");
const GAMBREL: &str = include_str!("../../../../examples/gambrel.toml");

fn planned(text: &str) -> Plan {
    let (job, mistakes) = read_job(text, Format::Toml);
    plan::plan(&job.unwrap_or_else(|| panic!("{mistakes:?}")), &Catalog::shipped())
}

fn shown(plan: &Plan) -> String {
    page(plan, Ink::Plain)
}

fn is_narrow(page: &str) -> bool {
    page.lines().all(|line| width(line) <= COLUMNS)
}

#[test]
fn a_page_fits_80_columns_and_names_every_plane() {
    for text in [GABLE, ELL, CHIMNEY, GAMBREL] {
        let plan = planned(text);
        let page = shown(&plan);
        assert!(is_narrow(&page), "{page}");
        assert!(plan.roof.planes.iter().all(|plane| page.contains(&plane.name)));
        assert!(plan.roof.walls.iter().all(|wall| page.contains(&wall.name)));
        assert!(plan.roof.openings.iter().all(|opening| page.contains(&opening.name)));
    }
}

#[test]
fn an_empty_plan_has_a_page() {
    let mut plan = planned(GABLE);
    plan.roof = plan::Roof::default();
    plan.layout = plan::Layout::default();
    plan.order.clear();
    plan.checks.clear();
    plan.cautions.clear();
    plan.covering.name.clear();
    let page = shown(&plan);
    assert!(page.contains("Nothing is laid.") && is_narrow(&page), "{page}");
}

#[test]
fn long_names_neither_widen_the_page_nor_reach_the_terminal() {
    let name = format!("{} \\u001b[31m", "house-".repeat(40));
    let page = shown(&planned(&GABLE.replace("\"house\"", &format!("\"{name}\""))));
    assert!(is_narrow(&page), "{page}");
    assert!(!page.contains('\u{1b}'));
}

#[test]
fn colour_adds_nothing_but_colour() {
    let plan = planned(GABLE);
    let coloured = page(&plan, Ink::Coloured);
    assert!(coloured.contains("\u{1b}["));
    let mut plain = coloured;
    for code in ["\u{1b}[0m", "\u{1b}[1m", "\u{1b}[32m", "\u{1b}[33m", "\u{1b}[1;31m"] {
        plain = plain.replace(code, "");
    }
    assert_eq!(plain, shown(&plan));
}

#[test]
fn a_failing_check_gives_its_remedy() {
    let mut plan = planned(GABLE);
    plan.checks.truncate(1);
    plan.checks[0].outcome = "fail";
    let page = shown(&plan);
    assert!(page.contains("Checks: 1 fail") && page.contains("FAIL") && page.contains("Remedy: "), "{page}");
}
