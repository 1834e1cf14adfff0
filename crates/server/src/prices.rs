//! The price of a job and of its options, by the rates that the job keeps or by those that ship.

use axum::Json;
use plan::{Job, Priced, RATES_PATH};
use price::{Rates, SHIPPED, UnitPrice};
use reader::{Format, to_json};
use schemars::JsonSchema;
use serde::Serialize;
use units::Percent;

use crate::answer::{Body, Refusal, work};
use crate::plans::{CATALOG, JobText, Mistake, job_of};

/// What the roof costs in every way that the job names.
#[derive(Serialize, JsonSchema)]
pub(crate) struct Prices {
    /// Of a job with any mistake nothing is priced.
    mistakes: Vec<Mistake>,
    /// By what is priced.
    rates: Option<RatesUsed>,
    /// The job as it is, then its options, in their order.
    ways: Vec<Priced>,
}

/// The rates that stand over every line.
#[derive(Serialize, JsonSchema)]
pub(crate) struct RatesUsed {
    /// Printed name.
    name: String,
    /// Their figures are invented.
    invented: bool,
    /// The job keeps them.
    own: bool,
    /// Before every amount.
    currency: String,
    /// Part of all cost.
    overhead: Percent,
    /// Part of the price before tax.
    margin: Percent,
    /// Of sales tax, if there is any.
    tax: Option<Percent>,
    /// What a job or an option may add by name.
    extras: Vec<String>,
    /// What is not in the price, a sentence each.
    exclusions: Vec<String>,
    /// Prices of what nobody can count before.
    unit_prices: Vec<UnitPrice>,
}

/// The rates that ship.
#[derive(Serialize, JsonSchema)]
pub(crate) struct ShippedRates {
    /// The whole file as JSON.
    text: String,
}

pub(crate) async fn shipped() -> Result<Json<ShippedRates>, Refusal> {
    let text = to_json(SHIPPED, Format::Toml);
    text.map(|text| Json(ShippedRates { text })).map_err(|_| Refusal::absent("rates"))
}

pub(crate) async fn prices(Body(job): Body<JobText>) -> Result<Json<Prices>, Refusal> {
    work(move || match job_of(&job.text).and_then(priced) {
        Ok(prices) => Json(prices),
        Err(mistakes) => Json(Prices { mistakes, rates: None, ways: Vec::new() }),
    })
    .await
}

fn priced(job: Job) -> Result<Prices, Vec<Mistake>> {
    let rates = rates(&job)?;
    let ways = plan::price(&job, &CATALOG, &rates);
    let used = RatesUsed {
        name: rates.name,
        invented: rates.invented,
        own: job.price.own.is_some(),
        currency: rates.currency,
        overhead: rates.overhead,
        margin: rates.margin,
        tax: rates.tax.map(|tax| tax.percent),
        extras: rates.extras.into_iter().map(|extra| extra.name).collect(),
        exclusions: rates.exclusions,
        unit_prices: rates.unit_prices,
    };
    Ok(Prices { mistakes: Vec::new(), rates: Some(used), ways })
}

/// Those that the job keeps, else those that ship. A path is the command line's: it knows the folder from which it counts.
pub(crate) fn rates(job: &Job) -> Result<Rates, Vec<Mistake>> {
    let mistake = |says: String, remedy: &str| vec![Mistake { path: RATES_PATH.into(), says, remedy: remedy.into() }];
    match (&job.price.own, &job.price.rates) {
        (Some(own), _) => Ok(own.clone()),
        (None, Some(path)) => Err(mistake(
            format!("the rates are in the file {}, which only the command line reads", reader::quoted(path)),
            "Keep rates in the job instead, or price it with headlap price.",
        )),
        (None, None) => price::shipped().ok_or_else(|| mistake("the rates that ship are broken".into(), "Report it.")),
    }
}
