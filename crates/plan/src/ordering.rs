//! From what the job wants of the order to choices, and from the order counted to the order told.

use std::collections::BTreeSet;

use reader::{nearest, quoted};
use roof::Roof as Shape;
use takeoff::{Order, OrderChoices, PlannedDelivery, ToldBy};

use crate::job::delivery_path;
use crate::make::{id_of, place_in_file};
use crate::{CountedPlace, Delivery, Job, OrderLine, PacksOf, Problem, Severity, Spare, SpareChoice};

/// The choices of a job, and what is wrong with the planes of its deliveries. Planes that none names come with the last one.
pub(crate) fn choices(job: &Job, roof: &Shape) -> (OrderChoices, Vec<Problem>) {
    let mut problems = Vec::new();
    let mut named = BTreeSet::new();
    let mut deliveries = Vec::new();
    for (index, (day, ids)) in job.order.deliveries.iter().enumerate() {
        let mut planes = Vec::new();
        for (at, id) in ids.iter().enumerate() {
            let path = format!("{}.planes[{at}]", delivery_path(index));
            match roof.planes.iter().position(|plane| plane.id == *id) {
                Some(plane) if named.insert(plane) => planes.push(plane),
                Some(_) => problems.push(problem(job, &path, twice(id))),
                None => problems.push(problem(job, &path, unknown(roof, id))),
            }
        }
        deliveries.push(PlannedDelivery { day: *day, planes });
    }
    if let Some(last) = deliveries.last_mut() {
        last.planes.extend((0..roof.planes.len()).filter(|plane| !named.contains(plane)));
    }
    (OrderChoices { deliveries, ..job.order.choices.clone() }, problems)
}

/// Code, what is wrong, what to do.
type Wrong = (&'static str, String, String);

fn twice(id: &str) -> Wrong {
    let says = format!("{} is in two deliveries", quoted(id));
    ("plane-delivered-twice", says, "Leave it in the one from which it is laid first.".into())
}

fn unknown(roof: &Shape, id: &str) -> Wrong {
    let ids = || roof.planes.iter().map(|plane| plane.id.as_str());
    let remedy = match nearest(id, ids()) {
        Some(meant) => format!("did you mean \"{meant}\"?"),
        None => format!("the planes are {}", ids().collect::<Vec<_>>().join(", ")),
    };
    ("delivery-of-unknown-plane", format!("the roof has no plane {}", quoted(id)), remedy)
}

fn problem(job: &Job, path: &str, (code, says, remedy): Wrong) -> Problem {
    let place = place_in_file(job, path, "", "");
    Problem { code: code.into(), severity: Severity::Error, says, remedy, place }
}

/// The order and its deliveries, told.
pub(crate) fn told(roof: &Shape, order: Order) -> (Vec<OrderLine>, Vec<Delivery>) {
    let deliveries = order.deliveries.iter().map(|delivery| told_delivery(roof, &order, delivery)).collect();
    (order.lines.into_iter().map(|line| told_line(roof, line)).collect(), deliveries)
}

fn told_delivery(roof: &Shape, order: &Order, delivery: &takeoff::Delivery) -> Delivery {
    let packs = order.lines.iter().zip(&delivery.packs).filter(|(_, packs)| **packs > 0);
    Delivery {
        day: delivery.day,
        planes: delivery.planes.iter().map(|&plane| id_of(roof, plane)).collect(),
        packs: packs.map(|(line, &packs)| PacksOf { id: line.id.clone(), packs }).collect(),
        weight_lb: delivery.weight.to_pounds(),
    }
}

fn told_line(roof: &Shape, line: takeoff::OrderLine) -> OrderLine {
    let place = |place: takeoff::CountedPlace| CountedPlace {
        at: place.at,
        quantity: place.quantity,
        planes: place.planes.iter().map(|&plane| id_of(roof, plane)).collect(),
        line: place.line,
    };
    OrderLine {
        id: line.id,
        item: line.item,
        size: line.size,
        quantity: line.quantity,
        unit: line.unit.into(),
        packs: line.packs,
        pack: line.pack,
        in_pack: line.in_pack,
        spare: line.spare.map(spare),
        weight_lb: line.weight.to_pounds(),
        estimate: line.estimate,
        places: line.places.into_iter().map(place).collect(),
    }
}

fn spare(spare: takeoff::Spare) -> Spare {
    let choice = |choice: &takeoff::SpareChoice| SpareChoice { packs: choice.packs, chance_short: choice.chance };
    Spare {
        packs: spare.packs,
        breakage_percent: spare.breakage.rate * 100.0,
        breakage_told_by: match spare.breakage.told_by {
            ToldBy::Job => "job",
            ToldBy::Sheet => "sheet",
            ToldBy::Invented => "invented",
        },
        attic_stock: spare.attic_stock,
        chance_short: spare.chance,
        chance_taken: spare.chance_taken,
        choices: spare.choices.iter().map(choice).collect(),
    }
}
