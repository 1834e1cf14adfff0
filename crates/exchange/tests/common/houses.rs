//! Planned houses to be written.
#![allow(dead_code, reason = "each test file uses a part")]

use covering::Catalog;
use plan::{Job, Plan, Priced, read_job};
use price::{Rates, shipped};
use reader::Format;

const EXAMPLES: [(&str, &str); 7] = [
    ("gable", include_str!("../../../../examples/gable.toml")),
    ("hip", include_str!("../../../../examples/hip.toml")),
    ("ell", include_str!("../../../../examples/ell.toml")),
    ("chimney", include_str!("../../../../examples/chimney.toml")),
    ("gambrel", include_str!("../../../../examples/gambrel.toml")),
    ("manor", include_str!("../../../../examples/manor.toml")),
    ("taped", include_str!("../../../../examples/taped.toml")),
];

pub(crate) fn job(text: &str) -> Job {
    let (job, mistakes) = read_job(text, Format::Toml);
    job.unwrap_or_else(|| panic!("{mistakes:?}"))
}

pub(crate) fn planned(text: &str) -> Plan {
    plan::plan(&job(text), &Catalog::shipped())
}

/// Every example by its name.
pub(crate) fn examples() -> impl Iterator<Item = (&'static str, Plan)> {
    EXAMPLES.into_iter().map(|(name, text)| (name, planned(text)))
}

pub(crate) fn example(name: &str) -> &'static str {
    EXAMPLES.iter().find(|(of, _)| *of == name).expect("an example").1
}

/// By the rates that ship.
pub(crate) fn priced(text: &str) -> (Rates, Vec<Priced>) {
    let rates = shipped().expect("rates that ship");
    let ways = plan::price(&job(text), &Catalog::shipped(), &rates);
    (rates, ways)
}

/// A plan with nothing in it.
pub(crate) fn nothing() -> Plan {
    let mut plan = planned(example("gable"));
    (plan.roof, plan.layout) = Default::default();
    plan.order.clear();
    plan
}
