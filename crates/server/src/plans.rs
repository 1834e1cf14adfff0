//! A job's plan, and for a job that is being drawn only the roof.

use std::sync::LazyLock;

use axum::Json;
use axum::extract::State;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use covering::Catalog;
use plan::{Plan, Problem, Roof, read_job};
use reader::Format;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::App;
use crate::answer::{At, Body, Refusal, work};
use crate::jobs::kept;

pub(crate) static CATALOG: LazyLock<Catalog> = LazyLock::new(Catalog::shipped);

/// A job that is being edited.
#[derive(Deserialize, JsonSchema)]
pub(crate) struct JobText {
    /// The job file as JSON.
    pub(crate) text: String,
}

/// Something in the job that cannot be read.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Mistake {
    /// Path in the job file, `block[0].edges[2].eave`.
    pub(crate) path: String,
    /// What is wrong.
    pub(crate) says: String,
    /// What to do.
    pub(crate) remedy: String,
}

/// The plan, or why there is none.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Planned {
    /// Of a job with any mistake nothing is planned.
    mistakes: Vec<Mistake>,
    /// As `headlap plan --format json` prints it.
    plan: Option<Plan>,
}

/// The roof alone, for the hand that is drawing.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Raised {
    /// Of a job with any mistake nothing is planned.
    mistakes: Vec<Mistake>,
    /// What is wrong with the roof.
    problems: Vec<Problem>,
    /// Planes and lines.
    roof: Option<Roof>,
}

pub(crate) async fn planned(Body(job): Body<JobText>) -> Result<Json<Planned>, Refusal> {
    work(move || match plan_of(&job.text) {
        Ok(plan) => Json(Planned { mistakes: Vec::new(), plan: Some(plan) }),
        Err(mistakes) => Json(Planned { mistakes, plan: None }),
    })
    .await
}

pub(crate) async fn raised(Body(job): Body<JobText>) -> Result<Json<Raised>, Refusal> {
    work(move || match job_of(&job.text).map(|job| plan::raise(&job)) {
        Ok((roof, problems)) => Json(Raised { mistakes: Vec::new(), problems, roof: Some(roof) }),
        Err(mistakes) => Json(Raised { mistakes, problems: Vec::new(), roof: None }),
    })
    .await
}

/// The plan file of a revision, with the very bytes that the command line prints for the saved job file.
pub(crate) async fn file(State(app): State<App>, At((id, version)): At<(i64, i64)>) -> Result<Response, Refusal> {
    let plan = of_revision(&app, id, version).await?;
    let text = serde_json::to_string_pretty(&plan).map(|json| json + "\n").unwrap_or_default();
    Ok(([(CONTENT_TYPE, "application/json")], text).into_response())
}

pub(crate) async fn of_revision(app: &App, id: i64, version: i64) -> Result<Plan, Refusal> {
    let revision = kept(app, id, version).await?;
    work(move || of_text(&revision.text)).await?
}

pub(crate) fn of_text(text: &str) -> Result<Plan, Refusal> {
    plan_of(text).map_err(cannot_be_planned)
}

pub(crate) fn cannot_be_planned(mistakes: Vec<Mistake>) -> Refusal {
    let says = mistakes.into_iter().next().map_or_else(String::new, |first| first.says);
    Refusal::bad(format!("this revision cannot be planned: {says}"), "Mend the job on the screen Measure first.")
}

fn plan_of(text: &str) -> Result<Plan, Vec<Mistake>> {
    Ok(plan::plan(&job_of(text)?, &CATALOG))
}

pub(crate) fn job_of(text: &str) -> Result<plan::Job, Vec<Mistake>> {
    let (job, mistakes) = read_job(text, Format::Json);
    let told = |reader::Mistake { path, says, remedy, .. }| Mistake { path, says, remedy };
    job.ok_or_else(|| mistakes.into_iter().map(told).collect())
}
