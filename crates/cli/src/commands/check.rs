use std::path::PathBuf;

use clap::ValueEnum;
use plan::{Job, Plan};

use super::plan::{is_all_planned, problems, read};
use crate::Ending;
use crate::ink::Ink;
use crate::input::Source;
use crate::output::{print, tell};
use crate::page::checks;
use crate::page::text::Page;

mod sarif;

/// Check a measured roof by every rule, and print what they find
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// How the findings are printed
    #[arg(long, value_enum, default_value_t)]
    format: Findings,
    /// End with 1 if a check fails that the job does not silence
    #[arg(long)]
    strict: bool,
}

/// How findings are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum Findings {
    /// For people.
    #[default]
    Text,
    /// For other programs: the `checks` of the plan.
    Json,
    /// For editors and CI: SARIF 2.1.0, on the lines of the job file.
    Sarif,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    match read(&arguments.job) {
        Ok((source, job, catalog)) => {
            let plan = plan::plan(&job, &catalog);
            tell(&problems(&source, &job, &plan));
            let printed = print(&printed(arguments.format, &source, &job, &plan));
            let is_kept = !arguments.strict || keeps_every_rule(&plan);
            if is_all_planned(&plan) && is_kept && printed == Ending::Done { Ending::Done } else { Ending::NotAll }
        }
        Err(notes) => {
            tell(&notes);
            Ending::Unread
        }
    }
}

fn printed(format: Findings, source: &Source, job: &Job, plan: &Plan) -> String {
    match format {
        Findings::Text => {
            let mut page = Page::new(Ink::on(&std::io::stdout()));
            page.title(&plan.name);
            checks::write_all(&mut page, plan);
            page.finished()
        }
        // Plain numbers, words and lists: there is nothing in a finding that JSON cannot say.
        Findings::Json => serde_json::to_string_pretty(&plan.checks).map(|json| json + "\n").unwrap_or_default(),
        Findings::Sarif => format!("{:#}\n", sarif::log(source, job, plan)),
    }
}

/// No rule fails but those that the job silences.
pub(super) fn keeps_every_rule(plan: &Plan) -> bool {
    plan.checks.iter().all(|check| check.outcome != "fail" || check.silenced.is_some())
}
