//! Quotes worked by hand, and what must hold of all. Figures are invented.
#![allow(clippy::unwrap_used, reason = "tests only")]

use price::{Counted, Material, Of, Quote, Rates, SHIPPED, Work, draws, quote, read_rates, shipped};
use proptest::prelude::*;
use reader::Format;
use units::{Money, Percent, Pitch};

const RATES: &str = r#"
format = 1
name = "Trial"
invented = true
currency = "$"
overhead_percent = 10
margin_percent = 20
tax = { percent = 5, on = "materials" }
crew = { hour = 100 }
[[material]]
line = "field-units"
price = 12.345
[[material]]
line = "field-units"
sheet = "dear"
price = "99.99"
[[labor]]
task = "Lay"
of = "squares"
hours = 0.5
[[labor]]
task = "Steep"
of = "squares"
from_pitch = "9/12"
hours = 1
[[cost]]
what = "Permit"
of = "job"
price = 10.01
[[extra]]
name = "guards"
of = "eave-feet"
price = 2
[proposal]
[[proposal.draw]]
when = "first"
percent = 30
[[proposal.draw]]
when = "last"
percent = 70
"#;

fn rates(text: &str) -> Rates {
    let read = read_rates(text, Format::Toml);
    read.value.unwrap_or_else(|| panic!("{:?}", read.mistakes))
}

fn material(sheet: &str) -> Material {
    Material {
        id: "field-units".into(),
        line: "field-units".into(),
        sheet: sheet.into(),
        item: "slate".into(),
        packs: 3,
        pack: "bundle of 20".into(),
    }
}

/// 1.5 squares at 8/12 and 1 square at 9/12.
fn work(sheet: &str) -> Work {
    let pitch = |rise| Pitch::per_12(rise).unwrap();
    Work {
        materials: vec![material(sheet)],
        counted: [(Of::Squares, 2.5), (Of::EaveFeet, 41.5), (Of::Job, 1.0)].map(|(of, n)| (of, Counted::Known(n))).into(),
        planes: vec![(pitch(8.0), 1.5), (pitch(9.0), 1.0)],
    }
}

fn cents(amount: Money) -> i64 {
    amount.to_cents()
}

/// 3 × 12.345 = 37.035, a half cent goes up: 37.04, and 5 % of it are 1.85. 0.5 h × 2.5 and 1 h × 1 at 100 are 225.00. With the
/// permit direct cost is 273.90, with a tenth on it 301.29. A fifth of the price is margin: 301.29 / 0.8 = 376.6125.
#[test]
fn a_quote_worked_by_hand() {
    let quote = quote(&rates(RATES), &work("plain"), &[]);
    let sums = &quote.sums;
    assert_eq!([sums.materials, sums.tax_on_materials, sums.labor, sums.costs].map(cents), [3704, 185, 22_500, 1001]);
    assert_eq!([sums.direct, sums.overhead, sums.before_tax, sums.margin].map(cents), [27_390, 2739, 37_661, 7532]);
    assert_eq!([sums.tax, sums.total].map(cents), [0, 37_661]);
    assert_eq!(sums.crew_hours_thousandths, 2250);
    // 30 % of 376.61 are 112.983.
    assert_eq!(quote.draws.iter().map(|draw| draw.amount.to_cents()).collect::<Vec<_>>(), [11_298, 26_363]);
    assert!(quote.unpriced.is_empty());
}

#[test]
fn a_sheets_own_price_rules_and_extras_are_added_by_name() {
    let quote = quote(&rates(RATES), &work("dear"), &["guards".into()]);
    assert_eq!(quote.sums.materials, Money::cents(29_997));
    assert_eq!(quote.costs.last().unwrap().amount, Money::cents(8300));
}

#[test]
fn tax_on_the_price_comes_on_top() {
    let quote = quote(&rates(&RATES.replace("on = \"materials\"", "on = \"price\"")), &work("plain"), &[]);
    // 272.05 + 27.21 = 299.26, / 0.8 = 374.075, and 5 % of 374.08 are 18.704.
    assert_eq!([quote.sums.before_tax, quote.sums.tax, quote.sums.total].map(cents), [37_408, 1870, 39_278]);
}

/// Nothing is left out without a word.
#[test]
fn what_has_no_price_is_told() {
    let mut work = work("plain");
    work.materials.push(Material { line: "caps".into(), ..material("plain") });
    work.counted.insert(Of::Pallets, Counted::Missing("[storage] pallet_packs of the sheet".into()));
    let text = format!("{RATES}\n[[cost]]\nwhat = \"Lifts\"\nof = \"pallets\"\nprice = 60\n");
    let quote = quote(&rates(&text), &work, &["gards".into()]);
    let told: Vec<String> = quote.unpriced.iter().map(|of| format!("{} {}", of.says, of.remedy)).collect();
    assert_eq!(told.len(), 3);
    assert!(told[0].contains("\"caps\"") && told[0].contains("[[material]]"), "{}", told[0]);
    assert!(told[1].contains("pallet_packs"), "{}", told[1]);
    assert!(told[2].contains("\"guards\""), "{}", told[2]);
}

