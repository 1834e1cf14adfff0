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
