//! Pieces at hips, valleys and rakes: worked angles, hands, widening valleys, mitred hips, nails, wide units.
#![allow(clippy::unwrap_used, reason = "tests only")]

mod common;

use common::{gable, inches, moulded, plain_slate, plane};
use covering::{NailLine, Pack, Wide};
use layout::{Bevel, Facing, Hips, LaidPlane, SettingOut, Side, Valleys};
use proptest::prelude::*;
use roof::{EdgeKind, Place, Plane};
use units::Mass;

/// A hipped end: eave 300 in, hips whose run along the eave is `left` and `right` for each inch up the slope.
fn hipped(left: f64, right: f64) -> Plane {
    use EdgeKind::{Eave, Hip, Ridge};
    let height = 100.0;
    let corners = [[0.0, 0.0], [300.0, 0.0], [300.0 - right * height, height], [left * height, height]];
    plane(&[(&corners, &[Eave, Hip, Ridge, Hip])])
}

fn bevels(laid: &LaidPlane, kind: EdgeKind) -> Vec<Bevel> {
    laid.cuts.iter().flat_map(|cut| &cut.bevels).filter(|bevel| bevel.kind == Some(kind)).copied().collect()
}

/// Length up the slope for each inch of run at a pitch: √(1 + (pitch / 12)²).
fn slope(pitch: f64) -> f64 {
    (1.0 + (pitch / 12.0) * (pitch / 12.0)).sqrt()
}

/// Geometry: at equal pitches and square corners the hip runs 1 in along the eave for 1 in of run, so the angle to the
/// course line is atan √(1 + (pitch / 12)²); at 8 in 12 that is atan 1.2019 = 50.238°. The carpenter's square gives the same,
/// 12 on one arm and the rafter's length for a foot of run on the other: Griffith, Carpentry (1916), hip and valley rafters.
#[test]
fn a_hip_at_8_in_12_is_cut_at_50_238_degrees() {
    let laid =
        layout::lay(0, &hipped(1.0 / slope(8.0), 1.0 / slope(8.0)), &plain_slate(20.0, 10.0, 3.0), &SettingOut::default());
    let found = bevels(&laid, EdgeKind::Hip);
    assert!(!found.is_empty());
    for bevel in found {
        assert!((bevel.angle - 50.238).abs() < 5e-4, "{}", bevel.angle);
    }
}

/// The angle of a hip between unequal pitches, from the cross product of the two planes' normals: no formula of the layout.
fn angle_of_hip(pitch: f64, other: f64) -> f64 {
    // One plane rises to +y, the other, round a square corner, to -x (seen from above, corner at the right end of the eave).
    let [here, there] = [[0.0, -pitch / 12.0, 1.0], [other / 12.0, 0.0, 1.0]];
    let hip = [
        here[1] * there[2] - here[2] * there[1],
        here[2] * there[0] - here[0] * there[2],
        here[0] * there[1] - here[1] * there[0],
    ];
    let length = hip.iter().map(|part| part * part).sum::<f64>().sqrt();
    // The course line is the x axis.
    libm::acos(hip[0].abs() / length).to_degrees()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    /// Unequal pitches: the hip's run along this eave is (pitch / other) of the run, as both planes rise alike there.
    #[test]
    fn hips_between_any_pitches_are_cut_at_the_angle_of_their_vectors(pitch in 4.0..20.0f64, other in 4.0..20.0f64) {
        let run = pitch / other / slope(pitch);
        prop_assume!(run < 1.4);
        let laid = layout::lay(0, &hipped(run, run), &plain_slate(20.0, 10.0, 3.0), &SettingOut::default());
        let expected = angle_of_hip(pitch, other);
        for bevel in bevels(&laid, EdgeKind::Hip) {
            prop_assert!((bevel.angle - expected).abs() < 1e-3, "{} {}", bevel.angle, expected);
        }
    }
}

/// A left hip's pieces are cut on their left, leaning right; what is cut off leans as the piece of a right valley does.
#[test]
fn hands_follow_the_side_of_the_cut() {
    let laid = layout::lay(0, &hipped(0.8, 0.8), &plain_slate(20.0, 10.0, 3.0), &SettingOut::default());
    for course in &laid.courses {
        for run in &course.runs {
            let Some(cut) = run.cut.map(|cut| &laid.cuts[cut as usize]) else { continue };
            let Some(side) = cut.hand() else { continue };
            assert_eq!(side == Side::Left, run.left < 150.0, "{run:?}");
        }
    }
}

/// A plane between an eave, a rake and a valley that leans out to the right.
fn at_valley() -> Plane {
    use EdgeKind::{Eave, Rake, Ridge, Valley};
    plane(&[(&[[0.0, 0.0], [200.0, 0.0], [360.0, 192.0], [0.0, 192.0]], &[Eave, Valley, Ridge, Rake])])
}

