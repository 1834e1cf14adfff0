use std::collections::BTreeSet;

use covering::Covering;
use details::Details;
use layout::{Cutting, Layout};
use roof::{Plane, Roof};

use crate::delivery::deliveries;
use crate::laying::{Laying, by_sheet};
use crate::{
    Breakage, Order, OrderChoices, OrderLine, caps, dry_in, field, metal, nails, ridge_vent, starters, stock, wide,
};

/// Counts what the laid planes need; `cuttings` tell how their pieces are cut. `covering_of` gives the sheet in which a plane
/// was laid; sheets are never mixed in a line. Lines of which nothing is needed are left out.
#[must_use]
pub fn count<'a>(
    roof: &'a Roof,
    layout: &'a Layout,
    cuttings: &[Cutting],
    details: &Details,
    choices: &OrderChoices,
    covering_of: impl Fn(&Plane) -> Option<&'a Covering>,
) -> Order {
    let layings = by_sheet(roof, layout, covering_of);
    let laid: BTreeSet<usize> = layings.iter().flat_map(|laying| laying.indices.iter().copied()).collect();
    let lines = layings.iter().flat_map(|laying| {
        let id = |line: &str| if layings.len() > 1 { format!("{line}:{}", laying.covering.id) } else { line.into() };
        let units = units(roof, laying, cuttings, details, &laid, choices);
        let sheets = dry_in::lines(roof, details, &laying.covering.id);
        units.into_iter().chain(sheets).map(move |line| OrderLine { id: id(&line.id), ..line })
    });
    let lines = lines.chain(dry_in::lines(roof, details, ""));
    let lines = lines.chain(metal::lines(roof, details));
    let lines = lines.chain(ridge_vent::line(roof, details.vents.as_ref()));
    let lines: Vec<OrderLine> = lines.filter(|line| line.quantity > 0.0).collect();
    Order { deliveries: deliveries(&lines, choices), lines, stock: stock(cuttings) }
}

fn units(
    roof: &Roof,
    laying: &Laying<'_>,
    cuttings: &[Cutting],
    details: &Details,
    laid: &BTreeSet<usize>,
    choices: &OrderChoices,
) -> Vec<OrderLine> {
    let breakage = Breakage::of(choices.breakage, laying.covering.conditions.breakage);
    let spare = |line: OrderLine| line.with_spare(breakage, choices, 0);
    let field = field::lines(roof, laying, cuttings).into_iter();
    let field = field.map(|line| line.with_spare(breakage, choices, choices.attic_stock));
    let wide = wide::lines(roof, laying, cuttings).into_iter().map(spare);
    let caps = caps::line(roof, laying, laid);
    let nails = nails::lines(roof, laying, &caps, details);
    field.chain(wide).chain([spare(starters::line(roof, laying)), spare(caps)]).chain(nails).collect()
}
