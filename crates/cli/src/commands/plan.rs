use std::path::{Path, PathBuf};

use covering::{Catalog, read_sheet};
use plan::{CoveringChoice, Job, Plan, Problem, Severity, read_job};
use reader::Mistake;

use super::PrintedAs;
use super::check::keeps_every_rule;
use crate::Ending;
use crate::ink::Ink;
use crate::input::{self, Source};
use crate::note::Note;
use crate::output::{print, say, tell};
use crate::page::page;

mod papers;

pub(super) use papers::write_scenes;

/// Plan a measured roof: planes, courses, pieces, order and checks
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// How the plan is printed
    #[arg(long, value_enum, default_value_t)]
    format: PrintedAs,
    /// Write the roof plan and a setting-out sheet for each plane into this folder
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// End with 1 if a check fails that the job does not silence
    #[arg(long)]
    strict: bool,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    match read(&arguments.job) {
        Ok((source, job, catalog)) => {
            let plan = plan::plan(&job, &catalog);
            tell(&problems(&source, &job, &plan));
            show(arguments, &plan)
        }
        Err(notes) => {
            tell(&notes);
            Ending::Unread
        }
    }
}

/// The job, and the catalogue with the sheets of its own in it.
pub(super) fn read(path: &Path) -> Result<(Source, Job, Catalog), Vec<Note>> {
    let source = input::read(path).map_err(|note| vec![*note])?;
    let (job, mistakes) = read_job(&source.text, source.format);
    let job = job.ok_or_else(|| notes(&source, &mistakes))?;
    let mut catalog = Catalog::shipped();
    let options = job.price.options.iter().filter_map(|option| option.covering.as_ref());
    for choice in [&job.covering].into_iter().chain(options).filter(|choice| choice.is_file) {
        let covering = own_sheet(path, &source, &job, choice)?;
        catalog.sheets.insert(choice.sheet.clone(), covering);
    }
    Ok((source, job, catalog))
}

pub(super) fn notes(source: &Source, mistakes: &[Mistake]) -> Vec<Note> {
    let mut notes: Vec<Note> = mistakes.iter().map(|mistake| Note::mistake(source, mistake)).collect();
    if mistakes.len() > 1 {
        notes.push(Note::plain(format!("{} mistakes in {}; nothing is planned", mistakes.len(), source.name), ""));
    }
    notes
}

/// A sheet named by its path, which counts from the folder of the job file.
fn own_sheet(
    job_path: &Path,
    job_source: &Source,
    job: &Job,
    choice: &CoveringChoice,
) -> Result<covering::Covering, Vec<Note>> {
    let folder = job_path.parent().unwrap_or(Path::new(""));
    let sheet = input::read(&folder.join(&choice.sheet)).map_err(|note| {
        let named_here = job.places.mistake(&choice.path, note.says(), "Give the path from the folder of the job file.");
        vec![Note::mistake(job_source, &named_here)]
    })?;
    let read = read_sheet(&sheet.text, sheet.format);
    read.value.ok_or_else(|| notes(&sheet, &read.mistakes))
}

pub(super) fn problems(source: &Source, job: &Job, plan: &Plan) -> Vec<Note> {
    plan.problems.iter().map(|problem| note(source, job, problem)).collect()
}

pub(super) fn note(source: &Source, job: &Job, problem: &Problem) -> Note {
    let place = &problem.place;
    let says = if problem.says.contains(&place.block) {
        problem.says.clone()
    } else {
        format!("{}: {}", place.block, problem.says)
    };
    let note = match job.places.span(&place.path) {
        Some(_) => Note::mistake(source, &job.places.mistake(&place.path, says, &problem.remedy)),
        None => Note::plain(says, &problem.remedy),
    };
    if problem.severity == Severity::Caution { note.into_caution() } else { note }
}

fn show(arguments: &Arguments, plan: &Plan) -> Ending {
    let printed = print(&printed(arguments.format, plan));
    let written = arguments.out.as_deref().map_or(Ending::Done, |folder| write_papers(plan, folder));
    if is_all_planned(plan) && keeps_strictness(arguments, plan) && [printed, written] == [Ending::Done; 2] {
        Ending::Done
    } else {
        Ending::NotAll
    }
}

fn printed(format: PrintedAs, plan: &Plan) -> String {
    match format {
        PrintedAs::Text => page(plan, Ink::on(&std::io::stdout())),
        // Plain numbers, words and lists: there is nothing in a plan that JSON cannot say.
        PrintedAs::Json => serde_json::to_string_pretty(plan).map(|json| json + "\n").unwrap_or_default(),
    }
}

fn write_papers(plan: &Plan, folder: &Path) -> Ending {
    match papers::write(plan, folder) {
        Ok(written) if written.is_empty() => {
            say("there is no plane, so no sheet is written");
            Ending::Done
        }
        Ok(written) => {
            written.iter().for_each(|path| say(&format!("wrote {}", path.display())));
            Ending::Done
        }
        Err(note) => {
            tell(&[*note]);
            Ending::NotAll
        }
    }
}

pub(super) fn is_all_planned(plan: &Plan) -> bool {
    plan.problems.iter().all(|problem| problem.severity != Severity::Error)
}

fn keeps_strictness(arguments: &Arguments, plan: &Plan) -> bool {
    !arguments.strict || keeps_every_rule(plan)
}
