//! Details of this very roof, from the plan's figures. Lengths are to scale; thicknesses, which a pencil line would hide, are not.

mod apron;
mod chimney;
mod eave;
mod pipe;
mod rake;
mod ridge;
mod section;
mod sidewall;
mod valley;

use plan::{LaidPlane, MetalRun, Plan, Plane, SheetMetal};

use crate::{Figure, Words};

/// A detail by its unchanging short name, `eave`.
#[derive(Debug, Clone, PartialEq)]
pub struct Detail {
    /// What it shows.
    pub name: &'static str,
    /// Plane or opening that it is drawn for.
    pub of: String,
    /// The numbers in it are those of its key.
    pub figure: Figure,
}

/// The details that this roof has: width of the room for each, mm.
#[must_use]
pub fn details(plan: &Plan, width: f64, words: &dyn Words) -> Vec<Detail> {
    let first = first_laid(plan);
    let of_plane = first.iter().flat_map(|&(plane, laid)| {
        let drawn = [
            ("eave", eave::draw(plan, plane, laid, width, words)),
            ("rake", rake::draw(plan, plane, laid, width, words)),
            ("ridge", ridge::draw(plan, plane, laid, width, words)),
        ];
        drawn.into_iter().filter_map(|(name, figure)| Some(Detail { name, of: plane.name.clone(), figure: figure? }))
    });
    let valleys = laid(plan).filter_map(|(plane, laid)| {
        let figure = valley::draw(plan, plane, laid, width, words)?;
        Some(Detail { name: "valley", of: plane.name.clone(), figure })
    });
    let chimneys = plan.roof.openings.iter().filter_map(|opening| {
        let figure = chimney::draw(opening, width, words)?;
        Some(Detail { name: "cricket", of: opening.name.clone(), figure })
    });
    let metal = plan.details.metal.iter().flat_map(|metal| of_metal(plan, metal, width, words));
    of_plane.chain(valleys.take(1)).chain(chimneys).chain(metal).collect()
}

/// One of each kind: the wall with most steps, the longest apron, the first pipe.
fn of_metal(plan: &Plan, metal: &SheetMetal, width: f64, words: &dyn Words) -> Vec<Detail> {
    let steps = longest(metal, "step-flashing", |run| run.pieces.len() as f64);
    let apron = longest(metal, "aprons", |run| run.pieces.iter().map(|piece| piece.length_in).sum());
    let sidewall = steps.and_then(|run| {
        let (plane, laid) = named(plan, &run.plane)?;
        Some(Detail { name: "sidewall", of: run.at.clone(), figure: sidewall::draw(plan, plane, laid, run, width, words)? })
    });
    let apron = apron.and_then(|run| {
        let (plane, laid) = named(plan, &run.plane)?;
        Some(Detail { name: "apron", of: run.at.clone(), figure: apron::draw(plan, plane, laid, run, width, words)? })
    });
    let pipe = metal.pipes.first().and_then(|pipe| {
        let (_, laid) = named(plan, &pipe.plane)?;
        Some(Detail { name: "pipe", of: pipe.opening.clone(), figure: pipe::draw(laid, pipe, width, words)? })
    });
    [sidewall, apron, pipe].into_iter().flatten().collect()
}

/// The run of a kind that has most by some measure, the first of equals.
fn longest<'a>(metal: &'a SheetMetal, id: &str, most: impl Fn(&MetalRun) -> f64) -> Option<&'a MetalRun> {
    let runs = metal.items.iter().filter(|item| item.id == id).flat_map(|item| &item.runs);
    runs.reduce(|best, run| if most(run) > most(best) { run } else { best })
}

fn named<'a>(plan: &'a Plan, id: &str) -> Option<(&'a Plane, &'a LaidPlane)> {
    laid(plan).find(|(plane, _)| plane.id == id)
}

fn laid(plan: &Plan) -> impl Iterator<Item = (&Plane, &LaidPlane)> {
    let plane = |id: &str| plan.roof.planes.iter().find(|plane| plane.id == id);
    plan.layout.planes.iter().filter_map(move |laid| Some((plane(&laid.id)?, laid)))
}

/// The plane on which laying begins: the first of the plan that has a course.
fn first_laid(plan: &Plan) -> Option<(&Plane, &LaidPlane)> {
    laid(plan).find(|(_, laid)| !laid.courses.is_empty())
}
