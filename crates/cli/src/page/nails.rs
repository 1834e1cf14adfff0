use plan::{NailNeed, Plan};
use units::Length;

use super::text::{Page, capital};

/// How long nails must be, and of what that is made up.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    if plan.details.nails.is_empty() {
        return;
    }
    page.heading("Nails, by what they pass");
    plan.details.nails.iter().for_each(|need| page.hanging(2, "", &told(need)));
}

fn told(need: &NailNeed) -> String {
    let tape = |inches: f64| Length::inches(inches).in_inches();
    let passed: Vec<String> = need
        .passes
        .iter()
        .map(|passed| format!("{} of {} {:.2} in", passed.layers, passed.what, passed.thickness_in))
        .collect();
    let least = format!("{:.2} in at least, so {} or longer", need.least_in, tape(need.take_in));
    let most = need.most_in.map_or_else(String::new, |most| format!("; over {most:.2} in the point shows"));
    let own = need.given_in.map_or_else(String::new, |own| {
        let verdict = if own + 1e-9 < need.least_in { "is too short" } else { "is long enough" };
        format!(" The job's nail, {}, {verdict}.", tape(own))
    });
    format!("{}: {least}{most}. Layers: {}.{own}", capital(need.holds), passed.join(", "))
}
