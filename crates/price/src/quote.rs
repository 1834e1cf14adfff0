use reader::nearest;
use schemars::JsonSchema;
use serde::Serialize;
use units::{Money, Percent, Pitch, Price};

use crate::file::{DrawTable, MaterialTable, TaxedWord};
use crate::{Counted, Material, Of, Rates, Work};

/// What a roof costs, line by line, and what is asked for it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Quote {
    /// Packs of the order.
    pub materials: Vec<Bought>,
    /// The crew's work.
    pub labor: Vec<Hours>,
    /// Disposal, lifts, permits, and extras by their names.
    pub costs: Vec<Bought>,
    /// What has no price yet, and why; while there is any the total is not all.
    pub unpriced: Vec<Unpriced>,
    /// Sums.
    pub sums: Sums,
    /// When how much is paid; they sum to the total.
    pub draws: Vec<Draw>,
}

/// A line that is paid by the piece.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Bought {
    /// What it is.
    pub what: String,
    /// What is counted: the id of the order's line, or [`Of::name`].
    pub counts: String,
    /// How many, to the nearest thousandth: `107`, `12.345`.
    pub quantity: String,
    /// One of them: `bundle of 21`, `square`.
    pub unit: String,
    /// For one.
    pub price: Price,
    /// For all.
    pub amount: Money,
}

/// A line of the crew's work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Hours {
    /// What is done.
    pub task: String,
    /// What is counted, [`Of::name`].
    pub counts: &'static str,
    /// How many, to the nearest thousandth.
    pub quantity: String,
    /// One of them: `square`, `foot`, `piece`.
    pub unit: &'static str,
    /// Of the whole crew for all of them, in thousandths of an hour.
    pub crew_hours_thousandths: i64,
    /// For all.
    pub amount: Money,
}

/// What has no price.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Unpriced {
    /// What it is.
    pub what: String,
    /// Why.
    pub says: String,
    /// What to do.
    pub remedy: String,
}

/// The sums, from the first line to the total.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct Sums {
    /// Packs.
    pub materials: Money,
    /// Sales tax on them, where that is taxed.
    pub tax_on_materials: Money,
    /// The crew.
    pub labor: Money,
    /// Of the crew, in thousandths of an hour.
    pub crew_hours_thousandths: i64,
    /// Disposal, lifts, permits, extras.
    pub costs: Money,
    /// All of the above.
    pub direct: Money,
    /// A part of `direct`.
    pub overhead: Money,
    /// A part of `before_tax`.
    pub margin: Money,
    /// Direct, overhead and margin.
    pub before_tax: Money,
    /// Sales tax on the price, where that is taxed.
    pub tax: Money,
    /// What the owner pays.
    pub total: Money,
}

/// A payment.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Draw {
    /// When it is due.
    pub when: String,
    /// Of the total.
    pub percent: Percent,
    /// In money.
    pub amount: Money,
}

/// Prices all work at the rates, with the extras that are named.
#[must_use]
pub fn quote(rates: &Rates, work: &Work, extras: &[String]) -> Quote {
    let mut unpriced = Vec::new();
    let lines = work.materials.iter();
    let materials: Vec<Bought> = lines.filter_map(|material| bought(rates, material, &mut unpriced)).collect();
    let labor = labor(rates, work, &mut unpriced);
    let mut costs: Vec<Bought> = Vec::new();
    for cost in &rates.costs {
        costs.extend(paid(work, &cost.what, cost.of, cost.price, &mut unpriced));
    }
    for name in extras {
        match rates.extras.iter().find(|extra| extra.name.trim() == name.trim()) {
            Some(extra) => costs.extend(paid(work, &extra.name, extra.of, extra.price, &mut unpriced)),
            None => unpriced.push(unknown_extra(rates, name)),
        }
    }
    let sums = sums(rates, &materials, &labor, &costs);
    let draws = draws(&rates.draws, sums.total);
    Quote { materials, labor, costs, unpriced, sums, draws }
}

/// A total shared out by parts that sum to 100 %. Each draw is what is due up to it, rounded, less what was due before; so none
/// is negative and they sum to the total.
#[must_use]
pub fn draws(tables: &[DrawTable], total: Money) -> Vec<Draw> {
    let mut part = Percent::default();
    let mut due = Money::ZERO;
    let mut draw = |table: &DrawTable| {
        let before = due;
        part = part + table.percent;
        due = part.of(total);
        Draw { when: table.when.clone(), percent: table.percent, amount: due - before }
    };
    tables.iter().map(&mut draw).collect()
}

