//! What is to be priced: as typed, and as meant.

use schemars::JsonSchema;
use serde::Deserialize;

use super::CoveringChoice;
use super::resolve::{Desk, sheet_choice};

/// What is to be priced.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PriceTable {
    /// Path of the rates, from the folder of this file: "my-rates.toml". Absent: the rates that ship, which are invented.
    pub rates: Option<String>,
    /// Names of the rates' extras that this job has.
    #[serde(default)]
    pub extras: Vec<String>,
    /// Other ways to cover this roof, priced beside it.
    #[serde(default)]
    pub option: Vec<OptionTable>,
}

/// Another way to cover the roof.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OptionTable {
    /// Its name, as the owner reads it.
    pub name: String,
    /// Id or path of its sheet. Absent: the job's.
    pub sheet: Option<String>,
    /// Names of the rates' extras that it has. Absent: those of the job.
    pub extras: Option<Vec<String>>,
}

/// What is to be priced.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PriceWanted {
    /// Path of the rates as typed.
    pub rates: Option<String>,
    /// Names of extras.
    pub extras: Vec<String>,
    /// In the order of the file.
    pub options: Vec<OptionWanted>,
}

/// Another way to cover the roof.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OptionWanted {
    /// As the owner reads it.
    pub name: String,
    /// Its sheet, if not the job's.
    pub covering: Option<CoveringChoice>,
    /// Names of extras.
    pub extras: Vec<String>,
}

/// Where the job file names its rates.
pub const RATES_PATH: &str = "price.rates";

pub(super) fn price(desk: &mut Desk, table: &PriceTable) -> PriceWanted {
    let rates = table.rates.as_ref().map(|path| path.trim().to_owned());
    let says = || "no file is named".into();
    desk.expect(rates.as_deref() != Some(""), RATES_PATH, says, "Name the file, or leave the key out.");
    let options = table.option.iter().enumerate();
    PriceWanted {
        rates,
        extras: table.extras.clone(),
        options: options.map(|(index, option)| wanted(desk, table, option, index)).collect(),
    }
}

fn wanted(desk: &mut Desk, table: &PriceTable, option: &OptionTable, index: usize) -> OptionWanted {
    let path = |key: &str| format!("price.option[{index}].{key}");
    let name = option.name.trim();
    desk.expect(!name.is_empty(), &path("name"), || "the option has no name".into(), "Name it as the owner reads it.");
    let before = &table.option[..index];
    let says = || format!("two options are called {}", reader::quoted(name));
    let is_new = before.iter().all(|other| other.name.trim() != name);
    desk.expect(is_new, &path("name"), says, "Give each option a name of its own.");
    OptionWanted {
        name: name.into(),
        covering: option.sheet.as_ref().map(|sheet| sheet_choice(desk, sheet, &path("sheet"))),
        extras: option.extras.clone().unwrap_or_else(|| table.extras.clone()),
    }
}
