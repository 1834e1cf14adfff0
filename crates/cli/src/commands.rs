//! The commands, each with its arguments and its one verb.

pub(crate) mod book;
pub(crate) mod check;
pub(crate) mod compare;
pub(crate) mod explain;
pub(crate) mod export;
pub(crate) mod import;
pub(crate) mod measure;
pub(crate) mod new;
pub(crate) mod order;
pub(crate) mod plan;
pub(crate) mod price;
pub(crate) mod rates;
pub(crate) mod relay;
pub(crate) mod rules;
pub(crate) mod schema;
pub(crate) mod serve;
pub(crate) mod sheets;
pub(crate) mod stage;

use clap::ValueEnum;

/// How a result is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub(crate) enum PrintedAs {
    /// For people.
    #[default]
    Text,
    /// For other programs.
    Json,
}
