//! A side of an outline as typed, and as meant.

use roof::{Change, Side, SideKind};
use units::Length;

use super::file::EdgeTable;
use super::resolve::{Desk, coordinate};

/// No overhang is wider.
pub(super) const WIDEST_OVERHANG: Length = Length::feet(20.0);
/// No side changes higher up.
const HIGHEST_CHANGE: Length = Length::feet(200.0);

pub(super) fn side(desk: &mut Desk, edge: &EdgeTable, path: &str) -> Option<Side> {
    let kind = side_kind(desk, edge, path);
    suits(desk, edge, kind, path);
    let overhang = edge.overhang.map(|width| desk.length(&format!("{path}.overhang"), width, Length::ZERO, WIDEST_OVERHANG));
    if kind == Some(SideKind::Wall) && overhang.is_some() {
        let says = "a side that stands against a wall has no overhang";
        desk.mistake(&format!("{path}.overhang"), says, "Remove the overhang, or write gable = true.");
    }
    let eave_height = edge.eave_height.map(|height| coordinate(desk, height, &format!("{path}.eave_height")));
    Some(Side { kind: kind?, overhang, eave_height, changes: changes(desk, edge, path) })
}

fn side_kind(desk: &mut Desk, edge: &EdgeTable, path: &str) -> Option<SideKind> {
    const ONE_OF: &str = "Write exactly one of eave = \"8/12\", gable = true and wall = true.";
    for (key, value) in [("gable", edge.gable), ("wall", edge.wall)] {
        let says = || format!("{key} = false says nothing about this side");
        desk.expect(value != Some(false), &format!("{path}.{key}"), says, ONE_OF);
    }
    match (edge.eave, edge.gable, edge.wall) {
        (Some(pitch), None, None) => Some(SideKind::Eave(pitch)),
        (None, Some(true), None) => Some(SideKind::Gable),
        (None, None, Some(true)) => Some(SideKind::Wall),
        (None, None, None) => {
            desk.mistake(path, "this side is neither an eave nor a gable nor a wall", ONE_OF);
            None
        }
        (None, Some(false), None) | (None, None, Some(false)) => None,
        _ => {
            desk.mistake(path, "this side is more than one of eave, gable and wall", ONE_OF);
            None
        }
    }
}

/// Keys that say nothing about a side of this kind.
fn suits(desk: &mut Desk, edge: &EdgeTable, kind: Option<SideKind>, path: &str) {
    let is_eave = edge.eave.is_some();
    let is_gable = edge.gable.is_some();
    for (key, given, of, suits) in [
        ("breaks", !edge.breaks.is_empty(), "an eave", is_eave),
        ("gable_from", edge.gable_from.is_some(), "an eave", is_eave),
        ("eave_height", edge.eave_height.is_some(), "an eave", is_eave),
        ("hip_from", edge.hip_from.is_some(), "a gable", is_gable),
        ("pitch", edge.pitch.is_some(), "a gable with hip_from", is_gable && edge.hip_from.is_some()),
    ] {
        let says = || format!("{key} belongs to {of}");
        let remedy = "Write eave = \"8/12\" with breaks or gable_from, or gable = true with hip_from and pitch.";
        desk.expect(!given || suits || kind.is_none(), &format!("{path}.{key}"), says, remedy);
    }
    let says = || "the hip over this gable has no pitch".into();
    let is_whole = edge.hip_from.is_none() || edge.pitch.is_some();
    desk.expect(is_whole, &format!("{path}.hip_from"), says, "Write pitch = \"8/12\" beside hip_from.");
}

/// What happens further up, in the order in which it is typed.
fn changes(desk: &mut Desk, edge: &EdgeTable, path: &str) -> Vec<Change> {
    let mut rises = Vec::new();
    for (index, each) in edge.breaks.iter().enumerate() {
        rises.push((format!("{path}.breaks[{index}].rise"), each.rise, Some(each.pitch)));
    }
    rises.extend(edge.gable_from.map(|rise| (format!("{path}.gable_from"), rise, None)));
    rises.extend(edge.hip_from.map(|rise| (format!("{path}.hip_from"), rise, edge.pitch)));
    let mut changes: Vec<Change> = Vec::new();
    for (path, rise, pitch) in rises {
        let rise: Length = desk.length(&path, rise, Length::ZERO, HIGHEST_CHANGE);
        let below = changes.last().map(|change| change.rise);
        let says = || format!("{rise} is not above the change before it");
        desk.expect(below.is_none_or(|below| rise > below), &path, says, "Give the changes from the lowest to the highest.");
        changes.push(Change { rise, pitch });
    }
    changes
}
