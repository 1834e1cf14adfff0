//! Rules that read the roof as it is planned: one measurement of roof, layout or details is spoiled, and nothing that the job
//! tells, and exactly the rules named find something.

use covering::{Material, Movement, NailLine};
use details::{Details, Kind as Goods, Lies, MetalKind, SheetMetal};
use layout::{Cut, Layout, Run};
use roof::{Edge, EdgeKind, Line, Opening, OpeningKind, Ring, Roof, Spot};
use units::{Area, Expansion, Length, Pitch, Temperature};

use crate::trial::{Trial, house, strip};
use crate::{DeckKind, RULES};

/// A roof that keeps a rule, and what of it is changed so that it does not.
struct Case {
    rule: &'static str,
    sound: fn() -> Trial,
    spoil: fn(&mut Roof, &mut Layout, &mut Details),
    /// All that is found then, in the order of the list.
    finds: &'static [&'static str],
}

#[test]
fn each_fires_when_one_measurement_changes() {
    for Case { rule, sound, spoil, finds } in cases() {
        let (before, mut after) = (sound(), sound());
        spoil(&mut after.roof, &mut after.layout, &mut after.details);
        let kept = before.one(rule);
        assert!(kept.kept, "{rule} is not kept before: {}", kept.says);
        assert_eq!(after.adds(&before), *finds, "{rule}: {}", after.says(rule));
        assert!(finds.contains(rule), "{rule}");
    }
}

/// Thirty and more look at what is planned, not at a yes or a no of the job.
#[test]
fn at_least_thirty_rules_measure() {
    let rules: std::collections::BTreeSet<&str> = cases().map(|case| case.rule).collect();
    assert!(rules.iter().all(|name| RULES.iter().any(|rule| rule.name == *name)));
    assert!(rules.len() >= 30, "{}", rules.len());
}

/// Those that tell figures or caution for every roof, so that none keeps them.
const NEVER_KEPT: [&str; 6] = [
    "falls-from-roof",
    "ladder-too-short",
    "nails-draw-in-wind",
    "snow-slides-onto-roof-below",
    "tile-lifts-in-wind",
    "wind-uplift-undesigned",
];

/// No rule without a roof that keeps it, and a spoiled one with exactly the findings named: here or in the rule's own file.
#[test]
fn every_rule_says_what_a_spoiled_roof_adds() {
    for rule in RULES.iter().filter(|rule| !NEVER_KEPT.contains(&rule.name)) {
        let here = cases().any(|case| case.rule == rule.name);
        assert!(here || rule.file.contains(".adds(&"), "{}", rule.name);
    }
}

fn cases() -> impl Iterator<Item = &'static Case> {
    [EXPOSURES, JOINTS, PIECES, NAILS, SHEETS, VENTS, METAL, LINES, PLANES].into_iter().flatten()
}

const EXPOSURES: &[Case] = &[
    Case {
        rule: "exposure-too-great",
        sound: Trial::sound,
        spoil: |_, layout, _| raise(layout, 3, 0.6),
        finds: &["exposure-too-great"],
    },
    Case {
        rule: "exposure-over-code",
        sound: || Trial::of(Material::WoodShingle),
        spoil: |_, layout, _| raise(layout, 3, 0.625),
        finds: &["exposure-too-great", "exposure-over-code", "headlap-too-short"],
    },
    Case {
        rule: "headlap-too-short",
        sound: Trial::sound,
        spoil: |_, layout, _| layout.planes[0].courses[4].butt += 1.5,
        finds: &["exposure-too-great", "top-course-too-short", "headlap-too-short"],
    },
    Case {
        rule: "headlap-below-code",
        sound: || Trial::of(Material::NaturalSlate),
        spoil: |_, layout, _| layout.planes[0].courses[4].butt += 1.5,
        finds: &["exposure-too-great", "headlap-too-short", "headlap-below-code"],
    },
    Case {
        rule: "top-course-too-short",
        sound: Trial::sound,
        spoil: |_, layout, _| layout.planes[0].top -= 1.5,
        finds: &["top-course-too-short"],
    },
    Case {
        rule: "exposure-not-a-mark",
        sound: || {
            let mut trial = Trial::sound();
            trial.covering.marks = [6.0, 7.0].map(Length::inches).to_vec();
            trial
        },
        spoil: |_, layout, _| layout.planes[0].courses[3].exposure = 6.5,
        finds: &["exposure-not-a-mark"],
    },
    Case {
        rule: "covering-over-framing",
        sound: || {
            let mut trial = Trial::sound();
            trial.deck.covering_load_psf = Some(3.5);
            trial
        },
        spoil: |_, layout, _| layout.planes[0].courses[3].exposure = 6.0,
        finds: &["covering-over-framing"],
    },
    Case {
        rule: "boards-off-the-nails",
        sound: || {
            let mut trial = Trial::of(Material::WoodShake);
            (trial.deck.kind, trial.deck.board_centers) = (Some(DeckKind::SpacedBoards), Some(Length::inches(10.0)));
            trial
        },
        spoil: |_, layout, _| layout.planes[0].courses[3].exposure = 9.5,
        finds: &["boards-off-the-nails"],
    },
    Case {
        rule: "courses-miss-at-hip",
        sound: || {
            let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0); 4], 9.0)]);
            (0..4).for_each(|plane| trial.lay(plane, 7.0));
            trial
        },
        spoil: |_, layout, _| layout.planes[1].courses[0].exposure = 6.5,
        finds: &["courses-miss-at-hip"],
    },
];

