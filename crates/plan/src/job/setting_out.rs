use layout::SettingOut;
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Measure};

use super::resolve::Desk;

/// How the courses are set out, where the sheet leaves it open.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SettingOutTable {
    /// Marks of the tape: exposures are whole numbers of these. Absent: 1/16 in.
    pub tape_step: Option<Measure>,
    /// The greatest change from one course's exposure to the next that nobody sees from the ground. Absent: 1/8 in.
    pub sight_limit: Option<Measure>,
}

pub(super) fn setting_out(desk: &mut Desk, table: &SettingOutTable) -> SettingOut {
    let absent = SettingOut::default();
    let [finest, coarsest, most] = [1.0 / 64.0, 0.5, 2.0].map(Length::inches);
    let mut length = |key: &str, value: Option<Measure>, least, most, absent| {
        value.map_or(absent, |value| desk.length(&format!("setting_out.{key}"), value, least, most))
    };
    SettingOut {
        tape_step: length("tape_step", table.tape_step, finest, coarsest, absent.tape_step),
        sight_limit: length("sight_limit", table.sight_limit, Length::default(), most, absent.sight_limit),
    }
}
