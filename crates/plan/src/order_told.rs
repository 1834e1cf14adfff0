//! The order as the plan tells it.

use schemars::JsonSchema;
use serde::Serialize;

/// A line of the order.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct OrderLine {
    /// Unchanging short name, `field-units`.
    pub id: String,
    /// What it is.
    pub item: String,
    /// As it is made, `11-1/2" × 19-1/2"`; nothing where the pack tells it or the sheet does not.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub size: String,
    /// Counted need.
    pub quantity: f64,
    /// What is counted: `pieces`, `nails`, `sq ft`.
    pub unit: String,
    /// Whole packs to order, spare ones among them.
    pub packs: u64,
    /// What a pack is: `bundle of 20`.
    pub pack: String,
    /// Pieces in a pack, where pieces are counted and sold in bundles.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub in_pack: Option<u32>,
    /// Of what breaks: the spare packs, and the chance of running short.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub spare: Option<Spare>,
    /// Of the packs, pounds; 0 if the sheet gives none.
    pub weight_lb: f64,
    /// A formula stands in for a count; said why.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub estimate: String,
    /// The places it counts.
    pub places: Vec<CountedPlace>,
}

/// Where a part of a quantity lies on the roof.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CountedPlace {
    /// `house, south` or `ridge, house, south / house, north`.
    pub at: String,
    /// How much of the quantity.
    pub quantity: f64,
    /// Ids of the planes that it lies on.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub planes: Vec<String>,
    /// The line along which it lies, an index in the roof's lines.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<usize>,
}

/// What is ordered beyond the count because units break.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Spare {
    /// Packs beyond those that hold the count.
    pub packs: u64,
    /// Percent of the units that break, each by itself.
    pub breakage_percent: f64,
    /// `job`, `sheet`, or `invented` where neither tells it.
    pub breakage_told_by: &'static str,
    /// Units that are left with the owner.
    pub attic_stock: u64,
    /// Of running short with these packs, 0 to 1.
    pub chance_short: f64,
    /// The chance that was taken, 0 to 1: a choice and no fact.
    pub chance_taken: f64,
    /// From no spare pack to one more than chosen; where those are many, in equal steps.
    pub choices: Vec<SpareChoice>,
}

/// A choice of spare packs.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct SpareChoice {
    /// Packs beyond those that hold the count.
    pub packs: u64,
    /// That fewer units stay whole than are needed, 0 to 1.
    pub chance_short: f64,
}

/// What comes on one day.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Delivery {
    /// Counted from 1.
    pub day: u32,
    /// Ids of the planes that it is for.
    pub planes: Vec<String>,
    /// Lines of the order of which packs come.
    pub packs: Vec<PacksOf>,
    /// Of all that comes, where the sheets give weights.
    pub weight_lb: f64,
}

/// Packs of one line of the order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct PacksOf {
    /// The line's id.
    pub id: String,
    /// How many.
    pub packs: u64,
}
