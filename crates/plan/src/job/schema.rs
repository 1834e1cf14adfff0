//! The JSON Schemas of the files that people write, made from the types that read them.

use covering::SheetFile;
use schemars::{JsonSchema, schema_for};

use super::file::JobFile;

/// JSON Schema (draft 2020-12) of the job file, with a line end after it.
#[must_use]
pub fn job_schema() -> String {
    schema::<JobFile>()
}

/// JSON Schema (draft 2020-12) of a covering sheet, with a line end after it.
#[must_use]
pub fn sheet_schema() -> String {
    schema::<SheetFile>()
}

fn schema<T: JsonSchema>() -> String {
    format!("{:#}\n", schema_for!(T).as_value())
}