#[test]
fn the_rates_that_ship_are_sound_and_invented() {
    assert!(shipped().unwrap().invented);
    assert!(SHIPPED.contains("EVERY FIGURE IS INVENTED"));
}

#[test]
fn mistakes_are_told_with_their_line_and_the_nearest_key() {
    let wrong = |from: &str, to: &str| {
        let mistakes = read_rates(&RATES.replacen(from, to, 1), Format::Toml).mistakes;
        let told = |mistake: &reader::Mistake| format!("{}: {} {}", mistake.line, mistake.says, mistake.remedy);
        mistakes.iter().map(told).collect::<Vec<_>>().join("\n")
    };
    for (from, to, says) in [
        ("margin_percent", "magin_percent", "margin_percent"),
        ("margin_percent = 20", "margin_percent = 99", "7: 99 % is not from 0 to 90 %"),
        ("price = 12.345", "price = 12.34567", "more than 4 decimals"),
        ("price = 12.345", "price = -1", "not a decimal number of 0 or more"),
        ("percent = 70", "percent = 69.99", "the draws sum to 99.99 %, not to 100 %"),
        ("sheet = \"dear\"\n", "", "there are two of \"field-units\""),
        ("of = \"squares\"\nfrom_pitch", "of = \"job\"\nfrom_pitch", "only squares lie on planes of a pitch"),
        ("of = \"eave-feet\"", "of = \"eave-foot\"", "eave-feet"),
        ("hours = 0.5", "hours = 1e9", "not a number of crew-hours"),
        ("currency = \"$\"", "currency = \"\"", "1 to 8 letters"),
    ] {
        let told = wrong(from, to);
        assert!(told.contains(says), "{to}: {told}");
    }
}

fn total(quote: &Quote) -> i64 {
    let lines = quote.materials.iter().chain(&quote.costs).map(|line| line.amount);
    let hours = quote.labor.iter().map(|line| line.amount);
    lines.chain(hours).sum::<Money>().to_cents()
}

proptest! {
    /// None is negative, and they sum to the total, to the cent.
    #[test]
    fn draws_sum_to_the_total(total in 0i64..1_000_000_000_000, parts in prop::collection::vec(0i64..3000, 1..8)) {
        let rest = 10_000 - parts.iter().sum::<i64>();
        prop_assume!(rest >= 0);
        let draw = |part: i64| price::DrawTable { when: "then".into(), percent: Percent::hundredths(part) };
        let tables: Vec<_> = parts.into_iter().chain([rest]).map(draw).collect();
        let draws = draws(&tables, Money::cents(total));
        prop_assert!(draws.iter().all(|draw| draw.amount >= Money::ZERO));
        prop_assert_eq!(draws.iter().map(|draw| draw.amount).sum::<Money>(), Money::cents(total));
    }

    /// The lines sum to the direct cost, and the direct cost to the total, with nothing rounded away between.
    #[test]
    fn sums_are_exact(packs in 0u64..100_000, squares in 0.0..5000.0f64, feet in 0.0..5000.0f64) {
        let mut work = work("plain");
        work.materials[0].packs = packs;
        work.counted.insert(Of::Squares, Counted::Known(squares));
        work.counted.insert(Of::EaveFeet, Counted::Known(feet));
        let quote = quote(&rates(RATES), &work, &["guards".into()]);
        let sums = &quote.sums;
        prop_assert_eq!(total(&quote) + sums.tax_on_materials.to_cents(), sums.direct.to_cents());
        prop_assert_eq!(sums.direct + sums.overhead + sums.margin + sums.tax, sums.total);
        prop_assert!(sums.margin >= Money::ZERO);
    }
}

/// The words of the schema are those that serde reads.
#[test]
fn what_is_counted_is_named_as_it_is_typed() {
    let all = [
        Of::Squares,
        Of::OldSquares,
        Of::EaveFeet,
        Of::RakeFeet,
        Of::RidgeFeet,
        Of::HipFeet,
        Of::ValleyFeet,
        Of::WallFeet,
        Of::FieldPieces,
        Of::CutPieces,
        Of::Starters,
        Of::Caps,
        Of::Openings,
        Of::Pallets,
        Of::Job,
    ];
    let schema = schemars::schema_for!(Of);
    let words = schema.as_value()["oneOf"].as_array().unwrap().iter().map(|one| one["const"].as_str().unwrap());
    assert_eq!(words.collect::<Vec<_>>(), all.map(Of::name));
}
