use plan::{BalancedSide, Pile, Plan, PlaneLoad};

use super::lines::name;
use super::text::{Page, count, thousands};

/// Loads, pallets, piles, and what to mind.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    super::head(page, plan);
    let loads = &plan.loads;
    if loads.planes.is_empty() {
        page.heading("Loads");
        page.wrapped(2, "Nothing is laid, so nothing is staged.");
        return;
    }
    page.heading("Dead load, without nails, caps and metal");
    loads.planes.iter().for_each(|load| of_plane(page, plan, load));
    pallets(page, plan);
    page.heading(&format!(
        "Piles of units, each spread over {} ft by {} ft of deck where it has room",
        loads.patch_ft, loads.patch_ft
    ));
    for laid in &plan.layout.planes {
        let piles: Vec<&Pile> = loads.piles.iter().filter(|pile| pile.plane == laid.id).collect();
        match loads.handed_up.iter().find(|of| of.plane == laid.id) {
            Some(of) => page.wrapped(
                2,
                &format!("{}: no pile finds room; {} are handed up", name(plan, &laid.id), count(of.units, "unit")),
            ),
            None => piles_of(page, name(plan, &laid.id), &piles),
        }
    }
    balances(page, plan);
    page.heading("Before anything is set down");
    loads.cautions.iter().for_each(|caution| page.hanging(2, "- ", caution));
}

fn of_plane(page: &mut Page, plan: &Plan, load: &PlaneLoad) {
    let old = match (load.old_slope_psf, load.old_plan_psf) {
        (Some(slope), Some(in_plan)) => format!("old covering {slope:.2} psf of slope, {in_plan:.2} psf of plan"),
        _ => "old covering not told: [deck] old_psf".into(),
    };
    page.hanging(
        2,
        "",
        &format!(
            "{}: new {:.2} psf of slope, {:.2} psf of plan ({} lb of units, {} lb under them); {old}",
            name(plan, &load.plane),
            load.slope_psf,
            load.plan_psf,
            pounds(load.units_lb),
            pounds(load.under_lb)
        ),
    );
}

fn pallets(page: &mut Page, plan: &Plan) {
    page.heading("Pallets and storage");
    match &plan.loads.pallets {
        Some(pallets) => page.wrapped(
            2,
            &format!(
                "{} of field units, {} each, {} lb when full, the last {} lb; as many lifts.",
                count(pallets.count, "pallet"),
                count(pallets.packs_each, "pack"),
                pounds(pallets.full_lb),
                pounds(pallets.last_lb)
            ),
        ),
        None => page.wrapped(2, "The sheet does not tell how many packs lie on a pallet: [storage] pallet_packs."),
    }
    plan.loads.storage.iter().for_each(|rule| page.hanging(2, "- ", rule));
}

/// One line for each band: its piles stand beside each other.
fn piles_of(page: &mut Page, plane: &str, piles: &[&Pile]) {
    let units: u64 = piles.iter().map(|pile| pile.units).sum();
    page.wrapped(2, &format!("{plane}: {} for {} units", count(piles.len() as u64, "pile"), thousands(units)));
    for band in piles.chunk_by(|a, b| a.band == b.band) {
        let first = band.iter().map(|pile| pile.courses[0]).min().unwrap_or_default();
        let last = band.iter().map(|pile| pile.courses[1]).max().unwrap_or_default();
        let heaviest = band.iter().map(|pile| pile.patch_psf).fold(0.0, f64::max);
        let each: Vec<String> = band.iter().map(|pile| shown(pile)).collect();
        let courses = format!("courses {} to {}", first + 1, last + 1);
        page.hanging(4, "", &format!("{courses}: {}; {heaviest:.1} psf at most", each.join(", ")));
    }
}

/// `#12 38`, or `#12 2×40` where units are set down more than once.
fn shown(pile: &Pile) -> String {
    match pile.times {
        1 => format!("#{} {}", pile.number, pile.units),
        times => format!("#{} {times}×{}", pile.number, pile.at_once),
    }
}

fn balances(page: &mut Page, plan: &Plan) {
    for balance in &plan.loads.balances {
        let side = |side: &BalancedSide| {
            let planes: Vec<&str> = side.planes.iter().map(|id| name(plan, id)).collect();
            format!("{} {} lb", planes.join(" with "), pounds(side.at_end_lb))
        };
        let sides: Vec<String> = balance.sides.iter().map(side).collect();
        page.hanging(
            2,
            "",
            &format!(
                "Set down in the order of the numbers, the sides differ by {} lb at most while they are being loaded; in the end {}.",
                pounds(balance.greatest_difference_lb),
                sides.join(", ")
            ),
        );
    }
}

fn pounds(weight: f64) -> String {
    thousands(weight.round() as u64)
}
