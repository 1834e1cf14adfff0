//! The order of small roofs made by hand. Figures of sheets are invented.
#![allow(clippy::unwrap_used, reason = "tests only")]

// The planes and sheets made for the layout's tests.
#[path = "../../layout/tests/common/mod.rs"]
mod common;

use common::{gable, inches, plain_slate};
use covering::Covering;
use details::{Details, DryIn, FastenerGrid, Kind, Lies, Patch, Piece, RidgeRun, Roll, Rolls, Strip, Vents};
use layout::{Course, Cut, Hanging, LaidPlane, Layout, Run, Starters, UnitKind};
use proptest::prelude::*;
use roof::{EdgeKind, Line, Plane, Roof};
use takeoff::{Order, OrderChoices, OrderLine, caps_along};
use units::{Area, Mass};

/// Two planes of 20 × 10 ft on the slope that meet at a ridge of 20 ft.
fn two_planes() -> Roof {
    let south = gable(240.0, 120.0);
    let north = Plane { id: "test.1".into(), name: "test, north".into(), ..south.clone() };
    let ridge = Line { kind: EdgeKind::Ridge, ends: [[0.0, 0.0, 50.0], [240.0, 0.0, 50.0]], planes: vec![0, 1] };
    let eave = Line { kind: EdgeKind::Eave, ends: [[0.0; 3], [240.0, 0.0, 0.0]], planes: vec![0] };
    Roof { planes: vec![south, north], lines: vec![eave, ridge], ..Roof::default() }
}

/// One course: `whole` whole units and `cut` halves of a 20 × 12-in unit, over `starters` starters.
fn laid(plane: usize, whole: u32, cut: u32, starters: u32) -> LaidPlane {
    let run = |count, cut| Run {
        left: 0.0,
        width: 12.0,
        step: 12.0,
        count,
        unit: 0,
        cut,
        joint_before: false,
        hangs: Hanging::None,
    };
    let half = vec![[0.0, 0.0], [6.0, 0.0], [6.0, 20.0], [0.0, 20.0]];
    LaidPlane {
        plane,
        first_butt: 0.0,
        top: 8.0,
        courses: vec![Course { butt: 0.0, exposure: 8.0, length: 20.0, runs: vec![run(whole, None), run(cut, Some(0))] }],
        units: vec![UnitKind { length: 20.0, width: 12.0, thickness: 0.25, wide: false }],
        cuts: vec![Cut { parts: vec![half], area: 120.0, width: 6.0, ..Cut::default() }],
        starters: vec![Starters { butt: 0.0, height: 11.5, from: 0.0, to: 240.0, left: 0.0, step: 12.0, count: starters }],
        cut_area: 120.0 * f64::from(cut),
        ..LaidPlane::default()
    }
}

/// Counts, and cuts what is to be counted. Nothing breaks.
fn count<'a>(
    roof: &'a Roof,
    layout: &'a Layout,
    details: &Details,
    covering_of: impl Fn(&Plane) -> Option<&'a Covering>,
) -> Order {
    let cuttings = layout::cut_roof(roof, layout, &covering_of);
    let whole = OrderChoices { breakage: Some(0.0), ..OrderChoices::default() };
    takeoff::count(roof, layout, &cuttings, details, &whole, covering_of)
}

fn slate() -> Covering {
    plain_slate(20.0, 12.0, 3.0)
}

/// Two halves are snapped from one.
fn snapped() -> Covering {
    let rules = covering::CuttingRules {
        tool: covering::CuttingTool::ScoreAndSnap,
        kerf: inches(0.0),
        made_sides: covering::MadeSides::Nowhere,
        least_offcut: inches(3.0),
        even: true,
        turned: false,
    };
    Covering { cutting: Some(rules), ..slate() }
}

fn line<'a>(order: &'a Order, id: &str) -> &'a OrderLine {
    order.lines.iter().find(|line| line.id == id).unwrap()
}

