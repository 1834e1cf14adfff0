//! Metal in the plan of a whole job: every line of the order is counted again from its places.
#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use std::collections::{BTreeMap, BTreeSet};

use covering::Catalog;
use plan::{OrderLine, Plan, plan, read_job};
use reader::Format;

fn planned(text: &str) -> Plan {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    plan(&job.unwrap(), &Catalog::shipped())
}

fn examples() -> Vec<Plan> {
    [
        include_str!("../../../examples/chimney.toml"),
        include_str!("../../../examples/ell.toml"),
        include_str!("../../../examples/hip.toml"),
        include_str!("../../../examples/manor.toml"),
        include_str!("../../../examples/gambrel.toml"),
        include_str!("../../../examples/taped.toml"),
    ]
    .map(planned)
    .into()
}

fn line<'a>(plan: &'a Plan, id: &str) -> &'a OrderLine {
    plan.order.iter().find(|line| line.id == id).unwrap_or_else(|| panic!("no line {id}"))
}

#[test]
fn lines_of_the_order_are_their_places() {
    for plan in examples() {
        let Some(metal) = &plan.details.metal else { continue };
        for item in &metal.items {
            let line = line(&plan, item.id);
            let pieces: usize = item.runs.iter().map(|run| run.pieces.len()).sum();
            assert_eq!(line.packs, pieces as u64, "{}", item.id);
            assert_eq!(line.places.len(), item.runs.len());
            for (place, run) in line.places.iter().zip(&item.runs) {
                let feet: f64 = run.pieces.iter().map(|piece| piece.length_in / 12.0).sum();
                let counted = if line.unit == "ft" { feet } else { run.pieces.len() as f64 };
                assert!(place.at == run.at && (place.quantity - counted).abs() < 1e-9, "{}", run.at);
                assert!(!run.pieces.is_empty() && plan.roof.planes.iter().any(|plane| plane.id == run.plane));
            }
            let sum: f64 = line.places.iter().map(|place| place.quantity).sum();
            assert!((sum - line.quantity).abs() < 1e-9);
        }
        let pieces = || metal.items.iter().flat_map(|item| &item.runs).flat_map(|run| &run.pieces);
        let area: f64 = pieces().map(|piece| piece.girth_in * piece.length_in / 144.0).sum();
        let sheets = line(&plan, "sheet-metal");
        assert!((sheets.quantity - area).abs() < 1e-6 && sheets.packs == u64::from(metal.sheets));
        assert!(metal.bound <= metal.sheets && area <= f64::from(metal.sheets) * 30.0 + 1e-6, "sheets of 3 × 10 ft");
        assert!((sheets.weight_lb - f64::from(metal.sheets) * 30.0 * metal.weight_psf).abs() < 1e-6);
    }
}

/// Nails of metal and of drip edge, run by run and strip by strip; flanges pipe by pipe.
#[test]
fn nails_and_flanges_are_their_places() {
    let plan = planned(include_str!("../../../examples/chimney.toml"));
    let metal = plan.details.metal.as_ref().unwrap();
    let runs = || metal.items.iter().flat_map(|item| &item.runs);
    let of_metal: u32 = runs().map(|run| run.nails).sum();
    let nails = line(&plan, "metal-nails");
    assert!((nails.quantity - f64::from(of_metal)).abs() < 1e-9);
    assert_eq!(nails.places.len(), runs().filter(|run| run.nails > 0).count());
    let edge = plan.details.rolls.iter().find(|rolls| rolls.kind == "drip edge").unwrap();
    let of_edge: u32 = edge.strips.iter().map(|strip| strip.fasteners).sum();
    assert!(of_edge > 0 && (line(&plan, "drip-edge-nails").quantity - f64::from(of_edge)).abs() < 1e-9);
    assert_eq!(line(&plan, "pipe-flanges").packs, metal.pipes.len() as u64);
    // The caps over the vent have nails of their own: all that lie on vented ridges.
    let vented = plan.details.vents.as_ref().unwrap().ridges.len();
    assert_eq!(line(&plan, "ridge-vent-nails").places.len(), vented);
    assert!(plan.order.iter().all(|line| line.id != "cap-nails"), "every ridge is vented and there is no hip");
    let crickets: Vec<&str> = plan
        .roof
        .openings
        .iter()
        .filter_map(|opening| opening.cricket.as_ref())
        .flat_map(|of| of.planes.iter().map(String::as_str))
        .collect();
    let felt = plan.details.rolls.iter().find(|rolls| rolls.kind == "underlayment").unwrap();
    for cricket in crickets {
        assert!(felt.strips.iter().any(|strip| strip.patches.iter().any(|patch| patch.plane == cricket)), "{cricket}");
    }
}

