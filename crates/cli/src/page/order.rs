use plan::{OrderLine, Plan};

use super::text::{Page, thousands};

/// What to order, counted.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    if plan.order.is_empty() {
        return;
    }
    page.heading("Order");
    plan.order.iter().for_each(|line| of_line(page, line));
    let pounds: f64 = plan.order.iter().map(|line| line.weight_lb).sum();
    if pounds > 0.0 {
        page.wrapped(2, &format!("Weight of what has one on its sheet: {} lb.", thousands(pounds.round() as u64)));
    }
}

fn of_line(page: &mut Page, line: &OrderLine) {
    let lead = format!("{:>8} × ", thousands(line.packs));
    page.hanging(2, &lead, &format!("{}: {} ({} {})", line.pack, line.item, quantity(line.quantity), line.unit));
    if !line.estimate.is_empty() {
        page.wrapped(13, &format!("an estimate: {}", line.estimate));
    }
}

/// A whole count as it is, anything else to one decimal.
fn quantity(value: f64) -> String {
    if value.fract().abs() < 1e-9 { thousands(value as u64) } else { format!("{value:.1}") }
}