const JOINTS: &[Case] = &[
    Case {
        rule: "joint-over-joint",
        sound: Trial::sound,
        spoil: |_, layout, _| first_run(layout, 6).left += 4.0,
        finds: &["joint-over-joint"],
    },
    Case {
        rule: "slate-sidelap-too-short",
        sound: || Trial::of(Material::NaturalSlate),
        spoil: |_, layout, _| first_run(layout, 6).left += 3.5,
        finds: &["slate-sidelap-too-short"],
    },
    Case {
        rule: "sidelap-below-code",
        sound: || Trial::of(Material::WoodShingle),
        spoil: |_, layout, _| first_run(layout, 6).left += 1.0,
        finds: &["joint-over-joint", "sidelap-below-code"],
    },
    Case {
        rule: "gap-outside-code",
        sound: || Trial::of(Material::WoodShingle),
        spoil: |_, layout, _| two_apart(layout, 0.5),
        finds: &["gap-outside-code"],
    },
    Case {
        rule: "gap-too-tight",
        sound: in_the_cold,
        spoil: |_, layout, _| two_apart(layout, 0.0625),
        finds: &["gap-too-tight"],
    },
    Case {
        rule: "gap-opens-too-wide",
        sound: in_the_cold,
        spoil: |_, layout, _| two_apart(layout, 0.4),
        finds: &["gap-opens-too-wide"],
    },
    Case {
        rule: "nail-near-joint",
        sound: || {
            let mut trial = Trial::sound();
            let [side, up, off] = [1.5, 10.0, 1.5].map(Length::inches);
            trial.covering.conditions.nail_line = Some(NailLine { side, up, off_joint: Some(off) });
            trial.covering.joint_offset = Length::inches(1.0);
            trial
        },
        spoil: |_, layout, _| first_run(layout, 6).left += 4.0,
        finds: &["nail-near-joint"],
    },
];

const PIECES: &[Case] = &[
    Case {
        rule: "piece-too-small",
        sound: with_a_piece,
        spoil: |_, layout, _| layout.planes[0].cuts[0].width = 3.9,
        finds: &["piece-too-small"],
    },
    Case {
        rule: "cut-piece-loses-its-nails",
        sound: with_a_piece,
        spoil: |_, layout, _| layout.planes[0].cuts[0].parts[0][2][0] = 1.0,
        finds: &["cut-piece-loses-its-nails"],
    },
];

const NAILS: &[Case] = &[
    Case {
        rule: "nail-too-short",
        sound: Trial::sound,
        spoil: |_, _, details| thicken(details, 0.6),
        finds: &["nail-too-short"],
    },
    Case {
        rule: "nail-misses-code-penetration",
        sound: || Trial::of(Material::PlainTile),
        spoil: |_, _, details| thicken(details, 1.1),
        finds: &["nail-too-short", "nail-misses-code-penetration"],
    },
    Case {
        rule: "nail-points-show",
        sound: || {
            let mut trial = Trial::sound();
            (trial.deck.exposed_soffit, trial.fastener.length) = (Some(true), Some(Length::inches(1.0)));
            trial
        },
        spoil: |_, _, details| thicken(details, -0.1),
        finds: &["nail-points-show"],
    },
];

