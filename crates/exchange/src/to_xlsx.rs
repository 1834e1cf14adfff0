//! The tables as a workbook, Office Open XML (ECMA-376): order, cut list, offcuts, and a sheet for every way to cover the roof with
//! its price. Where a person would reckon there is a formula, with its result beside it for programs that do not reckon.

mod cut_list;
mod desk;
mod order;
mod price;

use plan::Plan;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Workbook, Worksheet, XlsxError};

use crate::export::PriceList;
use crate::refused::Refused;
use desk::{Desk, Looks};

/// The day that every workbook bears, since the same plan gives the same bytes.
const DAY: (u16, u8, u8) = (2000, 1, 1);

pub(crate) fn workbook(plan: &Plan, price: Option<PriceList>) -> Result<Vec<u8>, Refused> {
    if plan.order.is_empty() && price.is_none() {
        let remedy = "Plan the roof first: every problem of the plan says what it needs.";
        return Err(Refused::new("there is nothing to put into tables", remedy));
    }
    bound(plan, price).map_err(|error| {
        Refused::new(format!("the workbook cannot be made: {error}"), "Export the tables as CSV, and report the job file.")
    })
}

fn bound(plan: &Plan, price: Option<PriceList>) -> Result<Vec<u8>, XlsxError> {
    let mut book = Workbook::new();
    let day = ExcelDateTime::from_ymd(DAY.0, DAY.1, DAY.2)?;
    book.set_properties(&DocProperties::new().set_title(desk::short(&plan.name)).set_creation_datetime(&day));
    let looks = Looks::new();
    order::write(&mut sheet(&mut book, &looks, "Order")?, plan)?;
    if plan.layout.cutting.iter().any(|cutting| !cutting.kinds.is_empty()) {
        cut_list::write(&mut sheet(&mut book, &looks, "Cut list")?, plan)?;
    }
    if cut_list::has_offcuts(plan) {
        cut_list::write_offcuts(&mut sheet(&mut book, &looks, "Offcuts")?, plan)?;
    }
    for (index, way) in price.iter().flat_map(|list| list.ways.iter().map(move |way| (list.rates, way))).enumerate() {
        let name = if index == 0 { "Price".into() } else { format!("Option {index}") };
        price::write(&mut sheet(&mut book, &looks, &name)?, &plan.name, way.0, way.1)?;
    }
    book.save_to_buffer()
}

fn sheet<'a>(book: &'a mut Workbook, looks: &'a Looks, name: &str) -> Result<Desk<'a>, XlsxError> {
    let sheet: &mut Worksheet = book.add_worksheet();
    sheet.set_name(name)?.set_landscape().set_print_fit_to_pages(1, 0);
    Ok(Desk::new(sheet, looks))
}
