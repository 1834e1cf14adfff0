use plan::{Details, EaveBarrier, Plan, Rolls, Step, Vents};
use units::Length;

use super::text::{Page, capital, count, thousands};

/// What goes under the units, what lets the attic breathe, and what must be seen before what.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    let details = &plan.details;
    if details.rolls.is_empty() {
        return;
    }
    page.heading("Dry-in, in the order in which it is laid");
    details.rolls.iter().for_each(|rolls| of_rolls(page, rolls));
    page.wrapped(2, &format!("Ice barrier: {}", details.ice_barrier));
    details.eaves.iter().for_each(|eave| of_eave(page, plan, eave));
    of_layers(page, plan);
    details.vents.iter().for_each(|vents| of_vents(page, vents));
    page.heading("Order of work");
    details.order_of_work.iter().enumerate().for_each(|(at, step)| of_step(page, at, step));
    of_missing(page, details);
}

fn of_rolls(page: &mut Page, rolls: &Rolls) {
    let [width, length, side_lap, end_lap] =
        [rolls.width_in, rolls.length_in, rolls.side_lap_in, rolls.end_lap_in].map(Length::inches);
    let total: f64 = rolls.strips.iter().flat_map(|strip| &strip.pieces).map(|piece| piece.length_in).sum();
    let pieces: usize = rolls.strips.iter().map(|strip| strip.pieces.len()).sum();
    let sold = if rolls.width_in > 0.0 {
        format!("{}, {} × {length}; laps {side_lap} and {end_lap}", count(rolls.count.into(), "roll"), width.in_inches())
    } else {
        format!("{} of {length}; laps {end_lap}", count(rolls.count.into(), "piece"))
    };
    let cut = format!("{} in {}", count(rolls.strips.len() as u64, "strip"), count(pieces as u64, "cut"));
    page.hanging(2, "", &format!("{} ({}): {sold}. {cut}, {:.0} ft in all.", capital(rolls.kind), rolls.name, total / 12.0));
}

fn of_eave(page: &mut Page, plan: &Plan, eave: &EaveBarrier) {
    let [needed, laid] = [eave.needed_in, eave.laid_in].map(Length::inches);
    let name = super::lines::name(plan, &eave.plane);
    page.hanging(4, "- ", &format!("{name}: {needed} up the slope from the roof edge; whole courses reach {laid}."));
}

fn of_layers(page: &mut Page, plan: &Plan) {
    for list in &plan.details.layers {
        let layers: Vec<String> = list
            .layers
            .iter()
            .map(|layer| {
                let times = if layer.times > 1 { format!("{} × ", layer.times) } else { String::new() };
                let part = if layer.in_part { " (in part)" } else { "" };
                format!("{times}{} {}{part}", layer.kind, layer.name)
            })
            .collect();
        let planes: Vec<&str> = list.planes.iter().map(|id| super::lines::name(plan, id)).collect();
        let of = if plan.details.layers.len() > 1 { format!(" of {}", planes.join("; ")) } else { String::new() };
        page.wrapped(2, &format!("Layers{of}, from the deck up: {}.", layers.join(" / ")));
        list.fire.iter().for_each(|fire| page.hanging(4, "- ", &format!("Fire: {fire}")));
    }
}

fn of_vents(page: &mut Page, vents: &Vents) {
    page.heading("Ventilation, net free area");
    let inches = |value: f64| thousands(value.round() as u64);
    let floor = thousands(vents.floor_sqft.round() as u64);
    page.wrapped(
        2,
        &format!("{floor} sq ft of attic floor / {}: {} sq in ({}).", vents.share, inches(vents.needed_sqin), vents.why),
    );
    let [least, most] = vents.upper_sqin.map(inches);
    let gives = inches(vents.ridge_gives_sqin);
    page.wrapped(
        2,
        &format!(
            "In the upper part {least} to {most} sq in; the ridges give {gives}. At the eaves {} sq in.",
            inches(vents.lower_sqin)
        ),
    );
    let length: f64 = vents.ridges.iter().map(|run| run.to_in - run.from_in).sum();
    if length > 0.0 {
        let slot = vents.slot_in.map_or_else(String::new, |slot| format!(", slot {} in all", Length::inches(slot)));
        page.wrapped(2, &format!("Vented ridge {}{slot}.", Length::inches(length)));
    }
    if let Some(soffit) = vents.soffit_ft {
        page.wrapped(2, &format!("Soffit vent {} of {} of eaves.", Length::feet(soffit), Length::feet(vents.eaves_ft)));
    }
    vents.notes.iter().for_each(|note| page.hanging(2, "- ", note));
}

fn of_step(page: &mut Page, at: usize, step: &Step) {
    let hold = if step.hold_point { " HOLD until seen and signed" } else { "" };
    page.hanging(2, &format!("{}. ", at + 1), &format!("{} ({}).{hold}", step.title, step.who));
    step.see.iter().for_each(|see| page.hanging(5, "- ", see));
    page.wrapped(5, &format!("Photo: {}.", step.photo));
}

fn of_missing(page: &mut Page, details: &Details) {
    if details.missing.is_empty() {
        return;
    }
    page.heading("Not placed, for want of");
    details.missing.iter().for_each(|gap| page.hanging(2, "- ", &format!("{}: {}; {}.", gap.what, gap.says, gap.remedy)));
}
