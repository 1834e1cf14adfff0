//! GeoJSON or CityJSON: the first value of the file tells.

use serde::Deserialize;

use crate::raw::Found;
use crate::refused::Refused;
use crate::{Options, from_cityjson, from_geojson};

/// Only what a file calls itself.
#[derive(Deserialize)]
struct Kind {
    #[serde(rename = "type")]
    kind: Option<String>,
}

pub(crate) fn read(bytes: &[u8], options: &Options) -> Result<Found, Refused> {
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    let first = serde_json::Deserializer::from_slice(bytes).into_iter::<Kind>().next();
    let Some(first) = first else { return Err(Refused::new("the file is empty", "Write the file again.")) };
    match first.map_err(|error| broken(&error))?.kind.as_deref() {
        Some("CityJSON") => from_cityjson::read(bytes, options),
        Some("CityJSONFeature") => {
            let says = "the file is a piece of CityJSON: its first line with the transform is missing";
            Err(Refused::new(says, "Put the line with \"type\": \"CityJSON\" first."))
        }
        _ => from_geojson::read(bytes, options),
    }
}

/// JSON that could not be read, with its line.
pub(crate) fn broken(error: &serde_json::Error) -> Refused {
    let words: String = error.to_string().chars().take(200).collect();
    let says = format!("the file is not JSON as it should be: {words}");
    Refused::new(says, "Write the file again; perhaps only a part of it was copied.")
}
