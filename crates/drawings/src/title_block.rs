use plan::Plan;

use crate::lettering::{SMALL, fitted, fitted_strong, small, strong};
use crate::page::MARGIN;
use crate::{Anchor, Fill, Item, LineType, Page, Scale};

/// Of a row of fields, mm.
pub(crate) const ROW: f64 = 11.0;

/// A named value and the parts of the row's width that it takes.
pub(crate) struct Field {
    name: &'static str,
    value: String,
    parts: f64,
}

pub(crate) fn field(parts: f64, name: &'static str, value: impl Into<String>) -> Field {
    Field { name, value: value.into(), parts }
}

/// The fields of a sheet of the whole roof; `counted` is a figure that tells it from another.
pub(crate) fn of_whole_roof(
    plan: &Plan,
    sheet: &'static str,
    counted: (&'static str, usize),
    scale: Scale,
    page: Page,
) -> [Vec<Field>; 2] {
    let invented = if plan.covering.invented { ", invented figures" } else { "" };
    [
        vec![field(8.5, "Job", &plan.name), field(2.5, "Sheet", sheet), field(2.0, counted.0, counted.1.to_string())],
        vec![
            field(8.5, "Covering", format!("{}{invented}", plan.covering.name)),
            field(2.5, "Scale", scale.to_string()),
            field(2.0, "Paper", page.name),
        ],
    ]
}

/// Rows of fields at the foot of the paper.
pub(crate) fn draw(page: Page, rows: &[Vec<Field>]) -> Vec<Item> {
    let [_, height] = page.size();
    let top = height - MARGIN - ROW * rows.len() as f64;
    rows.iter().enumerate().flat_map(|(index, fields)| row(page, top + ROW * index as f64, fields)).collect()
}

fn row(page: Page, top: f64, fields: &[Field]) -> Vec<Item> {
    let [width, _] = page.size();
    let part = (width - 2.0 * MARGIN) / fields.iter().map(|field| field.parts).sum::<f64>();
    let mut left = MARGIN;
    let mut items = Vec::new();
    for field in fields {
        items.extend(cell(left, top, part * field.parts, field));
        left += part * field.parts;
    }
    items
}

fn cell(left: f64, top: f64, width: f64, field: &Field) -> [Item; 3] {
    let [right, base] = [left + width, top + ROW];
    let frame = vec![vec![[left, top], [right, top], [right, base], [left, base]]];
    [
        Item::Shape { rings: frame, line: LineType::Course, fill: Fill::Paper },
        small([left + 1.5, top + 4.0], Anchor::Start, fitted(field.name, SMALL, width - 3.0)),
        strong([left + 1.5, top + 9.0], SMALL, Anchor::Start, fitted_strong(&field.value, SMALL, width - 3.0)),
    ]
}
