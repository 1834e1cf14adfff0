//! From plans to prices: the job as it is, and each of its options.

use std::collections::BTreeMap;

use covering::{Catalog, Covering};
use price::{Counted, Material, Of, Quote, Rates, Work, quote};
use schemars::JsonSchema;
use serde::Serialize;
use units::{Length, Pitch};

use crate::compare::Choice;
use crate::own_sheets::with_own_sheets;
use crate::priced_places::places;
use crate::{Compared, CountedPlace, Job, OptionWanted, Plan, Problem, Severity, plan};

/// One way to cover the roof, with its price.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Priced {
    /// As the owner reads it: the covering's name, or the option's.
    pub name: String,
    /// Printed name of the covering.
    pub covering: String,
    /// The covering's figures are invented.
    pub covering_is_invented: bool,
    /// What is done, a sentence each.
    pub scope: Vec<String>,
    /// What is wrong with this plan; with an error among it the price is not of the whole roof.
    pub problems: Vec<Problem>,
    /// Everything is planned and has a price; where not, there is no total, and the sums are of what has one.
    pub whole: bool,
    /// Line by line.
    pub quote: Quote,
    /// Where what the lines count lies on the roof, by their `counts`.
    pub places: BTreeMap<String, Vec<CountedPlace>>,
    /// Units, cuts, what is lost and why, weight.
    pub compared: Compared,
}

/// Prices the job as it is, then each of its options, in the order of the file.
#[must_use]
pub fn price(job: &Job, catalog: &Catalog, rates: &Rates) -> Vec<Priced> {
    let catalog = &with_own_sheets(job, catalog);
    let options = job.price.options.iter().map(|option| priced(job, catalog, rates, Some(option)));
    [priced(job, catalog, rates, None)].into_iter().chain(options).collect()
}

fn priced(job: &Job, catalog: &Catalog, rates: &Rates, option: Option<&OptionWanted>) -> Priced {
    let choice = option.map_or_else(|| Choice::of(&job.covering.sheet), |option| Choice::of_option(job, option));
    let mut job = choice.applied(job);
    if let Some(covering) = option.and_then(|option| option.covering.as_ref()) {
        job.covering = covering.clone();
    }
    let extras = option.map_or(&job.price.extras, |option| &option.extras);
    let plan = plan(&job, catalog);
    let covering = catalog.get(&job.covering.sheet);
    let work = work(&job, &plan, covering);
    let quote = quote(rates, &work, extras);
    Priced {
        whole: quote.unpriced.is_empty() && plan.problems.iter().all(|problem| problem.severity != Severity::Error),
        name: option.map_or(&plan.covering.name, |option| &option.name).clone(),
        scope: scope(&job, &plan, rates, extras),
        places: places(&job, &plan),
        compared: choice.told(&plan, catalog),
        quote,
        covering: plan.covering.name,
        covering_is_invented: plan.covering.invented,
        problems: plan.problems,
    }
}

/// What is counted in a plan.
fn work(job: &Job, plan: &Plan, covering: Option<&Covering>) -> Work {
    let laid = || plan.layout.planes.iter().filter_map(|laid| plan.roof.planes.iter().find(|plane| plane.id == laid.id));
    let planes: Vec<(Pitch, f64)> =
        laid().filter_map(|plane| Some((Pitch::per_12(plane.pitch).ok()?, plane.area_sqft / 100.0))).collect();
    let sheet = covering.map_or("", |covering| covering.id.as_str());
    let materials = plan.order.iter().map(|line| Material {
        id: line.id.clone(),
        line: line.id.split(':').next().unwrap_or_default().into(),
        sheet: line.id.split(':').nth(1).unwrap_or(sheet).into(),
        item: line.item.clone(),
        packs: line.packs,
        pack: line.pack.clone(),
    });
    let squares: f64 = planes.iter().map(|(_, squares)| squares).sum();
    Work { materials: materials.collect(), counted: counted(job, plan, squares), planes }
}

