use plan::Pile;

use super::cut_list::courses;
use super::desk::{Desk, count};
use crate::content::{Block, Column, Picture, Sheet, Table};
use crate::measure::grouped;

/// Where units are set down, how many and in which order.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let loads = &desk.plan.loads;
    if loads.piles.is_empty() {
        return Vec::new();
    }
    let mut sheets: Vec<Sheet> = map(desk).into_iter().collect();
    let mut told: Vec<Block> = loads.cautions.iter().map(|says| Block::Words { words: desk.words(says) }).collect();
    told.extend(pallets(desk));
    told.push(Block::Columns { count: 2, blocks: vec![list(desk)] });
    sheets.push(desk.sheet("stage-list", told));
    sheets
}

/// Room for the note under the map, mm.
const NOTE: f64 = 12.0;

fn map(desk: &Desk) -> Option<Sheet> {
    let drawn = |[width, height]: [f64; 2], crowded: bool| {
        drawings::stage_figure(&desk.plan, [width, height - NOTE], crowded, desk.tongue)
    };
    let ways = [(desk.room(), false, false), (desk.large_room(), false, true), (desk.large_room(), true, true)];
    let (figure, large) = ways.into_iter().find_map(|(room, crowded, large)| Some((drawn(room, crowded)?, large)))?;
    let scale = drawings::Words::scale(desk.tongue, figure.scale);
    let alt = desk.with("stage-alt", &[("scale", scale.as_str().into()), ("piles", desk.plan.loads.piles.len().into())]);
    let blocks = vec![
        Block::Figure(Picture::of("stage", &figure, alt, String::new())),
        Block::Words { words: desk.say("stage-note") },
    ];
    Some(Sheet { scale, large, ..desk.sheet("stage", blocks) })
}

fn pallets(desk: &Desk) -> Option<Block> {
    let pallets = desk.plan.loads.pallets.as_ref()?;
    let full = desk.tongue.measures.weight(pallets.full_lb);
    let values = [("count", pallets.count.into()), ("packs", pallets.packs_each.to_string().into()), ("full", full.into())];
    Some(Block::Words { words: desk.with("stage-pallets", &values) })
}

fn list(desk: &Desk) -> Block {
    let right = |name: &str| Column::right(desk.say(name));
    let columns = vec![
        right("stage-pile"),
        Column::wide(desk.say("stage-plane"), 1),
        right("stage-courses"),
        right("stage-units"),
        right("stage-at-once"),
        right("stage-times"),
        right("stage-weight"),
        right("stage-patch"),
    ];
    let rows = desk.plan.loads.piles.iter().map(|pile| row(desk, pile)).collect();
    Block::Table(Table { columns, rows, size: 8.0 })
}

fn row(desk: &Desk, pile: &Pile) -> Vec<String> {
    vec![
        pile.number.to_string(),
        desk.plane_name(&pile.plane),
        courses(pile.courses.map(|course| course + 1)),
        count(pile.units),
        count(pile.at_once),
        pile.times.to_string(),
        desk.tongue.measures.weight(pile.weight_lb),
        grouped(pile.patch_psf, 1),
    ]
}
