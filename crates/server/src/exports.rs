//! A revision for other programs, with the very bytes that `headlap export` writes.

use axum::extract::State;
use axum::response::Response;
use exchange::{ExportFormat, PriceList, Refused, Table};
use plan::Job;
use schemars::JsonSchema;
use serde::Deserialize;

use crate::App;
use crate::answer::{Asked, At, Refusal, work};
use crate::jobs::{attached, kept};
use crate::plans::{CATALOG, cannot_be_planned, job_of};
use crate::prices;

/// As `headlap export --to` has it.
#[derive(Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum FormatWord {
    /// A workbook: order, cut list, offcuts and price, with live formulas.
    Xlsx,
    /// A drawing: the roof from above, every plane unfolded, every kind of cut piece; inches.
    Dxf,
    /// The roof in space with every piece, binary; metres.
    Gltf,
    /// The roof in plan; metres.
    Geojson,
    /// The planes as roof surfaces; metres.
    Cityjson,
    /// The whole plan.
    Json,
    /// One table as comma-separated values.
    Csv,
}

/// Of a table: which.
#[derive(Clone, Copy, Default, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum TableWord {
    /// What to order.
    #[default]
    Order,
    /// The cut pieces in the order of the saw.
    CutList,
    /// What it costs.
    Price,
}

/// What is asked for beside the format.
#[derive(Deserialize)]
pub(crate) struct Wanted {
    #[serde(default)]
    table: TableWord,
}

impl FormatWord {
    const fn format(self, table: TableWord) -> ExportFormat {
        match (self, table) {
            (Self::Xlsx, _) => ExportFormat::Xlsx,
            (Self::Dxf, _) => ExportFormat::Dxf,
            (Self::Gltf, _) => ExportFormat::Gltf,
            (Self::Geojson, _) => ExportFormat::GeoJson,
            (Self::Cityjson, _) => ExportFormat::CityJson,
            (Self::Json, _) => ExportFormat::Json,
            (Self::Csv, TableWord::Order) => ExportFormat::Csv(Table::Order),
            (Self::Csv, TableWord::CutList) => ExportFormat::Csv(Table::CutList),
            (Self::Csv, TableWord::Price) => ExportFormat::Csv(Table::Price),
        }
    }
}

/// What a file of this format is sent as, and how its name ends behind the job's.
const fn sent_as(format: ExportFormat) -> (&'static str, &'static str) {
    match format {
        ExportFormat::Xlsx => ("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", ".xlsx"),
        ExportFormat::Dxf => ("image/vnd.dxf", ".dxf"),
        ExportFormat::Gltf => ("model/gltf-binary", ".glb"),
        ExportFormat::GeoJson => ("application/geo+json", ".geojson"),
        ExportFormat::CityJson => ("application/city+json", ".city.json"),
        ExportFormat::Json => ("application/json", "-plan.json"),
        ExportFormat::Csv(Table::Order) => ("text/csv", "-order.csv"),
        ExportFormat::Csv(Table::CutList) => ("text/csv", "-cut-list.csv"),
        ExportFormat::Csv(Table::Price) => ("text/csv", "-price.csv"),
    }
}

/// All that a file is sent as.
pub(crate) const KINDS: [&str; 7] = [
    sent_as(ExportFormat::Xlsx).0,
    sent_as(ExportFormat::Dxf).0,
    sent_as(ExportFormat::Gltf).0,
    sent_as(ExportFormat::GeoJson).0,
    sent_as(ExportFormat::CityJson).0,
    sent_as(ExportFormat::Json).0,
    sent_as(ExportFormat::Csv(Table::Order)).0,
];

pub(crate) async fn export(
    State(app): State<App>,
    At((id, version, word)): At<(i64, i64, FormatWord)>,
    Asked(wanted): Asked<Wanted>,
) -> Result<Response, Refusal> {
    let format = word.format(wanted.table);
    let text = kept(&app, id, version).await?.text;
    let (kind, ending) = sent_as(format);
    let name = text.clone();
    let bytes = work(move || written(&text, format)).await??;
    Ok(attached(&name, ending, kind, bytes))
}

fn written(text: &str, format: ExportFormat) -> Result<Vec<u8>, Refusal> {
    let job = job_of(text).map_err(cannot_be_planned)?;
    let plan = plan::plan(&job, &CATALOG);
    let refused = |Refused { says, remedy }| Refusal::bad(says, remedy);
    if matches!(format, ExportFormat::Xlsx | ExportFormat::Csv(Table::Price)) {
        return with_price(&job, &plan, format);
    }
    exchange::write(&plan, None, format).map_err(refused)
}

fn with_price(job: &Job, plan: &plan::Plan, format: ExportFormat) -> Result<Vec<u8>, Refusal> {
    let rates = prices::rates(job).map_err(cannot_be_planned)?;
    let ways = plan::price(job, &CATALOG, &rates);
    let list = PriceList { rates: &rates, ways: &ways };
    exchange::write(plan, Some(list), format).map_err(|Refused { says, remedy }| Refusal::bad(says, remedy))
}
