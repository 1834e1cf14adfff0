//! The covering sheets that ship, with every figure and its source.

use axum::Json;
use covering::SHIPPED;
use reader::{Format, to_json};
use schemars::JsonSchema;
use serde::Serialize;

/// A covering to choose.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Sheet {
    /// Named in the job.
    id: String,
    /// The whole sheet as JSON.
    text: String,
}

pub(crate) async fn list() -> Json<Vec<Sheet>> {
    let sheet = |(id, toml): (&str, &str)| Some(Sheet { id: id.into(), text: to_json(toml, Format::Toml).ok()? });
    Json(SHIPPED.into_iter().filter_map(sheet).collect())
}
