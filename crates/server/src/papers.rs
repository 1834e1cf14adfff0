//! The sheets of a revision, as `drawings` draws them.

use axum::Json;
use axum::extract::State;
use axum::http::header::{CONTENT_SECURITY_POLICY, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use book::Speaker;
use drawings::{Scene, on_sheet, roof_plan, setting_out_in, svg};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::App;
use crate::answer::{Asked, At, Refusal, work};
use crate::plans::of_revision;
use crate::words::LanguageWord;

/// A sheet holds its own style and nothing else.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";

pub(crate) async fn plan_of_roof(State(app): State<App>, At((id, version)): At<(i64, i64)>) -> Result<Response, Refusal> {
    let plan = of_revision(&app, id, version).await?;
    sheet(work(move || roof_plan(&plan)).await?)
}

/// How the drawing is lettered.
#[derive(Deserialize)]
pub(crate) struct Lettered {
    #[serde(default)]
    language: LanguageWord,
}

impl Lettered {
    fn speaker(&self) -> Result<Speaker, Refusal> {
        Speaker::new(self.language.into()).map_err(|error| Refusal::fault(error.to_string()))
    }
}

pub(crate) async fn of_plane(
    State(app): State<App>,
    At((id, version, plane)): At<(i64, i64, String)>,
    Asked(lettered): Asked<Lettered>,
) -> Result<Response, Refusal> {
    let plan = of_revision(&app, id, version).await?;
    let scene = work(move || lettered.speaker().map(|words| setting_out_in(&plan, &plane, &words))).await??;
    sheet(scene)
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
    Asked(lettered): Asked<Lettered>,
) -> Result<Json<OnSheet>, Refusal> {
    let plan = of_revision(&app, id, version).await?;
    let on = work(move || lettered.speaker().map(|words| on_sheet(&plan, &plane, &words))).await??;
    let on = on.ok_or_else(|| Refusal::absent("sheet"))?;
    let drawings::OnSheet { page, drawing, origin, mm_per_inch } = on;
    Ok(Json(OnSheet { page_mm: page, drawing_mm: drawing, origin_mm: origin, mm_per_inch }))
}

fn sheet(scene: Option<Scene>) -> Result<Response, Refusal> {
    let scene = scene.ok_or_else(|| Refusal::absent("sheet"))?;
    Ok(([(CONTENT_TYPE, "image/svg+xml"), (CONTENT_SECURITY_POLICY, POLICY)], svg(&scene)).into_response())
}
