//! What is written for other programs, and in which format.

use plan::{Plan, Priced};
use price::Rates;

use crate::refused::Refused;
use crate::{to_cityjson, to_csv, to_dxf, to_geojson, to_gltf, to_json, to_xlsx};

/// How a file is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExportFormat {
    /// One table, RFC 4180.
    Csv(Table),
    /// A workbook of all tables, with live formulas.
    Xlsx,
    /// A drawing: the roof from above, every plane unfolded, every kind of cut piece. Inches.
    Dxf,
    /// The roof in space, binary glTF 2.0: planes, courses, every piece. Metres.
    Gltf,
    /// The roof in plan, RFC 7946: outline, planes, lines, openings. Metres.
    GeoJson,
    /// The planes as roof surfaces, CityJSON 2.0. Metres.
    CityJson,
    /// The whole plan as data.
    Json,
}

/// A table of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Table {
    /// What to order.
    #[default]
    Order,
    /// The cut pieces in the order of the saw.
    CutList,
    /// What it costs, every way to cover the roof one after the other.
    Price,
}

/// Every way to cover the roof with its price, and the rates behind it.
#[derive(Debug, Clone, Copy)]
pub struct PriceList<'a> {
    /// The rates.
    pub rates: &'a Rates,
    /// The job as it is, then its options.
    pub ways: &'a [Priced],
}

/// Writes a plan as the bytes of a file; the same plan gives the same bytes on every machine.
///
/// # Errors
/// The plan, or the price list, has nothing of what the file would hold.
pub fn write(plan: &Plan, price: Option<PriceList>, format: ExportFormat) -> Result<Vec<u8>, Refused> {
    match format {
        ExportFormat::Csv(Table::Order) => to_csv::order(plan),
        ExportFormat::Csv(Table::CutList) => to_csv::cut_list(plan),
        ExportFormat::Csv(Table::Price) => to_csv::price(price),
        ExportFormat::Xlsx => to_xlsx::workbook(plan, price),
        ExportFormat::Dxf => to_dxf::drawing(plan),
        ExportFormat::Gltf => to_gltf::scene(plan),
        ExportFormat::GeoJson => to_geojson::map(plan),
        ExportFormat::CityJson => to_cityjson::model(plan),
        ExportFormat::Json => to_json::plan_file(plan),
    }
}
