use plan::{CountedPlace, Delivery, OrderLine};

use super::desk::Desk;
use crate::Measures;
use crate::content::{Block, Column, Sheet, Table};
use crate::measure::grouped;

/// What is ordered, and where the units go.
pub(crate) fn sheets(desk: &Desk) -> Vec<Sheet> {
    let order = &desk.plan.order;
    if order.is_empty() {
        return Vec::new();
    }
    let columns = vec![
        Column::left(desk.say("order-ordered")),
        Column::wide(desk.say("order-item"), 4),
        Column::right(desk.say("order-packs")),
        Column::right(desk.say("order-spare")),
        Column::wide(desk.say("order-pack"), 3),
        Column::right(desk.say("order-need")),
        Column::left(String::new()),
        Column::right(desk.say("order-weight")),
    ];
    let rows = order.iter().map(|line| row(desk, line)).collect();
    let mut blocks = vec![
        Block::Words { words: desk.say("order-note") },
        Block::Table(Table { columns, rows, size: 9.5 }),
        Block::Words { words: total(desk) },
    ];
    blocks.extend(estimates(desk));
    blocks.extend(spares(desk));
    blocks.extend(days(desk));
    blocks.extend(places(desk));
    vec![desk.sheet("order", blocks)]
}

fn row(desk: &Desk, line: &OrderLine) -> Vec<String> {
    let weight = if line.weight_lb > 0.0 { desk.tongue.measures.weight(line.weight_lb) } else { String::new() };
    let (need, unit) = need(desk, line.quantity, &line.unit);
    let spare = line.spare.as_ref().map(|spare| spare.packs.to_string()).unwrap_or_default();
    vec!["□".into(), item(desk, line), line.packs.to_string(), spare, desk.words(&line.pack), need, unit, weight]
}

/// What it is, and its size where the pack does not tell it.
fn item(desk: &Desk, line: &OrderLine) -> String {
    let item = desk.words(&line.item);
    if line.size.is_empty() { item } else { format!("{item}, {}", desk.words(&line.size)) }
}

/// A quantity and what it counts.
fn need(desk: &Desk, quantity: f64, unit: &str) -> (String, String) {
    let decimals = usize::from((quantity - quantity.round()).abs() > 1e-9);
    match (unit, desk.tongue.measures) {
        ("ft", Measures::Metric) => (grouped(quantity * 0.3048, 1), "m".into()),
        ("sq ft", Measures::Metric) => (grouped(quantity * 0.092_903_04, 1), "m²".into()),
        _ => (grouped(quantity, decimals), desk.words(unit)),
    }
}

fn total(desk: &Desk) -> String {
    let weight: f64 = desk.plan.order.iter().map(|line| line.weight_lb).sum();
    desk.with("order-total", &[("weight", desk.tongue.measures.weight(weight).into())])
}

fn estimates(desk: &Desk) -> Option<Block> {
    let estimated = desk.plan.order.iter().filter(|line| !line.estimate.is_empty());
    let items: Vec<String> =
        estimated.map(|line| format!("{}: {}", desk.words(&line.item), desk.words(&line.estimate))).collect();
    (!items.is_empty()).then_some(Block::List { items })
}

/// What is taken to break, and the chance of running short that is left.
fn spares(desk: &Desk) -> Vec<Block> {
    let short = |line: &OrderLine| {
        let spare = line.spare.as_ref()?;
        let told = desk.say(match spare.breakage_told_by {
            "job" => "order-breakage-job",
            "sheet" => "order-breakage-sheet",
            _ => "order-breakage-invented",
        });
        let percent = |chance: f64| grouped(100.0 * chance, 1);
        let values = [
            ("item", desk.words(&line.item).into()),
            ("breakage", grouped(spare.breakage_percent, 1).into()),
            ("told", told.into()),
            ("packs", spare.packs.into()),
            ("chance", percent(spare.chance_short).into()),
            ("taken", percent(spare.chance_taken).into()),
        ];
        Some(desk.with("order-short", &values))
    };
    let items: Vec<String> = desk.plan.order.iter().filter_map(short).collect();
    if items.is_empty() {
        return Vec::new();
    }
    vec![Block::Together { blocks: vec![Block::Heading { words: desk.say("order-spares") }, Block::List { items }] }]
}

fn days(desk: &Desk) -> Vec<Block> {
    let rows: Vec<Vec<String>> = desk.plan.deliveries.iter().map(|delivery| day(desk, delivery)).collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let columns = vec![
        Column::right(desk.say("order-day")),
        Column::wide(desk.say("order-for"), 3),
        Column::wide(desk.say("order-brings"), 5),
        Column::right(desk.say("order-weight")),
    ];
    vec![Block::Heading { words: desk.say("order-days") }, Block::Table(Table { columns, rows, size: 8.5 })]
}

fn day(desk: &Desk, delivery: &Delivery) -> Vec<String> {
    let item = |id: &str| desk.plan.order.iter().find(|line| line.id == id).map(|line| desk.words(&line.item));
    let packs = delivery.packs.iter().map(|of| format!("{} × {}", of.packs, item(&of.id).unwrap_or_default()));
    vec![
        delivery.day.to_string(),
        desk.plane_names(&delivery.planes),
        packs.collect::<Vec<_>>().join("; "),
        desk.tongue.measures.weight(delivery.weight_lb),
    ]
}

/// What is spread over the planes, so that each bundle is set down once.
const SPREAD: [&str; 4] = ["field-units", "wide-units", "starters", "caps"];

fn places(desk: &Desk) -> Vec<Block> {
    let is_spread = |id: &str| SPREAD.iter().any(|item| id == *item || id.starts_with(&format!("{item}-")));
    let spread = desk.plan.order.iter().filter(|line| is_spread(&line.id));
    let rows: Vec<Vec<String>> = spread
        .flat_map(|line| {
            line.places.iter().enumerate().map(|(index, place)| {
                let item = if index == 0 { desk.words(&line.item) } else { String::new() };
                let (need, unit) = need(desk, place.quantity, &line.unit);
                vec![item, at(desk, place), need, unit]
            })
        })
        .collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let columns = vec![
        Column::wide(desk.say("order-item"), 4),
        Column::wide(desk.say("order-where"), 4),
        Column::right(desk.say("order-need")),
        Column::left(String::new()),
    ];
    let table = Block::Table(Table { columns, rows, size: 8.0 });
    vec![Block::Heading { words: desk.say("order-places") }, Block::Columns { count: 2, blocks: vec![table] }]
}

/// Where it is, and what lies there besides that is made of offcuts.
fn at(desk: &Desk, place: &CountedPlace) -> String {
    let named = named(desk, &place.at);
    match place.from_offcuts {
        offcuts if offcuts > 0.0 => {
            desk.with("order-from-offcuts", &[("at", named.into()), ("count", grouped(offcuts, 0).into())])
        }
        _ => named,
    }
}

/// `ridge, house, south / house, north`: a kind of line and the planes that meet there; or a plane.
fn named(desk: &Desk, place: &str) -> String {
    let planes = |names: &str| names.split(" / ").map(|name| desk.tongue.plane(name)).collect::<Vec<_>>().join(" / ");
    match place.split_once(", ") {
        Some((kind, rest)) if drawings::WORDS.iter().any(|(name, _)| *name == kind) => {
            format!("{}, {}", desk.words(kind), planes(rest))
        }
        _ => desk.tongue.known(place).unwrap_or_else(|| planes(place)),
    }
}
