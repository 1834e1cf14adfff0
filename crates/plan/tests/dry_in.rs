//! Dry-in, vents and the order of work in the plan of a whole job, and the figure of `docs/dry-in.md`.
#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

use covering::Catalog;
use plan::{Details, OrderLine, Plan, Rolls, plan, read_job};
use reader::Format;

/// The example with openings, which stands in a cold place and has an attic.
fn cold() -> Plan {
    planned(include_str!("../../../examples/chimney.toml"))
}

fn planned(text: &str) -> Plan {
    let (job, mistakes) = read_job(text, Format::Toml);
    assert!(mistakes.is_empty(), "{mistakes:?}");
    plan(&job.unwrap(), &Catalog::shipped())
}

fn line<'a>(plan: &'a Plan, id: &str) -> &'a OrderLine {
    plan.order.iter().find(|line| line.id == id).unwrap_or_else(|| panic!("no line {id}"))
}

fn rolls<'a>(details: &'a Details, kind: &str) -> &'a Rolls {
    details.rolls.iter().find(|rolls| rolls.kind == kind).unwrap()
}

/// Every line is counted again from the strips that it points at.
#[test]
fn lines_of_the_order_are_their_strips() {
    let plan = cold();
    for (id, kind) in [("drip-edge", "drip edge"), ("ice-barrier", "ice barrier"), ("underlayment", "underlayment")] {
        let (line, rolls) = (line(&plan, id), rolls(&plan.details, kind));
        let taken: BTreeSet<u32> =
            rolls.strips.iter().flat_map(|strip| strip.pieces.iter().map(|piece| piece.roll)).collect();
        assert_eq!(line.packs, taken.len() as u64, "{id}");
        assert_eq!(line.places.len(), rolls.strips.len());
        for (place, strip) in line.places.iter().zip(&rolls.strips) {
            let feet: f64 = strip.pieces.iter().map(|piece| piece.length_in / 12.0).sum();
            assert!(place.at == strip.at && (place.quantity - feet).abs() < 1e-9);
        }
        assert!(rolls.bound <= rolls.count);
    }
    let fasteners: u32 = rolls(&plan.details, "underlayment").strips.iter().map(|strip| strip.fasteners).sum();
    assert!((line(&plan, "underlayment-fasteners").quantity - f64::from(fasteners)).abs() < 1e-9);
    let sections: u32 = plan.details.vents.as_ref().unwrap().ridges.iter().map(|run| run.sections).sum();
    assert_eq!(line(&plan, "ridge-vent").packs, u64::from(sections));
    assert!(plan.order.iter().all(|line| line.quantity >= 0.0 && line.quantity.is_finite()));
}

/// Overhang 14 in + 24 in level at 8:12: 38 × 1.2019 = 45.67 in (International Residential Code R905.1.2 as code officials
/// read it), so two courses of 36 in at a 4-in lap.
#[test]
fn the_job_tells_overhang_and_cold() {
    let plan = cold();
    assert_eq!(plan.details.eaves.len(), 2);
    for eave in &plan.details.eaves {
        assert!((eave.needed_in - 45.67).abs() < 0.006 && (eave.laid_in - 68.0).abs() < 1e-9);
    }
    assert!(plan.details.missing.is_empty());
}

/// Inside the walls of 44 × 28 ft less 8 in at each gable and 14 in at each eave.
#[test]
fn the_attic_lies_inside_the_walls() {
    let vents = cold().details.vents.unwrap();
    let floor = (44.0 - 16.0 / 12.0) * (28.0 - 28.0 / 12.0);
    assert!((vents.floor_sqft - floor).abs() < 1e-6);
    assert!((vents.needed_sqin - floor * 144.0 / 300.0).abs() < 1e-6);
    // The sheet's slot of 2 in and the ridge board of 1-1/2 in.
    assert_eq!(vents.slot_in, Some(3.5));
}

#[test]
fn what_is_not_told_is_named() {
    let plan = planned(include_str!("../../../examples/gable.toml"));
    assert!(plan.details.missing.iter().any(|gap| gap.what == "ice barrier"));
    assert!(plan.details.vents.is_none() && plan.order.iter().all(|line| line.id != "ice-barrier"));
    let bare = planned(
        "format = 1\nname = \"T\"\ncovering = { sheet = \"composite-slate\" }\n[site]\nwinter = \"10 F\"\n[[block]]\n\
name = \"h\"\noutline = [[0, 0], [20, 0], [20, 14], [0, 14]]\nedges = [{ eave = 8 }, { gable = true }, { eave = 8 }, { gable = true }]\n[attic]\n",
    );
    let gaps: Vec<&str> = bare.details.missing.iter().map(|gap| gap.what.as_str()).collect();
    assert_eq!(gaps, ["ice barrier, h, south", "ice barrier, h, north", "vents"]);
}

