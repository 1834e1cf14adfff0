//! Metal at its places, against published figures and facts of the trade.
#![allow(clippy::unwrap_used, reason = "a test may stop at what cannot be")]

mod common;

use std::collections::{BTreeMap, BTreeSet};

use common::{House, eave, ell_block, felted, flashing, gable_block, gable_side, inches, opening, plain_slate};
use covering::RidgeMetal;
use details::{MetalItem, MetalKind, MetalPiece, MetalRun, NailHolds, step_length, valley_girth};
use proptest::prelude::*;
use roof::{Block, OpeningKind, OutlineAt, Side, SideKind};
use units::Length;

fn item(house: &House, kind: MetalKind) -> Option<MetalItem> {
    house.place().metal?.items.into_iter().find(|item| item.kind == kind)
}

fn runs(house: &House, kind: MetalKind) -> Vec<MetalRun> {
    item(house, kind).map_or_else(Vec::new, |item| item.runs)
}

/// A low roof whose ridge dies against the gable end of a high one.
fn wing_at_wall(rise: f64) -> House {
    let side = |kind| Side { overhang: Some(Length::ZERO), ..Side::new(kind) };
    let high = Block { eave_height: 300.0, ..gable_block(300.0, 400.0, 8.0, 0.0) };
    let outline = vec![[300.0, 100.0], [500.0, 100.0], [500.0, 300.0], [300.0, 300.0]];
    let sides = vec![eave(rise, 0.0), gable_side(0.0), eave(rise, 0.0), side(SideKind::Wall)];
    let low =
        Block { name: "wing".into(), outline, outline_at: OutlineAt::DripLine, sides, holes: vec![], eave_height: 100.0 };
    House::new(&[high, low], &[], felted())
}

/// A small gabled wing in the middle of the north side of a large roof.
fn tee_block() -> Block {
    let outline = vec![
        [0.0, 0.0],
        [900.0, 0.0],
        [900.0, 500.0],
        [500.0, 500.0],
        [500.0, 560.0],
        [400.0, 560.0],
        [400.0, 500.0],
        [0.0, 500.0],
    ];
    let (level, end) = (|| eave(8.0, 12.0), || gable_side(12.0));
    let sides = vec![level(), end(), level(), level(), end(), level(), level(), end()];
    Block { name: "tee".into(), outline, outline_at: OutlineAt::DripLine, sides, holes: vec![], eave_height: 100.0 }
}

/// A chimney in the south slope.
fn with_chimney(up: f64, width: f64, height: f64) -> House {
    let chimney = opening(OpeningKind::Chimney, [240.0, up], width, height);
    House::new(&[gable_block(480.0, 400.0, 8.0, 12.0)], &[chimney], felted())
}

/// Copper Flashings: A Manual (Copper and Brass Research Association, 1920s), specification 33: at least 4 in clear at the top and
/// 1 in more in 8 ft, 4 in under the slates at each side, edges turned 1/2 in: 13 + d/8 in for d ft.
#[test]
fn a_valley_widens_by_an_eighth_of_an_inch_in_a_foot() {
    let mut sheet = plain_slate(20.0, 10.0, 3.0);
    sheet.edges.valley_clear = inches(4.0);
    sheet.edges.valley_growth = inches(1.0);
    sheet.edges.valley_flange = inches(4.0);
    for (feet, girth) in [(0.0, 13.0), (8.0, 14.0), (16.0, 15.0), (24.0, 16.0), (32.0, 17.0)] {
        let plain = valley_girth(Length::feet(feet), &sheet, &flashing(), false).to_inches();
        assert!((plain - girth).abs() < 1e-9, "{feet}: {plain}");
        // A crimp of 1 in takes up as much at each of its sides.
        let ribbed = valley_girth(Length::feet(feet), &sheet, &flashing(), true).to_inches();
        assert!((ribbed - girth - 2.0).abs() < 1e-9);
    }
}

