//! Metal over ridges and hips, where a sheet has it instead of caps.

use covering::RidgeMetal;
use geom::{add, scale, sub};
use roof::{EdgeKind, Place};
use units::Length;

use super::valley::{Sloped, from_foot, past_foot, sloped};
use super::{MetalPiece, MetalRun};
use crate::Given;

/// Every ridge whose sheet covers it in metal, past both ends as far as units reach past rakes.
pub(crate) fn ridges(given: &Given<'_>) -> Vec<MetalRun> {
    let run = |at: Sloped<'_>| {
        let metal = at.covering.ridge_metal.filter(|metal| metal.at_ridges)?;
        let past = at.covering.edges.rake_projection.to_inches();
        Some(cover(given, &at, &metal, at.covering.cap.cover, [past; 2]))
    };
    sloped(given, EdgeKind::Ridge).into_iter().filter_map(run).collect()
}

/// Every hip whose sheet covers it in metal, down to where units end past the eave.
pub(crate) fn hips(given: &Given<'_>) -> Vec<MetalRun> {
    let run = |at: Sloped<'_>| {
        let metal = at.covering.ridge_metal.filter(|_| at.covering.has_hip_metal())?;
        let past = past_foot(at.covering, at.on(given, at.planes[0]));
        Some(cover(given, &at, &metal, at.covering.cap.hip_cover, [past, 0.0]))
    };
    sloped(given, EdgeKind::Hip).into_iter().filter_map(run).collect()
}

/// Whole lengths from the low end on, each lapped over the one below; a level line begins at its first end.
fn cover(given: &Given<'_>, at: &Sloped<'_>, metal: &RidgeMetal, cover: Length, [before, after]: [f64; 2]) -> MetalRun {
    let ends = at.on(given, at.planes[0]);
    let long = geom::distance(ends[0], ends[1]);
    let place =
        |along: f64| -> Place { add(ends[0], scale(sub(ends[1], ends[0]), (along - before) / long.max(f64::MIN_POSITIVE))) };
    let cut = |[from, to]: [f64; 2]| MetalPiece {
        course: None,
        ends: [place(from), place(to)],
        girth: (cover + given.flashing.hem) * 2.0 + metal.rise,
        length: Length::inches(to - from),
    };
    let lengths = from_foot(long + before + after, given.sheet_metal, metal.lap.to_inches());
    at.run(lengths.into_iter().map(cut).collect())
}
