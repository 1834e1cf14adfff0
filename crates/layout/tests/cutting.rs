//! Cutting, against exhaustive search on small layouts and by its own rules on large ones.
//!
//! The search here shares no code with the product: it tries every order of every set of pieces, finds how near two may lie
//! by halving, and takes the best of all ways to part the pieces into such sets.

#![allow(clippy::unwrap_used, reason = "tests only")]

mod common;

use common::{inches, moulded, plain_slate, plane};
use covering::{Covering, CuttingRules, CuttingTool, MadeSides};
use layout::{Course, Cut, Cutting, Hanging, LaidPlane, Made, Run, SettingOut, UnitKind, cut_units};
use proptest::prelude::*;
use roof::{EdgeKind, Place};

const LENGTH: f64 = 18.0;
const WIDTH: f64 = 12.0;

fn rules(kerf: f64, made_sides: MadeSides) -> CuttingRules {
    CuttingRules {
        tool: CuttingTool::Saw,
        kerf: inches(kerf),
        made_sides,
        least_offcut: inches(1.0),
        even: false,
        turned: false,
    }
}

fn sheet(rules: CuttingRules) -> Covering {
    Covering { cutting: Some(rules), ..plain_slate(LENGTH, WIDTH, 4.0) }
}

/// One piece of each outline, each by itself in its course.
fn laid(outlines: &[Vec<Place>]) -> LaidPlane {
    let run = |cut| Run {
        left: 0.0,
        width: WIDTH,
        step: WIDTH,
        count: 1,
        unit: 0,
        cut: Some(cut),
        joint_before: false,
        hangs: Hanging::None,
    };
    let course = |cut| Course { butt: 0.0, exposure: 7.0, length: 18.0, runs: vec![run(cut as u32)] };
    LaidPlane {
        courses: (0..outlines.len()).map(course).collect(),
        units: vec![UnitKind { length: LENGTH, width: WIDTH, thickness: 0.25, wide: false }],
        cuts: outlines.iter().map(|ring| cut_to(ring)).collect(),
        ..LaidPlane::default()
    }
}

fn cut_to(ring: &[Place]) -> Cut {
    let made = Made { butt: false, left: has_side(ring, 0.0), right: has_side(ring, WIDTH) };
    Cut { parts: vec![ring.to_vec()], area: area(ring), made, ..Cut::default() }
}

/// Whether an upright side of some height lies at this u.
fn has_side(ring: &[Place], u: f64) -> bool {
    let mut sides = ring.iter().zip(ring.iter().cycle().skip(1));
    sides.any(|(a, b)| (a[0] - u).abs() < 1e-6 && (b[0] - u).abs() < 1e-6 && (a[1] - b[1]).abs() > 1e-3)
}

fn area(ring: &[Place]) -> f64 {
    ring.iter().zip(ring.iter().cycle().skip(1)).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum::<f64>() / 2.0
}

/// What lies left of the line from one place to another.
fn left_of(ring: &[Place], from: Place, to: Place) -> Vec<Place> {
    let off = |at: Place| (to[0] - from[0]) * (at[1] - from[1]) - (to[1] - from[1]) * (at[0] - from[0]);
    let mut kept = Vec::new();
    for (&a, &b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        if off(a) >= 0.0 {
            kept.push(a);
        }
        if off(a) * off(b) < 0.0 {
            let part = off(a) / (off(a) - off(b));
            kept.push([a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part]);
        }
    }
    kept
}

