use plan::{Line, Plan};
use units::Length;

use super::text::Page;

/// Kinds in the order of the work: where units start, what they run against, what covers them last.
const KINDS: [(&str, &str); 10] = [
    ("eave", "Eaves"),
    ("valley", "Valleys"),
    ("dead valley", "Dead valleys"),
    ("sidewall", "Sidewalls"),
    ("headwall", "Headwalls"),
    ("rake", "Rakes"),
    ("break", "Breaks"),
    ("high edge", "High edges"),
    ("hip", "Hips"),
    ("ridge", "Ridges"),
];

/// Every line with its true length and the planes it joins.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    if plan.roof.lines.is_empty() {
        return;
    }
    page.heading("Lines, true lengths, in the order of the work");
    for (kind, title) in KINDS {
        let lines: Vec<&Line> = plan.roof.lines.iter().filter(|line| line.kind == kind).collect();
        if !lines.is_empty() {
            of_one_kind(page, plan, title, &lines);
        }
    }
}

fn of_one_kind(page: &mut Page, plan: &Plan, title: &str, lines: &[&Line]) {
    page.wrapped(2, title);
    for line in lines {
        page.hanging(4, "", &format!("{} {}", Length::feet(line.length_ft), place(plan, line)));
    }
}

fn place(plan: &Plan, line: &Line) -> String {
    match line.planes.as_slice() {
        [] => String::new(),
        [one] => format!("of {}", name(plan, one)),
        several => format!("between {}", several.iter().map(|id| name(plan, id)).collect::<Vec<_>>().join(" and ")),
    }
}

/// What people call a plane; its id where the plan does not hold it.
pub(crate) fn name<'a>(plan: &'a Plan, id: &'a str) -> &'a str {
    plan.roof.planes.iter().find(|plane| plane.id == id).map_or(id, |plane| &plane.name)
}
