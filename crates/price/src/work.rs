use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use units::Pitch;

/// What a rate is paid for one of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Of {
    /// A square, 100 sq ft, of laid roof on the slope.
    Squares,
    /// A square of old covering that comes off, each layer by itself.
    OldSquares,
    /// A foot of eave.
    EaveFeet,
    /// A foot of rake.
    RakeFeet,
    /// A foot of ridge.
    RidgeFeet,
    /// A foot of hip.
    HipFeet,
    /// A foot of valley.
    ValleyFeet,
    /// A foot of wall, at the side or at the head.
    WallFeet,
    /// A piece on the roof, whole or cut.
    FieldPieces,
    /// A cut piece on the roof.
    CutPieces,
    /// A starter.
    Starters,
    /// A cap.
    Caps,
    /// A chimney, skylight, pipe or vent.
    Openings,
    /// A pallet of field units, lifted once.
    Pallets,
    /// The whole job.
    Job,
}

impl Of {
    /// As it is typed: `eave-feet`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Squares => "squares",
            Self::OldSquares => "old-squares",
            Self::EaveFeet => "eave-feet",
            Self::RakeFeet => "rake-feet",
            Self::RidgeFeet => "ridge-feet",
            Self::HipFeet => "hip-feet",
            Self::ValleyFeet => "valley-feet",
            Self::WallFeet => "wall-feet",
            Self::FieldPieces => "field-pieces",
            Self::CutPieces => "cut-pieces",
            Self::Starters => "starters",
            Self::Caps => "caps",
            Self::Openings => "openings",
            Self::Pallets => "pallets",
            Self::Job => "job",
        }
    }

    /// `square`, `foot`, `piece` … of one.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Squares | Self::OldSquares => "square",
            Self::EaveFeet | Self::RakeFeet | Self::RidgeFeet | Self::HipFeet | Self::ValleyFeet | Self::WallFeet => "foot",
            Self::FieldPieces | Self::CutPieces | Self::Starters | Self::Caps => "piece",
            Self::Openings => "opening",
            Self::Pallets => "pallet",
            Self::Job => "job",
        }
    }
}

/// How much there is of one [`Of`], or what to tell so that it can be known.
#[derive(Debug, Clone, PartialEq)]
pub enum Counted {
    /// So much.
    Known(f64),
    /// What is missing: `[deck] old_layers`.
    Missing(String),
}

/// A line of the order as it is bought.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// Id of the order's line.
    pub id: String,
    /// The same without a sheet behind it.
    pub line: String,
    /// Id of the sheet.
    pub sheet: String,
    /// What it is.
    pub item: String,
    /// Packs.
    pub packs: u64,
    /// What a pack is.
    pub pack: String,
}

/// All that is to be paid for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Work {
    /// What is bought.
    pub materials: Vec<Material>,
    /// What is counted; what stands nowhere here there is none of.
    pub counted: BTreeMap<Of, Counted>,
    /// Pitch and squares of every laid plane.
    pub planes: Vec<(Pitch, f64)>,
}

impl Work {
    /// How much there is; of squares on planes of a pitch and steeper, if one is given.
    pub(crate) fn of(&self, of: Of, from_pitch: Option<Pitch>) -> Counted {
        match from_pitch {
            Some(least) => {
                let steep = self.planes.iter().filter(|(pitch, _)| *pitch >= least);
                Counted::Known(steep.map(|(_, squares)| squares).sum::<f64>() + 0.0)
            }
            None => self.counted.get(&of).cloned().unwrap_or(Counted::Known(0.0)),
        }
    }
}