/// 5 lb of 4d nails for 1000 shingles (A Treatise on Architecture and Building Construction, volume 4, 1899, read at second hand in
/// its web copy), two in each: 400 to the pound.
#[test]
fn weight_by_nails_to_the_pound() {
    let text =
        include_str!("../../../examples/ell.toml").replace("length = \"1-1/2 in\"", "length = \"1-1/2 in\"\nper_lb = 400");
    let plan = planned(&text);
    let nails = line(&plan, "nails");
    let boxes: f64 = nails.pack.trim_start_matches("box of ").parse().unwrap();
    assert!((nails.weight_lb - nails.packs as f64 * boxes * 5.0 / 2000.0).abs() < 1e-9);
    assert!(nails.item.ends_with("1-1/2\"") && line(&plan, "cap-nails").weight_lb.abs() < 1e-12);
}

/// On a plain gable that grows, no pack count falls by more than one, and none is negative.
#[test]
fn a_growing_gable_never_needs_much_less() {
    let gable = include_str!("../../../examples/gable.toml");
    let mut last: BTreeMap<String, u64> = BTreeMap::new();
    for feet in 12..30 {
        let outline = format!("outline = [[0, 0], [{feet}, 0], [{feet}, 20], [0, 20]]\n#");
        let plan = planned(&gable.replacen("outline ", &format!("{outline} "), 1));
        let packs: BTreeMap<String, u64> = plan.order.iter().map(|line| (line.id.clone(), line.packs)).collect();
        // Wide units are taken where an edge would leave a sliver, so they come and go with the width.
        for (id, before) in last.iter().filter(|(id, _)| *id != "wide-units") {
            assert!(packs.get(id).copied().unwrap_or(0) + 1 >= *before, "{id} at {feet} ft");
        }
        assert!(plan.order.iter().all(|line| line.quantity >= 0.0 && line.quantity.is_finite()));
        last = packs;
    }
}

/// Every step flashing belongs to one course and one wall.
#[test]
fn step_flashing_belongs_to_one_course_and_one_wall() {
    for plan in examples() {
        let metal = plan.details.metal.iter().flat_map(|metal| &metal.items);
        let mut taken = BTreeSet::new();
        for run in metal.filter(|item| item.id == "step-flashing").flat_map(|item| &item.runs) {
            let laid = plan.layout.planes.iter().find(|laid| laid.id == run.plane).unwrap();
            for piece in &run.pieces {
                let course = piece.course.unwrap();
                assert!((course as usize) < laid.courses.len());
                assert!(taken.insert((run.plane.clone(), run.line, course)), "{} course {course}", run.at);
            }
        }
    }
}

/// 16 oz of copper to the square foot are 0.0216 in thick: a definition of the trade, common practice, no published source.
#[test]
fn copper_is_told_in_ounces() {
    let job = include_str!("../../../examples/ell.toml").to_owned() + "\n[metal]\nkind = \"copper\"\n";
    let metal = planned(&job).details.metal.unwrap();
    assert!((metal.weight_psf - 1.0).abs() < 0.002 && metal.metal == "copper");
}
