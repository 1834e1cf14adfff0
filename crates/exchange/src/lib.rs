//! Reads a house from other programs' files and writes a job file to edit; writes a plan as files for other programs.
//!
//! Nothing is guessed that costs money: a file that does not tell its unit is refused until somebody tells it, and
//! whatever was moved, rounded or left out is said in the notes.

mod cut_row;
mod epsg;
mod export;
mod from_cityjson;
mod from_dxf;
mod from_geojson;
mod imported;
mod job_file;
mod json;
mod laid_piece;
mod merge;
mod names;
mod polygons;
mod pose;
mod raw;
mod refused;
mod ring;
mod roof_outline;
mod scale;
mod tidy;
mod to_cityjson;
mod to_csv;
mod to_dxf;
mod to_geojson;
mod to_gltf;
mod to_json;
mod to_xlsx;

use units::LengthUnit;

pub use export::{ExportFormat, PriceList, Table, write};
pub use imported::{Facet, Imported, Outline};
pub use job_file::job_file;
pub use refused::Refused;

/// A file of more bytes than this is refused: it holds a town, not a house.
pub const LARGEST: usize = 32 << 20;

/// How a file is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ImportFormat {
    /// GeoJSON (RFC 7946), CityJSON 1.0 to 2.0 or CityJSONSeq: the file's own `type` tells which.
    Json,
    /// DXF as text.
    Dxf,
}

impl ImportFormat {
    /// By the end of the file's name, without the dot, in any case.
    #[must_use]
    pub fn from_extension(extension: &str) -> Option<Self> {
        match extension.to_ascii_lowercase().as_str() {
            "geojson" | "json" | "jsonl" => Some(Self::Json),
            "dxf" => Some(Self::Dxf),
            _ => None,
        }
    }
}

/// What the person who imports knows and the file may not.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Options {
    /// The unit of the file's coordinates. It is believed more than what the file says.
    pub units: Option<LengthUnit>,
    /// Only this layer of a DXF file, this building of a CityJSON file, this feature of a GeoJSON file.
    pub layer: Option<String>,
}

/// Reads outlines and planes. Never panics, whatever the bytes.
///
/// # Errors
/// What makes the file useless as a whole, and what to do. Single parts that are no use are left out and named in the
/// notes.
pub fn read(bytes: &[u8], format: ImportFormat, options: &Options) -> Result<Imported, Refused> {
    if bytes.len() > LARGEST {
        let says = format!("the file has {} MB, where {} MB is the most", bytes.len() >> 20, LARGEST >> 20);
        return Err(Refused::new(says, "Cut the house out of it with the program that made it."));
    }
    let found = match format {
        ImportFormat::Json => json::read(bytes, options),
        ImportFormat::Dxf => from_dxf::read(bytes, options),
    }?;
    tidy::tidy(found)
}