/// Valley metal lapped 8 in and sealed, cleats 24 in apart, units reaching 4 in over it: common practice, no published source.
#[test]
fn linings_begin_at_the_foot_and_lap_8_in() {
    let house = House::new(&[ell_block(480.0, 400.0, 240.0, 300.0, 8.0, 12.0, true)], &[], felted());
    let linings = runs(&house, MetalKind::OpenValley);
    assert_eq!(linings.len(), 1);
    let pieces = &linings[0].pieces;
    let line = house.roof.lines[linings[0].along.line.unwrap()].length().to_inches();
    let laid: f64 = pieces.iter().map(|piece| piece.length.to_inches()).sum();
    // Past the eave by 1-1/4 in square to it, over the top by a joint's lap: the sheet's and common practice.
    let foot = 1.25 * line / (pieces[0].ends[1][1] - pieces[0].ends[0][1]) * pieces[0].length.to_inches() / line;
    assert!((laid - line - foot - 8.0 * pieces.len() as f64).abs() < 1e-6, "{laid}");
    assert!(pieces.len() > 1 && linings[0].sealed_joints as usize == pieces.len() - 1);
    for pair in pieces.windows(2) {
        let lap = geom::distance(pair[1].ends[0], pair[0].ends[1]);
        assert!((lap - 8.0).abs() < 1e-6, "{lap}");
        assert!((pair[0].length.to_inches() - 120.0).abs() < 1e-9, "whole sheets from the low end on");
        assert!(pair[0].girth > pair[1].girth, "wider below");
    }
    let cleats = runs(&house, MetalKind::Cleat);
    let vs: BTreeSet<i64> = cleats[0].pieces.iter().map(|cleat| (cleat.ends[0][1] * 1e6).round() as i64).collect();
    assert_eq!(vs.len() * 2, cleats[0].pieces.len(), "one at each edge");
    assert_eq!(vs.len(), ((line + foot + 8.0) / 24.0).ceil() as usize + 1);
}

/// Tee or crimp where slopes or areas differ (Copper Flashings, specification 33).
#[test]
fn a_rib_stands_where_the_flows_differ() {
    let even = ell_block(480.0, 240.0, 240.0, 240.0, 8.0, 12.0, false);
    let ribbed = |block: Block| runs(&House::new(&[block], &[], felted()), MetalKind::OpenValley)[0].ribbed;
    assert!(!ribbed(even.clone()));
    let mut steeper = even;
    steeper.sides[3] = eave(11.0, 12.0);
    assert!(ribbed(steeper));
    assert!(ribbed(tee_block()), "a small wing on a large roof");
}

/// Copper Flashings, specification 34: pieces lapped 3 in; one a course.
#[test]
fn a_closed_valley_has_a_piece_a_course() {
    let mut sheet = felted();
    sheet.edges.valley_clear = Length::ZERO;
    let house = House::new(&[ell_block(480.0, 240.0, 240.0, 200.0, 8.0, 12.0, true)], &[], sheet);
    assert!(runs(&house, MetalKind::OpenValley).is_empty());
    let closed = runs(&house, MetalKind::ClosedValley);
    assert_eq!(closed.len(), 1);
    let courses: BTreeSet<u32> = closed[0].pieces.iter().filter_map(|piece| piece.course).collect();
    assert_eq!(courses.len(), closed[0].pieces.len());
    for pair in closed[0].pieces.windows(2) {
        assert!((geom::distance(pair[0].ends[1], pair[1].ends[0]) - 3.0).abs() < 1e-6);
    }
}

/// Step flashing has 4-in legs, is at least 10 in long and laps at least 2 in: common practice, no published source; legs of
/// 4 in: International Residential Code 2018, sidewall base flashing.
#[test]
fn step_flashing_by_exposure() {
    for (exposure, length) in [(5.0, 10.0), (8.0, 10.0), (8.5, 10.5), (10.0, 12.0)] {
        assert!((step_length(inches(exposure), &flashing()).to_inches() - length).abs() < 1e-9);
    }
    let house = wing_at_wall(9.0);
    for piece in item(&house, MetalKind::StepFlashing).unwrap().pieces() {
        assert!((piece.girth.to_inches() - 8.0).abs() < 1e-9 && piece.length.to_inches() >= 10.0);
    }
}

/// Looks up, at places close together, in which course each stretch of a wall is seen.
fn courses_beside(house: &House, plane: usize, [low, high]: [f64; 2]) -> BTreeSet<u32> {
    let laid = house.layout.planes.iter().find(|laid| laid.plane == plane).unwrap();
    let at = |step: u32| low + (high - low) * (f64::from(step) + 0.5) / 4000.0;
    let course = |v: f64| laid.courses.iter().position(|row| row.butt <= v && v < row.butt + row.exposure);
    (0..4000).filter_map(|step| course(at(step))).map(|course| course as u32).collect()
}

fn of_pieces(pieces: &[MetalPiece]) -> BTreeSet<u32> {
    pieces.iter().map(|piece| piece.course.unwrap()).collect()
}

