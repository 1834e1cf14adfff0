//! Where on the roof what a price counts lies: the lines of the order as they are, and what labor and costs are paid for.

use std::collections::BTreeMap;

use price::Of;

use crate::{CountedPlace, Job, LaidPlane, Plan};

/// By [`price::Bought::counts`]: places whose quantities sum to what the line counts. What lies nowhere on the roof, pallets and
/// the job itself, is absent.
pub(crate) fn places(job: &Job, plan: &Plan) -> BTreeMap<String, Vec<CountedPlace>> {
    let bought = plan.order.iter().map(|line| (line.id.clone(), line.places.clone()));
    let old = f64::from(job.deck_found.old_layers.unwrap_or_default());
    let counted = [
        (Of::Squares, squares(plan, 1.0)),
        (Of::OldSquares, squares(plan, old)),
        (Of::EaveFeet, lines(plan, &["eave"])),
        (Of::RakeFeet, lines(plan, &["rake"])),
        (Of::RidgeFeet, lines(plan, &["ridge"])),
        (Of::HipFeet, lines(plan, &["hip"])),
        (Of::ValleyFeet, lines(plan, &["valley", "dead valley"])),
        (Of::WallFeet, lines(plan, &["sidewall", "headwall"])),
        (Of::FieldPieces, pieces(plan, |_| true)),
        (Of::CutPieces, pieces(plan, |run| run.cut.is_some())),
        (Of::Openings, openings(plan)),
    ];
    let counted = counted.map(|(of, places)| (of.name().to_owned(), places));
    bought.chain(counted).filter(|(_, places)| !places.is_empty()).collect()
}

fn at_plane(plan: &Plan, id: &str, quantity: f64) -> CountedPlace {
    CountedPlace { at: name_of(plan, id).into(), quantity, from_offcuts: 0.0, planes: vec![id.into()], line: None }
}

fn name_of<'a>(plan: &'a Plan, id: &'a str) -> &'a str {
    plan.roof.planes.iter().find(|plane| plane.id == id).map_or(id, |plane| &plane.name)
}

fn squares(plan: &Plan, layers: f64) -> Vec<CountedPlace> {
    let area = |laid: &LaidPlane| plan.roof.planes.iter().find(|plane| plane.id == laid.id).map(|plane| plane.area_sqft);
    let laid = plan.layout.planes.iter().filter_map(|laid| Some((&laid.id, area(laid)? / 100.0 * layers)));
    laid.filter(|(_, squares)| *squares > 0.0).map(|(id, squares)| at_plane(plan, id, squares)).collect()
}

fn lines(plan: &Plan, kinds: &[&str]) -> Vec<CountedPlace> {
    let lines = plan.roof.lines.iter().enumerate().filter(|(_, line)| kinds.contains(&line.kind));
    lines
        .map(|(index, line)| {
            let planes: Vec<&str> = line.planes.iter().map(|id| name_of(plan, id)).collect();
            let at = format!("{}, {}", line.kind, planes.join(" / "));
            CountedPlace { at, quantity: line.length_ft, from_offcuts: 0.0, planes: line.planes.clone(), line: Some(index) }
        })
        .collect()
}

fn pieces(plan: &Plan, counts: impl Fn(&crate::Run) -> bool) -> Vec<CountedPlace> {
    let counted = |laid: &LaidPlane| {
        let runs = laid.courses.iter().flat_map(|course| &course.runs);
        runs.filter(|run| counts(run)).map(|run| u64::from(run.count)).sum::<u64>()
    };
    let laid = plan.layout.planes.iter().map(|laid| (&laid.id, counted(laid)));
    laid.filter(|(_, count)| *count > 0).map(|(id, count)| at_plane(plan, id, count as f64)).collect()
}

fn openings(plan: &Plan) -> Vec<CountedPlace> {
    let place = |opening: &crate::Opening| CountedPlace {
        at: opening.name.clone(),
        quantity: 1.0,
        from_offcuts: 0.0,
        planes: opening.planes.clone(),
        line: None,
    };
    plan.roof.openings.iter().map(place).collect()
}
