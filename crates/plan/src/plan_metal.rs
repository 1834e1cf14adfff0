//! Sheet metal, as the plan tells it.

use schemars::JsonSchema;
use serde::Serialize;

/// All metal that is bent from sheets.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct SheetMetal {
    /// `copper`, `galvanized steel`, `stainless steel`, `aluminum` or `zinc`.
    pub metal: &'static str,
    /// Of the sheet.
    pub thickness_in: f64,
    /// Across the sheet and along it.
    pub sheet_in: [f64; 2],
    /// Of a square foot.
    pub weight_psf: f64,
    /// Sheets that all pieces are cut from.
    pub sheets: u32,
    /// No way of cutting the pieces lengthwise needs fewer.
    pub bound: u32,
    /// Kind by kind, in the order in which they are laid.
    pub items: Vec<MetalItem>,
    /// Flanges of pipes, which are bought.
    pub pipes: Vec<PipeFlange>,
}

/// The flange of a pipe.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct PipeFlange {
    /// Name of the pipe.
    pub opening: String,
    /// The plane's id.
    pub plane: String,
    /// The pipe's middle on the plane.
    pub at_in: [f64; 2],
    /// Of the pipe.
    pub diameter_in: f64,
    /// Of the slope, rise in 12.
    pub pitch: f64,
    /// Across the slope and up it.
    pub plate_in: [f64; 2],
    /// The course over which its foot lies, counted from 0.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub over: Option<u32>,
    /// The course whose units lie over its head.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub under: Option<u32>,
}

/// All metal of one kind.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct MetalItem {
    /// Id of its line in the order, `step-flashing`.
    pub id: &'static str,
    /// `step flashing`.
    pub kind: &'static str,
    /// Wall by wall, valley by valley.
    pub runs: Vec<MetalRun>,
}

/// The metal of one kind at one wall, valley or opening.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct MetalRun {
    /// `sidewall, house, south`; at an opening `sill of chimney, house, south` or `side of chimney, house, south`.
    pub at: String,
    /// The plane whose units lie over it or under it.
    pub plane: String,
    /// Index in the roof's lines.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<usize>,
    /// Name of the opening, at one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub opening: Option<String>,
    /// How far an apron lies on the units below it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub roof_leg_in: Option<f64>,
    /// Laps that are sealed.
    pub sealed_joints: u32,
    /// All beads of sealant at it, one after the other.
    pub sealant_in: f64,
    /// A W or a crimp is raised along its middle.
    pub ribbed: bool,
    /// Nails through the faces of the cut units under it, whose heads are sealed; the order counts them with the units.
    pub face_nails: u32,
    /// Nails that hold it.
    pub nails: u32,
    /// From the foot up, or from the left.
    pub pieces: Vec<MetalPiece>,
}

/// One piece at its place.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct MetalPiece {
    /// The course under whose units it lies, counted from 0.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub course: Option<u32>,
    /// Its foot and its head, or its left and its right end, on the plane.
    pub ends_in: [[f64; 2]; 2],
    /// Width of the blank across the bends.
    pub girth_in: f64,
    /// Length of the blank.
    pub length_in: f64,
}
