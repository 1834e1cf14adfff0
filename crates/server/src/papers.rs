//! The sheets of a revision, as `drawings` draws them.

use axum::Json;
use axum::extract::State;
use axum::http::header::{CONTENT_SECURITY_POLICY, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use drawings::{Scene, on_sheet, roof_plan, setting_out, svg};
use schemars::JsonSchema;
use serde::Serialize;

use crate::App;
use crate::answer::{At, Refusal, work};
use crate::plans::of_revision;

/// A sheet holds its own style and nothing else.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";

pub(crate) async fn plan_of_roof(State(app): State<App>, At((id, version)): At<(i64, i64)>) -> Result<Response, Refusal> {
    let plan = of_revision(&app, id, version).await?;
    sheet(work(move || roof_plan(&plan)).await?)
}

pub(crate) async fn of_plane(
    State(app): State<App>,
    At((id, version, plane)): At<(i64, i64, String)>,
) -> Result<Response, Refusal> {
    let plan = of_revision(&app, id, version).await?;
    sheet(work(move || setting_out(&plan, &plane)).await?)
}

/// Where a plane lies on its setting-out sheet.
#[derive(Serialize, JsonSchema)]
pub(crate) struct OnSheet {
    /// Width and height of the paper.
    page_mm: [f64; 2],
    /// The part of it that holds the plane: left, top, width, height.
    drawing_mm: [f64; 4],
    /// Where u and v are 0; u runs to the right, v up.
    origin_mm: [f64; 2],
    /// Millimetres of paper to an inch of the plane.
    mm_per_inch: f64,
}

pub(crate) async fn place_of_plane(
    State(app): State<App>,
    At((id, version, plane)): At<(i64, i64, String)>,
) -> Result<Json<OnSheet>, Refusal> {
    let plan = of_revision(&app, id, version).await?;
    let on = work(move || on_sheet(&plan, &plane)).await?.ok_or_else(|| Refusal::absent("sheet"))?;
    let drawings::OnSheet { page, drawing, origin, mm_per_inch } = on;
    Ok(Json(OnSheet { page_mm: page, drawing_mm: drawing, origin_mm: origin, mm_per_inch }))
}

fn sheet(scene: Option<Scene>) -> Result<Response, Refusal> {
    let scene = scene.ok_or_else(|| Refusal::absent("sheet"))?;
    Ok(([(CONTENT_TYPE, "image/svg+xml"), (CONTENT_SECURITY_POLICY, POLICY)], svg(&scene)).into_response())
}
