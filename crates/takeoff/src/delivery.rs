use units::Mass;

use crate::breakage::Need;
use crate::order::packs;
use crate::{CountedPlace, OrderChoices, OrderLine, PlannedDelivery};

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

/// The order shared out over the days, so that with each delivery there is enough for every plane named so far: as many packs of
/// what is laid plane by plane as keep to the chance of running short that was taken, and all of the rest with the first, as
/// dry-in and metals are in place before the first unit. Pieces made of offcuts count whole until the last day. Over the days
/// they sum to the order.
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
    let after = |index: usize| match line.in_pack {
        Some(in_pack) if index < last => enough(line, in_pack, needed(line, &planned[..=index]), chance).min(line.packs),
        _ => line.packs,
    };
    let mut most = 0;
    let never_fewer = |packs: u64| {
        most = most.max(packs);
        most
    };
    (0..planned.len()).map(after).map(never_fewer).collect()
}

fn enough(line: &OrderLine, in_pack: u32, needed: f64, chance: f64) -> u64 {
    match &line.spare {
        Some(spare) => {
            let need = Need { units: needed as u64, in_pack: in_pack.into(), rate: spare.breakage.rate };
            need.packs(chance)
        }
        None => packs(needed, in_pack.into()),
    }
}

/// What lies on the planes of these deliveries, without what offcuts save.
fn needed(line: &OrderLine, delivered: &[PlannedDelivery]) -> f64 {
    let is_there = |plane: &usize| delivered.iter().any(|delivery| delivery.planes.contains(plane));
    // A line of the roof is finished with the last of its planes.
    let is_laid = |place: &&CountedPlace| !place.planes.is_empty() && place.planes.iter().all(is_there);
    line.places.iter().filter(is_laid).map(|place| place.quantity).filter(|quantity| *quantity > 0.0).sum()
}
