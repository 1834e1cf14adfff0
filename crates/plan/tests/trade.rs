//! A composite unit as the trade lays it (common practice, no published source), on a sheet made here: exposure 6 to
//! 7-1/2 in from 5:12 up and 6 in from 3:12 to below 5:12 (the trade leaves 5:12 itself open; it is taken as the steeper
//! band), gap about 1/4 in, joints of starter and first course at least 2 in apart, starters at most 1-1/2 in past the
//! drip edge, two nails a unit and at least 3/4 in into the deck, caps at no more than 7-1/2 in with one nail each side.

#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use covering::{Band, Catalog, Covering, Pack};
use plan::{LaidPlane, OrderLine, Plan, plan, read_job};
use reader::Format;
use units::{Length, Pitch};

fn trade_sheet() -> Covering {
    let inches = Length::inches;
    let pitch = |rise| Pitch::per_12(rise).unwrap();
    let band = |from, to: Option<f64>, greatest| Band {
        from: pitch(from),
        to: to.map(pitch),
        least_exposure: inches(6.0),
        greatest_exposure: inches(greatest),
        headlap: inches(3.0),
    };
    let mut sheet = Catalog::shipped().get("composite-slate").unwrap().clone();
    sheet.unit.length = inches(18.0);
    sheet.unit.width = inches(12.0);
    sheet.bands = vec![band(3.0, Some(5.0), 6.0), band(5.0, None, 7.5)];
    sheet.gap = inches(0.25);
    sheet.starter.height = None;
    sheet.starter.width = inches(12.0);
    sheet.starter.joint_offset = inches(2.0);
    sheet.edges.eave_projection = inches(1.5);
    sheet.nails.each = 2;
    sheet.nails.penetration = inches(0.75);
    sheet.cap.length = inches(12.0);
    sheet.cap.exposure = inches(7.5);
    sheet.cap.nails = 2;
    sheet.pack = Pack { count: 20 };
    sheet
}

/// A gable house 40 ft long and 28 ft deep.
fn planned(rise: f64) -> Plan {
    let text = format!(
        "format = 1\nname = \"Trial\"\ncovering = {{ sheet = \"composite-slate\" }}\n[[block]]\nname = \"house\"\n\
         outline = [[0, 0], [40, 0], [40, 28], [0, 28]]\n\
         edges = [{{ eave = {rise} }}, {{ gable = true }}, {{ eave = {rise} }}, {{ gable = true }}]\n\
         [deck]\nthickness = \"3/4 in\"\n[fastener]\nlength = \"2 in\"\n"
    );
    let (job, mistakes) = read_job(&text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    let mut catalog = Catalog::shipped();
    catalog.add(trade_sheet());
    plan(&job.unwrap(), &catalog)
}

fn line<'a>(plan: &'a Plan, id: &str) -> &'a OrderLine {
    plan.order.iter().find(|line| line.id == id).unwrap()
}

fn exposures(plane: &LaidPlane) -> impl Iterator<Item = f64> + '_ {
    plane.courses.iter().map(|course| course.exposure_in)
}

#[test]
fn exposure_by_pitch() {
    for (rise, least, greatest) in [(3.0, 6.0, 6.0), (4.99, 6.0, 6.0), (5.0, 6.0, 7.5), (8.0, 6.0, 7.5), (14.0, 6.0, 7.5)] {
        let plan = planned(rise);
        for plane in &plan.layout.planes {
            // The top course may show less, under the cap.
            let full = plane.courses.len() - 1;
            assert!(exposures(plane).take(full).all(|e| (least - 1e-9..=greatest + 1e-9).contains(&e)), "{rise}");
        }
        let failing: Vec<&str> =
            plan.checks.iter().filter(|check| check.outcome == "fail").map(|check| check.rule).collect();
        assert_eq!(failing, [] as [&str; 0], "{rise}");
        for rule in ["pitch-too-low", "exposure-too-great", "headlap-too-short", "joint-over-joint", "nail-too-short"] {
            assert!(plan.checks.iter().any(|check| check.rule == rule && check.outcome == "pass"), "{rise}: {rule}");
        }
    }
}

#[test]
fn starters_gap_and_joints() {
    let plan = planned(8.0);
    for plane in &plan.layout.planes {
        assert!(plane.first_butt_in >= -1.5 - 1e-9);
        let first = &plane.courses[0];
        for row in &plane.starters {
            assert!((row.butt_in - plane.first_butt_in).abs() < 1e-9, "starters are flush with the first course");
            for index in 1..row.count {
                let joint = row.left_in + f64::from(index) * row.step_in - 0.125;
                let nearest = first.joints_in.iter().map(|other| (other - joint).abs()).fold(f64::INFINITY, f64::min);
                assert!(nearest >= 2.0 - 1e-9, "{joint} is {nearest} from a joint of the first course");
            }
        }
        let [a, b] = [first.joints_in[3], first.joints_in[4]];
        assert!((b - a - 12.25).abs() < 1e-9, "12 in of unit and 1/4 in of gap");
    }
}

#[test]
fn nails_and_caps() {
    let plan = planned(8.0);
    // One ridge of 40 ft: the first cap covers 12 in, each further one 7-1/2 in more: 1 + ⌈468 / 7.5⌉ = 64.
    assert!((line(&plan, "caps").quantity - 64.0).abs() < 1e-9);
    let pieces = plan.layout.pieces as f64;
    let starters = line(&plan, "starters").quantity;
    let nails = line(&plan, "nails").quantity + line(&plan, "cap-nails").quantity;
    let starter_nails = f64::from(trade_sheet().starter.nails);
    assert!((nails - (2.0 * pieces + starter_nails * starters + 2.0 * 64.0)).abs() < 1e-9);
}

#[test]
fn a_nail_too_short_by_a_hair_fails() {
    let text = |length: &str| {
        format!(
            "format = 1\nname = \"T\"\ncovering = {{ sheet = \"composite-slate\" }}\n[[block]]\nname = \"h\"\n\
             outline = [[0, 0], [20, 0], [20, 14], [0, 14]]\nedges = [{{ eave = 8 }}, {{ gable = true }}, {{ eave = 8 }}, \
             {{ gable = true }}]\n[deck]\nthickness = \"1-1/2 in\"\n[fastener]\nlength = \"{length}\"\n"
        )
    };
    let mut catalog = Catalog::shipped();
    catalog.add(trade_sheet());
    // Two units, two layers of underlayment 1/32 in thick at a lap, and 3/4 in of the deck.
    let units = trade_sheet().unit.thickness * f64::from(trade_sheet().nails.through_units);
    let needed = units + Length::inches(2.0 / 32.0 + 0.75);
    for (length, outcome) in [(needed, "pass"), (needed - Length::inches(1.0 / 16.0), "fail")] {
        let (job, _) = read_job(&text(&format!("{} in", length.to_inches())), Format::Toml);
        let plan = plan(&job.unwrap(), &catalog);
        let check = plan.checks.iter().find(|check| check.rule == "nail-too-short").unwrap();
        assert_eq!(check.outcome, outcome, "{}", check.says);
    }
}
