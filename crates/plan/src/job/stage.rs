//! How units are staged on the roof: as typed, and as meant.

use schemars::JsonSchema;
use serde::Deserialize;
use takeoff::StageChoices;
use units::{Length, Measure};

use super::resolve::Desk;

/// How units are staged on the roof. What is absent is common practice without a published source.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StageTable {
    /// Up the slope, within the reach of those who lay from one line of planks. Absent: 4 ft.
    pub reach: Option<Measure>,
    /// From pile to pile along the course. Absent: 6 ft.
    pub apart: Option<Measure>,
    /// Side of the square patch of deck, on the slope, over which boards spread a pile. Absent: 4 ft.
    pub patch: Option<Measure>,
}

pub(super) fn stage(desk: &mut Desk, table: &StageTable, live_load_psf: Option<f64>) -> StageChoices {
    let absent = StageChoices::default();
    let [least, most] = [1.0, 50.0].map(Length::feet);
    let mut or = |key: &str, value: Option<Measure>, absent: Length| {
        value.map_or(absent, |value| desk.length(&format!("stage.{key}"), value, least, most))
    };
    StageChoices {
        reach: or("reach", table.reach, absent.reach),
        apart: or("apart", table.apart, absent.apart),
        patch: or("patch", table.patch, absent.patch),
        live_load_psf: desk.number("deck.live_load_psf", live_load_psf, [0.5, 1000.0]),
    }
}
