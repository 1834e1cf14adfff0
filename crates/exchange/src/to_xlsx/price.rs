use plan::Priced;
use price::{Bought, Hours, Quote, Rates, TaxedWord};
use units::{Money, Percent, Price};

use super::desk::{Desk, Done, Look};

const HEADS: [(&str, f64); 6] =
    [("What", 52.0), ("Quantity", 12.0), ("Unit", 22.0), ("Crew-hours", 11.0), ("Price of one", 12.0), ("Amount", 14.0)];

/// Column of the amounts, and of the prices and parts in hundred.
const AMOUNT: u16 = 5;
const PRICE: u16 = 4;

pub(super) fn write(desk: &mut Desk, job: &str, rates: &Rates, way: &Priced) -> Done {
    let Quote { materials, labor, costs, unpriced, sums, .. } = &way.quote;
    desk.line(Look::Title, &format!("{job}: price, {}", way.name))?;
    let invented = if rates.invented { ", whose figures are invented" } else { "" };
    desk.line(
        Look::Words,
        &format!(
            "By the rates {}{invented}. Amounts in {}. With cost and margin: not for the owner.",
            rates.name, rates.currency
        ),
    )?;
    if !unpriced.is_empty() {
        desk.line(Look::Title, "NOT ALL OF THE ROOF HAS A PRICE: see below.")?;
    }
    desk.next_row();
    desk.heads(&HEADS)?;
    let materials = section(desk, "Materials", sums.materials, |desk| each(desk, materials, bought))?;
    let labor = section(desk, "Labor", sums.labor, |desk| each(desk, labor, |desk, hours| worked(desk, rates, hours)))?;
    let costs = section(desk, "Other costs", sums.costs, |desk| each(desk, costs, bought))?;
    let total = write_sums(desk, rates, way, [materials, labor, costs])?;
    draws(desk, &way.quote, total)?;
    write_unpriced(desk, &way.quote)
}

fn each<T>(desk: &mut Desk, lines: &[T], write: impl Fn(&mut Desk, &T) -> Done) -> Done {
    lines.iter().try_for_each(|line| write(desk, line))
}

/// Lines under a heading, and their sum below them; the row of the sum.
fn section(
    desk: &mut Desk,
    name: &str,
    sum: Money,
    lines: impl FnOnce(&mut Desk) -> Done,
) -> Result<u32, rust_xlsxwriter::XlsxError> {
    desk.line(Look::Head, name)?;
    let first = desk.here();
    lines(desk)?;
    let end = desk.here();
    desk.words(0, Look::Sum, &format!("{name}, together"))?;
    // Of no lines there is nothing to add up.
    let formula = if end > first { format!("=SUM(F{first}:F{})", end - 1) } else { "=0".into() };
    desk.formula(AMOUNT, Look::MoneySum, &formula, value(sum))?;
    desk.next_row();
    desk.next_row();
    Ok(end)
}

fn bought(desk: &mut Desk, line: &Bought) -> Done {
    let here = desk.here();
    desk.words(0, Look::Words, &line.what)?;
    desk.number(1, Look::Number, number(&line.quantity))?;
    desk.words(2, Look::Words, &line.unit)?;
    desk.number(PRICE, Look::Price, rate(line.price))?;
    desk.formula(AMOUNT, Look::Money, &format!("=ROUND(B{here}*E{here},2)"), value(line.amount))?;
    desk.next_row();
    Ok(())
}

fn worked(desk: &mut Desk, rates: &Rates, line: &Hours) -> Done {
    let here = desk.here();
    desk.words(0, Look::Words, &line.task)?;
    desk.number(1, Look::Number, number(&line.quantity))?;
    desk.words(2, Look::Words, line.unit)?;
    desk.number(3, Look::Number, line.crew_hours_thousandths as f64 / 1000.0)?;
    desk.number(PRICE, Look::Price, rate(rates.crew_hour))?;
    desk.formula(AMOUNT, Look::Money, &format!("=ROUND(D{here}*E{here},2)"), value(line.amount))?;
    desk.next_row();
    Ok(())
}

