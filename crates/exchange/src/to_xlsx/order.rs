use plan::{OrderLine, Plan};

use super::desk::{Desk, Done, Look};

const HEADS: [(&str, f64); 11] = [
    ("Item", 38.0),
    ("Size", 20.0),
    ("Counted", 11.0),
    ("Unit", 9.0),
    ("In a pack", 8.0),
    ("Spare packs", 8.0),
    ("Packs", 8.0),
    ("Pack", 26.0),
    ("Pounds a pack", 10.0),
    ("Pounds", 11.0),
    ("Remark", 40.0),
];

pub(super) fn write(desk: &mut Desk, plan: &Plan) -> Done {
    desk.line(Look::Title, &format!("{}: order", plan.name))?;
    let invented = if plan.covering.invented { ". Its figures are invented: they stand for no product." } else { "" };
    desk.line(Look::Words, &format!("{}{invented}", plan.covering.name))?;
    desk.next_row();
    desk.heads(&HEADS)?;
    desk.freeze()?;
    let first = desk.here();
    plan.order.iter().try_for_each(|line| write_line(desk, line))?;
    if first == desk.here() {
        return Ok(());
    }
    desk.words(0, Look::Sum, "Weight")?;
    let pounds: f64 = plan.order.iter().map(|line| line.weight_lb).sum();
    desk.formula(9, Look::Sum, &format!("=SUM(J{first}:J{})", desk.here() - 1), pounds)
}

/// Bundles are reckoned from what is counted; what is cut from rolls and sheets is not a matter of dividing.
fn write_line(desk: &mut Desk, line: &OrderLine) -> Done {
    let here = desk.here();
    desk.words(0, Look::Words, &line.item)?;
    desk.words(1, Look::Words, &line.size)?;
    desk.number(2, Look::Number, line.quantity)?;
    desk.words(3, Look::Words, &line.unit)?;
    let packs = line.packs as f64;
    match line.in_pack {
        Some(in_pack) => {
            let spare = line.spare.as_ref().map_or(0, |spare| spare.packs);
            desk.number(4, Look::Number, in_pack.into())?;
            desk.number(5, Look::Number, spare as f64)?;
            desk.formula(6, Look::Number, &format!("=ROUNDUP(C{here}/E{here},0)+F{here}"), packs)?;
        }
        None => desk.number(6, Look::Number, packs)?,
    }
    desk.words(7, Look::Words, &line.pack)?;
    if line.weight_lb > 0.0 && line.packs > 0 {
        desk.number(8, Look::Number, line.weight_lb / packs)?;
        desk.formula(9, Look::Number, &format!("=G{here}*I{here}"), line.weight_lb)?;
    }
    desk.words(10, Look::Words, &line.estimate)?;
    desk.next_row();
    Ok(())
}