#[test]
#[allow(clippy::float_cmp, reason = "whole numbers")]
fn counts_packs_and_weights_of_one_sheet() {
    let (roof, sheet) = (two_planes(), slate());
    let layout = Layout { planes: vec![laid(0, 100, 7, 21), laid(1, 90, 4, 20)], ..Layout::default() };
    let order = count(&roof, &layout, &Details::default(), |_| Some(&sheet));
    assert_eq!(
        order.lines.iter().map(|line| line.id.as_str()).collect::<Vec<_>>(),
        ["field-units", "starters", "caps", "nails", "cap-nails"]
    );
    // 201 pieces in bundles of 20 at 3 lb each.
    let field = line(&order, "field-units");
    assert_eq!((field.quantity, field.packs, field.weight.to_pounds()), (201.0, 11, 660.0));
    assert_eq!((line(&order, "starters").quantity, line(&order, "starters").packs), (41.0, 2));
    // 240 in in caps of 12 in at 7 in: 1 + ⌈228 / 7⌉ = 34.
    let caps = line(&order, "caps");
    assert_eq!((caps.quantity, caps.packs), (34.0, 2));
    assert_eq!(caps.places[0].at, "ridge, test, south / test, north");
    // Two in each piece and starter, and two in each cap.
    assert_eq!(line(&order, "nails").quantity, 2.0 * (201.0 + 41.0));
    assert_eq!(line(&order, "cap-nails").quantity, 2.0 * 34.0);
    assert_eq!(line(&order, "nails").packs, 1);
    // 11 halves come from no fewer than 5.5 units.
    assert_eq!((order.stock.units, order.stock.bound), (201, 196));
}

#[test]
fn the_places_of_a_line_make_up_its_quantity() {
    let (roof, sheet) = (two_planes(), slate());
    let order = count(
        &roof,
        &Layout { planes: vec![laid(0, 100, 7, 21), laid(1, 90, 4, 0)], ..Layout::default() },
        &Details::default(),
        |_| Some(&sheet),
    );
    for line in &order.lines {
        let sum: f64 = line.places.iter().map(|place| place.quantity).sum();
        assert!((sum - line.quantity).abs() < 1e-9, "{}", line.id);
        assert!(!line.places.is_empty());
    }
}

#[test]
#[allow(clippy::float_cmp, reason = "whole numbers")]
fn sheets_are_never_mixed_in_a_line() {
    let roof = two_planes();
    let [slate, other] = [slate(), Covering { id: "other".into(), ..slate() }];
    let layout = Layout { planes: vec![laid(0, 100, 7, 21), laid(1, 90, 4, 20)], ..Layout::default() };
    let order = count(&roof, &layout, &Details::default(), |plane| Some(if plane.id == "test.0" { &slate } else { &other }));
    assert_eq!(line(&order, "field-units:test").quantity, 107.0);
    assert_eq!(line(&order, "field-units:other").quantity, 94.0);
    // The ridge between the two is capped once, in the sheet of its first plane.
    assert_eq!(line(&order, "caps:test").quantity, 34.0);
    assert!(!order.lines.iter().any(|line| line.id == "caps:other"));
    assert_eq!(order.stock.bound, 100 + 4 + 90 + 2, "halves of one sheet are not cut from units of the other");
}

#[test]
#[allow(clippy::float_cmp, reason = "whole numbers")]
fn a_ridge_is_capped_in_the_sheet_of_the_plane_that_is_laid() {
    let (roof, sheet) = (two_planes(), slate());
    let order =
        count(&roof, &Layout { planes: vec![laid(1, 90, 4, 20)], ..Layout::default() }, &Details::default(), |plane| {
            (plane.id == "test.1").then_some(&sheet)
        });
    assert_eq!(line(&order, "caps").quantity, 34.0);
    assert_eq!(count(&roof, &Layout::default(), &Details::default(), |_| Some(&sheet)), Order::default());
}

/// Strips of one kind on the first plane, each cut as told: roll and length of every piece.
fn rolls(kind: Kind, sheet: &str, strips: &[&[(u32, f64)]]) -> Rolls {
    let [width, length, side_lap, end_lap] = [36.0, 864.0, 3.0, 6.0].map(inches);
    let roll = Roll { name: kind.name().into(), width, length, side_lap, end_lap, weight: Mass::pounds(30.0) };
    let strip = |(course, pieces): (usize, &&[(u32, f64)])| Strip {
        lies: Lies::Course { course: course as u32 },
        patches: vec![Patch { plane: 0, corners: [[0.0; 2]; 4] }],
        length: pieces.iter().map(|piece| piece.1).sum::<f64>() - 6.0 * (pieces.len() - 1) as f64,
        pieces: pieces.iter().map(|&(roll, length)| Piece { roll, from: 0.0, length }).collect(),
        fasteners: 40,
        over_underlayment: false,
    };
    let count = strips.iter().flat_map(|pieces| pieces.iter()).map(|piece| piece.0 + 1).max().unwrap();
    Rolls { kind, sheet: sheet.into(), roll, strips: strips.iter().enumerate().map(strip).collect(), count, bound: 1 }
}

