//! The plan as data, as the command line prints it.

use plan::Plan;

use crate::refused::Refused;

pub(crate) fn plan_file(plan: &Plan) -> Result<Vec<u8>, Refused> {
    let unwritten =
        |error: serde_json::Error| Refused::new(format!("the plan cannot be written: {error}"), "Report the job file.");
    serde_json::to_string_pretty(plan).map(|text| (text + "\n").into_bytes()).map_err(unwritten)
}
