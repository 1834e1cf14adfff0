//! The attic and its vents: as typed, and as meant.

use details::{Attic, Framing, RidgeVent, SoffitVent};
use schemars::JsonSchema;
use serde::Deserialize;
use units::{Area, Length, Measure};

use super::resolve::Desk;

/// The space under the roof that is to be vented.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AtticTable {
    /// Of its floor, sq ft. Absent: all that lies inside the wall lines of the blocks; give it where a porch or a heated room
    /// under the slope is no attic.
    pub area_sqft: Option<f64>,
    /// Whether a class I or II vapour retarder lies on the warm-in-winter side of the ceiling.
    pub vapor_retarder: Option<bool>,
    /// Whether the vents are shared between ridge and eaves as the code asks.
    pub balanced: Option<bool>,
    /// A vent along the ridges.
    pub ridge_vent: Option<RidgeVentTable>,
    /// A vent along the soffits.
    pub soffit_vent: Option<SoffitVentTable>,
}

/// A vent along the ridges, by its maker's sheet.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RidgeVentTable {
    /// Net free area of a foot, both sides together, sq in.
    pub nfa_per_foot_sqin: f64,
    /// Length of one section.
    pub section: Measure,
    /// Kept closed at each end of a ridge, at hips and at gables. Absent: 12 in (from memory, not read).
    pub end: Option<Measure>,
    /// What stands at the peak; the slot must clear it.
    pub framing: Option<FramingWord>,
    /// Thickness of the ridge board. Absent: 1-1/2 in, a dressed 2-in board (from memory, not read).
    pub ridge_board: Option<Measure>,
}

/// What stands at the peak.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FramingWord {
    /// Rafters against a ridge board.
    RidgeBoard,
    /// Trusses, which leave the peak open.
    Truss,
}

/// A vent along the soffits, by its maker's sheet.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SoffitVentTable {
    /// Net free area of a foot, sq in.
    pub nfa_per_foot_sqin: f64,
}

pub(super) fn attic(desk: &mut Desk, table: &AtticTable) -> Attic {
    if let Some(area) = table.area_sqft {
        let says = || format!("{area} is not an area from 1 to 1,000,000 sq ft");
        desk.expect((1.0..=1e6).contains(&area), "attic.area_sqft", says, "Type square feet of attic floor.");
    }
    Attic {
        area: table.area_sqft.map(|area| Area::square_inches(area * 144.0)),
        vapor_retarder: table.vapor_retarder,
        balanced: table.balanced,
        ridge_vent: table.ridge_vent.as_ref().map(|vent| ridge_vent(desk, vent)),
        soffit_vent: table.soffit_vent.as_ref().map(|vent| SoffitVent {
            nfa_per_foot: net_free_area(desk, "attic.soffit_vent.nfa_per_foot_sqin", vent.nfa_per_foot_sqin),
        }),
    }
}

fn ridge_vent(desk: &mut Desk, table: &RidgeVentTable) -> RidgeVent {
    let [shortest, longest, widest] = [6.0, 600.0, 120.0].map(Length::inches);
    let [thinnest, thickest] = [0.5, 8.0].map(Length::inches);
    let board = table.ridge_board.map(|value| desk.length("attic.ridge_vent.ridge_board", value, thinnest, thickest));
    RidgeVent {
        nfa_per_foot: net_free_area(desk, "attic.ridge_vent.nfa_per_foot_sqin", table.nfa_per_foot_sqin),
        section: desk.length("attic.ridge_vent.section", table.section, shortest, longest),
        end: table.end.map_or(Length::inches(12.0), |end| desk.length("attic.ridge_vent.end", end, Length::ZERO, widest)),
        framing: table.framing.map(|framing| match framing {
            FramingWord::RidgeBoard => Framing::RidgeBoard(board.unwrap_or(Length::inches(1.5))),
            FramingWord::Truss => Framing::Truss,
        }),
    }
}

fn net_free_area(desk: &mut Desk, path: &str, square_inches: f64) -> Area {
    let says = || format!("{square_inches} is not a net free area from 0.1 to 1000 sq in");
    desk.expect((0.1..=1000.0).contains(&square_inches), path, says, "Type square inches for one foot.");
    Area::square_inches(square_inches)
}
