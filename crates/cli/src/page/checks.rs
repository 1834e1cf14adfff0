use ::checks::Family;
use plan::{Check, Plan};

use super::text::Page;

/// What failed or needs a person, with all that there is to say of it, and the rest by name.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    if plan.checks.is_empty() {
        return;
    }
    head(page, plan);
    for (outcome, lead) in [("not-applicable", "N/A   "), ("pass", "PASS  ")] {
        let names: Vec<&str> = of(plan, outcome).map(|check| check.rule).collect();
        if !names.is_empty() {
            page.judged(2, outcome, lead, &(names.join(", ") + "."));
        }
    }
    page.wrapped(2, "`headlap check` tells the figures of each, `headlap explain RULE` what a rule is.");
    page.wrapped(2, DECIDE);
}

/// Every rule's outcome with its figures.
pub(crate) fn write_all(page: &mut Page, plan: &Plan) {
    head(page, plan);
    for outcome in ["not-applicable", "pass"] {
        of(plan, outcome).for_each(|check| of_check(page, check));
    }
    warranty(page, plan);
    people(page, plan);
    page.wrapped(2, DECIDE);
}

const DECIDE: &str = "The licensed designer, the maker's sheet and the local code decide.";

/// The heading, and what needs a person.
fn head(page: &mut Page, plan: &Plan) {
    page.heading(&format!("Checks: {}", tally(&plan.checks)));
    for outcome in ["fail", "attention"] {
        for kept in [false, true] {
            let found = of(plan, outcome).filter(|check| !is_caution(check) && check.kept == kept);
            found.for_each(|check| of_check(page, check));
        }
    }
}

/// What could cost the warranty, in one list.
fn warranty(page: &mut Page, plan: &Plan) {
    let found = ["fail", "attention"].into_iter().flat_map(|outcome| of(plan, outcome));
    let at_risk: Vec<&Check> = found.filter(|check| !check.kept && check.endangers.contains(&"warranty")).collect();
    page.heading("What a maker could refuse the warranty for");
    if at_risk.is_empty() {
        page.wrapped(2, "Nothing was found; what is not applicable above was not judged.");
    }
    at_risk.into_iter().for_each(|check| page.judged(2, check.outcome, word(check), check.rule));
}

/// Rules about people fail nowhere; what they find stands under a heading of its own.
fn is_caution(check: &Check) -> bool {
    check.family == Family::People.name()
}

fn people(page: &mut Page, plan: &Plan) {
    let cautions: Vec<&Check> = of(plan, "attention").filter(|check| is_caution(check)).collect();
    if !cautions.is_empty() {
        page.heading("People on the roof");
        cautions.into_iter().for_each(|check| of_check(page, check));
    }
}

fn of<'a>(plan: &'a Plan, outcome: &'a str) -> impl Iterator<Item = &'a Check> {
    plan.checks.iter().filter(move |check| check.outcome == outcome)
}

fn tally(checks: &[Check]) -> String {
    let of = |outcome| checks.iter().filter(|check| check.outcome == outcome).count();
    let named = [("fail", "fail"), ("attention", "to look at"), ("not-applicable", "not applicable"), ("pass", "pass")];
    let told: Vec<String> = named
        .into_iter()
        .filter(|&(outcome, _)| of(outcome) > 0)
        .map(|(outcome, says)| format!("{} {says}", of(outcome)))
        .collect();
    told.join(", ")
}

fn word(check: &Check) -> &'static str {
    match check.outcome {
        "pass" => "PASS  ",
        "fail" => "FAIL  ",
        "attention" => "LOOK  ",
        _ => "N/A   ",
    }
}

fn of_check(page: &mut Page, check: &Check) {
    let edition = check.edition.map_or_else(String::new, |edition| format!(" {edition}"));
    let who = format!("{} ({}{edition})", check.rule, check.kind);
    page.judged(2, check.outcome, word(check), &format!("{who}: {}", check.says));
    let is_found = check.outcome == "fail" || check.outcome == "attention";
    // What is kept wants no cure, only somebody who reads the code.
    if is_found && !check.kept {
        page.wrapped(8, &format!("Endangers: {}. Remedy: {}", check.endangers.join(", "), check.remedy));
    }
    if is_found {
        page.wrapped(8, &format!("Source: {}", check.source));
    }
    if let Some(reason) = &check.silenced {
        page.wrapped(8, &format!("Silenced by the job: {reason}"));
    }
}
