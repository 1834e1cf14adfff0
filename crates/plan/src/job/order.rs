//! What is ordered beyond the count, and when it comes: as typed, and as meant.

use schemars::JsonSchema;
use serde::Deserialize;
use takeoff::OrderChoices;

use super::resolve::Desk;

/// What is ordered beyond the count, and when it comes.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OrderTable {
    /// Percent of the units that break in handling and cutting, 0 to 50. Absent: the sheet's figure.
    pub breakage_percent: Option<f64>,
    /// The chance of running short that is taken for each line, percent, 0.01 to 50. Absent: 5, a choice and no fact.
    pub chance_short_percent: Option<f64>,
    /// Field units that are left with the owner. Absent: 0.
    pub attic_stock: Option<u32>,
    /// What comes on which day. Absent: all at once.
    #[serde(default)]
    pub delivery: Vec<DeliveryTable>,
}

/// A delivery: units for its planes, and the dry-in and metals that lie on them. What belongs to no plane comes with the first one;
/// planes that none names are in the last.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DeliveryTable {
    /// Day of the work, counted from 1, later than that of the delivery before.
    pub day: u32,
    /// Ids of the planes that are laid from it, as the plan tells them: ["house.0"].
    pub planes: Vec<String>,
}

/// The order as the job wants it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OrderWanted {
    /// All but the deliveries, whose planes only the roof knows.
    pub choices: OrderChoices,
    /// Day, and ids of planes.
    pub deliveries: Vec<(u32, Vec<String>)>,
}

/// Path in the job file of a delivery: `order.delivery[0]`.
#[must_use]
pub fn delivery_path(index: usize) -> String {
    format!("order.delivery[{index}]")
}

pub(super) fn order(desk: &mut Desk, table: &OrderTable) -> OrderWanted {
    let percent = |value: Option<f64>| value.map(|percent| percent / 100.0);
    let breakage = percent(desk.number("order.breakage_percent", table.breakage_percent, [0.0, 50.0]));
    let chance = percent(desk.number("order.chance_short_percent", table.chance_short_percent, [0.01, 50.0]));
    let attic_stock = desk.whole("order.attic_stock", table.attic_stock, [0, 100_000]).unwrap_or(0);
    let mut before = 0;
    for (index, delivery) in table.delivery.iter().enumerate() {
        let says = || format!("day {} is not after day {before}", delivery.day);
        let path = format!("{}.day", delivery_path(index));
        desk.expect(delivery.day > before, &path, says, "Give the deliveries in the order of their days, from day 1.");
        before = delivery.day;
    }
    OrderWanted {
        choices: OrderChoices {
            breakage,
            chance_short: chance.unwrap_or(OrderChoices::CHANCE_SHORT),
            attic_stock: attic_stock.into(),
            deliveries: Vec::new(),
        },
        deliveries: table.delivery.iter().map(|delivery| (delivery.day, delivery.planes.clone())).collect(),
    }
}