/// Every piece of step flashing belongs to one course and one wall, above the butts of its course and under the next piece
/// by 2 in at least.
fn each_course_has_its_piece(house: &House) {
    let mut walls = BTreeSet::new();
    for run in runs(house, MetalKind::StepFlashing) {
        let line = &house.roof.lines[run.along.line.unwrap()];
        assert!(walls.insert((run.along.plane, run.along.line)), "one run a wall");
        let frame = &house.roof.planes[run.along.plane].frame;
        let ends = line.ends.map(|[x, y, _]| frame.place(x, y));
        let [low, high] = [ends[0][1].min(ends[1][1]), ends[0][1].max(ends[1][1])];
        assert_eq!(of_pieces(&run.pieces), courses_beside(house, run.along.plane, [low, high]));
        assert_eq!(of_pieces(&run.pieces).len(), run.pieces.len());
        let laid = house.layout.planes.iter().find(|laid| laid.plane == run.along.plane).unwrap();
        for piece in &run.pieces {
            let row = &laid.courses[piece.course.unwrap() as usize];
            assert!((piece.ends[0][1] - row.butt - 0.5).abs() < 1e-9, "above the butt line, so that it is not seen");
        }
        for pair in run.pieces.windows(2) {
            assert!(pair[0].ends[1][1] - pair[1].ends[0][1] >= 2.0 - 1e-9);
        }
    }
}

#[test]
fn sidewalls_and_chimneys_are_stepped() {
    let wing = wing_at_wall(6.0);
    each_course_has_its_piece(&wing);
    assert_eq!(runs(&wing, MetalKind::StepFlashing).len(), 2);
    // One at the foot of each sidewall.
    assert_eq!(runs(&wing, MetalKind::KickOut).len(), 2);
    let chimney = with_chimney(100.0, 28.0, 24.0);
    each_course_has_its_piece(&chimney);
    assert_eq!(runs(&chimney, MetalKind::StepFlashing).len(), 2);
    assert!(runs(&chimney, MetalKind::KickOut).is_empty());
    let pipe = House::new(
        &[gable_block(480.0, 400.0, 8.0, 12.0)],
        &[opening(OpeningKind::Pipe, [240.0, 90.0], 4.0, 4.0)],
        felted(),
    );
    assert!(runs(&pipe, MetalKind::StepFlashing).is_empty(), "a pipe has a flange");
}

/// The sheets hold all pieces: counted by area, and no fewer than the bound.
#[test]
fn sheets_hold_the_pieces() {
    let metal = wing_at_wall(9.0).place().metal.unwrap();
    let area: f64 =
        metal.items.iter().flat_map(MetalItem::pieces).map(|piece| piece.girth.to_inches() * piece.length.to_inches()).sum();
    assert!(metal.bound <= metal.sheets && f64::from(metal.sheets) * 36.0 * 120.0 >= area);
    let kinds: BTreeMap<_, _> = metal.items.iter().map(|item| (item.kind, item.runs.len())).collect();
    assert_eq!(kinds.len(), metal.items.len(), "each kind once");
}

/// A pent roof whose top leans against a house: a headwall.
fn pent_at_wall() -> House {
    let side = |kind| Side { overhang: Some(Length::ZERO), ..Side::new(kind) };
    let high = Block { eave_height: 300.0, ..gable_block(300.0, 400.0, 8.0, 0.0) };
    let outline = vec![[50.0, -100.0], [230.0, -100.0], [230.0, 0.0], [50.0, 0.0]];
    let sides = vec![eave(5.0, 0.0), gable_side(0.0), side(SideKind::Wall), gable_side(0.0)];
    let low =
        Block { name: "pent".into(), outline, outline_at: OutlineAt::DripLine, sides, holes: vec![], eave_height: 100.0 };
    House::new(&[high, low], &[], felted())
}

/// An apron over the last course, run past both ends of the wall and closed by a corner piece at each; the nails of the cut
/// units under it are two in each.
#[test]
fn an_apron_covers_the_cut_course_at_a_headwall() {
    let house = pent_at_wall();
    let aprons = runs(&house, MetalKind::Apron);
    assert_eq!(aprons.len(), 1);
    let laid: f64 = aprons[0].pieces.iter().map(|piece| piece.length.to_inches()).sum();
    // 180 in and 4 in past each end, of sheets 120 in long: two pieces that lap 4 in.
    assert!(aprons[0].pieces.len() == 2 && (laid - 192.0).abs() < 1e-6, "{laid}");
    // The sheet's leg of 4-1/2 in over the units, 4 in up the wall, 1/2 in of hem.
    assert!(aprons[0].pieces.iter().all(|piece| (piece.girth.to_inches() - 9.0).abs() < 1e-9));
    let units = house.layout.planes.iter().find(|laid| laid.plane == aprons[0].along.plane).unwrap();
    assert_eq!(aprons[0].pieces[0].course.unwrap() as usize, units.courses.len() - 1);
    assert_eq!(u64::from(aprons[0].face_nails), 2 * units.courses.last().unwrap().pieces());
    assert_eq!(runs(&house, MetalKind::Corner)[0].pieces.len(), 2);
    assert!(runs(&house, MetalKind::Counterflashing).is_empty(), "siding covers it");
    let mut asked = house;
    asked.flashing.counter_at_walls = true;
    assert_eq!(runs(&asked, MetalKind::Counterflashing).len(), 1);
}

