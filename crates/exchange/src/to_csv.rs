//! Tables as CSV: RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files", IETF, 2005, in UTF-8; a header
//! line, CR LF after every line. Quantities and lengths are rounded to a thousandth; amounts are exact.

use plan::{Plan, Priced};
use price::{Bought, Hours, Quote, Sums};
use units::Money;

use crate::cut_row::{CutRow, cut_rows};
use crate::export::PriceList;
use crate::refused::Refused;

/// One field of a line.
enum Field {
    /// Somebody may have typed it.
    Text(String),
    /// Made here.
    Number(String),
    Blank,
}

type Line = Vec<Field>;

pub(crate) fn order(plan: &Plan) -> Result<Vec<u8>, Refused> {
    if plan.order.is_empty() {
        return Err(Refused::new(
            "the order has no lines",
            "Plan the roof first: every problem of the plan says what it needs.",
        ));
    }
    let heads =
        ["id", "item", "size", "quantity", "unit", "in_pack", "spare_packs", "packs", "pack", "weight_lb", "estimate"];
    let line = |line: &plan::OrderLine| {
        vec![
            text(&line.id),
            text(&line.item),
            text(&line.size),
            number(line.quantity),
            text(&line.unit),
            line.in_pack.map_or(Field::Blank, whole),
            line.spare.as_ref().map_or(Field::Blank, |spare| whole(spare.packs)),
            whole(line.packs),
            text(&line.pack),
            number(line.weight_lb),
            text(&line.estimate),
        ]
    };
    Ok(written(&heads, plan.order.iter().map(line)))
}

pub(crate) fn cut_list(plan: &Plan) -> Result<Vec<u8>, Refused> {
    let heads = [
        "sheet",
        "unit_width_in",
        "unit_length_in",
        "piece",
        "bin",
        "bevel_deg",
        "leans",
        "butt_in",
        "head_in",
        "widest_in",
        "length_in",
        "made",
        "plane",
        "cut",
        "first_course",
        "last_course",
        "pieces",
    ];
    let rows = cut_rows(plan);
    if rows.is_empty() {
        return Err(Refused::new("nothing is cut on this roof", "Export the order instead."));
    }
    Ok(written(&heads, rows.iter().map(cut_line)))
}

fn cut_line(row: &CutRow) -> Line {
    let CutRow { cutting, number: piece, kind, place, plane } = row;
    let [first, last] = place.courses.map(|course| course + 1);
    vec![
        text(&cutting.sheet),
        number(cutting.width_in),
        number(cutting.length_in),
        whole(piece),
        text(&kind.bin),
        number(kind.bevel_deg),
        text(kind.hand),
        number(kind.butt_in),
        number(kind.head_in),
        number(kind.width_in),
        number(kind.height_in),
        text(&kind.made.join(" ")),
        text(plane),
        whole(place.cut + 1),
        whole(first),
        whole(last),
        whole(place.count),
    ]
}

pub(crate) fn price(list: Option<PriceList>) -> Result<Vec<u8>, Refused> {
    let Some(PriceList { rates, ways }) = list else {
        return Err(Refused::new("there is no price list", "Give rates, and export the price again."));
    };
    let heads = ["way", "part", "what", "quantity", "unit", "crew_hours", "price", "amount", "remark"];
    Ok(written(&heads, ways.iter().flat_map(|way| way_lines(way, &rates.currency))))
}

/// The amounts of the parts `materials`, `labor` and `costs` sum to those of `sum`.
fn way_lines(way: &Priced, currency: &str) -> Vec<Line> {
    let Quote { materials, labor, costs, unpriced, sums, draws } = &way.quote;
    let line = |part: &str, rest: [Field; 7]| [text(&way.name), text(part)].into_iter().chain(rest).collect();
    let of_materials = materials.iter().map(|bought| line("materials", paid(bought)));
    let of_labor = labor.iter().map(|hours| line("labor", worked(hours)));
    let of_costs = costs.iter().map(|bought| line("costs", paid(bought)));
    let of_sums = named(sums).into_iter().map(|(what, amount)| line("sum", summed(what, amount, currency)));
    let of_draws = draws.iter().map(|draw| {
        let part = draw.percent.to_hundredths() as f64 / 100.0;
        line(
            "draw",
            [text(&draw.when), number(part), text("%"), Field::Blank, Field::Blank, money(draw.amount), text(currency)],
        )
    });
    let of_unpriced = unpriced.iter().map(|line_of| {
        let remark = format!("{}. {}", line_of.says, line_of.remedy);
        let blank = || Field::Blank;
        line("unpriced", [text(&line_of.what), blank(), blank(), blank(), blank(), blank(), text(&remark)])
    });
    of_materials.chain(of_labor).chain(of_costs).chain(of_sums).chain(of_draws).chain(of_unpriced).collect()
}

