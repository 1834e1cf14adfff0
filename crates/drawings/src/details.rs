//! Details of this very roof, from the plan's figures. Lengths are to scale; thicknesses, which a pencil line would hide, are not.

mod chimney;
mod eave;
mod rake;
mod ridge;
mod section;
mod valley;

use plan::{LaidPlane, Plan, Plane};

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
    of_plane.chain(valleys.take(1)).chain(chimneys).collect()
}

fn laid(plan: &Plan) -> impl Iterator<Item = (&Plane, &LaidPlane)> {
    let plane = |id: &str| plan.roof.planes.iter().find(|plane| plane.id == id);
    plan.layout.planes.iter().filter_map(move |laid| Some((plane(&laid.id)?, laid)))
}

/// The plane on which laying begins: the first of the plan that has a course.
fn first_laid(plan: &Plan) -> Option<(&Plane, &LaidPlane)> {
    laid(plan).find(|(_, laid)| !laid.courses.is_empty())
}