/// Sill, two sides and back of a chimney 28 in wide; one wider than 30 in has a cricket and no pan (International Residential
/// Code R1003.20, from memory, not read).
#[test]
fn a_chimney_is_flashed_all_round() {
    let narrow = with_chimney(100.0, 28.0, 24.0);
    let counts = |house: &House| {
        [MetalKind::Apron, MetalKind::Corner, MetalKind::BackPan, MetalKind::Cricket, MetalKind::Counterflashing]
            .map(|kind| runs(house, kind).len())
    };
    assert_eq!(counts(&narrow), [1, 1, 1, 0, 4]);
    let pan = &runs(&narrow, MetalKind::BackPan)[0].pieces[0];
    // 12 in up under the units, 4 in up the back, 1/2 in of hem; 4 in past each side.
    assert!((pan.girth.to_inches() - 16.5).abs() < 1e-9 && (pan.length.to_inches() - 36.0).abs() < 1e-6);
    let wide = with_chimney(90.0, 42.0, 24.0);
    assert_eq!(counts(&wide), [1, 1, 0, 2, 5]);
    // Half the width on the slope at 8:12, 21 × √(1 + 4/9) in, 12 in of flange and the hem.
    let cricket = &runs(&wide, MetalKind::Cricket)[0].pieces[0];
    assert!((cricket.girth.to_inches() - 21.0 * (13f64 / 9.0).sqrt() - 12.5).abs() < 1e-9);
    assert!(runs(&wide, MetalKind::OpenValley).is_empty(), "its valleys are its own metal");
}

/// A pipe's flange lies over the course below it and under the one above.
#[test]
fn a_pipe_flange_lies_over_one_course_and_under_the_next() {
    let pipe = opening(OpeningKind::Pipe, [240.0, 90.0], 4.5, 4.5);
    let house = House::new(&[gable_block(480.0, 400.0, 8.0, 12.0)], &[pipe], felted());
    let metal = house.place().metal.unwrap();
    assert!(metal.items.is_empty() && metal.sheets == 0);
    let flange = metal.pipes[0];
    assert!((flange.diameter.to_inches() - 4.5).abs() < 1e-9 && (flange.pitch.rise() - 8.0).abs() < 1e-9);
    let [over, under] = [flange.over, flange.under].map(|course| course.unwrap() as usize);
    let courses = &house.layout.planes.iter().find(|laid| laid.plane == flange.along.plane).unwrap().courses;
    // 90 in level up the slope, less half the pipe.
    let foot = (90.0 - 2.25) * (13f64 / 9.0).sqrt();
    assert!(courses[over].butt <= foot && foot < courses[under].butt && under == over + 1);
}

/// A gambrel's break and the high edge of a single slope.
#[test]
fn breaks_and_high_edges_have_their_metal() {
    let mut gambrel = gable_block(480.0, 240.0, 20.0, 12.0);
    for side in [0, 2] {
        gambrel.sides[side].changes = vec![roof::Change { rise: inches(60.0), pitch: Some(common::pitch(7.0)) }];
    }
    let house = House::new(&[gambrel], &[], felted());
    let breaks = runs(&house, MetalKind::Break);
    assert_eq!(breaks.len(), 2, "one for each side, over the plane below");
    for run in &breaks {
        assert!(house.roof.planes[run.along.plane].pitch.rise() > 15.0);
    }
    let mut shed = gable_block(480.0, 240.0, 6.0, 12.0);
    shed.sides[2] = gable_side(12.0);
    assert_eq!(runs(&House::new(&[shed], &[], felted()), MetalKind::HighEdge).len(), 1);
}

#[test]
fn a_plain_gable_needs_no_metal() {
    assert!(House::new(&[gable_block(480.0, 240.0, 8.0, 12.0)], &[], felted()).place().metal.is_none());
}