const SHEETS: &[Case] = &[
    Case {
        rule: "ice-barrier-too-short",
        sound: || {
            let mut trial = on_a_gable(8.0, Goods::IceBarrier, &[[0.0, 36.0], [32.0, 68.0]]);
            trial.overhang_of = vec![Some(Length::inches(12.0)); trial.roof.lines.len()];
            let line = trial.roof.lines.iter().position(|line| line.planes == [0] && line.kind == EdgeKind::Eave).unwrap();
            let [needed, laid] = [44.0, 68.0].map(Length::inches);
            trial.details.dry_in.eaves = vec![details::EaveBarrier { line, needed, laid }];
            trial
        },
        spoil: |_, _, details| lower(details, 1, 30.0),
        finds: &["ice-barrier-too-short"],
    },
    Case {
        rule: "underlayment-lap-too-short",
        sound: || on_a_gable(8.0, Goods::Underlayment, &[[0.0, 36.0], [34.0, 70.0]]),
        spoil: |_, _, details| lower(details, 1, -1.0),
        finds: &["underlayment-lap-too-short"],
    },
    Case {
        rule: "underlayment-of-too-few-layers",
        sound: || {
            let mut bands = vec![[0.0, 19.0]];
            bands.extend((0..11).map(|at| [17.0 * f64::from(at), 17.0 * f64::from(at) + 36.0]));
            let mut trial = on_a_gable(3.0, Goods::Underlayment, &bands);
            trial.covering.material = Material::PlainTile;
            trial
        },
        spoil: |_, _, details| lower(details, 3, -2.5),
        finds: &["underlayment-of-too-few-layers", "underlayment-lap-too-short"],
    },
    Case {
        rule: "end-lap-too-short",
        sound: in_two_pieces,
        spoil: |_, _, details| strips(details)[0].pieces[0].length -= 3.0,
        finds: &["end-lap-too-short"],
    },
    Case {
        rule: "end-laps-in-line",
        sound: in_two_pieces,
        spoil: |_, _, details| strips(details)[1].pieces[1].from -= 1.0,
        finds: &["end-laps-in-line"],
    },
    Case {
        rule: "interlayment-misplaced",
        sound: || {
            let mut trial = Trial::of(Material::WoodShake);
            let felt = strip(Lies::Course { course: 3 }, 0, [0.0, 120.0], [50.0, 68.0], &[]);
            trial.roll(Goods::Interlayment, 18.0, vec![felt]);
            trial
        },
        spoil: |_, _, details| lower(details, 0, 5.0),
        finds: &["interlayment-misplaced"],
    },
    Case {
        rule: "edge-metal-lap-too-short",
        sound: edged,
        spoil: |_, _, details| strips(details)[0].pieces[0].length -= 0.5,
        finds: &["edge-metal-lap-too-short"],
    },
    Case {
        rule: "edge-metal-out-of-order",
        sound: edged,
        spoil: |_, _, details| strips(details)[0].over_underlayment = true,
        finds: &["edge-metal-out-of-order"],
    },
];

const VENTS: &[Case] = &[
    Case {
        rule: "attic-vents-too-small",
        sound: || Trial::vented(300, 320.0, 400.0),
        spoil: |_, _, details| details.vents.as_mut().unwrap().lower = Area::square_inches(390.0),
        finds: &["attic-vents-too-small"],
    },
    Case {
        rule: "vents-out-of-balance",
        sound: || Trial::vented(300, 700.0, 750.0),
        spoil: |_, _, details| details.vents.as_mut().unwrap().ridge_gives = Area::square_inches(800.0),
        finds: &["vents-out-of-balance"],
    },
    Case {
        rule: "ridge-vent-longer-than-ridge",
        sound: || Trial::vented(300, 320.0, 400.0),
        spoil: |_, _, details| details.vents.as_mut().unwrap().ridges[0].to -= 24.0,
        finds: &["ridge-vent-longer-than-ridge"],
    },
    Case {
        rule: "units-close-the-slot",
        sound: || {
            let mut trial = Trial::vented(300, 320.0, 400.0);
            trial.details.vents.iter_mut().for_each(|vents| vents.slot = Some(Length::inches(2.0)));
            trial.covering.edges.ridge_slot = Length::inches(2.0);
            trial
        },
        spoil: |_, _, details| details.vents.as_mut().unwrap().slot = Some(Length::inches(3.5)),
        finds: &["units-close-the-slot"],
    },
];

