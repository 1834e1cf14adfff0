//! Order, cut list and price as CSV and as a workbook.

#[path = "common/houses.rs"]
mod houses;

use std::io::{Cursor, Read};

use exchange::{ExportFormat, PriceList, Table, write};
use houses::{example, examples, planned, priced};
use zip::ZipArchive;

/// Fields of each record, read by the grammar of RFC 4180, section 2. Panics on what the grammar does not know.
fn read_csv(bytes: &[u8]) -> Vec<Vec<String>> {
    let text = std::str::from_utf8(bytes).expect("UTF-8");
    assert!(text.ends_with("\r\n"));
    let (mut records, mut record, mut rest) = (Vec::new(), Vec::new(), text);
    while !rest.is_empty() {
        let (field, after) = field(rest);
        record.push(field);
        rest = match after.strip_prefix(',') {
            Some(more) => more,
            None => {
                records.push(std::mem::take(&mut record));
                after.strip_prefix("\r\n").unwrap_or_else(|| panic!("a record ends with CR LF: {after:?}"))
            }
        };
    }
    records
}

fn field(text: &str) -> (String, &str) {
    let Some(mut rest) = text.strip_prefix('"') else {
        let end = text.find([',', '\r', '\n']).expect("an end");
        assert!(!text[..end].contains('"'), "a quote in a plain field");
        return (text[..end].to_owned(), &text[end..]);
    };
    let mut field = String::new();
    loop {
        let end = rest.find('"').expect("a closing quote");
        field.push_str(&rest[..end]);
        rest = &rest[end + 1..];
        match rest.strip_prefix('"') {
            Some(more) => (field.push('"'), rest = more).0,
            None => return (field, rest),
        }
    }
}

/// The values of a column, by its heading.
fn column(records: &[Vec<String>], name: &str) -> Vec<String> {
    let at = records[0].iter().position(|head| head == name).unwrap_or_else(|| panic!("no column {name}"));
    assert!(records.iter().all(|record| record.len() == records[0].len()), "records of one length");
    records[1..].iter().map(|record| record[at].clone()).collect()
}

fn sum(values: &[String]) -> f64 {
    values.iter().filter(|value| !value.is_empty()).map(|value| value.parse::<f64>().expect("a number")).sum()
}

#[test]
fn the_order_is_all_there() {
    for (name, plan) in examples() {
        let records = read_csv(&write(&plan, None, ExportFormat::Csv(Table::Order)).unwrap());
        let ids: Vec<&str> = plan.order.iter().map(|line| line.id.as_str()).collect();
        assert_eq!(column(&records, "id"), ids, "{name}");
        let packs: Vec<String> = plan.order.iter().map(|line| line.packs.to_string()).collect();
        assert_eq!(column(&records, "packs"), packs, "{name}");
        for (total, of) in [
            (plan.order.iter().map(|line| line.quantity).sum::<f64>(), "quantity"),
            (plan.order.iter().map(|line| line.weight_lb).sum(), "weight_lb"),
        ] {
            // Each is rounded to a thousandth.
            assert!((sum(&column(&records, of)) - total).abs() <= 0.0005 * ids.len() as f64, "{name}: {of}");
        }
    }
}

/// Every cut piece that lies on the roof stands in the list, once.
#[test]
fn the_cut_list_counts_what_is_laid() {
    for (name, plan) in examples() {
        let records = read_csv(&write(&plan, None, ExportFormat::Csv(Table::CutList)).unwrap());
        assert!((sum(&column(&records, "pieces")) - plan.layout.cut as f64).abs() < 0.5, "{name}");
        let bevels = column(&records, "bevel_deg");
        assert!(bevels.iter().all(|bevel| (0.0..=90.0).contains(&bevel.parse::<f64>().unwrap())), "{name}");
    }
}

#[test]
fn the_price_sums_to_its_sums() {
    for name in ["gable", "manor"] {
        let (rates, ways) = priced(example(name));
        let list = PriceList { rates: &rates, ways: &ways };
        let records = read_csv(&write(&planned(example(name)), Some(list), ExportFormat::Csv(Table::Price)).unwrap());
        let [way, part, what, amount] = ["way", "part", "what", "amount"].map(|of| column(&records, of));
        let of = |wanted: &str, only: &str| -> i64 {
            let rows = (0..part.len())
                .filter(|&row| way[row] == ways[0].name && part[row] == wanted && (only.is_empty() || what[row] == only));
            // Cents, so that nothing is lost.
            rows.map(|row| amount[row].replace('.', "").parse::<i64>().expect("two decimals")).sum()
        };
        assert_eq!(of("materials", ""), of("sum", "materials"), "{name}");
        assert_eq!(of("labor", ""), of("sum", "labor"), "{name}");
        assert_eq!(of("costs", ""), of("sum", "other costs"), "{name}");
        assert_eq!(of("draw", ""), of("sum", "total"), "{name}");
        let parts = ["materials", "sales tax on materials", "labor", "other costs"];
        assert_eq!(parts.iter().map(|part| of("sum", part)).sum::<i64>(), of("sum", "all cost"), "{name}");
    }
}

