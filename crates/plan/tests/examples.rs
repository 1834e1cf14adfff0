//! The shipped examples plan without an error.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use covering::Catalog;
use plan::{Plan, Severity, plan, read_job};
use reader::Format;

fn planned(text: &str) -> Plan {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    plan(&job.unwrap(), &Catalog::shipped())
}

#[test]
fn the_examples_plan_clean() {
    for text in [
        include_str!("../../../examples/gable.toml"),
        include_str!("../../../examples/hip.toml"),
        include_str!("../../../examples/ell.toml"),
        include_str!("../../../examples/gambrel.toml"),
        include_str!("../../../examples/chimney.toml"),
        include_str!("../../../examples/manor.toml"),
        include_str!("../../../examples/taped.toml"),
        include_str!("../../../examples/cottage.toml"),
    ] {
        let plan = planned(text);
        let errors: Vec<_> = plan.problems.iter().filter(|problem| problem.severity == Severity::Error).collect();
        assert!(errors.is_empty(), "{errors:?}");
        assert!(plan.layout.pieces > 1000);
        println!(
            "{} {} {:?} pieces {} whole {} cut {}",
            plan.name, plan.roof.totals.area_sqft, plan.problems, plan.layout.pieces, plan.layout.whole, plan.layout.cut
        );
        for c in &plan.checks {
            println!("  {} {} {}", c.rule, c.outcome, c.says);
        }
        for c in &plan.cautions {
            println!("  {c}");
        }
    }
}