/// A unit cut by a hip, a valley or a rake through its middle parts, and perhaps at its head.
fn outline() -> impl Strategy<Value = Vec<Place>> {
    let slopes = prop::sample::select(vec![[10.0, 12.0], [12.0, 12.0], [8.0, 12.0], [0.0, 12.0]]);
    (slopes, any::<[bool; 2]>(), 0.5..11.5f64, 1.0..17.0f64, prop::option::weighted(0.2, 6.0..17.0f64)).prop_map(
        |([run, rise], [leans_left, keeps_right], u, v, head)| {
            let whole = vec![[0.0, 0.0], [WIDTH, 0.0], [WIDTH, LENGTH], [0.0, LENGTH]];
            let up = [u + if leans_left { -run } else { run }, v + rise];
            let (from, to) = if keeps_right { (up, [u, v]) } else { ([u, v], up) };
            let cut = left_of(&whole, from, to);
            head.map_or(cut.clone(), |head| left_of(&cut, [0.0, head], [-1.0, head]))
        },
    )
}

fn outlines(most: usize) -> impl Strategy<Value = Vec<Vec<Place>>> {
    prop::collection::vec(outline().prop_filter("a piece", |ring| ring.len() > 2 && area(ring) > 2.0), 1..=most)
}

/// A piece for the exhaustive search.
#[derive(Clone, Debug)]
struct Piece {
    ring: Vec<Place>,
    from: f64,
    to: f64,
}

fn pieces(outlines: &[Vec<Place>], sides: MadeSides) -> Vec<Piece> {
    outlines
        .iter()
        .map(|ring| {
            let left = ring.iter().map(|at| at[0]).fold(f64::INFINITY, f64::min);
            let width = ring.iter().map(|at| at[0]).fold(0.0, f64::max) - left;
            let kept = sides != MadeSides::Nowhere;
            let [from, to] = match (kept && has_side(ring, 0.0), kept && has_side(ring, WIDTH)) {
                (true, _) => [0.0, 0.0],
                (false, true) => [WIDTH - width, WIDTH - width],
                _ => [0.0, WIDTH - width],
            };
            Piece { ring: ring.iter().map(|&[u, v]| [u - left, v]).collect(), from, to }
        })
        .collect()
}

fn distance(ring: &[Place], other: &[Place]) -> f64 {
    let side = |ring: &[Place]| ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)).collect::<Vec<_>>();
    let point_side = |p: Place, (a, b): (Place, Place)| {
        let along = [b[0] - a[0], b[1] - a[1]];
        let part = ((p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1]) / (along[0] * along[0] + along[1] * along[1]);
        let part = part.clamp(0.0, 1.0);
        libm::hypot(p[0] - a[0] - along[0] * part, p[1] - a[1] - along[1] * part)
    };
    let from = |ring: &[Place], other: &[Place]| {
        ring.iter().flat_map(|&p| side(other).into_iter().map(move |s| point_side(p, s))).fold(f64::INFINITY, f64::min)
    };
    from(ring, other).min(from(other, ring))
}

fn moved(ring: &[Place], by: f64) -> Vec<Place> {
    ring.iter().map(|&[u, v]| [u + by, v]).collect()
}

fn overlap(ring: &[Place], other: &[Place]) -> f64 {
    let corners = other.iter().zip(other.iter().cycle().skip(1));
    area(&corners.fold(ring.to_vec(), |kept, (&a, &b)| left_of(&kept, a, b)))
}

fn apart(ring: &[Place], other: &[Place], kerf: f64) -> bool {
    overlap(ring, other) < 1e-6 && distance(ring, other) > kerf - 1e-6
}

/// How far right of the first one's leftmost point the second one's must lie, by halving.
fn reach(a: &Piece, b: &Piece, kerf: f64) -> f64 {
    let heights = |ring: &[Place]| {
        ring.iter().map(|at| at[1]).fold([f64::INFINITY, 0.0], |[low, high], v| [f64::min(low, v), f64::max(high, v)])
    };
    let ([a_low, a_high], [b_low, b_high]) = (heights(&a.ring), heights(&b.ring));
    if a_low - b_high > kerf - 1e-5 || b_low - a_high > kerf - 1e-5 {
        return f64::NEG_INFINITY;
    }
    // Somewhere between, the two touch: the furthest such place is found from the right.
    let [mut near, mut far] = [-2.0 * WIDTH, 3.0 * WIDTH];
    let touches = |by: f64| !apart(&a.ring, &moved(&b.ring, by), kerf);
    let inside = (0..=400).rev().map(|step| -2.0 * WIDTH + f64::from(step) * 5.0 * WIDTH / 400.0).find(|&by| touches(by));
    let Some(inside) = inside else { return f64::NEG_INFINITY };
    near = near.max(inside);
    for _ in 0..50 {
        let middle = f64::midpoint(near, far);
        if touches(middle) { near = middle } else { far = middle }
    }
    far
}

