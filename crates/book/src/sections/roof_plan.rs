use super::desk::{Desk, note_height};
use crate::Part;
use crate::content::{Block, Picture, Sheet};

/// The whole roof seen from above.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let notes = notes(desk);
    let room: f64 = notes.iter().map(|words| note_height(words)).sum();
    let drawn = |[width, height]: [f64; 2]| drawings::roof_figure(&desk.plan, [width, height - room], desk.tongue);
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

fn notes(desk: &Desk) -> Vec<String> {
    let mut notes = vec![desk.say("roof-plan-note")];
    notes.extend(alike(desk));
    if desk.plan.roof.planes.iter().any(|plane| plane.known_by == "tape") {
        notes.push(desk.say("roof-plan-apart"));
    }
    if desk.plan.wind.is_some() {
        notes.push(desk.say("roof-plan-wind"));
    }
    notes
}

/// Which planes are laid by one sheet, for those who have the sheets.
fn alike(desk: &Desk) -> Vec<String> {
    let has_sheets = matches!(desk.binding.part, Part::Whole | Part::Crew | Part::Office);
    let told = |ids: &Vec<String>| match ids.as_slice() {
        [first, others @ ..] if !others.is_empty() => {
            let values = [("sheet", desk.sheet_name(first).into()), ("planes", desk.plane_names(others).into())];
            Some(desk.with("roof-plan-alike", &values))
        }
        _ => None,
    };
    desk.alike().iter().filter(|_| has_sheets).filter_map(told).collect()
}
