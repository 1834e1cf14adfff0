use reader::{Format, Mistake, Places, Read, read};
use units::{Percent, Price};

use crate::desk::Desk;
use crate::file::{CostTable, DrawTable, ExtraTable, LaborTable, MaterialTable, RatesFile, TaxTable, UnitPriceTable};

/// Version of the shape of a rates file.
const FORMAT: u32 = 1;

/// The text of the rates that ship, all of them invented: to be copied.
pub const SHIPPED: &str = include_str!("../../../rates/invented.toml");

/// Rates that are sound.
#[derive(Debug, Clone)]
pub struct Rates {
    /// Printed name.
    pub name: String,
    /// The figures are invented.
    pub invented: bool,
    /// Printed before every amount.
    pub currency: String,
    /// Part of all cost.
    pub overhead: Percent,
    /// Part of the price before tax.
    pub margin: Percent,
    /// Sales tax, if there is any.
    pub tax: Option<TaxTable>,
    /// One hour of the whole crew.
    pub crew_hour: Price,
    /// Prices of packs; no two for the same line and sheet.
    pub materials: Vec<MaterialTable>,
    /// How long the crew takes.
    pub labor: Vec<LaborTable>,
    /// What else is paid.
    pub costs: Vec<CostTable>,
    /// What may be added by name; no two of one name.
    pub extras: Vec<ExtraTable>,
    /// Work beyond what the plan tells.
    pub scope: Vec<String>,
    /// What is not in the price.
    pub exclusions: Vec<String>,
    /// Prices of what nobody can count before.
    pub unit_prices: Vec<UnitPrice>,
    /// They sum to 100 %.
    pub draws: Vec<DrawTable>,
}

/// The price of one of what nobody can count before.
pub type UnitPrice = UnitPriceTable;

/// The rates that ship.
#[must_use]
pub fn shipped() -> Option<Rates> {
    read_rates(SHIPPED, Format::Toml).value
}

/// Reads a rates file and looks at every figure; every mistake carries its place.
#[must_use]
pub fn read_rates(text: &str, format: Format) -> Read<Rates> {
    let Read { value, mut mistakes, places } = read::<RatesFile>(text, format);
    let value = value.and_then(|file| match sound_rates(file, &places) {
        Ok(rates) => Some(rates),
        Err(found) => {
            mistakes.extend(found);
            None
        }
    });
    mistakes.sort_by_key(|mistake| mistake.span.start);
    Read { value, mistakes, places }
}

/// Looks at every figure of rates that stand in a file of their own or within another, where `places` are counted from them.
///
/// # Errors
/// Every mistake, with its place.
pub fn sound_rates(file: RatesFile, places: &Places) -> Result<Rates, Vec<Mistake>> {
    let mistakes = wrong(&file, places);
    if mistakes.is_empty() { Ok(sound(file)) } else { Err(mistakes) }
}

fn sound(file: RatesFile) -> Rates {
    Rates {
        name: file.name,
        invented: file.invented,
        currency: file.currency,
        overhead: file.overhead_percent,
        margin: file.margin_percent,
        tax: file.tax,
        crew_hour: file.crew.hour,
        materials: file.material,
        labor: file.labor,
        costs: file.cost,
        extras: file.extra,
        scope: file.proposal.scope,
        exclusions: file.proposal.exclusions,
        unit_prices: file.proposal.unit_price,
        draws: file.proposal.draw,
    }
}

fn wrong(file: &RatesFile, places: &Places) -> Vec<Mistake> {
    let mut desk = Desk { places, mistakes: Vec::new() };
    let says = || format!("format {} is not known; this program reads format {FORMAT}", file.format);
    desk.expect(file.format == FORMAT, "format", says, "Write format = 1.");
    desk.words("name", &file.name);
    let says = || "a currency has 1 to 8 letters".into();
    let letters = file.currency.trim().chars().count();
    desk.expect((1..=8).contains(&letters), "currency", says, "Write what stands before an amount, such as \"$\".");
    desk.percent("overhead_percent", file.overhead_percent, 500);
    desk.percent("margin_percent", file.margin_percent, 90);
    file.tax.iter().for_each(|tax| desk.percent("tax.percent", tax.percent, 100));
    materials(&mut desk, &file.material);
    labor(&mut desk, &file.labor);
    for (index, cost) in file.cost.iter().enumerate() {
        desk.words(&format!("cost[{index}].what"), &cost.what);
    }
    let extras = file.extra.iter().enumerate();
    desk.differ(extras.map(|(index, extra)| (format!("extra[{index}].name"), extra.name.trim())));
    proposal(&mut desk, file);
    desk.mistakes
}

fn materials(desk: &mut Desk, tables: &[MaterialTable]) {
    let name = |table: &MaterialTable| match &table.sheet {
        Some(sheet) => format!("{} of {sheet}", table.line.trim()),
        None => table.line.trim().into(),
    };
    let names: Vec<String> = tables.iter().map(name).collect();
    let paths = names.iter().enumerate();
    desk.differ(paths.map(|(index, name)| (format!("material[{index}].line"), name.as_str())));
}

fn labor(desk: &mut Desk, tables: &[LaborTable]) {
    for (index, labor) in tables.iter().enumerate() {
        desk.words(&format!("labor[{index}].task"), &labor.task);
        let says = || format!("{} is not a number of crew-hours from 0 to 1000", labor.hours);
        let sound = (0.0..=1000.0).contains(&labor.hours);
        desk.expect(sound, &format!("labor[{index}].hours"), says, "Type the hours of the whole crew for one.");
        let says = || "only squares lie on planes of a pitch".into();
        let sound = labor.from_pitch.is_none() || labor.of == crate::Of::Squares;
        desk.expect(sound, &format!("labor[{index}].from_pitch"), says, "Leave it out, or write of = \"squares\".");
    }
}

fn proposal(desk: &mut Desk, file: &RatesFile) {
    let proposal = &file.proposal;
    for (index, price) in proposal.unit_price.iter().enumerate() {
        desk.words(&format!("proposal.unit_price[{index}].what"), &price.what);
        desk.words(&format!("proposal.unit_price[{index}].unit"), &price.unit);
    }
    for (index, draw) in proposal.draw.iter().enumerate() {
        desk.words(&format!("proposal.draw[{index}].when"), &draw.when);
    }
    let sum: Percent = proposal.draw.iter().map(|draw| draw.percent).sum();
    let says = || format!("the draws sum to {sum}, not to 100 %");
    desk.expect(sum == Percent::WHOLE, "proposal.draw", says, "Mend one of them.");
}
