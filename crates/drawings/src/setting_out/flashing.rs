use plan::MetalRun;

use super::sheet::{Sheet, in_inches};

/// Step flashing beside the courses of the plane, wall by wall; `None` where there is none.
pub(crate) fn note(sheet: &Sheet) -> Option<String> {
    let items = sheet.plan.details.metal.iter().flat_map(|metal| &metal.items);
    let runs = items.filter(|item| item.id == "step-flashing").flat_map(|item| &item.runs);
    let told: Vec<String> = runs.filter(|run| run.plane == sheet.plane.id).filter_map(of_run).collect();
    let told: Vec<String> = told.chunk_by(|a, b| a == b).map(alike).collect();
    (!told.is_empty()).then(|| format!("Step flashing, one a course under its units: {}.", told.join("; ")))
}

/// Both sides of an opening are mostly alike.
fn alike(runs: &[String]) -> String {
    let each = if runs.len() > 1 { "each " } else { "" };
    runs.first().map_or_else(String::new, |run| format!("{each}{run}"))
}

/// `side of kitchen chimney 6, courses 9 to 14, 8" × 10"`.
fn of_run(run: &MetalRun) -> Option<String> {
    let courses = run.pieces.iter().filter_map(|piece| piece.course);
    let [first, last] = [courses.clone().min()?, courses.max()?].map(|course| course + 1);
    let piece = run.pieces.first()?;
    let wall = run.at.split(", ").next().unwrap_or_default();
    let size = [piece.girth_in, piece.length_in].map(in_inches).join(" × ");
    let at = if first == last { format!("course {first}") } else { format!("courses {first} to {last}") };
    Some(format!("{wall} {}, {at}, {size}", run.pieces.len()))
}