fn bought(rates: &Rates, material: &Material, unpriced: &mut Vec<Unpriced>) -> Option<Bought> {
    let of_line = || rates.materials.iter().filter(|row| row.line.trim() == material.line);
    let own = |row: &&MaterialTable| row.sheet.as_deref().is_some_and(|sheet| sheet.trim() == material.sheet);
    let Some(row) = of_line().find(own).or_else(|| of_line().find(|row| row.sheet.is_none())) else {
        unpriced.push(no_price(rates, material));
        return None;
    };
    Some(Bought {
        what: material.item.clone(),
        counts: material.id.clone(),
        quantity: material.packs.to_string(),
        unit: material.pack.clone(),
        price: row.price,
        amount: row.price.times(material.packs as f64),
    })
}

fn no_price(rates: &Rates, material: &Material) -> Unpriced {
    let lines = rates.materials.iter().map(|row| row.line.as_str()).filter(|line| *line != material.line);
    let meant = nearest(&material.line, lines).map_or_else(String::new, |meant| format!(" Did you mean \"{meant}\" by it?"));
    let (line, sheet) = (&material.line, &material.sheet);
    Unpriced {
        what: material.item.clone(),
        says: format!("the rates have no price for the order's line \"{line}\" of the sheet \"{sheet}\""),
        remedy: format!("Add a [[material]] with line = \"{line}\".{meant}"),
    }
}

fn unknown_extra(rates: &Rates, name: &str) -> Unpriced {
    let remedy = match nearest(name, rates.extras.iter().map(|extra| extra.name.as_str())) {
        Some(meant) => format!("Did you mean \"{meant}\"?"),
        None => "Add an [[extra]] with this name to the rates.".into(),
    };
    Unpriced { what: name.into(), says: format!("the rates have no extra called {}", reader::quoted(name)), remedy }
}

fn labor(rates: &Rates, work: &Work, unpriced: &mut Vec<Unpriced>) -> Vec<Hours> {
    let mut lines = Vec::new();
    for row in &rates.labor {
        let Some(quantity) = counted(work, &row.task, row.of, row.from_pitch, unpriced) else { continue };
        let hours = (row.hours * quantity * 1000.0).round();
        lines.push(Hours {
            task: row.task.clone(),
            counts: row.of.name(),
            quantity: to_thousandths(quantity),
            unit: row.of.unit(),
            crew_hours_thousandths: hours as i64,
            amount: rates.crew_hour.times(hours / 1000.0),
        });
    }
    lines
}

fn paid(work: &Work, what: &str, of: Of, price: Price, unpriced: &mut Vec<Unpriced>) -> Option<Bought> {
    let quantity = counted(work, what, of, None, unpriced)?;
    Some(Bought {
        what: what.into(),
        counts: of.name().into(),
        quantity: to_thousandths(quantity),
        unit: of.unit().into(),
        price,
        amount: price.times(quantity),
    })
}

/// How much there is to pay for; nothing where there is none, or where it is not known, which is told.
fn counted(work: &Work, what: &str, of: Of, from: Option<Pitch>, unpriced: &mut Vec<Unpriced>) -> Option<f64> {
    match work.of(of, from) {
        Counted::Known(quantity) => Some(quantity).filter(|quantity| *quantity > 0.0),
        Counted::Missing(missing) => {
            let says = format!("nobody knows how many: {missing} is not told");
            unpriced.push(Unpriced { what: what.into(), says, remedy: format!("Tell {missing}; 0 if there is none.") });
            None
        }
    }
}

/// As it is paid: `12.345`, without zeros at the end.
fn to_thousandths(quantity: f64) -> String {
    let thousandths = (quantity * 1000.0).round() / 1000.0;
    format!("{thousandths}")
}

fn sums(rates: &Rates, materials: &[Bought], labor: &[Hours], costs: &[Bought]) -> Sums {
    let tax_on = |taxed: TaxedWord, amount: Money| {
        rates.tax.filter(|tax| tax.on == taxed).map_or(Money::ZERO, |tax| tax.percent.of(amount))
    };
    let of_materials: Money = materials.iter().map(|line| line.amount).sum();
    let of_labor: Money = labor.iter().map(|line| line.amount).sum();
    let of_costs: Money = costs.iter().map(|line| line.amount).sum();
    let tax_on_materials = tax_on(TaxedWord::Materials, of_materials);
    let direct = of_materials + tax_on_materials + of_labor + of_costs;
    let overhead = rates.overhead.of(direct);
    let before_tax = (direct + overhead).grossed_up(rates.margin);
    let tax = tax_on(TaxedWord::Price, before_tax);
    Sums {
        materials: of_materials,
        tax_on_materials,
        labor: of_labor,
        crew_hours_thousandths: labor.iter().map(|line| line.crew_hours_thousandths).sum(),
        costs: of_costs,
        direct,
        overhead,
        margin: before_tax - direct - overhead,
        before_tax,
        tax,
        total: before_tax + tax,
    }
}
