use schemars::JsonSchema;
use serde::Deserialize;
use units::Length;

/// What the units are nailed to; what was not told is unknown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Deck {
    /// What it is made of.
    pub kind: Option<DeckKind>,
    /// Its thickness.
    pub thickness: Option<Length>,
    /// Its underside is seen from below at the eaves.
    pub exposed_soffit: Option<bool>,
    /// From the middle of one spaced board to the next, up the slope.
    pub board_centers: Option<Length>,
    /// Specific gravity of its wood.
    pub gravity: Option<f64>,
    /// Weight of covering that the framing was designed for, pounds a square foot of slope.
    pub covering_load_psf: Option<f64>,
    /// Snow that the framing was designed for, pounds a square foot of plan.
    pub snow_load_psf: Option<f64>,
    /// Old coverings that lie on it and come off.
    pub old_layers: Option<u32>,
}

/// What a deck is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DeckKind {
    /// Plywood.
    Plywood,
    /// Oriented strand board.
    Osb,
    /// Boards laid close.
    Boards,
    /// Boards or battens with spaces between.
    SpacedBoards,
}
