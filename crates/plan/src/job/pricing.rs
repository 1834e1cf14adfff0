//! What is to be priced: as typed, and as meant.

use covering::Bond;
use layout::Valleys;
use price::{Rates, RatesFile, sound_rates};
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Measure};

use super::CoveringChoice;
use super::resolve::{Desk, sheet_choice};
use super::setting_out::{ValleysWord, exposure};
use crate::HipChoice;

/// What is to be priced.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PriceTable {
    /// Path of the rates, from the folder of this file: "my-rates.toml". Absent, and none kept in this file: the rates that ship,
    /// which are invented.
    pub rates: Option<String>,
    /// Rates kept in this file, instead of a path.
    pub own: Option<RatesFile>,
    /// Names of the rates' extras that this job has.
    #[serde(default)]
    pub extras: Vec<String>,
    /// Other ways to cover this roof, priced beside it.
    #[serde(default)]
    pub option: Vec<OptionTable>,
}

/// Another way to cover the roof. What is absent is as the job has it.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OptionTable {
    /// Its name, as the owner reads it.
    pub name: String,
    /// Id or path of its sheet.
    pub sheet: Option<String>,
    /// The most that any course shows, 1 in to 36 in; the sheet's own limit stays where it is lower.
    pub exposure: Option<Measure>,
    /// How hips are finished, and whether courses meet there.
    pub hips: Option<HipChoice>,
    /// How valleys are laid.
    pub valleys: Option<ValleysWord>,
    /// Which of the bonds that the sheet allows is laid.
    pub bond: Option<Bond>,
    /// Names of the rates' extras that it has.
    pub extras: Option<Vec<String>>,
}

/// What is to be priced.
#[derive(Debug, Clone, Default)]
pub struct PriceWanted {
    /// Path of the rates as typed.
    pub rates: Option<String>,
    /// Rates kept in the job file.
    pub own: Option<Rates>,
    /// Names of extras.
    pub extras: Vec<String>,
    /// In the order of the file.
    pub options: Vec<OptionWanted>,
}

/// Another way to cover the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct OptionWanted {
    /// As the owner reads it.
    pub name: String,
    /// Its sheet, if not the job's.
    pub covering: Option<CoveringChoice>,
    /// The most that any course shows.
    pub exposure: Option<Length>,
    /// How hips are finished, if not as the job has them.
    pub hips: Option<HipChoice>,
    /// How valleys are laid, if not as the job has them.
    pub valleys: Option<Valleys>,
    /// The bond, if not the job's.
    pub bond: Option<Bond>,
    /// Names of extras.
    pub extras: Vec<String>,
}

/// Where the job file names its rates.
pub const RATES_PATH: &str = "price.rates";

pub(super) fn price(desk: &mut Desk, table: &PriceTable) -> PriceWanted {
    let rates = table.rates.as_ref().map(|path| path.trim().to_owned());
    let says = || "no file is named".into();
    desk.expect(rates.as_deref() != Some(""), RATES_PATH, says, "Name the file, or leave the key out.");
    let says = || "the rates are given twice, by a path and in this file".into();
    desk.expect(rates.is_none() || table.own.is_none(), RATES_PATH, says, "Leave one of rates and own out.");
    let own = table.own.clone();
    let options = table.option.iter().enumerate();
    PriceWanted {
        rates,
        own: own.and_then(|own| desk.within("price.own", |places| sound_rates(own, places))),
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
        exposure: exposure(desk, option.exposure, &path("exposure")),
        hips: option.hips,
        valleys: option.valleys.map(ValleysWord::meant),
        bond: option.bond,
        extras: option.extras.clone().unwrap_or_else(|| table.extras.clone()),
    }
}
