use std::path::{Path, PathBuf};

use clap::ValueEnum;
use exchange::{ImportFormat, Imported, LARGEST, Options, Refused, job_file};
use units::LengthUnit;

use crate::Ending;
use crate::input::bytes;
use crate::note::Note;
use crate::output::{print, tell};

/// Print a job file made from a GeoJSON, CityJSON or DXF file, to be edited
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The file, with an ending that tells its kind: .geojson, .json, .jsonl or .dxf
    file: PathBuf,
    /// Unit of its coordinates, if the file does not tell or tells wrong
    #[arg(long)]
    units: Option<UnitWord>,
    /// Only this layer (DXF), building (CityJSON) or feature (GeoJSON)
    #[arg(long, value_name = "NAME")]
    layer: Option<String>,
}

/// A unit as it is typed.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum UnitWord {
    Ft,
    In,
    M,
    Mm,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    let name = arguments.file.file_stem().unwrap_or_default().to_string_lossy();
    match imported(arguments) {
        Ok(imported) => print(&job_file(&imported, &name)),
        Err(note) => {
            tell(&[*note]);
            Ending::Unread
        }
    }
}

fn imported(arguments: &Arguments) -> Result<Imported, Box<Note>> {
    let format = format(&arguments.file)?;
    let bytes = bytes(&arguments.file, LARGEST, "it holds a town, not a house")?;
    let options = Options { units: arguments.units.map(UnitWord::unit), layer: arguments.layer.clone() };
    exchange::read(&bytes, format, &options)
        .map_err(|Refused { says, remedy }| Box::new(Note::plain(format!("{}: {says}", arguments.file.display()), remedy)))
}

fn format(file: &Path) -> Result<ImportFormat, Box<Note>> {
    let ending = file.extension().unwrap_or_default().to_string_lossy();
    ImportFormat::from_extension(&ending).ok_or_else(|| {
        let says = format!("the ending of {} does not tell what kind of file it is", file.display());
        Box::new(Note::plain(says, "Import files that end in .geojson, .json, .jsonl or .dxf."))
    })
}

impl UnitWord {
    fn unit(self) -> LengthUnit {
        match self {
            Self::Ft => LengthUnit::Ft,
            Self::In => LengthUnit::In,
            Self::M => LengthUnit::M,
            Self::Mm => LengthUnit::Mm,
        }
    }
}