fn paid(bought: &Bought) -> [Field; 7] {
    [
        text(&bought.what),
        Field::Number(bought.quantity.clone()),
        text(&bought.unit),
        Field::Blank,
        Field::Number(bought.price.to_string()),
        money(bought.amount),
        Field::Blank,
    ]
}

fn worked(hours: &Hours) -> [Field; 7] {
    [
        text(&hours.task),
        Field::Number(hours.quantity.clone()),
        text(hours.unit),
        number(hours.crew_hours_thousandths as f64 / 1000.0),
        Field::Blank,
        money(hours.amount),
        Field::Blank,
    ]
}

/// The sums by name, from the first to the total.
fn named(sums: &Sums) -> [(&'static str, Money); 10] {
    [
        ("materials", sums.materials),
        ("sales tax on materials", sums.tax_on_materials),
        ("labor", sums.labor),
        ("other costs", sums.costs),
        ("all cost", sums.direct),
        ("overhead", sums.overhead),
        ("margin", sums.margin),
        ("before tax", sums.before_tax),
        ("sales tax", sums.tax),
        ("total", sums.total),
    ]
}

fn summed(what: &str, amount: Money, currency: &str) -> [Field; 7] {
    [text(what), Field::Blank, Field::Blank, Field::Blank, Field::Blank, money(amount), text(currency)]
}

fn text(words: &str) -> Field {
    Field::Text(words.to_owned())
}

fn number(value: f64) -> Field {
    Field::Number(format!("{}", (value * 1000.0).round() / 1000.0 + 0.0))
}

fn whole(value: impl ToString) -> Field {
    Field::Number(value.to_string())
}

/// Without the commas of a printed page.
fn money(amount: Money) -> Field {
    Field::Number(amount.to_string().replace(',', ""))
}

fn written(heads: &[&str], lines: impl Iterator<Item = Line>) -> Vec<u8> {
    let head = heads.iter().map(|head| text(head)).collect();
    std::iter::once(head).chain(lines).map(|line: Line| joined(&line)).collect::<String>().into_bytes()
}

fn joined(line: &[Field]) -> String {
    let fields: Vec<String> = line.iter().map(field).collect();
    fields.join(",") + "\r\n"
}

fn field(field: &Field) -> String {
    match field {
        Field::Text(words) => quoted(&harmless(words)),
        Field::Number(number) => number.clone(),
        Field::Blank => String::new(),
    }
}

/// RFC 4180, section 2, rules 5 to 7.
fn quoted(words: &str) -> String {
    if words.contains(['"', ',', '\r', '\n']) { format!("\"{}\"", words.replace('"', "\"\"")) } else { words.to_owned() }
}

/// What a spreadsheet would take for a formula gets an apostrophe in front, which it shows as words: OWASP, "CSV Injection" (from
/// memory, not read), with the full-width signs that some take for the narrow ones.
fn harmless(words: &str) -> String {
    let signs = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];
    if words.trim_start_matches(' ').starts_with(signs) { format!("'{words}") } else { words.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of RFC 4180, section 2, rules 5 to 7.
    #[test]
    fn fields_are_quoted_where_they_must() {
        let told = |words: &str| field(&text(words));
        assert_eq!(told("aaa"), "aaa");
        assert_eq!(told("b\r\nbb"), "\"b\r\nbb\"");
        assert_eq!(told("b\"bb"), "\"b\"\"bb\"");
        assert_eq!(joined(&[text("aaa"), Field::Blank, text("c,c")]), "aaa,,\"c,c\"\r\n");
    }

    #[test]
    fn no_field_of_words_begins_a_formula() {
        for words in ["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\r=1", " =1", "＝1"] {
            assert!(harmless(words).starts_with('\''), "{words:?}");
        }
        assert_eq!(harmless("ridge - south"), "ridge - south");
    }

    #[test]
    fn numbers_have_three_decimals_at_most_and_no_negative_zero() {
        assert_eq!(field(&number(1_234.500_000_000_2)), "1234.5");
        assert_eq!(field(&number(-0.000_1)), "0");
        assert_eq!(field(&money(Money::cents(1_234_567))), "12345.67");
    }
}
