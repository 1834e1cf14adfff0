use super::desk::Desk;
use crate::content::{Block, Picture, Sheet};

/// The whole roof seen from above.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let notes = notes(desk);
    let drawn = |[width, height]: [f64; 2]| {
        drawings::roof_figure(&desk.plan, [width, height - LINE * notes.len() as f64], desk.tongue)
    };
    let figures = [(drawn(desk.room()), false), (drawn(desk.large_room()), true)];
    let Some((figure, large)) = figures.into_iter().find_map(|(figure, large)| Some((figure?, large))) else {
        return Vec::new();
    };
    let scale = drawings::Words::scale(desk.tongue, figure.scale);
    let planes = desk.plan.roof.planes.len();
    let alt = desk.with("roof-plan-alt", &[("scale", scale.as_str().into()), ("planes", planes.into())]);
    let mut blocks = vec![Block::Figure(Picture::of("roof-plan", &figure, alt, String::new()))];
    blocks.extend(notes.into_iter().map(|words| Block::Words { words }));
    if !figure.keyed.is_empty() {
        blocks.push(Block::Heading { words: drawings::Words::word(desk.tongue, "planes and openings") });
        blocks.push(Block::Columns { count: 2, blocks: vec![Block::List { items: figure.keyed }] });
    }
    vec![Sheet { scale, large, ..desk.sheet("roof-plan", blocks) }]
}

/// Of a note, mm.
const LINE: f64 = 7.0;

fn notes(desk: &Desk) -> Vec<String> {
    let mut notes = vec![desk.say("roof-plan-note")];
    if desk.plan.roof.planes.iter().any(|plane| plane.known_by == "tape") {
        notes.push(desk.say("roof-plan-apart"));
    }
    if desk.plan.wind.is_some() {
        notes.push(desk.say("roof-plan-wind"));
    }
    notes
}
