//! Rules on the shipped examples: one measurement of the job is changed, and the rule that it is for finds it.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use covering::Catalog;
use plan::{Check, plan, read_job};
use reader::Format;

const CHIMNEY: &str = include_str!("../../../examples/chimney.toml");
const ELL: &str = include_str!("../../../examples/ell.toml");
const GAMBREL: &str = include_str!("../../../examples/gambrel.toml");
const HIP: &str = include_str!("../../../examples/hip.toml");

/// Every rule on a job.
fn checks(text: &str) -> Vec<Check> {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}\n{text}");
    plan(&job.unwrap(), &Catalog::shipped()).checks
}

fn found(checks: &[Check], rule: &str) -> bool {
    let check = checks.iter().find(|check| check.rule == rule).unwrap();
    matches!(check.outcome, "fail" | "attention") && !check.kept
}

/// What every `from` of an example becomes, and the rule that finds it.
fn fires(example: &str, changes: &[(&str, &str, &str)]) {
    let before = checks(example);
    for (rule, from, to) in changes {
        assert!(example.contains(from), "{rule}: {from}");
        assert!(!found(&before, rule), "{rule} finds something before");
        let after = checks(&example.replace(from, to));
        let says = after.iter().find(|check| check.rule == *rule).map(|check| check.says.as_str());
        assert!(found(&after, rule), "{rule} with {to}: {says:?}");
    }
}

#[test]
fn on_the_roof_with_chimneys() {
    let table = |key: &str| format!("{key}\n\n[site]");
    let past_wall = table("[dry_in]\npast_wall = \"6 in\"");
    let lap = table("[dry_in.drip_edge]\nlap = \"1-1/2 in\"");
    let rakes = table("[dry_in.drip_edge]\nat_rakes = \"under\"");
    let leg = table("[flashing]\nroof_leg = \"3 in\"");
    let step = table("[flashing]\nabove_butt = \"1/2 in\"\nstep_length = \"3 in\"\nstep_lap = \"1 in\"");
    let grid = table("[dry_in.ice_barrier]\nname = \"barrier\"\nwidth = \"36 in\"\nlength = \"40 ft\"\nend_lap = \"3 in\"");
    fires(
        CHIMNEY,
        &[
            ("nail-too-short", "length = \"2 in\"", "length = \"1 in\""),
            ("ice-barrier-too-short", "[site]", &past_wall),
            ("end-lap-too-short", "[site]", &grid),
            ("edge-metal-lap-too-short", "[site]", &lap),
            ("edge-metal-out-of-order", "[site]", &rakes),
            ("step-flashing-too-small", "[site]", &leg),
            ("step-flashing-laps-too-little", "[site]", &step),
            ("attic-vents-too-small", "nfa_per_foot_sqin = 9", "nfa_per_foot_sqin = 3"),
            ("ridge-vent-longer-than-ridge", "nfa_per_foot_sqin = 14", "nfa_per_foot_sqin = 2"),
            ("pitch-too-low", "8/12", "2.5/12"),
            ("opening-near-valley", "at       = [\"30' 4\\\"\", \"23' 8\\\"\"]", "at       = [\"13 ft\", \"9 ft\"]"),
        ],
    );
}

#[test]
fn on_the_ell() {
    fires(
        ELL,
        &[
            ("nail-too-short", "length = \"1-1/2 in\"", "length = \"3/4 in\""),
            ("nail-misses-code-penetration", "length = \"1-1/2 in\"", "length = \"3/4 in\""),
            ("valley-metal-too-narrow", "\"closed\"", "\"open\""),
            ("pitch-below-code", "10/12", "2.5/12"),
        ],
    );
    let open = ELL.replace("\"closed\"", "\"open\"");
    fires(&open, &[("valley-metal-laps-too-little", "[site]", "[flashing]\nvalley_lap = \"3 in\"\n\n[site]")]);
}

#[test]
fn on_the_hip_and_the_gambrel() {
    fires(
        HIP,
        &[
            ("pitch-below-code", "9/12", "3.5/12"),
            ("nail-too-short", "length = \"1-3/4 in\"", "length = \"1 in\""),
            ("courses-miss-at-hip", "edges = [\n  { eave = \"9/12\"", "edges = [\n  { eave = \"8/12\""),
        ],
    );
    fires(
        GAMBREL,
        &[("run-off-eats-metal", "[deck]", "[metal]\nkind = \"copper\"\n\n[dry_in.drip_edge]\nmetal = \"zinc\"\n\n[deck]")],
    );
}
