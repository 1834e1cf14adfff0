use covering::Pack;
use roof::{Line, Roof};
use units::{Length, Mass};

use crate::breakage::{Need, spare};
use crate::{Breakage, Delivery, OrderChoices, Spare, Stock};

/// What to order for a roof.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Order {
    /// Sheet by sheet: field units, starters, caps, nails, underlayment.
    pub lines: Vec<OrderLine>,
    /// Field units from which the pieces are cut, of all sheets.
    pub stock: Stock,
    /// What comes on which day, where the job tells it.
    pub deliveries: Vec<Delivery>,
}

/// A line of the order: one item of one sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OrderLine {
    /// Unchanging short name, `field-units`. Where a roof has more than one sheet, the sheet's id follows:
    /// `field-units:natural-slate`.
    pub id: String,
    /// What it is.
    pub item: String,
    /// As it is made, `11-1/2" × 19-1/2"`; nothing where the pack tells it or the sheet does not.
    pub size: String,
    /// Counted need, the sum over the places.
    pub quantity: f64,
    /// What is counted: `pieces`, `nails`, `sq ft`.
    pub unit: &'static str,
    /// Whole packs to order, spare ones among them.
    pub packs: u64,
    /// What a pack is: `bundle of 20`.
    pub pack: String,
    /// How much of the quantity a pack holds; none where `cut_from` tells it.
    pub in_pack: Option<f64>,
    /// Place by place, the packs that its goods are cut from, each counted from 0; empty where any pack will do.
    pub cut_from: Vec<Vec<u32>>,
    /// When it must be on the roof.
    pub wanted: Wanted,
    /// Of what breaks: the spare packs and the chance of running short.
    pub spare: Option<Spare>,
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
            in_pack: Some(in_one),
            wanted: Wanted::WithUnits,
            weight: weight * (packs as f64 * in_one),
            places,
            ..Self::default()
        }
    }

    /// With its made size: along the course, or the line, by the other way.
    pub(crate) fn sized(self, width: Length, length: Length) -> Self {
        Self { size: format!("{} × {}", width.in_inches(), length.in_inches()), ..self }
    }

    /// With the spare packs that breakage asks for, and stock left with the owner. Nothing is spare of what is not needed.
    pub(crate) fn with_spare(self, breakage: Breakage, choices: &OrderChoices, attic_stock: u64) -> Self {
        let Some(in_pack) = self.in_pack.filter(|_| self.quantity > 0.0) else { return self };
        let need = Need { units: self.quantity as u64, in_pack: in_pack as u64, rate: breakage.rate };
        let (packs, spare) = spare(need, breakage, choices.chance_short, attic_stock);
        let weight = self.weight * (packs as f64 / self.packs.max(1) as f64);
        Self { packs, weight, spare: Some(spare), ..self }
    }
}

/// When goods must be there, where they come plane by plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Wanted {
    /// From the first day on: what belongs to no plane.
    #[default]
    First,
    /// Before the first unit of any of the planes on which they lie: dry-in and metals.
    BeforeUnits,
    /// When the last of the planes is laid on which they lie: units, and what covers ridges and hips.
    WithUnits,
}

/// Where a part of a quantity lies on the roof.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CountedPlace {
    /// `house, south` or `ridge, house, south / house, north`.
    pub at: String,
    /// How much of the quantity.
    pub quantity: f64,
    /// Pieces that lie there besides and are made of what is cut off others: not in the quantity.
    pub from_offcuts: f64,
    /// The planes that it lies on, as indices in [`roof::Roof::planes`]; none for what belongs to no plane.
    pub planes: Vec<usize>,
    /// The line along which it lies, an index in [`roof::Roof::lines`].
    pub line: Option<usize>,
}

impl CountedPlace {
    /// On one plane.
    pub(crate) fn on_plane(roof: &Roof, plane: usize, quantity: f64) -> Self {
        let at = roof.planes.get(plane).map_or_else(String::new, |plane| plane.name.clone());
        Self { at, quantity, planes: vec![plane], ..Self::default() }
    }

    /// Along a line of the roof: `ridge, house, south / house, north`.
    pub(crate) fn along(roof: &Roof, index: usize, line: &Line, quantity: f64) -> Self {
        let planes = line.planes.iter().filter_map(|&plane| roof.planes.get(plane));
        let names: Vec<&str> = planes.map(|plane| plane.name.as_str()).collect();
        let at = format!("{}, {}", line.kind.name(), names.join(" / "));
        Self { at, quantity, planes: line.planes.clone(), line: Some(index), ..Self::default() }
    }
}

/// The sum over places.
pub(crate) fn sum(places: &[CountedPlace]) -> f64 {
    places.iter().map(|place| place.quantity).sum()
}

/// Whole packs that hold a quantity. Rounding within a billionth opens no pack.
pub(crate) fn packs(quantity: f64, in_one: f64) -> u64 {
    (quantity / in_one * (1.0 - 1e-9)).ceil() as u64
}
