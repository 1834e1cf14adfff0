//! The example houses, to begin a job from.

use axum::Json;
use reader::{Format, to_json};
use schemars::JsonSchema;
use serde::Serialize;

const EXAMPLES: [(&str, &str); 5] = [
    ("A plain gable", include_str!("../../../examples/gable.toml")),
    ("A hip roof", include_str!("../../../examples/hip.toml")),
    ("An L with a gabled wing", include_str!("../../../examples/ell.toml")),
    ("A roof with chimney, skylight and pipes", include_str!("../../../examples/chimney.toml")),
    ("A manor of four blocks", include_str!("../../../examples/manor.toml")),
];

/// A house to begin from. Invented.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Example {
    /// What it shows.
    shows: String,
    /// The job file as JSON.
    text: String,
}

pub(crate) async fn list() -> Json<Vec<Example>> {
    let example =
        |(shows, toml): (&str, &str)| Some(Example { shows: shows.into(), text: to_json(toml, Format::Toml).ok()? });
    Json(EXAMPLES.into_iter().filter_map(example).collect())
}
