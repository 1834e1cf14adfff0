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
    let told = asks("third").into_iter().find(|problem| problem.code == "bond-not-allowed").unwrap();
    assert!(told.says.ends_with("does not allow third bond; half bond is laid"), "{}", told.says);
    assert_eq!(told.place.path, "setting_out.bond");
    assert!(!asks("half").iter().any(|problem| problem.code == "bond-not-allowed"));
    let (job, mistakes) = read_job(&format!("{HIP}\n[setting_out]\nbond = \"quarter\"\n"), Format::Toml);
    assert!(job.is_none() && mistakes.len() == 1, "{mistakes:?}");
}

/// The hip roof in a sheet with a step, laid as the job says.
fn staggered(step: &str, setting_out: &str) -> plan::Plan {
    let text = include_str!("../../../coverings/natural-slate.toml");
    let sheet = text.replace("[bond]\n", &format!("[bond]\n{step}\n"));
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
    let plan = staggered("", "butts = \"staggered\"");
    let told = plan.problems.iter().find(|problem| problem.code == "not-staggered").unwrap();
    assert!(told.says.ends_with("gives no step for staggered butts; they are laid straight"), "{}", told.says);
    assert_eq!(told.place.path, "setting_out.butts");
}

const COTTAGE: &str = include_str!("../../../examples/cottage.toml");

fn cottage() -> (plan::Job, plan::Plan) {
    let (job, mistakes) = read_job(COTTAGE, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    let job = job.unwrap();
    let plan = plan(&job, &Catalog::shipped());
    (job, plan)
}

/// Its sheet tells 12 in 12 a headlap of 3 in; so units of 22, 20 and 18 in show 9-1/2, 8-1/2 and 7-1/2 in at most, and where two
/// lengths meet, heads lie 2 in nearer to each other than butts.
#[test]
fn the_cottage_is_graduated() {
    let (_, plan) = cottage();
    let south = plan.layout.planes.iter().find(|laid| laid.id == "house.0").unwrap();
    assert_eq!(south.lengths.iter().map(|of| of.length_in).collect::<Vec<_>>(), [22.0, 20.0, 18.0]);
    assert_eq!(south.lengths.iter().map(|of| of.courses).sum::<usize>(), south.courses.len());
    for course in &south.courses {
        assert!(course.exposure_in <= (course.length_in - 3.0) / 2.0 + 1e-9 && course.headlap_in >= 3.0 - 1e-9);
    }
    for of in &south.lengths[1..] {
        let [below, first] = [of.first_course - 1, of.first_course].map(|course| &south.courses[course]);
        assert!((of.heads_apart_in.unwrap() - (first.butt_in - below.butt_in - 2.0)).abs() < 1e-9);
        // One more inch of headlap, once: half of what the units are shorter.
        assert!((of.headlap_in.unwrap() - south.courses[of.first_course].headlap_in - 1.0).abs() < 0.2);
    }
    let lines = plan.order.iter().filter(|line| line.id.starts_with("field-units-")).count();
    assert_eq!(lines, 3 * 4, "a line for each length and width");
}

/// Read on its mark, nothing changes; read 1/2 in high, the courses above are spread anew.
#[test]
fn the_cottage_is_laid_on_from_a_reading() {
    let (job, planned) = cottage();
    let south = planned.layout.planes.iter().find(|laid| laid.id == "house.0").unwrap();
    let marks = |course: usize| south.poles.iter().flat_map(|pole| &pole.marks).find(|mark| mark.course == course).unwrap();
    for (off, outcome) in [(0.0, plan::Outcome::AsPlanned), (0.5, plan::Outcome::Spread)] {
        let at = units::Length::inches(marks(6).butt_in + off);
        let reading = plan::CourseRead { plane: "house.0".into(), course: 7, left: at, right: at };
        let relay = plan::relay(&job, &Catalog::shipped(), &[reading]).unwrap();
        assert_eq!(relay.planes[0].outcome, outcome);
    }
}

/// The bonds of its sheet beside each other.
#[test]
fn bonds_are_compared() {
    let (job, _) = cottage();
    let bonds = vec![plan::BondChoice::Of(covering::Bond::Half), plan::BondChoice::Staggered];
    let choices = plan::Choices { bonds, ..plan::Choices::default() };
    let compared = plan::compare(&job, &Catalog::shipped(), &choices);
    assert_eq!(
        compared.options.iter().map(|option| option.bond).collect::<Vec<_>>(),
        [Some("half bond"), Some("staggered butts")]
    );
    assert!(compared.options.iter().all(|option| option.pieces > 1000));
    assert!(compared.options[1].says.iter().any(|says| says.contains("no step for staggered butts")));
    let usual = plan::compare(&job, &Catalog::shipped(), &plan::Choices::default());
    assert!(usual.options.iter().any(|option| option.bond == Some("half bond")));
}

/// The gambrel's turret with and without units that narrow: the same courses and poles, other pieces; every joint straight up or
/// towards the peak, and none nearer to those below than the sheet allows.
#[test]
fn the_turret_is_laid_in_units_that_narrow() {
    const GAMBREL: &str = include_str!("../../../examples/gambrel.toml");
    let tapered = "tapered = [\"turret\"]";
    let planned = |text: &str| plan(&read_job(text, Format::Toml).0.unwrap(), &Catalog::shipped());
    let [as_typed, straight] = [GAMBREL.to_string(), GAMBREL.replace(tapered, "")].map(|text| planned(&text));
    for (laid, other) in as_typed.layout.planes.iter().zip(&straight.layout.planes) {
        let butts = |laid: &plan::LaidPlane| laid.courses.iter().map(|course| course.butt_in.to_bits()).collect::<Vec<_>>();
        assert_eq!(butts(laid), butts(other));
        assert_eq!(laid.peak_in.is_some(), laid.id.starts_with("turret."));
        assert_eq!(laid.peak_in.is_none(), laid.courses == other.courses);
    }
    let rule = as_typed.checks.iter().find(|check| check.rule == "joint-over-joint").unwrap();
    assert_eq!(rule.outcome, "pass", "{}", rule.says);
    let problem = |text: &str, code: &str| planned(text).problems.into_iter().find(|problem| problem.code == code).unwrap();
    let unknown = problem(&GAMBREL.replace(tapered, "tapered = [\"tower\"]"), "unknown-block");
    assert_eq!(unknown.place.path, "setting_out.tapered");
    let flat = problem(&GAMBREL.replace(tapered, "tapered = [\"bay\"]"), "not-tapered");
    assert!(flat.says.starts_with("bay, "), "{}", flat.says);
}
