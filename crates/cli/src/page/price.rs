use plan::Priced;
use price::{Bought, Hours, Rates};
use units::{Money, Percent};

use super::text::Page;

/// What the contractor reads: every line of every way, to the total.
pub(crate) fn costs(page: &mut Page, name: &str, rates: &Rates, ways: &[Priced]) {
    page.title(&format!("{name}: price"));
    warnings(page, rates, ways);
    ways.iter().for_each(|way| costs_of(page, rates, way));
    if ways.len() > 1 {
        page.heading("Side by side");
        ways.iter().for_each(|way| asked(page, rates, way));
    }
}

/// What the owner reads and signs: scope, price, exclusions, unit prices, draws.
pub(crate) fn proposal(page: &mut Page, name: &str, rates: &Rates, ways: &[Priced]) {
    page.title(&format!("{name}: proposal"));
    warnings(page, rates, ways);
    for way in ways {
        page.heading(&way.name);
        way.scope.iter().for_each(|sentence| page.hanging(2, "- ", sentence));
        asked(page, rates, way);
        unpriced(page, way);
        if way.whole {
            page.wrapped(2, "Paid:");
            way.quote.draws.iter().for_each(|draw| page.sum(4, &draw.when, &money(rates, draw.amount)));
        }
    }
    page.heading("Not in the price");
    rates.exclusions.iter().for_each(|sentence| page.hanging(2, "- ", sentence));
    if !rates.unit_prices.is_empty() {
        page.heading("Unit prices for what only shows when the old roof is off");
        for price in &rates.unit_prices {
            page.sum(2, &format!("{}, a {}", price.what, price.unit), &format!("{} {}", rates.currency, price.price));
        }
        page.wrapped(2, "Counted and photographed in place, agreed before it is covered.");
    }
    page.blank();
    page.wrapped(
        0,
        "The maker's sheet, the local code and the licensed designer rule over this proposal. What law asks of a contract where \
         the house stands, a notice of the right to cancel among it, is not in it.",
    );
    page.blank();
    page.wrapped(0, "Chosen: ______________________   Signed: ______________________   Date: __________");
}

fn warnings(page: &mut Page, rates: &Rates, ways: &[Priced]) {
    if rates.invented {
        page.wrapped(0, &format!("{}: ALL RATES ARE INVENTED. No price below is an offer.", rates.name));
    }
    let invented: Vec<&str> = ways.iter().filter(|way| way.covering_is_invented).map(|way| way.covering.as_str()).collect();
    if !invented.is_empty() {
        page.wrapped(0, "The figures of the covering sheets are invented and stand for no product.");
    }
}

fn costs_of(page: &mut Page, rates: &Rates, way: &Priced) {
    page.heading(&way.name);
    let quote = &way.quote;
    page.wrapped(2, "Materials");
    quote.materials.iter().for_each(|line| bought(page, rates, line));
    page.wrapped(2, "Labor");
    quote.labor.iter().for_each(|line| hours(page, rates, line));
    page.wrapped(2, "Disposal, lifts, permits, extras");
    quote.costs.iter().for_each(|line| bought(page, rates, line));
    unpriced(page, way);
    let sums = &quote.sums;
    let crew_hours = sums.crew_hours_thousandths as f64 / 1000.0;
    let rows = [
        ("Materials".to_owned(), sums.materials),
        (taxed("Tax on materials", rates, sums.tax_on_materials), sums.tax_on_materials),
        (format!("Labor, {crew_hours:.1} crew-hours"), sums.labor),
        ("Disposal, lifts, permits, extras".to_owned(), sums.costs),
        (format!("Overhead, {} of these", rates.overhead), sums.overhead),
        (format!("Margin, {} of the price before tax", rates.margin), sums.margin),
        (taxed("Tax on the price", rates, sums.tax), sums.tax),
    ];
    page.wrapped(2, "Sums");
    let shown = rows.iter().filter(|(_, sum)| *sum != Money::ZERO);
    shown.for_each(|(words, sum)| page.sum(4, words, &money(rates, *sum)));
    asked(page, rates, way);
}

fn taxed(words: &str, rates: &Rates, tax: Money) -> String {
    let part = rates.tax.filter(|_| tax != Money::ZERO).map_or(Percent::default(), |tax| tax.percent);
    format!("{words}, {part}")
}

fn bought(page: &mut Page, rates: &Rates, line: &Bought) {
    let words = format!("{} × {} at {} {}: {}", line.quantity, line.unit, rates.currency, line.price, line.what);
    page.sum(4, &words, &money(rates, line.amount));
}

fn hours(page: &mut Page, rates: &Rates, line: &Hours) {
    let hours = line.crew_hours_thousandths as f64 / 1000.0;
    let words = format!("{}: {} × {}, {hours} crew-hours", line.task, line.quantity, line.unit);
    page.sum(4, &words, &money(rates, line.amount));
}

/// The total; where something is not planned or has no price there is none.
fn asked(page: &mut Page, rates: &Rates, way: &Priced) {
    let sum = money(rates, way.quote.sums.total);
    if way.whole {
        return page.sum(2, &format!("Total, {}", way.name), &sum);
    }
    let lacks: Vec<&str> = way.quote.unpriced.iter().map(|missing| missing.what.as_str()).collect();
    let lacks = if lacks.is_empty() {
        "not all of the roof is planned".into()
    } else {
        format!("no price for {}", lacks.join("; "))
    };
    page.hanging(2, "NO TOTAL ", &format!("{}: {lacks}. All the rest comes to {sum}.", way.name));
}

fn unpriced(page: &mut Page, way: &Priced) {
    for missing in &way.quote.unpriced {
        page.hanging(4, "NO PRICE ", &format!("{}: {}. {}", missing.what, missing.says, missing.remedy));
    }
}

fn money(rates: &Rates, amount: Money) -> String {
    format!("{} {amount}", rates.currency.trim())
}
