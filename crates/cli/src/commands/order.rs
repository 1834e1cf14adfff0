use std::path::PathBuf;

use plan::Plan;
use serde_json::json;

use super::PrintedAs;
use super::plan::{is_all_planned, problems, read};
use crate::Ending;
use crate::ink::Ink;
use crate::output::{print, tell};
use crate::page::order;
use crate::page::text::Page;

/// Print what to order for a roof, every line with its places, spare packs and deliveries
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// How the order is printed
    #[arg(long, value_enum, default_value_t)]
    format: PrintedAs,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    match read(&arguments.job) {
        Ok((source, job, catalog)) => {
            let plan = plan::plan(&job, &catalog);
            tell(&problems(&source, &job, &plan));
            let printed = print(&printed(arguments.format, &plan));
            if is_all_planned(&plan) { printed } else { Ending::NotAll }
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
            crate::page::head(&mut page, plan);
            order::write_all(&mut page, plan);
            page.finished()
        }
        PrintedAs::Json => {
            let order = json!({
                "format": plan.format,
                "name": plan.name,
                "covering": plan.covering,
                "order": plan.order,
                "deliveries": plan.deliveries,
            });
            format!("{order:#}\n")
        }
    }
}
