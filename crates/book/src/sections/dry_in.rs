use plan::{Details, Layers, Rolls, Vents};
use units::Length;

use super::desk::{Desk, sentence};
use crate::content::{Block, Column, Sheet, Table};

/// What lies under the units and what lets the attic breathe.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let details = &desk.plan.details;
    let mut blocks = Vec::new();
    blocks.extend(rolls(desk, details));
    blocks.extend(barrier(desk, details));
    blocks.extend(details.layers.iter().flat_map(|layers| list(desk, layers)));
    blocks.extend(details.vents.iter().flat_map(|vents| told(desk, vents)));
    blocks.extend(missing(desk, details));
    if blocks.is_empty() { Vec::new() } else { vec![desk.sheet("dry-in", blocks)] }
}

fn rolls(desk: &Desk, details: &Details) -> Vec<Block> {
    if details.rolls.is_empty() {
        return Vec::new();
    }
    let columns = vec![
        Column::left(desk.say("dry-in-kind")),
        Column::wide(desk.say("dry-in-name"), 3),
        Column::left(desk.say("dry-in-size")),
        Column::right(desk.say("dry-in-side-lap")),
        Column::right(desk.say("dry-in-end-lap")),
        Column::right(desk.say("dry-in-strips")),
        Column::right(desk.say("dry-in-count")),
    ];
    let rows = details.rolls.iter().map(|rolls| roll(desk, rolls)).collect();
    vec![Block::Words { words: desk.say("dry-in-note") }, Block::Table(Table { columns, rows, size: 9.5 })]
}

fn roll(desk: &Desk, rolls: &Rolls) -> Vec<String> {
    let measures = desk.tongue.measures;
    let is_roll = rolls.width_in > 0.0;
    let size = if is_roll {
        format!("{} × {}", measures.short(rolls.width_in), measures.long(rolls.length_in))
    } else {
        measures.long(rolls.length_in)
    };
    vec![
        desk.words(rolls.kind),
        desk.words(&rolls.name),
        size,
        if is_roll { measures.short(rolls.side_lap_in) } else { String::new() },
        measures.short(rolls.end_lap_in),
        rolls.strips.len().to_string(),
        rolls.count.to_string(),
    ]
}

fn barrier(desk: &Desk, details: &Details) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !details.ice_barrier.is_empty() {
        blocks.push(Block::Heading { words: desk.say("dry-in-barrier") });
        blocks.push(Block::Words { words: desk.words(&details.ice_barrier) });
    }
    let measures = desk.tongue.measures;
    let items: Vec<String> = details
        .eaves
        .iter()
        .map(|eave| {
            let [needed, laid] = [eave.needed_in, eave.laid_in].map(|inches| measures.long(inches));
            let plane = desk.plane_name(&eave.plane);
            desk.with("dry-in-eave", &[("plane", plane.into()), ("needed", needed.into()), ("laid", laid.into())])
        })
        .collect();
    if !items.is_empty() {
        blocks.push(Block::List { items });
    }
    blocks
}

fn list(desk: &Desk, layers: &Layers) -> Vec<Block> {
    let mut items: Vec<String> = layers.layers.iter().map(|layer| one(desk, layer)).collect();
    items.extend(layers.fire.iter().map(|says| desk.words(says)));
    let heading = desk.with("dry-in-layers", &[("planes", desk.plane_names(&layers.planes).into())]);
    vec![Block::Together { blocks: vec![Block::Heading { words: heading }, Block::List { items }] }]
}

fn one(desk: &Desk, layer: &plan::Layer) -> String {
    let times = if layer.times > 1 { format!(" × {}", layer.times) } else { String::new() };
    let part = if layer.in_part { format!(" ({})", desk.say("dry-in-in-part")) } else { String::new() };
    format!("{}: {}{times}{part}", desk.words(layer.kind), desk.words(&layer.name))
}

fn told(desk: &Desk, vents: &Vents) -> Vec<Block> {
    let measures = desk.tongue.measures;
    let [least, most] = vents.upper_sqin.map(|upper| measures.vent(upper));
    let feet = |feet: f64| measures.long(Length::feet(feet).to_inches());
    let mut facts = vec![
        desk.fact("vents-floor", measures.area(vents.floor_sqft)),
        desk.fact("vents-share", format!("1/{}", vents.share)),
        desk.fact("vents-needed", measures.vent(vents.needed_sqin)),
        desk.fact("vents-upper", desk.with("from-to", &[("from", least.into()), ("to", most.into())])),
        desk.fact("vents-lower", measures.vent(vents.lower_sqin)),
        desk.fact("vents-ridge", measures.vent(vents.ridge_gives_sqin)),
    ];
    facts.extend(vents.slot_in.map(|slot| desk.fact("vents-slot", measures.short(slot))));
    facts.extend(vents.soffit_ft.map(|soffit| desk.fact("vents-soffit", feet(soffit))));
    facts.push(desk.fact("vents-eaves", feet(vents.eaves_ft)));
    let mut notes = vec![sentence(&desk.words(&vents.why))];
    notes.extend(vents.notes.iter().map(|says| desk.words(says)));
    vec![Block::Together {
        blocks: vec![Block::Heading { words: desk.say("vents") }, Block::Facts { facts }, Block::List { items: notes }],
    }]
}

fn missing(desk: &Desk, details: &Details) -> Vec<Block> {
    let items: Vec<String> = details
        .missing
        .iter()
        .map(|missing| {
            format!(
                "{}: {}; {}.",
                sentence(&desk.words(&missing.what)).trim_end_matches('.'),
                desk.words(&missing.says),
                desk.words(&missing.remedy)
            )
        })
        .collect();
    if items.is_empty() {
        return Vec::new();
    }
    vec![Block::Heading { words: desk.say("dry-in-missing") }, Block::List { items }]
}
