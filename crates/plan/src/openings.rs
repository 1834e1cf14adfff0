//! Openings between the job, the roof and the plan.

use reader::nearest;
use roof::{Built, PlacedOpening, Plane, Roof, Spot};

use crate::job::{MeasuredOpening, MeasuredSpot, opening_path};
use crate::make::{feet, id_of, place_in_file, severity};
use crate::{Cricket, Job, Opening, Problem, Severity};

/// Cuts the job's openings out of the roof.
pub(crate) fn cut_out(job: &Job, roof: Roof) -> (Roof, Vec<Problem>) {
    let mut problems = Vec::new();
    let mut known = Vec::new();
    for (index, opening) in job.openings.iter().enumerate() {
        match spot(&opening.spot, &roof) {
            Ok(spot) => known.push((index, on_roof(opening, spot))),
            Err(plane) => problems.push(unknown_plane(job, &roof, index, plane)),
        }
    }
    let (indices, openings): (Vec<usize>, Vec<roof::Opening>) = known.into_iter().unzip();
    let Built { roof, problems: found } = roof::cut_out(roof, &openings);
    problems.extend(found.into_iter().map(|problem| told(job, &indices, problem)));
    (roof, problems)
}

fn on_roof(opening: &MeasuredOpening, spot: Spot) -> roof::Opening {
    let [width, height] = [opening.width, opening.height].map(units::Length::to_inches);
    roof::Opening { name: opening.name.clone(), kind: opening.kind, spot, width, height }
}

/// The place on the roof, or the id of a plane that is not there.
fn spot<'a>(spot: &'a MeasuredSpot, roof: &Roof) -> Result<Spot, &'a str> {
    match spot {
        MeasuredSpot::Over(at) => Ok(Spot::Over(*at)),
        MeasuredSpot::On { plane, across, up } => {
            let found = roof.planes.iter().position(|surface| surface.id == *plane).ok_or(plane.as_str())?;
            Ok(Spot::On { plane: found, at: [across.to_inches(), up.to_inches()] })
        }
    }
}

fn unknown_plane(job: &Job, roof: &Roof, opening: usize, plane: &str) -> Problem {
    let ids = || roof.planes.iter().map(|plane| plane.id.as_str());
    let remedy = match nearest(plane, ids()) {
        _ if roof.planes.is_empty() => "mend the blocks first".into(),
        Some(nearest) => format!("did you mean \"{nearest}\"?"),
        None => format!("the planes are {}", ids().collect::<Vec<_>>().join(", ")),
    };
    let name = &job.openings[opening].name;
    Problem {
        code: "unknown-plane".into(),
        severity: Severity::Error,
        says: format!("there is no plane \"{plane}\" for \"{name}\", so it is not cut out"),
        remedy,
        place: place_in_file(job, &format!("{}.plane", opening_path(opening)), "", ""),
    }
}

fn told(job: &Job, indices: &[usize], problem: roof::Problem) -> Problem {
    let index = match problem.part {
        roof::Part::Opening { opening } => indices.get(opening).copied(),
        _ => None,
    };
    Problem {
        code: problem.code.into(),
        severity: severity(problem.severity),
        says: problem.says,
        remedy: problem.remedy,
        place: place_in_file(job, &index.map_or_else(String::new, opening_path), &problem.block, ""),
    }
}

/// A plane of a cricket is measured and not laid: it is covered in metal.
pub(crate) fn is_cricket(roof: &Roof, plane: &Plane) -> bool {
    let crickets = roof.openings.iter().filter_map(|opening| opening.cricket);
    crickets.flat_map(|cricket| cricket.planes).any(|own| roof.planes[own].id == plane.id)
}

/// The openings as the plan tells them.
pub(crate) fn openings(roof: &Roof) -> Vec<Opening> {
    roof.openings.iter().map(|placed| opening(roof, placed)).collect()
}

fn opening(roof: &Roof, placed: &PlacedOpening) -> Opening {
    let [across_in, up_in] = placed.at;
    Opening {
        name: placed.name.clone(),
        kind: placed.kind.name(),
        planes: placed.planes.iter().map(|&plane| id_of(roof, plane)).collect(),
        up_in,
        across_in,
        width_in: placed.width.to_inches(),
        height_in: placed.height.to_inches(),
        outline_ft: placed.corners.iter().copied().map(feet).collect(),
        cricket: placed.cricket.map(|cricket| Cricket {
            width_in: cricket.width.to_inches(),
            height_in: cricket.height.to_inches(),
            ridge_in: cricket.ridge.to_inches(),
            valley_in: cricket.valley.to_inches(),
            area_sqft: cricket.area.to_square_feet(),
            planes: cricket.planes.into_iter().map(|plane| id_of(roof, plane)).collect(),
        }),
    }
}
