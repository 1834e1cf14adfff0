use plan::{CutKind, CutPlace, Cutout, Cutting};

use super::desk::{Desk, count};
use crate::content::{Block, Column, Sheet, Table};

/// The whole roof's pieces in the order of the saw, and which units give several.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let cuttings = desk.plan.layout.cutting.iter().filter(|cutting| !cutting.kinds.is_empty());
    let blocks: Vec<Block> = cuttings.flat_map(|cutting| of_one_unit(desk, cutting)).collect();
    if blocks.is_empty() { Vec::new() } else { vec![desk.sheet("cut-list", blocks)] }
}

fn of_one_unit(desk: &Desk, cutting: &Cutting) -> Vec<Block> {
    let measures = desk.tongue.measures;
    let pieces: u64 = cutting.kinds.iter().map(|kind| kind.count).sum();
    let unit = format!("{} × {}", measures.short(cutting.width_in), measures.short(cutting.length_in));
    let summary = desk.with(
        "cut-list-summary",
        &[
            ("kinds", cutting.kinds.len().into()),
            ("pieces", count(pieces).into()),
            ("unit", unit.as_str().into()),
            ("stock", count(cutting.stock).into()),
            ("bound", count(cutting.stock_bound).into()),
        ],
    );
    let mut blocks = vec![Block::Heading { words: unit }, Block::Words { words: summary }];
    blocks.push(Block::Columns { count: 2, blocks: vec![kinds(desk, cutting)] });
    blocks.extend(offcuts(desk, cutting));
    blocks
}

fn kinds(desk: &Desk, cutting: &Cutting) -> Block {
    let right = |name: &str| Column::right(desk.say(name));
    let columns = vec![
        right("cut-piece"),
        Column::left(desk.say("cut-bin")),
        right("cut-bevel"),
        Column::left(desk.say("cut-leans")),
        right("cut-butt"),
        right("cut-head"),
        right("cut-length"),
        right("cut-count"),
        Column::wide(desk.say("cut-where"), 1),
    ];
    let rows = cutting.kinds.iter().enumerate().map(|(index, kind)| row(desk, index, kind)).collect();
    Block::Table(Table { columns, rows, size: 7.0 })
}

fn row(desk: &Desk, index: usize, kind: &CutKind) -> Vec<String> {
    let measures = desk.tongue.measures;
    vec![
        (index + 1).to_string(),
        kind.bin.clone(),
        format!("{:.1}°", kind.bevel_deg),
        desk.words(kind.hand),
        measures.short(kind.butt_in),
        measures.short(kind.head_in),
        measures.short(kind.height_in),
        kind.count.to_string(),
        places(desk, kind).join("; "),
    ]
}

/// Places on planes that are all alike are told once.
fn places(desk: &Desk, kind: &CutKind) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for place in kind.places.iter().map(|place| place_of(desk, kind, place)) {
        if !told.contains(&place) {
            told.push(place);
        }
    }
    told
}

/// Plane, the number of the cut there, and its courses.
fn place_of(desk: &Desk, kind: &CutKind, place: &CutPlace) -> String {
    let courses = courses(place.courses.map(|course| course + 1));
    let same = |id: &String| CutPlace { plane: id.clone(), ..place.clone() };
    let on_all = desk.like(&place.plane).iter().all(|id| kind.places.contains(&same(id)));
    let plane = if on_all { desk.sheet_name(&place.plane) } else { desk.plane_name(&place.plane) };
    let cut = (u64::from(place.cut) + 1).to_string();
    desk.with("cut-place", &[("plane", plane.into()), ("cut", cut.into()), ("courses", courses.into())])
}

/// `7`, or `2–30`; counted from 1.
pub(crate) fn courses([first, last]: [usize; 2]) -> String {
    if first == last { first.to_string() } else { format!("{first}–{last}") }
}

/// The units that give more than one piece, left to right; every other piece takes a unit.
fn offcuts(desk: &Desk, cutting: &Cutting) -> Vec<Block> {
    let several = cutting.units.iter().filter(|unit| unit.pieces.len() > 1);
    let rows: Vec<Vec<String>> = several
        .map(|unit| {
            vec![
                unit.count.to_string(),
                unit.pieces.iter().map(|piece| from_unit(desk, piece)).collect::<Vec<_>>().join(" + "),
            ]
        })
        .collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let columns = vec![Column::right(desk.say("offcuts-units")), Column::wide(desk.say("offcuts-pieces"), 1)];
    let table = Block::Table(Table { columns, rows, size: 7.5 });
    vec![
        Block::Heading { words: desk.say("offcuts") },
        Block::Words { words: desk.say("offcuts-note") },
        Block::Columns { count: 4, blocks: vec![table] },
    ]
}

fn from_unit(desk: &Desk, piece: &Cutout) -> String {
    let number = piece.kind + 1;
    if piece.turned { format!("{number} {}", desk.say("offcuts-turned")) } else { number.to_string() }
}
