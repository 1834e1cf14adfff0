//! The rates file as it is typed. The JSON Schema is made from these types, so their comments explain every key.

use schemars::{JsonSchema, schema_for};
use serde::{Deserialize, Serialize};
use units::{Percent, Pitch, Price};

use crate::Of;

/// What things cost and how long they take. Prices are without a currency in them and have 4 decimals at most.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RatesFile {
    /// Version of the shape of the file: 1.
    pub format: u32,
    /// Printed name.
    pub name: String,
    /// True where the figures are invented; every page then says so.
    pub invented: bool,
    /// Printed before every amount: "$", "EUR".
    pub currency: String,
    /// Percent of all cost, 0 to 500.
    pub overhead_percent: Percent,
    /// Percent of the price before tax, not of the cost, 0 to 90.
    pub margin_percent: Percent,
    /// Sales tax. Absent: none.
    pub tax: Option<TaxTable>,
    /// The crew.
    pub crew: CrewTable,
    /// Prices of what is ordered.
    pub material: Vec<MaterialTable>,
    /// How long the crew takes.
    pub labor: Vec<LaborTable>,
    /// What else is paid: disposal, lifts, permits.
    #[serde(default)]
    pub cost: Vec<CostTable>,
    /// What a job or an option may add by its name.
    #[serde(default)]
    pub extra: Vec<ExtraTable>,
    /// What an owner signs.
    pub proposal: ProposalTable,
}

/// Sales tax.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TaxTable {
    /// Percent, 0 to 100.
    pub percent: Percent,
    /// What it is taken on.
    pub on: TaxedWord,
}

/// What is taxed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TaxedWord {
    /// Materials as they are bought: a cost.
    Materials,
    /// The whole price, on top of it.
    Price,
}

/// The crew.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CrewTable {
    /// One hour of the whole crew, with all that comes on wages.
    pub hour: Price,
}

/// The price of one pack of a line of the order.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MaterialTable {
    /// Id of the order's line: "field-units". `headlap order JOB --format json` tells them.
    pub line: String,
    /// Id of the only sheet for which it is the price. Absent: of every sheet that has no price of its own.
    pub sheet: Option<String>,
    /// Of one pack.
    pub price: Price,
}

/// How long the crew takes for one of what is counted.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LaborTable {
    /// What is done.
    pub task: String,
    /// What is counted.
    pub of: Of,
    /// Of squares: only those on planes of this pitch and steeper. Absent: all.
    pub from_pitch: Option<Pitch>,
    /// Crew-hours for one, 0 to 1000.
    pub hours: f64,
}

/// What else is paid for one of what is counted.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CostTable {
    /// For what.
    pub what: String,
    /// What is counted.
    pub of: Of,
    /// For one.
    pub price: Price,
}

/// What a job or an option may add by its name.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExtraTable {
    /// Its name.
    pub name: String,
    /// What is counted.
    pub of: Of,
    /// For one.
    pub price: Price,
}

/// What an owner signs.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProposalTable {
    /// Work beyond what the plan tells, a sentence each.
    #[serde(default)]
    pub scope: Vec<String>,
    /// What is not in the price, a sentence each.
    #[serde(default)]
    pub exclusions: Vec<String>,
    /// What is paid for what only shows when the old roof is off: hidden damage of the deck.
    #[serde(default)]
    pub unit_price: Vec<UnitPriceTable>,
    /// When how much is paid; they sum to 100 %.
    pub draw: Vec<DrawTable>,
}

/// The price of one of what nobody can count before.
#[derive(Debug, Clone, Deserialize, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnitPriceTable {
    /// For what.
    pub what: String,
    /// One of it: "sheet", "foot".
    pub unit: String,
    /// For one, to the owner, with all that comes on it.
    pub price: Price,
}

/// A payment.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DrawTable {
    /// When it is due: "At signing".
    pub when: String,
    /// Percent of the total.
    pub percent: Percent,
}

/// JSON Schema (draft 2020-12) of the rates file, with a line end after it.
#[must_use]
pub fn rates_schema() -> String {
    format!("{:#}\n", schema_for!(RatesFile).as_value())
}
