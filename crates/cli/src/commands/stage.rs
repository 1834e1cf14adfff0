use std::path::{Path, PathBuf};

use plan::Plan;

use super::PrintedAs;
use super::plan::{is_all_planned, problems, read};
use crate::Ending;
use crate::ink::Ink;
use crate::output::{print, say, tell};
use crate::page::stage;
use crate::page::text::Page;

/// Print what the roof carries: dead loads, pallets, and where piles of units are set down
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// How the loads are printed
    #[arg(long, value_enum, default_value_t)]
    format: PrintedAs,
    /// Write the stage map and the list of the piles into this folder
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    match read(&arguments.job) {
        Ok((source, job, catalog)) => {
            let plan = plan::plan(&job, &catalog);
            tell(&problems(&source, &job, &plan));
            let printed = print(&printed(arguments.format, &plan));
            let written = arguments.out.as_deref().map_or(Ending::Done, |folder| write(&plan, folder));
            let is_done = is_all_planned(&plan) && [printed, written] == [Ending::Done; 2];
            if is_done { Ending::Done } else { Ending::NotAll }
        }
        Err(notes) => {
            tell(&notes);
            Ending::Unread
        }
    }
}

fn printed(format: PrintedAs, plan: &Plan) -> String {
    match format {
        PrintedAs::Text => {
            let mut page = Page::new(Ink::on(&std::io::stdout()));
            stage::write(&mut page, plan);
            page.finished()
        }
        // Plain numbers, words and lists: there is nothing in a load that JSON cannot say.
        PrintedAs::Json => serde_json::to_string_pretty(&plan.loads).map(|json| json + "\n").unwrap_or_default(),
    }
}

fn write(plan: &Plan, folder: &Path) -> Ending {
    let name = |index: usize| if index == 0 { "stage-map.svg".into() } else { format!("stage-list-{index}.svg") };
    let scenes = drawings::stage(plan).into_iter().enumerate();
    match super::plan::write_scenes(folder, scenes.map(|(index, scene)| (name(index), scene))) {
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