const HOSTILE: &str = r#"
format = 1
name = "=HYPERLINK(\"x\")"
[covering]
sheet = "composite-slate"
[[block]]
name = "=1+1\r\n,\"x\""
outline = [[0, 0], [20, 0], [20, 16], [0, 16]]
eave_height = 9
edges = [{ eave = "8/12" }, { eave = "8/12" }, { eave = "8/12" }, { eave = "8/12" }]
"#;

#[test]
fn no_name_becomes_a_formula() {
    let plan = planned(HOSTILE);
    let records = read_csv(&write(&plan, None, ExportFormat::Csv(Table::CutList)).unwrap());
    let planes = column(&records, "plane");
    assert!(!planes.is_empty() && planes.iter().all(|plane| plane.starts_with("'=1+1")), "{planes:?}");
    let book = sheets(&write(&plan, None, ExportFormat::Xlsx).unwrap());
    assert!(book.iter().all(|xml| !xml.contains("HYPERLINK(") && !xml.contains("<f>1+1")));
}

/// The sheets of a workbook, in order.
fn sheets(bytes: &[u8]) -> Vec<String> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).expect("a ZIP archive");
    let sheet = |number: usize| {
        let mut xml = String::new();
        archive.by_name(&format!("xl/worksheets/sheet{number}.xml")).ok()?.read_to_string(&mut xml).ok()?;
        Some(xml)
    };
    (1..).map_while(sheet).collect()
}

/// The formulas of a sheet with the values beside them.
fn formulas(xml: &str) -> Vec<(String, f64)> {
    let between = |text: &str, open: &str, close: &str| {
        let from = text.find(open).map(|at| at + open.len())?;
        text[from..].find(close).map(|to| text[from..from + to].to_owned())
    };
    let cells = xml.split("<c ").filter(|cell| cell.contains("<f>"));
    cells
        .map(|cell| {
            (
                between(cell, "<f>", "</f>").expect("a formula"),
                between(cell, "<v>", "</v>").and_then(|value| value.parse().ok()).expect("a number"),
            )
        })
        .collect()
}

#[test]
fn packs_and_amounts_are_live_and_have_their_values() {
    for (name, plan) in examples() {
        let (rates, ways) = priced(example(name));
        let book = sheets(&write(&plan, Some(PriceList { rates: &rates, ways: &ways }), ExportFormat::Xlsx).unwrap());
        let order = formulas(&book[0]);
        let packs: Vec<f64> =
            order.iter().filter(|(formula, _)| formula.starts_with("ROUNDUP")).map(|formula| formula.1).collect();
        let bundles: Vec<f64> =
            plan.order.iter().filter(|line| line.in_pack.is_some()).map(|line| line.packs as f64).collect();
        assert_eq!(packs.len(), bundles.len(), "{name}");
        assert!(packs.iter().zip(&bundles).all(|(is, expected)| (is - expected).abs() < 1e-9), "{name}");
        let price = formulas(book.last().unwrap());
        let quote = &ways.last().unwrap().quote;
        let lines = quote.materials.len() + quote.labor.len() + quote.costs.len();
        let amounts = price.iter().filter(|(formula, _)| formula.starts_with("ROUND(B") || formula.starts_with("ROUND(D"));
        assert_eq!(amounts.count(), lines, "{name}");
        let total = quote.sums.total.to_cents() as f64 / 100.0;
        assert!(price.iter().any(|(formula, value)| !formula.contains("ROUND") && (value - total).abs() < 1e-9), "{name}");
    }
}

#[test]
fn a_roof_without_order_is_refused_with_what_to_do() {
    let plan = houses::nothing();
    for format in [
        ExportFormat::Csv(Table::Order),
        ExportFormat::Csv(Table::CutList),
        ExportFormat::Csv(Table::Price),
        ExportFormat::Xlsx,
    ] {
        let refused = write(&plan, None, format).unwrap_err();
        assert!(!refused.says.is_empty() && refused.remedy.ends_with('.'), "{refused}");
    }
}