fn fits(set: &[usize], pieces: &[Piece], reaches: &[Vec<f64>], placed: &mut Vec<(usize, f64)>) -> bool {
    if placed.len() == set.len() {
        return true;
    }
    for &next in set.iter().filter(|next| !placed.iter().any(|(done, _)| done == *next)).collect::<Vec<_>>() {
        let u = placed.iter().map(|&(done, u)| u + reaches[done][next]).fold(pieces[next].from, f64::max);
        if u <= pieces[next].to + 3e-5 {
            placed.push((next, u));
            if fits(set, pieces, reaches, placed) {
                return true;
            }
            placed.pop();
        }
    }
    false
}

/// The fewest units of all ways to part the pieces.
fn fewest(pieces: &[Piece], kerf: f64) -> u64 {
    let count = pieces.len();
    let reaches: Vec<Vec<f64>> = pieces.iter().map(|a| pieces.iter().map(|b| reach(a, b, kerf)).collect()).collect();
    let members = |set: usize| (0..count).filter(|piece| set >> piece & 1 == 1).collect::<Vec<_>>();
    let mut fit = vec![false; 1 << count];
    for set in 1..1 << count {
        let smaller = members(set).iter().all(|piece| set ^ (1 << piece) == 0 || fit[set ^ (1 << piece)]);
        fit[set] = smaller && fits(&members(set), pieces, &reaches, &mut Vec::new());
    }
    let mut least = vec![u64::MAX; 1 << count];
    least[0] = 0;
    for set in 1..1 << count {
        let first = 1 << members(set)[0];
        let mut part: usize = set;
        while part > 0 {
            if part & first != 0 && fit[part] {
                least[set] = least[set].min(least[set ^ part] + 1);
            }
            part = (part - 1) & set;
        }
    }
    least[(1 << count) - 1]
}

fn cut(outlines: &[Vec<Place>], covering: &Covering) -> Cutting {
    cut_units(&[&laid(outlines)], covering).remove(0)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn stock_and_bound_stand_either_side_of_the_best_of_all_ways(
        outlines in outlines(7), kerf in prop::sample::select(vec![0.0, 0.125, 0.25]), kept in any::<bool>(),
    ) {
        let sides = if kept { MadeSides::Everywhere } else { MadeSides::Nowhere };
        let cutting = cut(&outlines, &sheet(rules(kerf, sides)));
        let fewest = fewest(&pieces(&outlines, sides), kerf);
        prop_assert!(cutting.bound <= fewest, "bound {} over {fewest}", cutting.bound);
        prop_assert!(cutting.stock() >= fewest, "stock {} under {fewest}", cutting.stock());
        prop_assert!(cutting.stock() <= fewest + 1, "stock {} for {fewest}", cutting.stock());
        prop_assert!(cutting.bound + 1 >= fewest, "bound {} for {fewest}", cutting.bound);
        sound(&cutting, kerf);
    }

    #[test]
    fn however_pieces_may_lie_the_units_hold_them(
        outlines in outlines(12), kerf in 0.0..0.3f64, even in any::<bool>(), turned in any::<bool>(), outside in any::<bool>(),
    ) {
        let sides = if outside { MadeSides::Outside } else { MadeSides::Nowhere };
        let cutting = cut(&outlines, &sheet(CuttingRules { even, turned, ..rules(kerf, sides) }));
        prop_assert!(cutting.bound <= cutting.stock());
        sound(&cutting, kerf);
        // What is allowed more can't need more.
        let strict = cut(&outlines, &sheet(rules(kerf, sides)));
        prop_assert!(cutting.bound <= strict.bound);
    }
}

