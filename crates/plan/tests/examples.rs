//! The shipped examples plan without an error.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use covering::Catalog;
use plan::{Plan, Severity, plan, raise, read_job};
use reader::Format;

fn planned(text: &str) -> Plan {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    plan(&job.unwrap(), &Catalog::shipped())
}

const EXAMPLES: [&str; 8] = [
    include_str!("../../../examples/gable.toml"),
    include_str!("../../../examples/hip.toml"),
    include_str!("../../../examples/ell.toml"),
    include_str!("../../../examples/gambrel.toml"),
    include_str!("../../../examples/chimney.toml"),
    include_str!("../../../examples/manor.toml"),
    include_str!("../../../examples/taped.toml"),
    include_str!("../../../examples/cottage.toml"),
];

fn examples() -> impl Iterator<Item = Plan> {
    EXAMPLES.into_iter().map(planned)
}

#[test]
fn the_examples_plan_clean() {
    for text in EXAMPLES {
        let plan = planned(text);
        let errors: Vec<_> = plan.problems.iter().filter(|problem| problem.severity == Severity::Error).collect();
        assert!(errors.is_empty(), "{errors:?}");
        assert!(plan.layout.pieces > 1000);
        let failing: Vec<_> = plan.checks.iter().filter(|check| check.outcome == "fail").map(|check| &check.says).collect();
        assert!(failing.is_empty(), "{}: {failing:?}", plan.name);
        let (roof, problems) = raise(&read_job(text, Format::Toml).0.unwrap());
        assert!(roof == plan.roof && problems.iter().all(|problem| plan.problems.contains(problem)), "{}", plan.name);
    }
}

/// Every line of the order is the sum of its places, none of them negative; what lies on a plane is taken from stock or from
/// offcuts; over the days what comes is the order.
#[test]
fn places_sum_to_the_order() {
    for plan in examples() {
        for line in &plan.order {
            let sum: f64 = line.places.iter().map(|place| place.quantity).sum();
            assert!((sum - line.quantity).abs() < 1e-6 * sum.max(1.0), "{}: {} of {sum}", plan.name, line.id);
            assert!(line.places.iter().all(|place| place.quantity >= 0.0 && place.from_offcuts >= 0.0), "{}", line.id);
        }
        for laid in &plan.layout.planes {
            let units =
                plan.order.iter().filter(|line| ["field-units", "wide-units"].iter().any(|of| line.id.starts_with(of)));
            let here = units.flat_map(|line| &line.places).filter(|place| place.planes == [laid.id.as_str()]);
            let counted: f64 = here.map(|place| place.quantity + place.from_offcuts).sum();
            let pieces: u32 = laid.courses.iter().flat_map(|course| &course.runs).map(|run| run.count).sum();
            assert!((counted - f64::from(pieces)).abs() < 1e-6, "{}: {counted} of {pieces}", laid.id);
        }
    }
}

/// Where a pack holds a number of what is counted, packs are the quantity over it, rounded up, and the spare ones: what a
/// spreadsheet makes of the same line.
#[test]
fn packs_follow_from_what_one_holds() {
    for plan in examples() {
        for line in &plan.order {
            let Some(in_pack) = line.in_pack else { continue };
            let spare = line.spare.as_ref().map_or(0, |spare| spare.packs);
            let packs = (line.quantity / in_pack - 1e-9).ceil() as u64 + spare;
            assert_eq!(line.packs, packs, "{}: {}, {in_pack} in one", plan.name, line.id);
        }
    }
}
