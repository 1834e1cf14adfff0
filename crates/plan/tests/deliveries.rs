//! What comes on which day.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use std::collections::BTreeSet;

use covering::Catalog;
use plan::{Plan, plan, read_job};
use reader::Format;

/// An example whose planes come one by one, in the order of the plan.
fn plane_by_plane(text: &str) -> Plan {
    let planned = |text: &str| {
        let (job, mistakes) = read_job(text, Format::Toml);
        assert!(mistakes.is_empty(), "{mistakes:?}");
        plan(&job.unwrap(), &Catalog::shipped())
    };
    let once = planned(text);
    let day = |(index, plane): (usize, &plan::Plane)| {
        format!("[[order.delivery]]\nday = {}\nplanes = [\"{}\"]\n", index + 1, plane.id)
    };
    let days: String = once.roof.planes.iter().enumerate().map(day).collect();
    planned(&format!("{text}\n{days}"))
}

fn examples() -> impl Iterator<Item = Plan> {
    [
        include_str!("../../../examples/gable.toml"),
        include_str!("../../../examples/hip.toml"),
        include_str!("../../../examples/ell.toml"),
        include_str!("../../../examples/gambrel.toml"),
        include_str!("../../../examples/chimney.toml"),
        include_str!("../../../examples/taped.toml"),
    ]
    .into_iter()
    .map(plane_by_plane)
}

/// Packs of a line that are there after so many deliveries.
fn there(plan: &Plan, id: &str, deliveries: usize) -> u64 {
    let packs = plan.deliveries[..deliveries].iter().flat_map(|delivery| &delivery.packs);
    packs.filter(|packs| packs.id == id).map(|packs| packs.packs).sum()
}

#[test]
fn days_sum_to_the_order() {
    for plan in examples() {
        assert_eq!(plan.deliveries.len(), plan.roof.planes.len());
        for line in &plan.order {
            assert_eq!(there(&plan, &line.id, plan.deliveries.len()), line.packs, "{}: {}", plan.name, line.id);
        }
    }
}

/// Before the first unit of a plane there are all rolls that its strips are cut from and all metal that lies on it, counted anew
/// from the strips and the pieces.
#[test]
fn dry_in_and_metals_are_there_before_the_units() {
    for plan in examples() {
        for day in 1..plan.deliveries.len() {
            let begun: BTreeSet<&str> =
                plan.deliveries[..day].iter().flat_map(|delivery| &delivery.planes).map(String::as_str).collect();
            for rolls in &plan.details.rolls {
                let strips =
                    rolls.strips.iter().filter(|strip| strip.patches.iter().any(|at| begun.contains(at.plane.as_str())));
                let taken: BTreeSet<u32> = strips.flat_map(|strip| &strip.pieces).map(|piece| piece.roll).collect();
                assert_eq!(
                    there(&plan, &rolls.kind.replace(' ', "-"), day),
                    taken.len() as u64,
                    "{} {}",
                    plan.name,
                    rolls.kind
                );
            }
            for item in plan.details.metal.iter().flat_map(|metal| &metal.items) {
                let on = item.runs.iter().filter(|run| begun.contains(run.plane.as_str()));
                let pieces: usize = on.map(|run| run.pieces.len()).sum();
                assert!(there(&plan, item.id, day) >= pieces as u64, "{} {}", plan.name, item.id);
            }
        }
    }
}

/// A gable's north slope waits with its felt and its drip edge; sheets belong to no plane.
#[test]
fn each_slope_has_its_own_goods() {
    let plan = plane_by_plane(include_str!("../../../examples/chimney.toml"));
    let first = |id: &str| (there(&plan, id, 1), plan.order.iter().find(|line| line.id == id).unwrap().packs);
    for id in ["field-units", "starters", "drip-edge", "ice-barrier", "step-flashing"] {
        let (first, all) = first(id);
        assert!(first > 0 && first < all, "{id}: {first} of {all}");
    }
    let (sheets, all) = first("sheet-metal");
    assert_eq!(sheets, all);
    // The ridge waits for both slopes; the pipe comes through the north one.
    assert_eq!([first("caps").0, first("ridge-vent").0, first("pipe-flanges").0], [0, 0, 0]);
    let ids: Vec<&str> = plan.deliveries[0].packs.iter().map(|packs| packs.id.as_str()).collect();
    let at = |id: &str| ids.iter().position(|other| *other == id).unwrap();
    assert!(at("ice-barrier") < at("field-units") && at("aprons") < at("starters"), "{ids:?}");
}