/// From cost to what the owner pays, as [`price::Sums`] has it; the row of the total.
fn write_sums(
    desk: &mut Desk,
    rates: &Rates,
    way: &Priced,
    [materials, labor, costs]: [u32; 3],
) -> Result<u32, rust_xlsxwriter::XlsxError> {
    let sums = &way.quote.sums;
    let tax = |on: TaxedWord| rates.tax.filter(|tax| tax.on == on).map(|tax| tax.percent).unwrap_or_default();
    desk.line(Look::Head, "Price")?;
    let first = desk.here();
    let [taxed, direct, overhead, margin, before, last] = [0, 1, 2, 3, 4, 5].map(|row| first + row);
    let part = |of: String| format!("=ROUND({of},2)");
    sum(
        desk,
        "Sales tax on materials",
        Some(tax(TaxedWord::Materials)),
        &part(format!("F{materials}*E{taxed}")),
        sums.tax_on_materials,
    )?;
    sum(desk, "All cost", None, &format!("=F{materials}+F{taxed}+F{labor}+F{costs}"), sums.direct)?;
    sum(desk, "Overhead, of all cost", Some(rates.overhead), &part(format!("F{direct}*E{overhead}")), sums.overhead)?;
    sum(
        desk,
        "Margin, of the price before tax",
        Some(rates.margin),
        &format!("=F{before}-F{direct}-F{overhead}"),
        sums.margin,
    )?;
    sum(desk, "Price before tax", None, &part(format!("(F{direct}+F{overhead})/(1-E{margin})")), sums.before_tax)?;
    sum(desk, "Sales tax on the price", Some(tax(TaxedWord::Price)), &part(format!("F{before}*E{last}")), sums.tax)?;
    let total = desk.here();
    desk.words(0, Look::Sum, "Total")?;
    desk.formula(AMOUNT, Look::MoneySum, &format!("=F{before}+F{last}"), value(sums.total))?;
    desk.next_row();
    desk.next_row();
    Ok(total)
}

fn sum(desk: &mut Desk, what: &str, percent: Option<Percent>, formula: &str, is: Money) -> Done {
    desk.words(0, Look::Words, what)?;
    if let Some(percent) = percent {
        desk.number(PRICE, Look::Percent, percent.to_hundredths() as f64 / 10_000.0)?;
    }
    desk.formula(AMOUNT, Look::Money, formula, value(is))?;
    desk.next_row();
    Ok(())
}

/// Each is what is due up to it, rounded, less what was due before; so they sum to the total.
fn draws(desk: &mut Desk, quote: &Quote, total: u32) -> Done {
    desk.line(Look::Head, "Payments")?;
    let first = desk.here();
    for draw in &quote.draws {
        let here = desk.here();
        let before = if here == first { String::new() } else { format!("-SUM(F{first}:F{})", here - 1) };
        let formula = format!("=ROUND(F{total}*SUM(E{first}:E{here}),2){before}");
        sum(desk, &draw.when, Some(draw.percent), &formula, draw.amount)?;
    }
    desk.next_row();
    Ok(())
}

fn write_unpriced(desk: &mut Desk, quote: &Quote) -> Done {
    if quote.unpriced.is_empty() {
        return Ok(());
    }
    desk.line(Look::Head, "Without a price")?;
    quote
        .unpriced
        .iter()
        .try_for_each(|line| desk.line(Look::Words, &format!("{}: {}. {}", line.what, line.says, line.remedy)))
}

fn value(money: Money) -> f64 {
    money.to_cents() as f64 / 100.0
}

fn rate(price: Price) -> f64 {
    price.to_ten_thousandths() as f64 / 10_000.0
}

/// A quantity is printed as a plain decimal.
fn number(quantity: &str) -> f64 {
    quantity.parse().unwrap_or_default()
}
