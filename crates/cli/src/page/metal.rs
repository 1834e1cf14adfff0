use plan::{MetalItem, MetalRun, PipeFlange, Plan};
use units::Length;

use super::text::{Page, capital, count};

/// What is bent from sheets, and where.
pub(crate) fn write(page: &mut Page, plan: &Plan) {
    let Some(metal) = &plan.details.metal else { return };
    page.heading("Metal, in the order in which it is laid");
    metal.items.iter().for_each(|item| of_item(page, item));
    metal.pipes.iter().for_each(|pipe| of_pipe(page, pipe));
    let [width, length] = metal.sheet_in.map(Length::inches);
    let [thickness, weight] = [metal.thickness_in, metal.weight_psf];
    page.wrapped(
        2,
        &format!(
            "Bent from {} of {}, {} × {length}, {thickness:.4} in thick, {weight:.2} lb to the square foot.",
            count(metal.sheets.into(), "sheet"),
            metal.metal,
            width.in_inches()
        ),
    );
}

/// Courses are counted from 1 on paper.
fn of_pipe(page: &mut Page, pipe: &PipeFlange) {
    let [across, up] = pipe.plate_in.map(|inches| Length::inches(inches).to_tape().in_inches());
    let diameter = Length::inches(pipe.diameter_in).in_inches();
    let course = |of: Option<u32>, lies: &str| of.map_or_else(String::new, |of| format!(", {lies} course {}", of + 1));
    let courses = [course(pipe.over, "over"), course(pipe.under, "under")].concat();
    page.hanging(
        2,
        "",
        &format!("Pipe flange: {}, {diameter} at {:.1}/12, plate {across} × {up}{courses}.", pipe.opening, pipe.pitch),
    );
}

fn of_item(page: &mut Page, item: &MetalItem) {
    let pieces = item.runs.iter().map(|run| run.pieces.len() as u64).sum();
    page.hanging(2, "", &format!("{}: {}.", capital(item.kind), count(pieces, "piece")));
    let told: Vec<String> = item.runs.iter().map(|run| format!("{}: {}", run.at, of_run(run))).collect();
    // Both sides of an opening are mostly alike.
    told.chunk_by(|a, b| a == b).for_each(|alike| {
        let times = if alike.len() > 1 { format!("{} × ", alike.len()) } else { String::new() };
        page.hanging(4, "- ", &format!("{times}{}", alike[0]));
    });
}

/// `5 of 8" × 10"`; of lengths that differ, from the first to the last.
fn of_run(run: &MetalRun) -> String {
    let tape = |inches: f64| Length::inches(inches).to_tape().in_inches();
    let sizes: Vec<String> =
        run.pieces.iter().map(|piece| format!("{} × {}", tape(piece.girth_in), tape(piece.length_in))).collect();
    let (Some(first), Some(last)) = (sizes.first(), sizes.last()) else { return "none".into() };
    let size = if first == last { first.clone() } else { format!("{first} … {last}") };
    let mut told = format!("{} of {size}", run.pieces.len());
    if run.sealed_joints > 0 {
        told += &format!(", {} sealed", count(run.sealed_joints.into(), "joint"));
    }
    if run.face_nails > 0 {
        told += &format!(", over {} with sealed heads", count(run.face_nails.into(), "face nail"));
    }
    if run.sealant_in > 0.0 {
        told += &format!(", {:.1} ft of sealant", run.sealant_in / 12.0);
    }
    if run.ribbed {
        told += ", W or crimp along the middle";
    }
    told
}
