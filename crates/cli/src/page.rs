//! The readable page: everything in the plan that a person decides by, 80 columns wide.

pub(crate) mod checks;
mod courses;
mod dry_in;
mod lines;
mod metal;
mod nails;
mod openings;
pub(crate) mod order;
mod planes;
pub(crate) mod price;
pub(crate) mod stage;
pub(crate) mod text;
mod waste;

use plan::{Plan, Severity};

use crate::ink::Ink;
use text::Page;

/// The whole page.
pub(crate) fn page(plan: &Plan, ink: Ink) -> String {
    let mut page = Page::new(ink);
    head(&mut page, plan);
    planes::write(&mut page, plan);
    lines::write(&mut page, plan);
    openings::write(&mut page, plan);
    courses::write(&mut page, plan);
    dry_in::write(&mut page, plan);
    metal::write(&mut page, plan);
    nails::write(&mut page, plan);
    order::write(&mut page, plan);
    waste::write(&mut page, plan);
    checks::write(&mut page, plan);
    cautions(&mut page, plan);
    page.finished()
}

/// Name and covering, and whether something is absent.
pub(crate) fn head(page: &mut Page, plan: &Plan) {
    page.title(&plan.name);
    let covering = &plan.covering;
    let invented = if covering.invented { "; its figures are invented and stand for no product" } else { "" };
    if !covering.name.is_empty() {
        page.wrapped(0, &format!("{}{invented}", covering.name));
    }
    let errors = plan.problems.iter().filter(|problem| problem.severity == Severity::Error).count();
    if errors > 0 {
        page.wrapped(0, &format!("NOT ALL IS PLANNED: {} told on standard error.", text::count(errors as u64, "problem")));
    }
}

fn cautions(page: &mut Page, plan: &Plan) {
    if plan.cautions.is_empty() {
        return;
    }
    page.heading("Cautions");
    plan.cautions.iter().for_each(|caution| page.hanging(2, "- ", caution));
}

#[cfg(test)]
mod tests;
