use std::collections::BTreeSet;

use units::Mass;

use crate::breakage::Need;
use crate::order::packs;
use crate::{CountedPlace, OrderChoices, OrderLine, PlannedDelivery, Wanted};

/// What comes on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Delivery {
    /// Counted from 1.
    pub day: u32,
    /// The planes that it is for, as indices in [`roof::Roof::planes`].
    pub planes: Vec<usize>,
    /// Packs of each line of the order, in its order; they may be none.
    pub packs: Vec<u64>,
    /// Of all that comes.
    pub weight: Mass,
}

/// The order shared out over the days, so that with each delivery there is enough for every plane named so far: of units as many
/// packs as keep to the chance of running short that was taken; of dry-in and metals those that lie on any of the planes, also
/// where they reach over to one that comes later; of what covers ridges and hips those between planes that are all there. What
/// belongs to no plane comes with the first. Pieces made of offcuts count whole until the last day. Over the days they sum to
/// the order.
pub(crate) fn deliveries(lines: &[OrderLine], choices: &OrderChoices) -> Vec<Delivery> {
    let planned = &choices.deliveries;
    let so_far: Vec<Vec<u64>> = lines.iter().map(|line| cumulative(line, planned, choices.chance_short)).collect();
    let on = |index: usize, of_line: &Vec<u64>| of_line[index] - index.checked_sub(1).map_or(0, |before| of_line[before]);
    let delivery = |(index, delivery): (usize, &PlannedDelivery)| {
        let packs: Vec<u64> = so_far.iter().map(|of_line| on(index, of_line)).collect();
        let weight = lines.iter().zip(&packs).map(|(line, &packs)| line.weight * (packs as f64 / line.packs.max(1) as f64));
        Delivery { day: delivery.day, planes: delivery.planes.clone(), weight: weight.sum(), packs }
    };
    planned.iter().enumerate().map(delivery).collect()
}

/// Packs of one line that are there after each delivery.
fn cumulative(line: &OrderLine, planned: &[PlannedDelivery], chance: f64) -> Vec<u64> {
    let last = planned.len().saturating_sub(1);
    let after = |index: usize| {
        let begun = Begun { line, delivered: &planned[..=index] };
        match line.in_pack {
            _ if index == last || line.wanted == Wanted::First => line.packs,
            Some(in_pack) => enough(line, in_pack, begun.needed(), chance).min(line.packs),
            None => begun.packs(),
        }
    };
    let mut most = 0;
    let never_fewer = |packs: u64| {
        most = most.max(packs);
        most
    };
    (0..planned.len()).map(after).map(never_fewer).collect()
}

fn enough(line: &OrderLine, in_pack: f64, needed: f64, chance: f64) -> u64 {
    match &line.spare {
        Some(spare) => {
            let need = Need { units: needed.ceil() as u64, in_pack: in_pack as u64, rate: spare.breakage.rate };
            need.packs(chance)
        }
        None => packs(needed, in_pack),
    }
}

/// A line while some planes are delivered.
struct Begun<'a> {
    line: &'a OrderLine,
    delivered: &'a [PlannedDelivery],
}

impl Begun<'_> {
    /// Whether goods of a place are wanted now.
    fn has(&self, place: &CountedPlace) -> bool {
        let mut there =
            place.planes.iter().map(|plane| self.delivered.iter().any(|delivery| delivery.planes.contains(plane)));
        match self.line.wanted {
            Wanted::WithUnits => !place.planes.is_empty() && there.all(|there| there),
            Wanted::First | Wanted::BeforeUnits => place.planes.is_empty() || there.any(|there| there),
        }
    }

    /// What lies on the planes, without what offcuts save.
    fn needed(&self) -> f64 {
        let places = self.line.places.iter().filter(|place| self.has(place));
        places.map(|place| place.quantity + place.from_offcuts).sum()
    }

    /// The packs that it is cut from.
    fn packs(&self) -> u64 {
        let places = self.line.places.iter().zip(&self.line.cut_from).filter(|(place, _)| self.has(place));
        places.flat_map(|(_, packs)| packs).collect::<BTreeSet<_>>().len() as u64
    }
}
