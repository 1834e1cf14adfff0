use plan::{CountedPlace, Delivery, OrderLine, Plan, Spare};

use super::lines::name;
use super::text::{Page, count, thousands};

/// What to order, counted.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    if plan.order.is_empty() {
        return;
    }
    page.heading("Order");
    plan.order.iter().for_each(|line| of_line(page, line));
    weight(page, plan);
    page.wrapped(2, "`headlap order` tells the places of each line and the chance of running short.");
}

/// Every line with its places, what is spare and what comes when.
pub(crate) fn write_all(page: &mut Page, plan: &Plan) {
    page.heading("Order");
    if plan.order.is_empty() {
        page.wrapped(2, "Nothing is laid, so there is nothing to order.");
        return;
    }
    for line in &plan.order {
        of_line(page, line);
        places(page, line);
        line.spare.iter().for_each(|spare| running_short(page, spare));
    }
    page.blank();
    weight(page, plan);
    breakage(page, plan);
    if !plan.deliveries.is_empty() {
        page.heading("Deliveries");
        plan.deliveries.iter().for_each(|delivery| of_delivery(page, plan, delivery));
    }
}

fn of_line(page: &mut Page, line: &OrderLine) {
    let lead = format!("{:>8} × ", thousands(line.packs));
    let size = if line.size.is_empty() { String::new() } else { format!(", {}", line.size) };
    let spare = line.spare.as_ref().map_or(0, |spare| spare.packs);
    let spare = if spare > 0 { format!("; {spare} of the packs spare") } else { String::new() };
    let counted = format!("{} {}{spare}", quantity(line.quantity), unit(line));
    page.hanging(2, &lead, &format!("{}: {}{size} ({counted})", line.pack, line.item));
    if !line.estimate.is_empty() {
        page.wrapped(13, &format!("an estimate: {}", line.estimate));
    }
}

/// `pieces`, and of one `piece`.
fn unit(line: &OrderLine) -> &str {
    let one = line.unit.strip_suffix('s').filter(|_| (line.quantity - 1.0).abs() < 1e-9);
    one.unwrap_or(&line.unit)
}

fn places(page: &mut Page, line: &OrderLine) {
    let offcuts = |count: f64| if count > 0.0 { format!(" and {} from offcuts", quantity(count)) } else { String::new() };
    let place = |place: &CountedPlace| format!("{}: {}{}", place.at, quantity(place.quantity), offcuts(place.from_offcuts));
    let places: Vec<String> = line.places.iter().map(place).collect();
    page.hanging(13, "", &format!("{}.", places.join("; ")));
}

fn running_short(page: &mut Page, spare: &Spare) {
    let choice = |choice: &plan::SpareChoice| {
        let ordered = if choice.packs == spare.packs { " (ordered)" } else { "" };
        format!("{}: {}{ordered}", choice.packs, percent(choice.chance_short))
    };
    let choices: Vec<String> = spare.choices.iter().map(choice).collect();
    let kept = match spare.attic_stock {
        0 => String::new(),
        kept => format!(", {} left with the owner among what is needed", count(kept, "unit")),
    };
    page.hanging(13, "", &format!("Chance of running short{kept}, by spare packs. {}.", choices.join("; ")));
}

/// Two figures, and never a chance as none or as certain that is not.
fn percent(chance: f64) -> String {
    let percent = chance * 100.0;
    match percent {
        none if none <= 0.0 => "0 %".into(),
        little if little < 0.01 => "under 0.01 %".into(),
        little if little < 1.0 => format!("{little:.2} %"),
        some if some < 10.0 => format!("{some:.1} %"),
        all if all >= 100.0 => "100 %".into(),
        much if much > 99.0 => "over 99 %".into(),
        some => format!("{some:.0} %"),
    }
}

fn weight(page: &mut Page, plan: &Plan) {
    let pounds: f64 = plan.order.iter().map(|line| line.weight_lb).sum();
    if pounds > 0.0 {
        page.wrapped(2, &format!("Weight of what has one on its sheet: {} lb.", thousands(pounds.round() as u64)));
    }
}

/// Where the rate comes from, and what the chance means.
fn breakage(page: &mut Page, plan: &Plan) {
    let Some(spare) = plan.order.iter().find_map(|line| line.spare.as_ref()) else { return };
    let rate = spare.breakage_percent;
    let told = match spare.breakage_told_by {
        "job" => format!("Breakage of {rate} % is the job's figure"),
        "sheet" if plan.covering.invented => format!("Breakage of {rate} % is the sheet's figure, which is invented"),
        "sheet" => format!("Breakage of {rate} % is the sheet's figure"),
        _ => format!("Breakage of {rate} % is INVENTED, as neither job nor sheet tells it: [order] breakage_percent"),
    };
    page.wrapped(
        2,
        &format!(
            "{told}; each unit breaks or stays whole by itself. That a line may run short with a chance of {} is a choice, not \
             a fact: [order] chance_short_percent.",
            percent(spare.chance_taken)
        ),
    );
    let none_short: f64 =
        plan.order.iter().filter_map(|line| line.spare.as_ref()).map(|spare| 1.0 - spare.chance_short).product();
    page.wrapped(2, &format!("Chance that any of the lines runs short: {}.", percent(1.0 - none_short)));
}

fn of_delivery(page: &mut Page, plan: &Plan, delivery: &Delivery) {
    let planes: Vec<&str> = delivery.planes.iter().map(|id| name(plan, id)).collect();
    let pounds = thousands(delivery.weight_lb.round() as u64);
    page.hanging(2, "", &format!("Day {}, for {}: {pounds} lb", delivery.day, planes.join("; ")));
    for packs in &delivery.packs {
        if let Some(line) = plan.order.iter().find(|line| line.id == packs.id) {
            page.hanging(2, &format!("{:>8} × ", thousands(packs.packs)), &format!("{}: {}", line.pack, line.item));
        }
    }
}

/// A whole count as it is, anything else to one decimal.
fn quantity(value: f64) -> String {
    match value {
        whole if whole.fract().abs() < 1e-9 => thousands(whole as u64),
        part => format!("{part:.1}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chance_is_neither_none_nor_certain_unless_it_is() {
        let chances = [0.0, 1e-9, 0.0004, 0.0312, 0.42, 0.9999, 1.0];
        let shown = chances.map(percent);
        assert_eq!(shown, ["0 %", "under 0.01 %", "0.04 %", "3.1 %", "42 %", "over 99 %", "100 %"]);
    }

    #[test]
    fn a_count_is_whole_and_a_length_is_not() {
        assert_eq!([quantity(1234.0), quantity(80.46)], ["1,234", "80.5"]);
    }
}
