//! Jobs and their revisions.

use axum::Json;
use axum::extract::State;
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::http::{HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use reader::Format;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use store::{Listed, Revision, Saved};

use crate::App;
use crate::answer::{At, Body, Refusal, work};

/// A job in a list.
#[derive(Serialize, JsonSchema)]
pub(crate) struct JobLine {
    id: i64,
    /// Empty while it has none.
    name: String,
    /// Of the newest revision.
    version: i64,
    /// UTC.
    kept_at: String,
}

/// A job as it is kept.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Job {
    id: i64,
    /// To be named when the next revision is kept.
    version: i64,
    /// What was done last.
    what: String,
    /// UTC.
    kept_at: String,
    /// The job file as JSON.
    text: String,
}

/// A job to begin.
#[derive(Deserialize, JsonSchema)]
pub(crate) struct NewJob {
    /// The job file as JSON.
    text: String,
    /// What it comes from, in words.
    what: String,
}

/// An edit to keep.
#[derive(Deserialize, JsonSchema)]
pub(crate) struct Edit {
    /// The version it was made from.
    base: i64,
    /// The whole job file as JSON.
    text: String,
    /// What was done, in words.
    what: String,
}

/// One line of the history.
#[derive(Serialize, JsonSchema)]
pub(crate) struct RevisionLine {
    version: i64,
    /// What was done.
    what: String,
    /// UTC.
    kept_at: String,
}

/// Whether a job is out of the list.
#[derive(Deserialize, JsonSchema)]
pub(crate) struct PutAway {
    away: bool,
}

pub(crate) async fn list(State(app): State<App>) -> Result<Json<Vec<JobLine>>, Refusal> {
    Ok(Json(work(move || app.store.list()).await??.into_iter().map(line).collect()))
}

pub(crate) async fn put_away_jobs(State(app): State<App>) -> Result<Json<Vec<JobLine>>, Refusal> {
    Ok(Json(work(move || app.store.put_away_jobs()).await??.into_iter().map(line).collect()))
}

fn line(Listed { id, name, version, kept_at }: Listed) -> JobLine {
    JobLine { id, name, version, kept_at }
}

fn job(id: i64, Revision { version, what, kept_at, text }: Revision) -> Job {
    Job { id, version, what, kept_at, text }
}

pub(crate) async fn begin(State(app): State<App>, Body(new): Body<NewJob>) -> Result<Json<Job>, Refusal> {
    is_table(&new.text)?;
    let (id, revision) = work(move || app.store.begin(&new.text, &new.what)).await??;
    Ok(Json(job(id, revision)))
}

pub(crate) async fn newest(State(app): State<App>, At(id): At<i64>) -> Result<Json<Job>, Refusal> {
    let found = work(move || app.store.newest(id)).await??;
    found.map(|revision| Json(job(id, revision))).ok_or_else(|| Refusal::absent("job"))
}

/// The kept revision; with status 409 the newer one of another window, and nothing is written.
pub(crate) async fn save(State(app): State<App>, At(id): At<i64>, Body(edit): Body<Edit>) -> Result<Response, Refusal> {
    is_table(&edit.text)?;
    match work(move || app.store.save(id, edit.base, &edit.text, &edit.what)).await?? {
        None => Err(Refusal::absent("job")),
        Some(Saved::Kept(revision)) => Ok(Json(job(id, revision)).into_response()),
        Some(Saved::Newer(revision)) => Ok((StatusCode::CONFLICT, Json(job(id, revision))).into_response()),
    }
}

pub(crate) async fn put_away(
    State(app): State<App>,
    At(id): At<i64>,
    Body(put): Body<PutAway>,
) -> Result<Json<()>, Refusal> {
    if work(move || app.store.put_away(id, put.away)).await?? { Ok(Json(())) } else { Err(Refusal::absent("job")) }
}

pub(crate) async fn revisions(State(app): State<App>, At(id): At<i64>) -> Result<Json<Vec<RevisionLine>>, Refusal> {
    let every = work(move || app.store.revisions(id)).await??;
    let line = |Revision { version, what, kept_at, .. }| RevisionLine { version, what, kept_at };
    Ok(Json(every.into_iter().map(line).collect()))
}

pub(crate) async fn revision(State(app): State<App>, At((id, version)): At<(i64, i64)>) -> Result<Json<Job>, Refusal> {
    Ok(Json(job(id, kept(&app, id, version).await?)))
}

pub(crate) async fn kept(app: &App, id: i64, version: i64) -> Result<Revision, Refusal> {
    let store = app.store.clone();
    work(move || store.revision(id, version)).await??.ok_or_else(|| Refusal::absent("revision"))
}

/// The job file, to be saved under the job's name.
pub(crate) async fn file(State(app): State<App>, At(id): At<i64>) -> Result<Response, Refusal> {
    let found = work(move || app.store.newest(id)).await??.ok_or_else(|| Refusal::absent("job"))?;
    let name = found.text.clone();
    Ok(attached(&name, ".json", "application/json", found.text.into_bytes()))
}

/// A file to be saved under the name of the job in `text`, with an ending.
pub(crate) fn attached(text: &str, ending: &str, kind: &'static str, bytes: Vec<u8>) -> Response {
    let name = format!("attachment; filename=\"{}{ending}\"", file_name(text));
    let name = HeaderValue::from_str(&name).unwrap_or(HeaderValue::from_static("attachment"));
    ([(CONTENT_TYPE, HeaderValue::from_static(kind)), (CONTENT_DISPOSITION, name)], bytes).into_response()
}

/// Of the job's name only what every file system takes.
fn file_name(text: &str) -> String {
    let job: serde_json::Value = serde_json::from_str(text).unwrap_or_default();
    let safe = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    let name: String = job["name"].as_str().unwrap_or_default().chars().map(safe).take(60).collect();
    let name = name.trim_matches('-');
    if name.is_empty() { "job".into() } else { name.into() }
}

/// Half a job is kept as it is; what is no job at all is not.
fn is_table(text: &str) -> Result<(), Refusal> {
    let mistake = match reader::to_json(text, Format::Json) {
        Ok(_) if text.trim_start().starts_with('{') => return Ok(()),
        Ok(_) => "it is no table".to_owned(),
        Err(mistakes) => mistakes.first().map_or_else(String::new, |first| format!("line {}: {}", first.line, first.says)),
    };
    Err(Refusal::bad(
        format!("this is no job file: {mistake}"),
        "Send a job file as JSON; /api/openapi.json tells its shape.",
    ))
}
