//! A job from a file: a job file of the command line, or a drawing of another program.

use axum::Json;
use exchange::{ImportFormat, Options, Refused, job_file};
use reader::{Format, to_json};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::LengthUnit;

use crate::answer::{Asked, Raw, Refusal, work};

/// What is known of the file.
#[derive(Deserialize, JsonSchema)]
pub(crate) struct About {
    /// Its name with its ending.
    name: String,
    /// The unit of its coordinates, where it does not tell.
    units: Option<LengthUnit>,
    /// Only this layer of a DXF file, this building of a CityJSON file, this feature of a GeoJSON file.
    layer: Option<String>,
}

/// The job in the file.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Found {
    /// The job file as JSON.
    text: String,
    /// What was moved, rounded or left out.
    notes: Vec<String>,
}

pub(crate) async fn read(Asked(about): Asked<About>, Raw(bytes): Raw) -> Result<Json<Found>, Refusal> {
    work(move || found(&about, &bytes)).await?.map(Json)
}

fn found(about: &About, bytes: &[u8]) -> Result<Found, Refusal> {
    let (stem, ending) = about.name.rsplit_once('.').unwrap_or((&about.name, ""));
    let ending = ending.to_ascii_lowercase();
    if ending == "toml" {
        return typed_job(bytes, Format::Toml);
    }
    if ending == "json" && is_job(bytes) {
        return typed_job(bytes, Format::Json);
    }
    let format = ImportFormat::from_extension(&ending).ok_or_else(|| {
        let says = format!("the ending of {} does not tell what kind of file it is", about.name);
        Refusal::bad(says, "Choose a job file (.toml, .json) or a drawing that ends in .geojson, .json, .jsonl or .dxf.")
    })?;
    let refused = |Refused { says, remedy }| Refusal::bad(format!("{}: {says}", about.name), on_screen(&remedy));
    let imported =
        exchange::read(bytes, format, &Options { units: about.units, layer: about.layer.clone() }).map_err(refused)?;
    let notes = imported.notes.clone();
    let text = to_json(&job_file(&imported, stem), Format::Toml).map_err(|mistakes| unread(&mistakes))?;
    Ok(Found { text, notes })
}

/// What the command line asks for by a flag has a field on the screen.
fn on_screen(remedy: &str) -> String {
    remedy
        .replace(" of the coordinates with --units", " of the file")
        .replace(" of the drawing with --units", " of the file")
        .replace(" with --units", " of the file")
        .replace(" with --layer", " under Layer")
}

/// Every job file has a `format`; no drawing has.
fn is_job(bytes: &[u8]) -> bool {
    serde_json::from_slice::<serde_json::Value>(bytes).is_ok_and(|value| value.get("format").is_some())
}

fn typed_job(bytes: &[u8], format: Format) -> Result<Found, Refusal> {
    let text = reader::decode(bytes).map_err(|mistake| unread(&[mistake]))?;
    let text = to_json(text.trim_start_matches('\u{feff}'), format).map_err(|mistakes| unread(&mistakes))?;
    Ok(Found { text, notes: Vec::new() })
}

fn unread(mistakes: &[reader::Mistake]) -> Refusal {
    match mistakes.first() {
        Some(first) => Refusal::bad(format!("line {}: {}", first.line, first.says), first.remedy.clone()),
        None => Refusal::bad("the file cannot be read", "Check that this is the right file."),
    }
}