/// Common practice, no published source: joints in the water, corners and the heads of face nails are sealed. By hand, in inches:
/// two pieces of the apron lap once, two corners, each across a blank of 9 in with two beads; an inch on each face nail.
#[test]
fn joints_corners_and_face_nails_are_sealed() {
    let house = pent_at_wall();
    let [apron, corners] = [MetalKind::Apron, MetalKind::Corner].map(|kind| runs(&house, kind).remove(0));
    assert_eq!((apron.sealed_joints, corners.sealed_joints), (1, 2));
    assert!((apron.sealant.to_inches() - 2.0 * 9.0 - f64::from(apron.face_nails)).abs() < 1e-9, "{apron:?}");
    assert!((corners.sealant.to_inches() - 2.0 * 2.0 * 9.0).abs() < 1e-9);
    // The raglet is filled from end to end, once; step flashing is not sealed.
    let chimney = with_chimney(90.0, 42.0, 24.0);
    for run in runs(&chimney, MetalKind::Counterflashing) {
        let long: f64 = run.pieces.iter().map(|piece| piece.length.to_inches()).sum();
        assert!((run.sealant.to_inches() - long).abs() < 1e-9);
    }
    assert!(runs(&chimney, MetalKind::StepFlashing).iter().all(|run| run.sealant == Length::ZERO));
    // One seam along the cricket's ridge, though it has two planes.
    let cricket = runs(&chimney, MetalKind::Cricket);
    assert_eq!(cricket.iter().map(|run| run.sealed_joints).collect::<Vec<_>>(), [1, 0]);
}

/// The lap of a valley's lining is sealed across the piece that lies on top.
#[test]
fn a_valleys_beads_are_as_long_as_its_pieces_are_wide() {
    let house = House::new(&[ell_block(480.0, 400.0, 240.0, 300.0, 8.0, 12.0, true)], &[], felted());
    let lining = runs(&house, MetalKind::OpenValley).remove(0);
    let over: f64 = lining.pieces[1..].iter().map(|piece| piece.girth.to_inches()).sum();
    assert!((lining.sealant.to_inches() - 2.0 * over).abs() < 1e-9 && over > 0.0);
}

/// A sheet with metal over ridges and hips: girth and count by hand. The ridge is 20 ft and runs past both rakes by 3/4 in, so
/// 241.5 in; lengths of 120 in lapped 4 in: three pieces, 8 in of laps. Two sides of 5-1/2 in, two hems of 1/2 in, 3 in of roll.
#[test]
fn ridges_have_metal_where_the_sheet_has_no_caps_there() {
    let mut sheet = felted();
    sheet.ridge_metal = Some(RidgeMetal { at_ridges: true, at_hips: false, lap: inches(4.0), rise: inches(3.0) });
    let house = House::new(&[gable_block(240.0, 200.0, 8.0, 12.0)], &[], sheet.clone());
    assert!(
        (sheet.cap.cover.to_inches() - 5.5).abs() < 1e-9 && (sheet.edges.rake_projection.to_inches() - 0.75).abs() < 1e-9
    );
    let ridge = runs(&house, MetalKind::RidgeMetal).remove(0);
    let laid: f64 = ridge.pieces.iter().map(|piece| piece.length.to_inches()).sum();
    assert!(ridge.pieces.len() == 3 && (laid - 241.5 - 8.0).abs() < 1e-6, "{laid}");
    assert!(ridge.pieces.iter().all(|piece| (piece.girth.to_inches() - 15.0).abs() < 1e-9));
    assert_eq!(ridge.sealed_joints, 2);
    // Every 12 in along both edges: 11 in a whole length, 2 in the last one of 9.5 in.
    assert_eq!(ridge.nails, 2 * (11 + 11 + 2));
    // Hips keep their caps and their nails; a roof without any has no use for nails of caps.
    let holds = |house: &House| house.place().nails.iter().map(|need| need.holds).collect::<Vec<_>>();
    assert_eq!(holds(&house), [NailHolds::Units, NailHolds::Caps, NailHolds::Metal]);
    sheet.ridge_metal = sheet.ridge_metal.map(|metal| RidgeMetal { at_hips: true, ..metal });
    let mut hipped = gable_block(480.0, 240.0, 8.0, 12.0);
    hipped.sides = vec![eave(8.0, 12.0); 4];
    let house = House::new(&[hipped], &[], sheet);
    assert_eq!([MetalKind::HipMetal, MetalKind::RidgeMetal].map(|kind| runs(&house, kind).len()), [4, 1]);
    assert_eq!(holds(&house), [NailHolds::Units, NailHolds::Metal]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]
    #[test]
    fn every_course_beside_a_chimney_has_its_piece(up in 40.0..150.0f64, width in 12.0..60.0f64, height in 12.0..50.0f64) {
        each_course_has_its_piece(&with_chimney(up, width, height));
    }
}
