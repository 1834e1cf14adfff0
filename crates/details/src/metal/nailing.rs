//! Nails of metal.

use super::{FlashingChoices, MetalKind, MetalPiece};
use crate::fasteners::steps;

/// Nails of what is held at two places: cleats, kick-outs, corners, pieces of closed valleys and mitred hips (common practice, no
/// published source).
const TWO: u32 = 2;

/// Nails of a piece. Linings are held by their cleats and counterflashing by its raglet; step flashing is nailed to the roof or to
/// the wall, never to both.
pub(crate) fn nails(kind: MetalKind, piece: &MetalPiece, flashing: &FlashingChoices) -> u32 {
    match kind {
        MetalKind::OpenValley | MetalKind::Counterflashing => 0,
        MetalKind::StepFlashing => flashing.step_nails,
        MetalKind::Cleat | MetalKind::KickOut | MetalKind::Corner | MetalKind::ClosedValley | MetalKind::MitredHip => TWO,
        // Along both edges.
        MetalKind::HipMetal | MetalKind::RidgeMetal => {
            TWO * (steps(piece.length.to_inches(), flashing.nails_apart.to_inches()) + 1)
        }
        MetalKind::DeadValley
        | MetalKind::BackPan
        | MetalKind::Cricket
        | MetalKind::Apron
        | MetalKind::HighEdge
        | MetalKind::Break => steps(piece.length.to_inches(), flashing.nails_apart.to_inches()) + 1,
    }
}
