//! What the rules found, as the plan tells it: with its lines in the job file, and what the job silences.

use checks::{Checked, Facts, Place};
use covering::Covering;
use details::Details;
use layout::Layout;
use reader::nearest;
use roof::{Plane, Roof};

use crate::job::{block_path, dormer_path, opening_path, silence_path};
use crate::make::{id_of, place_in_file};
use crate::{Check, CheckedPlace, Job, Problem, Severity, Silence, Wind, WindOnPlane};

/// Every rule's outcome, and the wind that they reckon with.
pub(crate) fn checks(
    job: &Job,
    roof: &Roof,
    layout: &Layout,
    covering_of: &[Option<&Covering>],
    details: &Details,
) -> (Vec<Check>, Option<Wind>) {
    let facts = Facts {
        roof,
        layout,
        covering_of,
        details,
        dry_in: &job.dry_in,
        flashing: &job.flashing,
        overhang_of: &roof::overhangs(roof, &job.blocks, &job.dormers),
        attic: job.attic,
        deck: &job.deck.unwrap_or_default(),
        fastener: &job.fastener.unwrap_or_default(),
        site: &job.site,
        laying: &job.laying,
    };
    let found = checks::check(&facts).into_iter().map(|checked| check(job, roof, checked)).collect();
    (found, checks::wind_on(&facts).map(|wind| told(roof, wind)))
}

fn told(roof: &Roof, wind: checks::WindOn) -> Wind {
    let planes = wind.planes.into_iter().map(|on| WindOnPlane {
        plane: id_of(roof, on.plane),
        zones_psf: on.zones_psf,
        inward_psf: on.inward_psf,
    });
    Wind {
        standard: wind.standard,
        mph: wind.mph,
        exposure: wind.exposure,
        mean_roof_height_ft: wind.mean_roof_height_ft,
        velocity_pressure_psf: wind.velocity_pressure_psf,
        zone_width_ft: wind.zone_width_ft,
        planes: planes.collect(),
    }
}

fn check(job: &Job, roof: &Roof, checked: Checked) -> Check {
    let rule = checked.rule;
    let places: Vec<CheckedPlace> = checked.places.iter().map(|at| place(job, roof, rule.about, at)).collect();
    let (path, line) = match places.first() {
        Some(first) => (first.path.clone(), first.line),
        None => in_file(job, rule.about),
    };
    Check {
        rule: rule.name,
        title: rule.title(),
        kind: rule.kind.name(),
        family: rule.family.name(),
        edition: checked.edition.map(checks::Edition::name),
        outcome: checked.outcome.name(),
        kept: checked.kept,
        silenced: silenced(&job.silences, rule.name, &places),
        says: checked.says,
        remedy: rule.remedy(),
        about: rule.about,
        endangers: rule.endangers.iter().map(|danger| danger.name()).collect(),
        source: checked.source,
        read_source: checked.read_source,
        path,
        line,
        places,
    }
}

fn place(job: &Job, roof: &Roof, about: &str, at: &Place) -> CheckedPlace {
    let path = match about {
        "opening" => opening_at(job, roof, at),
        _ => roof.planes.get(at.plane).map(|plane| path_of(job, plane)),
    };
    let (path, line) = in_file(job, &path.unwrap_or_default());
    CheckedPlace { plane: id_of(roof, at.plane), course: at.course, u_in: at.u, v_in: at.v, path, line }
}

/// The path, and the line of it or of the nearest that stands in the file.
fn in_file(job: &Job, path: &str) -> (String, usize) {
    let place = place_in_file(job, path, "", "");
    (place.path, place.line.max(1))
}

/// The opening whose middle is at a place.
fn opening_at(job: &Job, roof: &Roof, at: &Place) -> Option<String> {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
    let is_there = |opening: &&roof::PlacedOpening| {
        opening.planes.first() == Some(&at.plane) && near(opening.at[0], at.u) && near(opening.at[1], at.v)
    };
    let name = &roof.openings.iter().find(is_there)?.name;
    job.openings.iter().position(|opening| opening.name == *name).map(opening_path)
}

/// Where the job file gives a plane: the side it rises from, its dormer, or its own table.
fn path_of(job: &Job, plane: &Plane) -> String {
    if let Some(block) = job.blocks.iter().position(|block| block.name == plane.block) {
        return block_path(block) + &side_path(plane.id.strip_prefix(&plane.block).unwrap_or_default());
    }
    if let Some(dormer) = job.dormers.iter().position(|dormer| dormer.name == plane.block) {
        return dormer_path(dormer);
    }
    let measured = job.planes.iter().position(|measured| measured.name == plane.name);
    measured.map_or_else(String::new, |plane| job.path_of_measured(plane))
}

/// `.2` and `.2/1` of a plane's id are `.edges[2]`, `.hole0.3` is `.holes[0].edges[3]`.
fn side_path(id: &str) -> String {
    let id = id.split('/').next().unwrap_or_default().trim_start_matches('.');
    match id.strip_prefix("hole").and_then(|rest| rest.split_once('.')) {
        Some((hole, side)) => format!(".holes[{hole}].edges[{side}]"),
        None => format!(".edges[{id}]"),
    }
}

/// The reasons for which every place of a finding is accepted.
fn silenced(silences: &[Silence], rule: &str, places: &[CheckedPlace]) -> Option<String> {
    let own: Vec<&Silence> = silences.iter().filter(|silence| silence.rule == rule).collect();
    let accepts =
        |place: &CheckedPlace| own.iter().any(|silence| silence.plane.as_ref().is_none_or(|id| *id == place.plane));
    let everywhere = own.iter().any(|silence| silence.plane.is_none());
    let all = everywhere || (!places.is_empty() && places.iter().all(accepts));
    let reasons: Vec<&str> = own.iter().map(|silence| silence.reason.as_str()).collect();
    (all && !own.is_empty()).then(|| reasons.join(" "))
}

/// Silences for planes that are not there.
pub(crate) fn silences_of_nothing(job: &Job, roof: &Roof) -> Vec<Problem> {
    let ids = || roof.planes.iter().map(|plane| plane.id.as_str());
    let each = job.silences.iter().enumerate();
    let lost = each.filter_map(|(index, silence)| Some((index, silence.plane.as_deref()?)));
    lost.filter(|(_, plane)| !ids().any(|id| id == *plane))
        .map(|(index, plane)| Problem {
            code: "unknown-plane".into(),
            severity: Severity::Caution,
            says: format!("there is no plane \"{plane}\", so nothing is silenced there"),
            remedy: match nearest(plane, ids()) {
                Some(meant) => format!("did you mean \"{meant}\"?"),
                None => format!("the planes are {}", ids().collect::<Vec<_>>().join(", ")),
            },
            place: place_in_file(job, &format!("{}.plane", silence_path(index)), "", ""),
        })
        .collect()
}
