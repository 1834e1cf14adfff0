//! The bond that a job asks for.
#![allow(clippy::unwrap_used, reason = "tests only")]

use covering::Catalog;
use plan::{plan, read_job};
use reader::Format;

const HIP: &str = include_str!("../../../examples/hip.toml");

#[test]
fn a_bond_that_the_sheet_does_not_allow_is_told() {
    let asks = |bond: &str| {
        let text = format!("{HIP}\n[setting_out]\nbond = \"{bond}\"\n");
        let (job, mistakes) = read_job(&text, Format::Toml);
        assert!(mistakes.is_empty(), "{mistakes:?}");
        plan(&job.unwrap(), &Catalog::shipped()).problems
    };
    let told = asks("random").into_iter().find(|problem| problem.code == "bond-not-allowed").unwrap();
    assert!(told.says.ends_with("does not allow random bond; half bond is laid"), "{}", told.says);
    assert_eq!(told.place.path, "setting_out.bond");
    assert!(!asks("half").iter().any(|problem| problem.code == "bond-not-allowed"));
    let (job, mistakes) = read_job(&format!("{HIP}\n[setting_out]\nbond = \"quarter\"\n"), Format::Toml);
    assert!(job.is_none() && mistakes.len() == 1, "{mistakes:?}");
}

/// The hip roof in a sheet with a step, laid as the job says.
fn staggered(step: &str, setting_out: &str) -> plan::Plan {
    let text = include_str!("../../../coverings/natural-slate.toml");
    let sheet = format!("{text}\n[bond]\n{step}\nsource = \"Invented.\"\n");
    let covering = covering::read_sheet(&sheet, Format::Toml).value.unwrap();
    let mut catalog = Catalog::default();
    catalog.sheets.insert("natural-slate".into(), covering);
    let (job, mistakes) = read_job(&format!("{HIP}\n[setting_out]\n{setting_out}\n"), Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    plan(&job.unwrap(), &catalog)
}

/// Every other unit lower by the sheet's step: more courses as they lie nearer, and each shows, step and all, no more than
/// the sheet allows.
#[test]
fn staggered_butts_are_laid_and_marked() {
    let [straight, staggered] =
        ["straight", "staggered"].map(|butts| staggered("step = 1", &format!("butts = \"{butts}\"")));
    let courses = |plan: &plan::Plan| plan.layout.planes.iter().map(|laid| laid.courses.len()).sum::<usize>();
    assert!(courses(&staggered) > courses(&straight));
    assert_eq!(straight.layout.planes[0].step_in.to_bits(), 0.0f64.to_bits());
    let greatest = |plan: &plan::Plan| {
        let exposures = plan.layout.planes.iter().flat_map(|laid| &laid.courses).map(|course| course.exposure_in);
        exposures.fold(0.0, f64::max)
    };
    // The sheet's greatest exposure at 9 in 12.
    assert!(greatest(&straight) <= 9.5 + 1e-9 && greatest(&staggered) + 1.0 <= 9.5 + 1e-9);
    for pole in staggered.layout.planes.iter().flat_map(|laid| &laid.poles) {
        for mark in &pole.marks {
            // The first course lies straight.
            let hangs = mark.hang_in.map(|hang| mark.butt_in - hang);
            assert!(hangs.map_or(mark.course == 0, |hangs| mark.course > 0 && (hangs - 1.0).abs() < 1e-9), "{mark:?}");
        }
    }
    assert!(!staggered.checks.iter().any(|check| check.outcome == "fail" && check.rule.starts_with("exposure")));
}

#[test]
fn butts_that_cannot_be_staggered_are_told() {
    let plan = staggered("allows = [\"half\"]", "butts = \"staggered\"");
    let told = plan.problems.iter().find(|problem| problem.code == "not-staggered").unwrap();
    assert!(told.says.ends_with("gives no step for staggered butts; they are laid straight"), "{}", told.says);
    assert_eq!(told.place.path, "setting_out.butts");
}