/// Every piece is cut once, within its unit, a kerf from its neighbours, and keeps the edges that it must.
fn sound(cutting: &Cutting, kerf: f64) {
    let mut made = vec![0; cutting.kinds.len()];
    for unit in &cutting.units {
        let rings: Vec<Vec<Vec<Place>>> = unit.pieces.iter().map(|piece| in_unit(cutting, piece)).collect();
        for (piece, parts) in unit.pieces.iter().zip(&rings) {
            made[piece.kind] += unit.count;
            let all = || parts.iter().flatten();
            assert!(
                all().all(|&[u, v]| u > -1e-4
                    && v > -1e-4
                    && u < cutting.unit.width + 1e-4
                    && v < cutting.unit.length + 1e-4)
            );
            let kept = cutting.kinds[piece.kind].kept;
            let butt = if piece.turned { cutting.unit.length } else { 0.0 };
            let [left, right] = if piece.turned { [cutting.unit.width, 0.0] } else { [0.0, cutting.unit.width] };
            assert!(!kept.butt || all().any(|at| (at[1] - butt).abs() < 1e-4));
            assert!(!kept.left || all().any(|at| (at[0] - left).abs() < 1e-4));
            assert!(!kept.right || all().any(|at| (at[0] - right).abs() < 1e-4));
        }
        for (index, one) in rings.iter().enumerate() {
            for other in &rings[index + 1..] {
                let near = one.iter().flat_map(|a| other.iter().map(move |b| (overlaps(a, b), distance(a, b))));
                for (overlap, distance) in near {
                    assert!(overlap < 1e-2 && distance > kerf - 2e-4, "{overlap} {distance} {unit:?}");
                }
            }
        }
    }
    let wanted: Vec<u64> = cutting.kinds.iter().map(|kind| kind.count).collect();
    assert_eq!(made, wanted);
    assert!(cutting.bound <= cutting.stock() && cutting.stock() <= cutting.pieces());
}

fn in_unit(cutting: &Cutting, piece: &layout::Cutout) -> Vec<Vec<Place>> {
    let kind = &cutting.kinds[piece.kind];
    let place = |&[u, v]: &Place| {
        let [u, v] = if piece.turned { [kind.width - u, kind.height - v] } else { [u, v] };
        [piece.at[0] + u, piece.at[1] + v]
    };
    kind.parts.iter().map(|part| part.iter().map(place).collect()).collect()
}

/// Area that two rings share, by general polygon operations.
fn overlaps(a: &[Place], b: &[Place]) -> f64 {
    use i_overlay::core::{fill_rule::FillRule, overlay_rule::OverlayRule};
    use i_overlay::float::scale::FixedScaleFloatOverlay;
    let [subject, clip] = [a, b].map(|ring| vec![ring.to_vec()]);
    let shapes = subject.overlay_with_fixed_scale_as::<i64>(&clip, OverlayRule::Intersect, FillRule::NonZero, 65_536.0);
    shapes.unwrap().iter().flatten().map(|ring: &Vec<Place>| area(ring).abs()).sum()
}

fn hipped(width: f64, height: f64, lean: f64) -> roof::Plane {
    use EdgeKind::{Eave, Hip, Ridge};
    let corners = [[0.0, 0.0], [width, 0.0], [width - height * lean, height], [height * lean, height]];
    plane(&[(&corners, &[Eave, Hip, Ridge, Hip])])
}