/// Copper Flashings: A Manual (Copper and Brass Research Association, 1920s), specification, paragraph 33: 4 in clear at the
/// top and 1 in more per 8 ft, so half of 4 + length / 96 on each plane. The valley is √(160² + 192²) = 249.93 in long.
#[test]
fn open_valleys_widen_downwards_by_1_in_per_8_ft() {
    let mut sheet = plain_slate(20.0, 10.0, 3.0);
    sheet.edges.valley_clear = inches(4.0);
    sheet.edges.valley_growth = inches(1.0);
    let outline = layout::laid(&at_valley(), &sheet);
    let length = libm::hypot(160.0, 192.0);
    let square = |[u, v]: Place| ((u - 200.0) * 192.0 - v * 160.0).abs() / length;
    let right = |v: f64| outline[0].iter().filter(|at| (at[1] - v).abs() < 1e-6).map(|at| at[0]).fold(0.0, f64::max);
    let [top, foot] = [[right(192.0), 192.0], [right(0.0), 0.0]];
    // The corners lie a little down from the top and up from the foot, by where the valley's edge meets the level ones.
    let down = |[u, v]: Place| length - ((u - 200.0) * 160.0 + v * 192.0) / length;
    for at in [top, foot] {
        assert!((square(at) - (4.0 + down(at) / 96.0) / 2.0).abs() < 1e-9, "{at:?}");
    }
    let closed = SettingOut { valleys: Some(Valleys::Closed), ..SettingOut::default() };
    let outline = layout::laid(&at_valley(), &layout::as_set_out(&sheet, &closed));
    assert!(outline[0].iter().any(|at| (at[0] - 360.0).abs() < 1e-9), "to the rib: {outline:?}");
}

/// A mitred hip is seen up to its line; a capped one only to the cap's edge.
#[test]
fn mitred_hips_are_weathered_up_to_the_line() {
    let (plane, sheet) = (hipped(0.8, 0.8), moulded());
    let mitred = SettingOut { hips: Some(Hips::Mitred), ..SettingOut::default() };
    let area = |rings: Vec<Vec<Place>>| -> f64 {
        let twice = |ring: &Vec<Place>| -> f64 {
            ring.iter().zip(ring.iter().cycle().skip(1)).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum()
        };
        rings.iter().map(twice).sum::<f64>() / 2.0
    };
    let capped = area(layout::weathered(&plane, &sheet));
    let seen = area(layout::weathered(&plane, &layout::as_set_out(&sheet, &mitred)));
    // Two hips of √(100² + 80²) = 128 in on the slope, less and more at their ends.
    let gained = 2.0 * sheet.cap.hip_cover.to_inches() * 128.06;
    assert!((seen - capped - gained).abs() < 0.1 * gained, "{seen} {capped} {gained}");
}

/// 20-in slates, nails 10 in up and 1 in off every edge, a valley whose metal reaches 4 in under them.
fn nailed() -> covering::Covering {
    let mut sheet = plain_slate(20.0, 10.0, 3.0);
    sheet.edges.valley_clear = inches(4.0);
    sheet.edges.valley_flange = inches(4.0);
    sheet.conditions.nail_line = Some(NailLine { side: inches(1.0), up: inches(12.0), off_joint: None });
    sheet.wide = Some(Wide { width: inches(17.0), weight: Mass::pounds(5.0), pack: Pack { count: 10 } });
    sheet
}

/// No nail of a piece cut by an open valley passes its metal, which lies 4 in under the laid edge, square to it.
#[test]
fn no_nail_passes_valley_metal() {
    let laid = layout::lay(0, &at_valley(), &nailed(), &SettingOut::default());
    let [from, to] = laid.laid[0]
        .iter()
        .zip(laid.laid[0].iter().cycle().skip(1))
        .map(|(from, to)| [*from, *to])
        .find(|[from, to]| to[1] > from[1] + 1.0 && to[0] > from[0] + 1.0)
        .unwrap();
    let length = libm::hypot(to[0] - from[0], to[1] - from[1]);
    let mut nails = 0;
    for course in &laid.courses {
        for run in &course.runs {
            let Some(cut) = run.cut.map(|cut| &laid.cuts[cut as usize]) else { continue };
            if cut.bevels.iter().any(|bevel| bevel.kind == Some(EdgeKind::Valley)) {
                for [u, v] in &cut.nails {
                    let at = [u + run.left - from[0], v + course.butt - from[1]];
                    let off = ((to[0] - from[0]) * at[1] - (to[1] - from[1]) * at[0]) / length;
                    assert!(off > 4.0 - 1e-3, "{off}");
                    nails += 1;
                }
            }
        }
    }
    assert!(nails > 20);
    assert!(laid.courses.iter().flat_map(|course| &course.runs).any(|run| run.unit == 1), "some come from wide units");
}

/// At either rake the made side is outside and the cut faces the neighbour: common practice, no published source.
#[test]
fn at_both_rakes_the_made_side_is_outside() {
    let mut sheet = plain_slate(20.0, 10.0, 3.0);
    sheet.edges.made_at_rakes = true;
    let laid = layout::lay(0, &gable(303.0, 120.0), &sheet, &SettingOut::default());
    let rakes = |side| {
        let at_rake = move |bevel: &Bevel| bevel.kind == Some(EdgeKind::Rake) && bevel.facing == Facing::Side(side);
        laid.cuts.iter().filter(move |cut| cut.bevels.iter().any(at_rake))
    };
    assert!(rakes(Side::Left).count() + rakes(Side::Right).count() > 0);
    assert!(rakes(Side::Left).all(|cut| cut.made.left && !cut.made.right));
    assert!(rakes(Side::Right).all(|cut| cut.made.right && !cut.made.left));
}
