//! Metal: what lines valleys, turns up walls and closes what the units leave open, piece by piece at its place.

mod apron;
mod choices;
mod item;
mod nailing;
mod pipe;
mod ridge;
mod seal;
mod sheets;
mod step;
mod stretch;
mod valley;

pub use choices::{FlashingChoices, SheetMetal, SheetStock};
pub use item::{Along, Metal, MetalItem, MetalKind, MetalPiece, MetalRun};
pub use pipe::PipeFlange;
pub use seal::Sealant;
pub use sheets::pieces_per_sheet;
pub use step::{step_girth, step_length};
pub use valley::{closed_valley_girth, valley_girth};

use crate::Given;

/// Places all metal; none where no plane is covered or nothing needs any.
pub(crate) fn metal(given: &Given<'_>) -> Option<Metal> {
    let linings = valley::lay_open(given);
    let cleats = valley::cleats(given, &linings);
    let runs = [
        (MetalKind::OpenValley, linings),
        (MetalKind::Cleat, cleats),
        (MetalKind::ClosedValley, valley::lay_closed(given)),
        (MetalKind::MitredHip, valley::lay_hips(given)),
        (MetalKind::DeadValley, apron::dead_valleys(given)),
        (MetalKind::Cricket, apron::crickets(given)),
        (MetalKind::Apron, apron::aprons(given)),
        (MetalKind::Corner, apron::corners(given)),
        (MetalKind::StepFlashing, step::lay(given)),
        (MetalKind::KickOut, step::kick_outs(given)),
        (MetalKind::BackPan, apron::back_pans(given)),
        (MetalKind::Break, apron::breaks(given)),
        (MetalKind::HighEdge, apron::high_edges(given)),
        (MetalKind::Counterflashing, apron::counterflashing(given)),
        (MetalKind::HipMetal, ridge::hips(given)),
        (MetalKind::RidgeMetal, ridge::ridges(given)),
    ];
    let items: Vec<MetalItem> = runs
        .into_iter()
        .filter(|(_, runs)| !runs.is_empty())
        .map(|(kind, runs)| MetalItem { kind, runs: runs.into_iter().map(|run| finished(given, kind, run)).collect() })
        .collect();
    let pipes = pipe::flanges(given);
    let [sheets, bound] = sheets::sheets(&items, given.sheet_metal);
    let is_any = !items.is_empty() || !pipes.is_empty();
    let sealant = given.flashing.sealant;
    is_any.then_some(Metal { stock: *given.sheet_metal, sheets, bound, items, pipes, sealant })
}

/// With its nails and its sealant.
fn finished(given: &Given<'_>, kind: MetalKind, run: MetalRun) -> MetalRun {
    let nails = run.pieces.iter().map(|piece| nailing::nails(kind, piece, given.flashing)).sum();
    seal::sealed(kind, MetalRun { nails, ..run }, given.flashing)
}