/// Widening up the slope between two valleys.
fn valleyed(width: f64, height: f64, lean: f64) -> roof::Plane {
    use EdgeKind::{Eave, Ridge, Valley};
    let corners = [[0.0, 0.0], [width, 0.0], [width + height * lean, height], [-height * lean, height]];
    plane(&[(&corners, &[Eave, Valley, Ridge, Valley])])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, ..ProptestConfig::default() })]

    #[test]
    fn whole_roofs_are_cut_soundly_and_close_to_the_bound(
        width in 300.0..500.0f64, height in 90.0..140.0f64, lean in 0.6..1.0f64, kerf in prop::sample::select(vec![0.0, 0.125]),
    ) {
        let sheet = Covering { cutting: Some(rules(kerf, MadeSides::Nowhere)), ..moulded() };
        let planes = [hipped(width, height, lean), valleyed(width / 4.0, height, lean)];
        let laid = planes.map(|plane| layout::lay(0, &plane, &sheet, &SettingOut::default()));
        let cutting = cut_units(&[&laid[0], &laid[1]], &sheet).remove(0);
        sound(&cutting, kerf);
        let gap = (cutting.stock() - cutting.bound) as f64 / cutting.stock() as f64;
        prop_assert!(gap <= 0.02, "{} units, at least {}", cutting.stock(), cutting.bound);
    }
}

/// The offcut of a left hip's piece is a right valley's.
#[test]
fn a_hip_and_a_valley_of_one_hand_share_a_unit() {
    let hip = vec![[2.0, 0.0], [WIDTH, 0.0], [WIDTH, LENGTH], [8.0, LENGTH]];
    let valley = vec![[0.0, 0.0], [1.9, 0.0], [7.9, LENGTH], [0.0, LENGTH]];
    let other_hand: Vec<Place> = valley.iter().rev().map(|&[u, v]| [WIDTH - u, v]).collect();
    let sheet = sheet(rules(0.0, MadeSides::Everywhere));
    assert_eq!(cut(&[hip.clone(), valley], &sheet).stock(), 1);
    assert_eq!(cut(&[hip, other_hand], &sheet).stock(), 2);
}

#[test]
fn a_sheet_that_says_nothing_of_cutting_makes_nothing_of_offcuts() {
    let half = vec![[0.0, 0.0], [6.0, 0.0], [6.0, LENGTH], [0.0, LENGTH]];
    let cutting = cut(&[half.clone(), half], &plain_slate(LENGTH, WIDTH, 4.0));
    assert_eq!((cutting.stock(), cutting.bound), (2, 1));
}

/// Two halves side by side leave no room for a saw.
#[test]
fn the_kerf_takes_its_part() {
    let half = vec![[0.0, 0.0], [6.0, 0.0], [6.0, LENGTH], [0.0, LENGTH]];
    let stock = |kerf| cut(&[half.clone(), half.clone()], &sheet(rules(kerf, MadeSides::Nowhere))).stock();
    assert_eq!([stock(0.0), stock(0.125)], [1, 2]);
}

/// A triangle above a valley has no butt: from even units it may come from anywhere, from tapered ones only from its height.
#[test]
fn a_piece_without_butt_may_come_from_another_height_of_an_even_unit() {
    let above_valley = vec![[0.0, 10.0], [5.0, LENGTH], [0.0, LENGTH]];
    let head_trim = vec![[0.0, 0.0], [WIDTH, 0.0], [WIDTH, 9.0], [0.0, 9.0]];
    let tall = vec![[4.0, 0.0], [WIDTH, 0.0], [WIDTH, LENGTH], [4.0, LENGTH]];
    let stock = |outlines: &[Vec<Place>], even| {
        cut(outlines, &sheet(CuttingRules { even, ..rules(0.0, MadeSides::Nowhere) })).stock()
    };
    assert_eq!(stock(&[above_valley.clone(), head_trim], false), 1);
    assert_eq!(stock(&[above_valley.clone(), tall.clone()], false), 2);
    let low = vec![[0.0, 4.0], [5.0, 12.0], [0.0, 12.0]];
    let trimmed = vec![[0.0, 0.0], [WIDTH, 0.0], [WIDTH, 9.5], [0.0, 9.5]];
    assert_eq!([false, true].map(|even| stock(&[low.clone(), trimmed.clone()], even)), [2, 1]);
}