fn counted(job: &Job, plan: &Plan, squares: f64) -> BTreeMap<Of, Counted> {
    let totals = &plan.roof.totals;
    let line = |id: &str| plan.order.iter().find(|line| line.id.split(':').next() == Some(id));
    let quantity = |id: &str| line(id).map_or(0.0, |line| line.quantity);
    let old = job.deck_found.old_layers.map(|layers| squares * f64::from(layers));
    let has_field = plan.order.iter().any(|line| line.id.starts_with("field-units"));
    let pallets = if has_field { plan.loads.pallets.as_ref().map(|of| of.count as f64) } else { Some(0.0) };
    let or = |known: Option<f64>, missing: &str| known.map_or_else(|| Counted::Missing(missing.into()), Counted::Known);
    let known = [
        (Of::Squares, squares),
        (Of::EaveFeet, totals.eave_ft),
        (Of::RakeFeet, totals.rake_ft),
        (Of::RidgeFeet, totals.ridge_ft),
        (Of::HipFeet, totals.hip_ft),
        (Of::ValleyFeet, totals.valley_ft + totals.dead_valley_ft),
        (Of::WallFeet, totals.sidewall_ft + totals.headwall_ft),
        (Of::FieldPieces, plan.layout.pieces as f64),
        (Of::CutPieces, plan.layout.cut as f64),
        (Of::Starters, quantity("starters")),
        (Of::Caps, quantity("caps")),
        (Of::Openings, plan.roof.openings.len() as f64),
        (Of::Job, 1.0),
    ];
    let mut counted: BTreeMap<Of, Counted> = known.map(|(of, count)| (of, Counted::Known(count))).into();
    counted.insert(Of::OldSquares, or(old, "[deck] old_layers of the job"));
    counted.insert(Of::Pallets, or(pallets, "[storage] pallet_packs of the sheet"));
    counted
}

/// What is done, from the plan; then what the rates add.
fn scope(job: &Job, plan: &Plan, rates: &Rates, extras: &[String]) -> Vec<String> {
    let old = match job.deck_found.old_layers {
        Some(0) | None => None,
        Some(1) => Some("Take off the old covering.".to_owned()),
        Some(layers) => Some(format!("Take off {layers} old coverings.")),
    };
    let under = plan.details.rolls.iter().map(|rolls| match rolls.kind {
        "drip edge" => "Drip edge along eaves and rakes.".to_owned(),
        kind => format!("{}: {}.", capital(kind), rolls.name),
    });
    let extras = extras.iter().map(|extra| format!("{}.", capital(extra)));
    old.into_iter()
        .chain(under)
        .chain(units(plan))
        .chain(edges(plan))
        .chain(extras)
        .chain(rates.scope.iter().cloned())
        .collect()
}

fn units(plan: &Plan) -> Option<String> {
    let laid = |id: &str| plan.layout.planes.iter().any(|laid| laid.id == id);
    let area: f64 = plan.roof.planes.iter().filter(|plane| laid(&plane.id)).map(|plane| plane.area_sqft).sum();
    let courses = plan.layout.planes.iter().flat_map(|laid| &laid.courses);
    let headlap = courses.map(|course| course.headlap_in).fold(f64::INFINITY, f64::min);
    let covering = &plan.covering;
    let [width, length] = [covering.width_in, covering.length_in].map(|inches| Length::inches(inches).in_inches());
    headlap.is_finite().then(|| {
        format!(
            "{}, units of {width} × {length}, on {:.2} squares ({area:.0} sq ft on the slope), headlap {} at least.",
            covering.name,
            area / 100.0,
            Length::inches(headlap).in_inches()
        )
    })
}

fn edges(plan: &Plan) -> Vec<String> {
    let totals = &plan.roof.totals;
    let capped = plan.order.iter().any(|line| ["caps", "ridge-metal", "hip-metal"].iter().any(|id| line.id.starts_with(id)));
    let caps = (capped && totals.ridge_ft + totals.hip_ft > 0.0)
        .then(|| format!("Ridges and hips finished, {:.0} ft.", totals.ridge_ft + totals.hip_ft));
    let valleys = (totals.valley_ft > 0.0).then(|| format!("Valleys, {:.0} ft.", totals.valley_ft));
    let walls = totals.sidewall_ft + totals.headwall_ft;
    let walls = (walls > 0.0).then(|| format!("Flashings along walls, {walls:.0} ft."));
    let openings: Vec<&str> = plan.roof.openings.iter().map(|opening| opening.name.as_str()).collect();
    let openings = (!openings.is_empty()).then(|| format!("Flashings round {}.", openings.join(", ")));
    [caps, valleys, walls, openings].into_iter().flatten().collect()
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
