use covering::{Band, Catalog, Covering, Lap, SHIPPED};
use serde_json::{Value, json};

use super::PrintedAs;
use crate::Ending;
use crate::note::Note;
use crate::output::{print, tell};
use crate::page::text::Page;

/// List the coverings that ship, or print the sheet of one to copy
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// Print this sheet's file: copy it and type in the figures of your own material
    id: Option<String>,
    /// How the list is printed
    #[arg(long, value_enum, default_value_t, conflicts_with = "id")]
    format: PrintedAs,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    let catalog = Catalog::shipped();
    match (&arguments.id, arguments.format) {
        (Some(id), _) => print_file(id, &catalog),
        (None, PrintedAs::Text) => print(&list(&catalog)),
        (None, PrintedAs::Json) => print(&format!("{:#}\n", Value::from_iter(catalog.sheets.values().map(figures)))),
    }
}

fn print_file(id: &str, catalog: &Catalog) -> Ending {
    if let Some((_, text)) = SHIPPED.iter().find(|(shipped, _)| shipped == &id) {
        return print(text);
    }
    let remedy = match catalog.nearest(id) {
        Some(nearest) => format!("Did you mean {nearest}?"),
        None => "`headlap sheets` lists them.".to_owned(),
    };
    tell(&[Note::plain(format!("no sheet that ships is called {}", reader::quoted(id)), remedy)]);
    Ending::Unread
}

fn list(catalog: &Catalog) -> String {
    let mut page = Page::default();
    for covering in catalog.sheets.values() {
        page.wrapped(0, &covering.id);
        page.wrapped(4, &covering.name);
        page.wrapped(4, &unit(covering));
        covering.bands.iter().for_each(|band| page.wrapped(4, &allowed(band)));
        page.blank();
    }
    page.wrapped(
        0,
        "The maker's sheet always rules. `headlap sheets ID > my-sheet.toml` gives a file to type its figures into.",
    );
    page.finished()
}

fn unit(covering: &Covering) -> String {
    format!(
        "unit {} wide, {} long, {}; gap {}, joints at least {} apart",
        covering.unit.width.in_inches(),
        covering.unit.length.in_inches(),
        lap(covering.lap),
        covering.gap.in_inches(),
        covering.joint_offset.in_inches()
    )
}

const fn lap(lap: Lap) -> &'static str {
    match lap {
        Lap::Double => "double lap",
        Lap::Triple => "triple lap",
        Lap::Shake => "double lap with felt between courses",
    }
}

fn allowed(band: &Band) -> String {
    let to = band.to.map_or_else(|| "and steeper".to_owned(), |to| format!("to below {to}"));
    format!(
        "{} {to}: exposure {} to {}, headlap at least {}",
        band.from,
        band.least_exposure.in_inches(),
        band.greatest_exposure.in_inches(),
        band.headlap.in_inches()
    )
}

fn figures(covering: &Covering) -> Value {
    json!({
        "id": covering.id,
        "name": covering.name,
        "invented": covering.invented,
        "width_in": covering.unit.width.to_inches(),
        "length_in": covering.unit.length.to_inches(),
        "lap": lap(covering.lap),
        "gap_in": covering.gap.to_inches(),
        "joint_offset_in": covering.joint_offset.to_inches(),
        "bands": covering.bands.iter().map(band_figures).collect::<Vec<_>>(),
    })
}

fn band_figures(band: &Band) -> Value {
    json!({
        "from_pitch": band.from.rise(),
        "to_pitch": band.to.map(|to| to.rise()),
        "least_exposure_in": band.least_exposure.to_inches(),
        "greatest_exposure_in": band.greatest_exposure.to_inches(),
        "least_headlap_in": band.headlap.to_inches(),
    })
}
