use plan::{Cricket, Opening, Plan};
use units::Length;

use super::lines::name;
use super::text::Page;

/// What comes through the roof, where, and how large.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    if plan.roof.openings.is_empty() {
        return;
    }
    page.heading("Openings, to their middles");
    plan.roof.openings.iter().for_each(|opening| of_opening(page, plan, opening));
    let totals = &plan.roof.totals;
    let [sills, sides, heads] = [totals.opening_sill_ft, totals.opening_side_ft, totals.opening_head_ft].map(Length::feet);
    page.wrapped(2, &format!("In all: sills {sills}, sides {sides}, heads {heads}."));
}

fn of_opening(page: &mut Page, plan: &Plan, opening: &Opening) {
    let planes: Vec<&str> = opening.planes.iter().map(|id| name(plan, id)).collect();
    let on = if planes.len() > 1 { "astride of the ridge of" } else { "on" };
    let [up, across, width, height] =
        [opening.up_in, opening.across_in, opening.width_in, opening.height_in].map(Length::inches);
    page.hanging(
        2,
        "",
        &format!(
            "{} ({}) {on} {}: {up} up, {across} across; {width} wide, {height} up the slope",
            opening.name,
            opening.kind,
            planes.join(" and ")
        ),
    );
    if let Some(cricket) = &opening.cricket {
        page.wrapped(6, &of_cricket(cricket));
    }
}

fn of_cricket(cricket: &Cricket) -> String {
    let [width, height, ridge, valley] =
        [cricket.width_in, cricket.height_in, cricket.ridge_in, cricket.valley_in].map(Length::inches);
    format!(
        "Cricket: {width} wide, {height} high at the chimney, ridge {ridge}, valleys {valley} each, {:.1} sq ft. Cover it in \
         metal; no units are counted for it.",
        cricket.area_sqft
    )
}
