//! Metal as it is laid, piece by piece.

use details::{MetalKind, MetalPiece, MetalRun};

use super::Facts;
use crate::Place;

/// Runs of one kind.
pub(crate) fn runs<'a>(facts: &Facts<'a>, kind: MetalKind) -> impl Iterator<Item = &'a MetalRun> + use<'a> {
    let items = facts.details.metal.iter().flat_map(|metal| &metal.items).filter(move |item| item.kind == kind);
    items.flat_map(|item| &item.runs)
}

/// How far each piece of a run lies over the one below, less than nothing where there is a gap, and where.
pub(crate) fn laps(facts: &Facts, kind: MetalKind) -> Vec<(f64, Place)> {
    let pairs =
        runs(facts, kind).flat_map(|run| run.pieces.iter().zip(run.pieces.iter().skip(1)).map(move |pair| (run, pair)));
    let laps = pairs.map(|(run, (below, above))| {
        let [head, foot] = [below.ends[1], above.ends[0]];
        let apart = libm::hypot(head[0] - foot[0], head[1] - foot[1]);
        let lap = if head[1] >= foot[1] { apart } else { -apart };
        (lap, facts.place_on(run.along.plane, foot))
    });
    laps.collect()
}

/// How far the metal of a valley reaches from its middle: without turned edges and rib half of the blank.
pub(crate) fn half_width(facts: &Facts, run: &MetalRun, piece: &MetalPiece) -> f64 {
    let rib = if run.ribbed { facts.flashing.rib.to_inches() } else { 0.0 };
    piece.girth.to_inches() / 2.0 - facts.flashing.hem.to_inches() - rib
}
