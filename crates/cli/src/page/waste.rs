use plan::Plan;

use super::text::Page;

/// What is lost of the units that are taken, and why.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    let said = plan.layout.waste.iter().filter(|waste| waste.stock > 0);
    for waste in said {
        let of = if plan.layout.waste.len() > 1 { format!(" of {}", waste.sheet) } else { String::new() };
        page.heading(&format!("What is lost{of}"));
        waste.says.iter().for_each(|says| page.hanging(2, "- ", says));
    }
}
