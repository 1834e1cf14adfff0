use plan::{Check, Plan};

use super::text::Page;

/// Every rule's outcome, those that need a person first, and of these all that there is to say.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    if plan.checks.is_empty() {
        return;
    }
    page.heading(&format!("Checks: {}", tally(&plan.checks)));
    for outcome in ["fail", "attention", "not-applicable", "pass"] {
        plan.checks.iter().filter(|check| check.outcome == outcome).for_each(|check| of_check(page, check));
    }
    page.wrapped(2, "The licensed designer, the maker's sheet and the local code decide.");
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

fn of_check(page: &mut Page, check: &Check) {
    let word = match check.outcome {
        "pass" => "PASS",
        "fail" => "FAIL",
        "attention" => "LOOK",
        _ => "N/A",
    };
    let edition = check.edition.map_or_else(String::new, |edition| format!(" {edition}"));
    let who = format!("{} ({}{edition})", check.rule, check.kind);
    page.judged(2, check.outcome, &format!("{word:<6}"), &format!("{who}: {}", check.says));
    if check.outcome == "fail" || check.outcome == "attention" {
        page.wrapped(8, &format!("Endangers: {}. Remedy: {}", check.endangers.join(", "), check.remedy));
        page.wrapped(8, &format!("Source: {}", check.source));
    }
    if let Some(reason) = &check.silenced {
        page.wrapped(8, &format!("Silenced by the job: {reason}"));
    }
}