const SCALE: f64 = 1.6;
const MARGIN: f64 = 20.0;

/// The south slope with every strip that lies on it, from the plan.
fn figure(plan: &Plan) -> String {
    let plane = &plan.roof.planes[0];
    let outline = &plane.outlines_in[0];
    let [wide, high] = [0, 1].map(|axis| outline.iter().map(|corner| corner[axis]).fold(0.0, f64::max));
    let top = MARGIN + (high + 24.0) * SCALE;
    let at = |[u, v]: [f64; 2]| format!("{:.1},{:.1}", MARGIN + u * SCALE, top - v * SCALE);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{:.0}\" height=\"{:.0}\" font-family=\"sans-serif\" font-size=\"13\">\n\
         <rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n",
        2.0 * MARGIN + wide * SCALE,
        top + 3.0 * MARGIN
    );
    let fills = BTreeMap::from([("ice barrier", "#c8d8e8"), ("underlayment", "#f0e6d2")]);
    for rolls in plan.details.rolls.iter().filter(|rolls| fills.contains_key(rolls.kind)) {
        for (strip, patch) in rolls.strips.iter().flat_map(|strip| strip.patches.iter().map(move |patch| (strip, patch))) {
            if patch.plane != plane.id {
                continue;
            }
            let corners: Vec<String> = patch.corners_in.iter().map(|&corner| at(corner)).collect();
            let _ = writeln!(
                svg,
                "<polygon points=\"{}\" fill=\"{}\" fill-opacity=\"0.6\" stroke=\"#444\" stroke-width=\"0.8\"><title>{}</title></polygon>",
                corners.join(" "),
                fills[rolls.kind],
                strip.at
            );
        }
    }
    for ring in &plane.outlines_in {
        let corners: Vec<String> = ring.iter().map(|&corner| at(corner)).collect();
        let _ =
            writeln!(svg, "<polygon points=\"{}\" fill=\"none\" stroke=\"black\" stroke-width=\"2\"/>", corners.join(" "));
    }
    for eave in plan.details.eaves.iter().filter(|eave| eave.plane == plane.id) {
        let ends = [[0.0, eave.needed_in], [wide, eave.needed_in]].map(at);
        let _ = writeln!(
            svg,
            "<polyline points=\"{}\" fill=\"none\" stroke=\"#b00\" stroke-dasharray=\"8 5\"/>",
            ends.join(" ")
        );
    }
    for (row, (fill, words)) in [
        ("#c8d8e8", "ice barrier: eave, rakes, round openings, valleys of the cricket"),
        ("#f0e6d2", "underlayment, over the barrier's upper edge and carried over the ridge"),
    ]
    .into_iter()
    .enumerate()
    {
        let y = top + 14.0 + 18.0 * row as f64;
        let _ = writeln!(
            svg,
            "<rect x=\"{MARGIN}\" y=\"{:.0}\" width=\"14\" height=\"12\" fill=\"{fill}\" stroke=\"#444\"/>",
            y - 10.0
        );
        let _ = writeln!(svg, "<text x=\"{}\" y=\"{y:.0}\">{words}</text>", MARGIN + 22.0);
    }
    let _ = writeln!(
        svg,
        "<text x=\"{}\" y=\"{:.0}\" fill=\"#b00\">dashed: the barrier must reach so far</text>",
        MARGIN + 480.0,
        top + 14.0
    );
    svg.push_str("</svg>\n");
    svg
}

/// `HEADLAP_BLESS=1` draws it anew.
#[test]
fn the_figure_is_the_plan() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/dry-in.svg");
    let drawn = figure(&cold());
    if std::env::var_os("HEADLAP_BLESS").is_some() {
        std::fs::write(path, &drawn).unwrap();
    }
    assert!(
        std::fs::read_to_string(path).unwrap_or_default() == drawn,
        "docs/dry-in.svg is not what the plan says: bless it"
    );
}
