//! Cuts chimneys, skylights, pipes and vents out of the planes of a roof.

use geom::Point;
use units::{Area, Length};

use crate::astride::Astride;
use crate::build::{Built, not_proven};
use crate::carve::carve;
use crate::fit::{Fault, Fit, Shape};
use crate::problem::{Part, Problem, Severity};
use crate::{EdgeKind, Opening, OpeningKind, Plane, Ring, Roof, sanity_check};

/// Cuts the openings out of the roof's planes. Sizes must be above zero. A chimney wider than 30 in across the slope that is
/// not at the ridge gets a cricket, whose two planes come after all others. What can't be cut out is named in the problems,
/// with its index in `openings`; the others are cut. The roof is proved anew.
///
/// All are fitted to the whole roof first, so that none depends on what was cut before it.
#[must_use]
pub fn cut_out(mut roof: Roof, openings: &[Opening]) -> Built {
    let mut fits: Vec<Fit> = Vec::new();
    let mut problems = Vec::new();
    for (index, opening) in openings.iter().enumerate() {
        match Fit::of(&roof, opening, &fits) {
            Ok(fit) => {
                problems.extend(fit.is_short_of_room.then(|| no_room_for_cricket(index, opening)));
                problems.extend(astride_of_a_line(&roof, index, &fit));
                fits.push(fit);
            }
            Err(fault) => problems.push(fault.problem(index, opening)),
        }
    }
    if !fits.is_empty() {
        let before = sanity_check(&roof);
        fits.into_iter().for_each(|fit| carve(&mut roof, fit));
        roof.plan_area = roof.planes.iter().map(Plane::plan_area).sum::<Area>();
        let flaws = sanity_check(&roof).into_iter().filter(|flaw| !before.contains(flaw));
        problems.extend(flaws.map(not_proven));
    }
    Built { roof, problems }
}

/// A ring seen in plan.
pub(crate) fn flat(ring: &Ring) -> Vec<Point> {
    ring.corners.iter().map(|corner| [corner[0], corner[1]]).collect()
}

impl Fault {
    fn problem(&self, index: usize, opening: &Opening) -> Problem {
        let name = &opening.name;
        let kind = opening.kind.name();
        let (code, says, remedy) = match self {
            Self::NoPlaneThere => (
                "opening-outside",
                format!("there is no roof over the plan point of {kind} \"{name}\""),
                "give at = [x, y] in the coordinates of the outlines, or a plane with up and across".into(),
            ),
            Self::Outside { plane } => (
                "opening-outside",
                format!("the middle of {kind} \"{name}\" lies outside {plane}"),
                "measure up the slope from the roof edge, and across from the plane's left end seen from the ground".into(),
            ),
            Self::Across { plane, edge } => (
                "opening-across-edge",
                format!("{kind} \"{name}\" reaches over the {} of {plane}", edge.name()),
                match opening.kind {
                    OpeningKind::Chimney | OpeningKind::Pipe => {
                        "one ridge, hip, valley or break may pass through it, from side to side; check its place and its size"
                    }
                    _ => "check its place and its size",
                }
                .into(),
            ),
            Self::Overlaps { other } => (
                "openings-overlap",
                format!("{kind} \"{name}\" overlaps or touches \"{other}\" or its cricket"),
                "check the places of both; what stands in one frame is one opening".into(),
            ),
        };
        problem(Severity::Error, index, code, says, remedy)
    }
}

/// What to know of an opening through which a line passes; a chimney at a ridge or a break is nothing uncommon.
fn astride_of_a_line(roof: &Roof, index: usize, fit: &Fit) -> Option<Problem> {
    let Shape::Astride(Astride { kind, planes: [here, beyond], .. }) = &fit.shape else { return None };
    let is_chimney = fit.opening.kind == OpeningKind::Chimney;
    let (code, why, remedy) = match (is_chimney, kind) {
        (true, EdgeKind::Ridge | EdgeKind::Break) => return None,
        (true, EdgeKind::Valley) => (
            "opening-in-valley",
            "the water of both runs at its back",
            "have a saddle built behind it and detailed by hand; none is in this plan",
        ),
        (false, EdgeKind::Valley) => (
            "opening-in-valley",
            "it will leak there",
            "never put one there: move it up one of the two slopes, well clear of the valley",
        ),
        _ => (
            "opening-astride",
            "it is cut out of both",
            "have its flashing made to both slopes before you set out, or move it onto one of them",
        ),
    };
    let [here, beyond] = [here, beyond].map(|&plane| &roof.planes[plane].name);
    let what = format!("{} \"{}\"", fit.opening.kind.name(), fit.opening.name);
    let stands = if *kind == EdgeKind::Valley { "in" } else { "astride of" };
    let says = format!("{what} stands {stands} the {} between {here} and {beyond}: {why}", kind.name());
    Some(problem(Severity::Caution, index, code, says, remedy.into()))
}

fn no_room_for_cricket(index: usize, opening: &Opening) -> Problem {
    problem(
        Severity::Caution,
        index,
        "no-room-for-cricket",
        format!(
            "chimney \"{}\" is {} wide and asks for a cricket, which would not end on the slope behind it",
            opening.name,
            Length::inches(opening.width)
        ),
        "have a lower cricket or a gutter behind it detailed by hand; none is in this plan".into(),
    )
}

fn problem(severity: Severity, opening: usize, code: &'static str, says: String, remedy: String) -> Problem {
    Problem { code, severity, block: String::new(), part: Part::Opening { opening }, says, remedy }
}