#[test]
#[allow(clippy::float_cmp, reason = "whole numbers")]
fn what_lies_under_the_units_is_counted_strip_by_strip() {
    let (roof, sheet) = (two_planes(), slate());
    let grid = FastenerGrid { at_laps: inches(6.0), in_field: inches(12.0), box_count: 50 };
    let dry_in = DryIn {
        rolls: vec![
            rolls(Kind::IceBarrier, "", &[&[(0, 240.0)]]),
            rolls(Kind::Underlayment, "test", &[&[(0, 480.0)], &[(0, 384.0), (1, 102.0)]]),
        ],
        fasteners: Some(grid),
        ..DryIn::default()
    };
    let details = Details { dry_in, ..Details::default() };
    let layout = Layout { planes: vec![laid(0, 100, 7, 21)], ..Layout::default() };
    let order = count(&roof, &layout, &details, |_| Some(&sheet));
    let felt = line(&order, "underlayment");
    assert_eq!((felt.quantity, felt.unit, felt.packs, felt.weight.to_pounds()), (80.5, "ft", 2, 60.0));
    assert_eq!(
        felt.places.iter().map(|place| place.at.as_str()).collect::<Vec<_>>(),
        ["test, south, course 1", "test, south, course 2"]
    );
    let barrier = line(&order, "ice-barrier");
    assert_eq!((barrier.quantity, barrier.packs), (20.0, 1));
    let fasteners = line(&order, "underlayment-fasteners");
    assert_eq!((fasteners.quantity, fasteners.packs), (80.0, 2));
}

#[test]
#[allow(clippy::float_cmp, reason = "whole numbers")]
fn ridge_vent_is_counted_ridge_by_ridge() {
    let (roof, sheet) = (two_planes(), slate());
    let area = Area::square_inches(0.0);
    let vents = Vents {
        floor: area,
        share: 300,
        why: String::new(),
        needed: area,
        upper: [area; 2],
        lower: area,
        ridges: vec![RidgeRun { line: 1, from: 12.0, to: 228.0, sections: 5 }],
        section: Some(inches(48.0)),
        ridge_gives: area,
        slot: None,
        soffit: None,
        eaves: inches(480.0),
        notes: vec![],
    };
    let details = Details { vents: Some(vents), ..Details::default() };
    let order = count(&roof, &Layout { planes: vec![laid(0, 100, 7, 21)], ..Layout::default() }, &details, |_| Some(&sheet));
    let vent = line(&order, "ridge-vent");
    assert_eq!((vent.quantity, vent.packs, vent.places[0].at.as_str()), (5.0, 5, "ridge, test, south / test, north"));
}

proptest! {
    /// Caps are laid one by one until the line is covered.
    #[test]
    fn caps_cover_the_line_and_none_is_too_many(length in 0.01..2000.0f64, cap in 6.0..20.0f64, share in 0.3..1.0f64) {
        let mut unit = slate().cap;
        (unit.length, unit.exposure) = (inches(cap), inches(cap * share));
        let mut covered = cap;
        let mut laid = 1;
        while covered < length * (1.0 - 1e-9) {
            covered += cap * share;
            laid += 1;
        }
        prop_assert_eq!(caps_along(inches(length), &unit), laid);
    }

    /// Every line is the sum of its places, none of them negative; with those from offcuts they are the pieces on each plane.
    #[test]
    fn places_are_what_is_taken_from_stock(whole in [0u32..60, 0..60], halves in [0u32..40, 0..40], mixed_sheets in any::<bool>()) {
        let roof = two_planes();
        let sheets = [snapped(), Covering { id: if mixed_sheets { "other" } else { "test" }.into(), ..snapped() }];
        let planes: Vec<LaidPlane> = (0..2).map(|at| laid(at, whole[at], halves[at], 20)).collect();
        let layout = Layout { planes, ..Layout::default() };
        let order = count(&roof, &layout, &Details::default(), |plane| Some(&sheets[usize::from(plane.id != "test.0")]));
        for line in &order.lines {
            prop_assert!(line.places.iter().all(|place| place.quantity >= 0.0 && place.from_offcuts >= 0.0), "{line:?}");
            prop_assert!((line.places.iter().map(|place| place.quantity).sum::<f64>() - line.quantity).abs() < 1e-9);
        }
        for (at, laid) in layout.planes.iter().enumerate() {
            let field = order.lines.iter().filter(|line| line.id.starts_with("field-units"));
            let here = field.flat_map(|line| &line.places).filter(|place| place.planes == [at]);
            let pieces: f64 = here.map(|place| place.quantity + place.from_offcuts).sum();
            prop_assert_eq!(pieces as u64, laid.counts().pieces());
        }
    }

    #[test]
    fn no_cut_of_the_halves_needs_fewer_units_than_the_bound(whole in 0u32..50, halves in 0u32..50) {
        let plane = laid(0, whole, halves, 0);
        let stock = takeoff::stock(&layout::cut_units(&[&plane], &slate()));
        prop_assert_eq!(stock.bound, u64::from(whole + halves.div_ceil(2)));
        prop_assert_eq!(stock.units, u64::from(whole + halves));
    }
}

