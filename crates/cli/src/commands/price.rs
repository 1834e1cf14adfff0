use std::path::{Path, PathBuf};

use ::price::{Rates, read_rates, shipped};
use plan::{Priced, RATES_PATH};
use serde_json::json;

use super::PrintedAs;
use super::plan::{note, notes, read};
use crate::Ending;
use crate::ink::Ink;
use crate::input::{self, Source};
use crate::note::Note;
use crate::output::{print, tell};
use crate::page::price as pages;
use crate::page::text::Page;

/// Price a roof and each of its options by the rates of a file
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// The rates; absent: those that the job names, else those that ship, which are invented
    #[arg(long, value_name = "FILE")]
    rates: Option<PathBuf>,
    /// Print the proposal for the owner, without costs and margin
    #[arg(long, conflicts_with = "format")]
    proposal: bool,
    /// How the price is printed
    #[arg(long, value_enum, default_value_t)]
    format: PrintedAs,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    let (source, job, catalog) = match read(&arguments.job) {
        Ok(read) => read,
        Err(notes) => {
            tell(&notes);
            return Ending::Unread;
        }
    };
    let rates = match rates(arguments.rates.as_deref(), &arguments.job, &source, &job) {
        Ok(rates) => rates,
        Err(notes) => {
            tell(&notes);
            return Ending::Unread;
        }
    };
    let priced = plan::price(&job, &catalog, &rates);
    for way in &priced {
        tell(&way.problems.iter().map(|problem| note(&source, &job, problem)).collect::<Vec<_>>());
    }
    let ending = print(&printed(arguments, &job.name, &rates, &priced));
    if priced.iter().all(Priced::is_whole) { ending } else { Ending::NotAll }
}

/// The rates asked for on the command line, else by the job, else those that ship.
pub(super) fn rates(told: Option<&Path>, job_path: &Path, source: &Source, job: &plan::Job) -> Result<Rates, Vec<Note>> {
    let read_file = |source: &Source| {
        let read = read_rates(&source.text, source.format);
        read.value.ok_or_else(|| notes(source, &read.mistakes))
    };
    match (told, &job.price.rates) {
        (Some(path), _) => read_file(&input::read(path).map_err(|note| vec![*note])?),
        (None, Some(named)) => {
            let folder = job_path.parent().unwrap_or(Path::new(""));
            let file = input::read(&folder.join(named)).map_err(|note| {
                let remedy = "Give the path from the folder of the job file.";
                vec![Note::mistake(source, &job.places.mistake(RATES_PATH, note.says(), remedy))]
            })?;
            read_file(&file)
        }
        (None, None) => shipped().ok_or_else(|| vec![Note::plain("the rates that ship are broken", "")]),
    }
}

fn printed(arguments: &Arguments, name: &str, rates: &Rates, priced: &[Priced]) -> String {
    let mut page = Page::new(Ink::on(&std::io::stdout()));
    match arguments.format {
        PrintedAs::Text if arguments.proposal => pages::proposal(&mut page, name, rates, priced),
        PrintedAs::Text => pages::costs(&mut page, name, rates, priced),
        PrintedAs::Json => {
            let price = json!({
                "format": plan::FORMAT,
                "name": name,
                "rates": rates.name,
                "rates_are_invented": rates.invented,
                "currency": rates.currency,
                "exclusions": rates.exclusions,
                "ways": priced,
            });
            return format!("{price:#}\n");
        }
    }
    page.finished()
}
