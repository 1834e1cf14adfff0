//! The command `import`, from outside. The drawing is made by `oracles/dxf_houses.py`.

use std::path::Path;
use std::process::{Command, Output};

fn headlap(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_headlap")).args(arguments).output().expect("the program runs")
}

fn drawing() -> String {
    format!("{}/../exchange/tests/data/r2000.dxf", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn an_imported_outline_can_be_planned() {
    let output = headlap(&["import", &drawing(), "--layer", "OUTLINE"]);
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    let job = Path::new(env!("CARGO_TARGET_TMPDIR")).join("imported.toml");
    std::fs::write(&job, &output.stdout).expect("the job is written");
    let output = headlap(&["plan", &job.to_string_lossy(), "--format", "json"]);
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    // An L of 44 by 36 ft without 26 by 12 ft.
    let plan: serde_json::Value = serde_json::from_slice(&output.stdout).expect("a plan");
    let area = plan["roof"]["totals"]["plan_area_sqft"].as_f64().expect("an area");
    assert!((area - (44.0 * 36.0 - 26.0 * 12.0)).abs() < 0.01, "{area}");
}

#[test]
fn what_cannot_be_imported_is_said_on_standard_error() {
    for (arguments, says) in [
        (vec!["import", &drawing()], "FACES (2)"),
        (vec!["import", "Cargo.toml"], "ending"),
        (vec!["import", "missing.dxf"], "there is no file"),
    ] {
        let output = headlap(&arguments);
        assert_eq!((output.status.code(), output.stdout.len()), (Some(2), 0), "{output:?}");
        assert!(String::from_utf8_lossy(&output.stderr).contains(says), "{output:?}");
    }
}