/// Rounding opens no pack and adds no cap.
#[test]
fn rounding_adds_nothing() {
    let mut cap = slate().cap;
    (cap.length, cap.exposure) = (inches(12.0), inches(7.1));
    assert_eq!(caps_along(inches(12.0), &cap), 1);
    assert_eq!(caps_along(inches(12.0 + 1e-9), &cap), 1);
    assert_eq!(caps_along(inches(12.0 + 10.0 * 7.1 + 1e-10), &cap), 11);
    assert_eq!(caps_along(inches(12.0 + 10.0 * 7.1 + 0.001), &cap), 12);
    assert_eq!(caps_along(inches(0.0), &cap), 0);
}

/// 11 halves are scored and snapped from 6 slates: 5 pieces less to order, and the places say so.
#[test]
#[allow(clippy::float_cmp, reason = "whole numbers")]
fn offcuts_lessen_the_order() {
    let (roof, sheet) = (two_planes(), snapped());
    let layout = Layout { planes: vec![laid(0, 100, 7, 21), laid(1, 90, 4, 20)], ..Layout::default() };
    let order = count(&roof, &layout, &Details::default(), |_| Some(&sheet));
    assert_eq!((order.stock.units, order.stock.bound), (196, 196));
    let field = line(&order, "field-units");
    assert_eq!((field.quantity, field.packs), (196.0, 10));
    let places: Vec<[f64; 2]> = field.places.iter().map(|place| [place.quantity, place.from_offcuts]).collect();
    assert_eq!(places, [[106.0, 1.0], [90.0, 4.0]], "those laid last are made of offcuts");
    // As many nails as there are pieces.
    assert_eq!(line(&order, "nails").quantity + line(&order, "cap-nails").quantity, 2.0 * (201.0 + 41.0 + 34.0));
}

/// One course of `counts` pieces of 6 and of 10 in, 20 in long.
fn mixed(counts: [u32; 2]) -> (Layout, Covering) {
    let kind = |width| UnitKind { length: 20.0, width, thickness: 0.25, wide: false };
    let run = |unit, count| Run {
        left: 0.0,
        width: [6.0, 10.0][unit as usize],
        step: 10.0,
        count,
        unit,
        cut: None,
        joint_before: false,
        hangs: Hanging::None,
    };
    let runs = vec![run(0, counts[0]), run(1, counts[1])];
    let plane = LaidPlane {
        courses: vec![Course { butt: 0.0, exposure: 8.0, length: 20.0, runs }],
        units: vec![kind(6.0), kind(10.0)],
        ..laid(0, 0, 0, 0)
    };
    let sheet = Covering { bonds: common::mix(&[(6.0, 40.0), (10.0, 60.0)]), ..slate() };
    (Layout { planes: vec![plane], ..Layout::default() }, sheet)
}

/// By hand: bundles of 20; a slate of the unit's own 12 in weighs 3 lb, so one of 6 in 1-1/2 lb and one of 10 in 2-1/2 lb.
#[test]
#[allow(clippy::float_cmp, reason = "whole numbers")]
fn random_widths_are_ordered_width_by_width() {
    let (layout, sheet) = mixed([30, 41]);
    let roof = two_planes();
    let order = count(&roof, &layout, &Details::default(), |_| Some(&sheet));
    let [narrow, wide] = ["field-units-6-wide", "field-units-10-wide"].map(|id| line(&order, id));
    assert_eq!((narrow.quantity, narrow.packs), (30.0, 2));
    assert_eq!((wide.quantity, wide.packs), (41.0, 3));
    assert!((narrow.weight.to_pounds() - 60.0).abs() < 1e-9 && (wide.weight.to_pounds() - 150.0).abs() < 1e-9);
    assert_eq!(wide.size, "10\" × 20\"");
}

/// By hand: 30 × 6 + 41 × 10 = 590 in = 49-1/6 ft; a bundle of 20 of the unit's own 12 in runs 20 ft.
#[test]
#[allow(clippy::float_cmp, reason = "whole numbers")]
fn what_is_sold_mixed_is_ordered_by_its_running_width() {
    let (layout, mut sheet) = mixed([30, 41]);
    sheet.bonds.sold_mixed = true;
    let roof = two_planes();
    let order = count(&roof, &layout, &Details::default(), |_| Some(&sheet));
    let field = line(&order, "field-units");
    assert!((field.quantity - 590.0 / 12.0).abs() < 1e-9);
    assert_eq!((field.packs, field.weight.to_pounds(), field.unit), (3, 180.0, "unit widths"));
}