const METAL: &[Case] = &[
    Case {
        rule: "step-flashing-laps-too-little",
        sound: stepped,
        spoil: |_, _, details| piece(details, 1).ends[0][1] += 1.0,
        finds: &["step-flashing-laps-too-little"],
    },
    Case {
        rule: "step-flashing-too-small",
        sound: stepped,
        spoil: |_, _, details| piece(details, 0).girth = Length::inches(8.0),
        finds: &["step-flashing-too-small"],
    },
    Case {
        rule: "nail-and-flashing-form-a-cell",
        sound: stepped,
        spoil: |_, _, details| details.metal.as_mut().unwrap().stock.metal = SheetMetal::Aluminum,
        finds: &["nail-and-flashing-form-a-cell"],
    },
    Case {
        rule: "run-off-eats-metal",
        sound: || {
            let mut trial = stepped();
            trial.dry_in.drip_edge_metal = Some(SheetMetal::Zinc);
            let edge = strip(Lies::Line { line: 0 }, 0, [0.0, 120.0], [0.0; 2], &[]);
            trial.roll(Goods::DripEdge, 0.0, vec![edge]);
            trial.details.metal.as_mut().unwrap().stock.metal = SheetMetal::StainlessSteel;
            trial
        },
        spoil: |_, _, details| details.metal.as_mut().unwrap().stock.metal = SheetMetal::Copper,
        finds: &["run-off-eats-metal"],
    },
    Case {
        rule: "valley-metal-laps-too-little",
        sound: lined,
        spoil: |_, _, details| piece(details, 0).ends[1] = [59.0, 79.0],
        finds: &["valley-metal-laps-too-little"],
    },
    Case {
        rule: "valley-metal-too-narrow",
        sound: lined,
        spoil: |_, _, details| piece(details, 1).girth = Length::inches(22.0),
        finds: &["valley-metal-too-narrow"],
    },
];

const LINES: &[Case] = &[
    Case {
        rule: "valley-dies-at-wall",
        sound: || {
            let mut trial = Trial::sound();
            let line = |kind, ends| Line { kind, ends, planes: vec![0] };
            let wall = [[-60.0, -50.0, 0.0], [-60.0, 50.0, 0.0]];
            let valley = [[100.0, 100.0, 80.0], [0.0; 3]];
            trial.roof.lines = vec![line(EdgeKind::Valley, valley), line(EdgeKind::Sidewall, wall)];
            trial
        },
        spoil: |roof, _, _| roof.lines[0].ends[1][0] = -55.0,
        finds: &["valley-dies-at-wall"],
    },
    Case {
        rule: "dead-valley",
        sound: || {
            let mut trial = Trial::sound();
            trial.roof.lines = vec![Line { kind: EdgeKind::Valley, ends: [[0.0; 3], [120.0, 0.0, 1.5]], planes: vec![0] }];
            trial
        },
        spoil: |roof, _, _| roof.lines[0].ends[1][2] = 1.1,
        finds: &["dead-valley"],
    },
    Case {
        rule: "valley-flows-unequal",
        sound: || {
            let main = house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0), None, Some(8.0), None], 9.0);
            Trial::on(&[main, house("wing", [12.0, -12.0, 28.0, 14.0], [None, Some(8.0), None, Some(8.0)], 9.0)])
        },
        spoil: |roof, _, _| roof.planes[0].pitch = Pitch::per_12(9.0).unwrap(),
        finds: &["valley-flows-unequal"],
    },
    Case {
        rule: "cricket-missing",
        sound: || with_an_opening(OpeningKind::Chimney, 20.0),
        spoil: |roof, _, _| roof.openings[0].width = Length::inches(30.5),
        finds: &["cricket-missing"],
    },
    Case {
        rule: "opening-near-valley",
        sound: || with_an_opening(OpeningKind::Pipe, 4.0),
        spoil: |roof, _, _| roof.openings[0].corners.iter_mut().for_each(|corner| corner[0] = corner[1] + 5.0),
        finds: &["opening-near-valley"],
    },
];

