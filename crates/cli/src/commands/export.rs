use std::path::PathBuf;

use ::price::Rates;
use clap::ValueEnum;
use exchange::{ExportFormat, PriceList, Refused, Table};
use plan::Priced;

use super::plan::{is_all_planned, problems, read};
use super::price::rates;
use crate::Ending;
use crate::note::Note;
use crate::output::{say, tell, write_file};

/// Write a plan for other programs: tables, a drawing, the roof in space, maps
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// The format
    #[arg(long, value_enum)]
    to: FormatWord,
    /// Which table a CSV file holds; absent: the order
    #[arg(long, value_enum)]
    table: Option<TableWord>,
    /// The rates of a price; absent: those that the job names, else those that ship, which are invented
    #[arg(long, value_name = "FILE")]
    rates: Option<PathBuf>,
    /// The file to write
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum FormatWord {
    /// A workbook: order, cut list, offcuts and price, with live formulas
    Xlsx,
    /// A drawing: the roof from above, every plane unfolded with its pieces, every kind of cut piece; inches
    Dxf,
    /// The roof in space with every piece, as binary glTF (.glb); metres
    Gltf,
    /// The roof in plan: outline, planes, lines and openings; metres
    Geojson,
    /// The planes as roof surfaces of LoD 2; metres
    Cityjson,
    /// The whole plan, as `headlap plan --format json` prints it
    Json,
    /// One table as comma-separated values
    Csv,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum TableWord {
    /// What to order
    Order,
    /// The cut pieces in the order of the saw
    CutList,
    /// What it costs, every option one after the other
    Price,
}

impl Arguments {
    const fn format(&self) -> ExportFormat {
        match (self.to, self.table) {
            (FormatWord::Xlsx, _) => ExportFormat::Xlsx,
            (FormatWord::Dxf, _) => ExportFormat::Dxf,
            (FormatWord::Gltf, _) => ExportFormat::Gltf,
            (FormatWord::Geojson, _) => ExportFormat::GeoJson,
            (FormatWord::Cityjson, _) => ExportFormat::CityJson,
            (FormatWord::Json, _) => ExportFormat::Json,
            (FormatWord::Csv, None | Some(TableWord::Order)) => ExportFormat::Csv(Table::Order),
            (FormatWord::Csv, Some(TableWord::CutList)) => ExportFormat::Csv(Table::CutList),
            (FormatWord::Csv, Some(TableWord::Price)) => ExportFormat::Csv(Table::Price),
        }
    }

    fn has_price(&self) -> bool {
        matches!(self.format(), ExportFormat::Xlsx | ExportFormat::Csv(Table::Price))
    }

    /// What was asked for and would change nothing in the file.
    fn needless(&self) -> Option<Note> {
        if self.table.is_some() && self.to != FormatWord::Csv {
            return Some(Note::plain("only csv holds one table of several", "Leave --table out, or write --to csv."));
        }
        (self.rates.is_some() && !self.has_price()).then(|| {
            Note::plain("this file holds no price", "Leave --rates out, or write --to xlsx or --to csv --table price.")
        })
    }
}

/// The price of a job, where the format holds one.
type Price = Option<(Rates, Vec<Priced>)>;

pub(crate) fn run(arguments: &Arguments) -> Ending {
    if let Some(needless) = arguments.needless() {
        return unread(vec![needless]);
    }
    say("reading and planning …");
    match read(&arguments.job) {
        Ok((source, job, catalog)) => {
            let plan = plan::plan(&job, &catalog);
            tell(&problems(&source, &job, &plan));
            let list = |rates| {
                let ways = plan::price(&job, &catalog, &rates);
                Some((rates, ways))
            };
            let price = if arguments.has_price() {
                rates(arguments.rates.as_deref(), &arguments.job, &source, &job).map(list)
            } else {
                Ok(None)
            };
            price.map_or_else(unread, |price| write(arguments, &plan, &price))
        }
        Err(notes) => unread(notes),
    }
}

fn unread(notes: Vec<Note>) -> Ending {
    tell(&notes);
    Ending::Unread
}

fn write(arguments: &Arguments, plan: &plan::Plan, price: &Price) -> Ending {
    say("writing …");
    let list = price.as_ref().map(|(rates, ways)| PriceList { rates, ways });
    let bytes = match exchange::write(plan, list, arguments.format()) {
        Ok(bytes) => bytes,
        Err(Refused { says, remedy }) => return refused(Note::plain(says, remedy)),
    };
    if let Err(note) = write_file(&arguments.out, bytes) {
        return refused(*note);
    }
    say(&format!("wrote {}", arguments.out.display()));
    let ways = || price.iter().flat_map(|(_, ways)| ways);
    tell(&ways().filter_map(unpriced).collect::<Vec<_>>());
    let is_priced = ways().all(|way| way.whole);
    if is_all_planned(plan) && is_priced { Ending::Done } else { Ending::NotAll }
}

/// What of a way has no price.
fn unpriced(way: &Priced) -> Option<Note> {
    let what: Vec<&str> = way.quote.unpriced.iter().map(|line| line.what.as_str()).collect();
    let says = || format!("{}: no price for {}", way.name, what.join("; "));
    (!what.is_empty()).then(|| Note::plain(says(), "The file tells under each what to do.").into_caution())
}

fn refused(note: Note) -> Ending {
    tell(&[note]);
    Ending::NotAll
}
