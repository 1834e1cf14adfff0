use covering::Pack;
use units::Mass;

use crate::Stock;

/// What to order for a roof.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Order {
    /// Sheet by sheet: field units, starters, caps, nails, underlayment.
    pub lines: Vec<OrderLine>,
    /// Field units from which the pieces are cut, of all sheets.
    pub stock: Stock,
}

/// A line of the order: one item of one sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderLine {
    /// Unchanging short name, `field-units`. Where a roof has more than one sheet, the sheet's id follows:
    /// `field-units:natural-slate`.
    pub id: String,
    /// What it is.
    pub item: String,
    /// Counted need, the sum over the places.
    pub quantity: f64,
    /// What is counted: `pieces`, `nails`, `sq ft`.
    pub unit: &'static str,
    /// Whole packs to order.
    pub packs: u64,
    /// What a pack is: `bundle of 20`.
    pub pack: String,
    /// Of the packs; nothing if the sheet gives none.
    pub weight: Mass,
    /// Why a formula stands in for a count; empty where it is counted.
    pub estimate: String,
    /// The places it counts.
    pub places: Vec<CountedPlace>,
}

impl OrderLine {
    /// Pieces that are counted at their places and sold in bundles; `weight` is of one piece.
    pub(crate) fn in_bundles(id: &str, item: String, places: Vec<CountedPlace>, pack: Pack, weight: Mass) -> Self {
        let quantity = sum(&places);
        let in_one = f64::from(pack.count);
        let packs = packs(quantity, in_one);
        Self {
            id: id.into(),
            item,
            quantity,
            unit: "pieces",
            packs,
            pack: format!("bundle of {}", pack.count),
            weight: weight * (packs as f64 * in_one),
            estimate: String::new(),
            places,
        }
    }
}

/// Where a part of a quantity lies on the roof.
#[derive(Debug, Clone, PartialEq)]
pub struct CountedPlace {
    /// `house, south` or `ridge, house, south / house, north`.
    pub at: String,
    /// How much of the quantity.
    pub quantity: f64,
}

/// The sum over places.
pub(crate) fn sum(places: &[CountedPlace]) -> f64 {
    places.iter().map(|place| place.quantity).sum()
}

/// Whole packs that hold a quantity. Rounding within a billionth opens no pack.
pub(crate) fn packs(quantity: f64, in_one: f64) -> u64 {
    (quantity / in_one * (1.0 - 1e-9)).ceil() as u64
}