const PLANES: &[Case] = &[
    Case {
        rule: "pitch-too-low",
        sound: || {
            let mut trial = Trial::sound();
            trial.set_pitch(3.0);
            trial.set_exposure(6.0);
            trial
        },
        spoil: |roof, _, _| roof.planes[0].pitch = Pitch::per_12(2.9).unwrap(),
        finds: &["pitch-too-low", "exposure-too-great", "headlap-too-short"],
    },
    Case {
        rule: "pitch-below-code",
        sound: || {
            let mut trial = Trial::of(Material::NaturalSlate);
            trial.set_pitch(4.0);
            trial
        },
        spoil: |roof, _, _| roof.planes[0].pitch = Pitch::per_12(3.9).unwrap(),
        finds: &["pitch-below-code"],
    },
    Case {
        rule: "unit-lies-too-flat",
        sound: || {
            let mut trial = Trial::sound();
            trial.covering.conditions.least_true_pitch = Pitch::per_12(7.0).ok();
            trial
        },
        spoil: |roof, _, _| roof.planes[0].pitch = Pitch::per_12(7.5).unwrap(),
        finds: &["unit-lies-too-flat"],
    },
    Case {
        rule: "top-out-of-parallel",
        sound: || {
            let mut trial = Trial::sound();
            let plane = &mut trial.roof.planes[0];
            let corners = [[0.0, 0.0], [240.0, 0.0], [240.0, 120.0], [0.0, 120.0]];
            let kinds = [EdgeKind::Eave, EdgeKind::Rake, EdgeKind::Ridge, EdgeKind::Rake];
            let edges = kinds.map(|kind| Edge { kind, meets: None }).to_vec();
            plane.rings = vec![Ring { corners: corners.map(|at| plane.frame.point(at)).to_vec(), edges }];
            trial
        },
        spoil: |roof, _, _| {
            let plane = &mut roof.planes[0];
            plane.rings[0].corners[2] = plane.frame.point([240.0, 122.0]);
        },
        finds: &["top-out-of-parallel"],
    },
    Case {
        rule: "snow-over-framing",
        sound: || {
            let block = house("house", [0.0, 0.0, 120.0, 100.0], [Some(8.0), None, Some(8.0), None], 9.0);
            let mut trial = Trial { roof: Trial::on(&[block]).roof, ..Trial::of(Material::WoodShake) };
            let site = &mut trial.site;
            (site.ground_snow_psf, site.snow_exposure_factor) = (Some(20.0), Some(1.1));
            (site.snow_thermal_factor, site.risk_category) = (Some(1.2), Some(1));
            trial.deck.snow_load_psf = Some(14.8);
            trial
        },
        spoil: |roof, _, _| roof.planes[0].pitch = Pitch::per_12(7.0).unwrap(),
        finds: &["snow-over-framing"],
    },
];

/// Moves a course, those above it and the top line up the slope.
fn raise(layout: &mut Layout, course: usize, by: f64) {
    let laid = &mut layout.planes[0];
    laid.courses[course..].iter_mut().for_each(|course| course.butt += by);
    laid.top += by;
}

fn first_run(layout: &mut Layout, course: usize) -> &mut Run {
    &mut layout.planes[0].courses[course].runs[0]
}

/// The fourth course is two units with this gap.
fn two_apart(layout: &mut Layout, gap: f64) {
    let run = first_run(layout, 3);
    (run.step, run.count) = (run.width + gap, 2);
}

/// Units of 12 in that move 70e-6 per °F, laid 1/4 in apart at 40 °F where it gets to -10 and 170: 0.11 in are needed, and they
/// open by 0.04 in, to 0.35 in at most.
fn in_the_cold() -> Trial {
    let mut trial = Trial::sound();
    let [laid, hottest, coldest] = [40.0, 170.0, -10.0].map(Temperature::fahrenheit);
    let greatest_gap = Some(Length::inches(0.35));
    trial.covering.conditions.movement =
        Some(Movement { expansion: Expansion::per_fahrenheit(70e-6), hottest, greatest_gap });
    (trial.laying.unit_temperature, trial.site.coldest) = (Some(laid), Some(coldest));
    trial
}

