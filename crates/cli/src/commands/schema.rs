use clap::ValueEnum;
use plan::{job_schema, sheet_schema};
use price::rates_schema;

use crate::Ending;
use crate::output::print;

/// Print the JSON Schema of the files that you write, for editors
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// Of which file
    #[arg(value_enum, default_value_t)]
    of: File,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
enum File {
    /// The job file
    #[default]
    Job,
    /// A covering sheet
    Covering,
    /// The rates
    Rates,
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    print(&match arguments.of {
        File::Job => job_schema(),
        File::Covering => sheet_schema(),
        File::Rates => rates_schema(),
    })
}
