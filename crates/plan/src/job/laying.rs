//! The day on which the units are laid: as typed, and as meant.

use checks::Laying;
use schemars::JsonSchema;
use serde::Deserialize;
use units::Temperature;

use super::resolve::Desk;

/// The day on which the units are laid. Whatever is absent is unknown, and the rules that need it say so.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LayingTable {
    /// Of the units themselves, read on the stack: "62 F".
    pub unit_temperature: Option<Temperature>,
    /// Of the air: "55 F".
    pub air_temperature: Option<Temperature>,
    /// Hours for which the units have been at that temperature or warmer.
    pub hours_conditioned: Option<f64>,
    /// Where the units are stored: "80 F".
    pub store_temperature: Option<Temperature>,
    /// Colour of the chalk with which lines are snapped: "blue".
    pub chalk: Option<String>,
}

pub(super) fn laying(desk: &mut Desk, table: &LayingTable) -> Laying {
    Laying {
        unit_temperature: table.unit_temperature,
        air_temperature: table.air_temperature,
        hours_conditioned: desk.number("laying.hours_conditioned", table.hours_conditioned, [0.0, 10_000.0]),
        store_temperature: table.store_temperature,
        chalk: table.chalk.as_ref().map(|chalk| chalk.trim().to_lowercase()),
    }
}