/// The last unit of a course is cut to 4 in; nails go 1-1/2 in from the sides, 10 in up.
fn with_a_piece() -> Trial {
    let mut trial = Trial::sound();
    let [side, up] = [1.5, 10.0].map(Length::inches);
    trial.covering.conditions.nail_line = Some(NailLine { side, up, off_joint: None });
    let laid = &mut trial.layout.planes[0];
    let parts = vec![vec![[0.0, 0.0], [4.0, 0.0], [4.0, 18.0], [0.0, 18.0]]];
    laid.cuts.push(Cut { parts, area: 72.0, width: 4.0, ..Cut::default() });
    let whole = &mut laid.courses[2].runs[0];
    whole.count -= 1;
    let last = Run { left: whole.right() + 0.25, count: 1, cut: Some(0), joint_before: true, ..*whole };
    laid.courses[2].runs.push(last);
    trial
}

fn thicken(details: &mut Details, by: f64) {
    let units = &mut details.nails[0].passes[0];
    units.thickness = units.thickness + Length::inches(by);
}

/// A gable of 40 by 28 ft with sheets of one kind between these heights on its south side.
fn on_a_gable(pitch: f64, goods: Goods, bands: &[[f64; 2]]) -> Trial {
    let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(pitch), None, Some(pitch), None], 9.0)]);
    let lies = |course| if goods == Goods::IceBarrier { Lies::Eave { course } } else { Lies::Course { course } };
    let strips = bands.iter().zip(0..).map(|(&v, course)| strip(lies(course), 0, [-6.0, 486.0], v, &[]));
    trial.roll(goods, 36.0, strips.collect());
    trial
}

/// Two courses of underlayment in two pieces each, their end laps 72 in apart.
fn in_two_pieces() -> Trial {
    let mut trial = Trial::sound();
    let ends = |at: f64| [[0.0, at + 6.0], [at, 400.0 - at]];
    let course = |course, v, at| strip(Lies::Course { course }, 0, [0.0, 400.0], v, &ends(at));
    let strips = vec![course(0, [0.0, 36.0], 150.0), course(1, [32.0, 68.0], 222.0)];
    trial.roll(Goods::Underlayment, 36.0, strips);
    trial
}

/// Drip edge along an eave, in two pieces.
fn edged() -> Trial {
    let mut trial = Trial::sound();
    trial.roof.lines = vec![Line { kind: EdgeKind::Eave, ends: [[0.0; 3], [120.0, 0.0, 0.0]], planes: vec![0] }];
    let pieces = [[0.0, 62.0], [60.0, 60.0]];
    trial.roll(Goods::DripEdge, 0.0, vec![strip(Lies::Line { line: 0 }, 0, [0.0, 120.0], [0.0; 2], &pieces)]);
    trial
}

fn strips(details: &mut Details) -> &mut Vec<details::Strip> {
    &mut details.dry_in.rolls[0].strips
}

/// Moves a strip down the slope.
fn lower(details: &mut Details, at: usize, by: f64) {
    strips(details)[at].patches[0].corners.iter_mut().for_each(|corner| corner[1] -= by);
}

/// Step flashing in courses of 7 in, legs of 4 in and a hem of 1/2 in, of copper under copper nails.
fn stepped() -> Trial {
    let mut trial = Trial::sound();
    trial.metal(MetalKind::StepFlashing, &[0.0, 7.0, 14.0].map(|foot| [[0.0, foot], [0.0, foot + 9.0]]), 8.5);
    trial
}

/// An open valley under shakes in two lengths that lap 5 in along the line.
fn lined() -> Trial {
    let mut trial = Trial::of(Material::WoodShake);
    trial.fastener.metal = Some(crate::Metal::StainlessSteel);
    trial.metal(MetalKind::OpenValley, &[[[0.0, 0.0], [60.0, 80.0]], [[57.0, 76.0], [117.0, 156.0]]], 23.0);
    trial
}

fn piece(details: &mut Details, at: usize) -> &mut details::MetalPiece {
    &mut details.metal.as_mut().unwrap().items[0].runs[0].pieces[at]
}

/// On the south side of a hip roof, 10 ft from the left eave.
fn with_an_opening(kind: OpeningKind, width: f64) -> Trial {
    let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0); 4], 9.0)]);
    let spot = Spot::Over([240.0, 60.0]);
    let opening = Opening { name: "opening".into(), kind, spot, width, height: 4.0 };
    trial.roof = roof::cut_out(trial.roof, &[opening]).roof;
    trial
}
