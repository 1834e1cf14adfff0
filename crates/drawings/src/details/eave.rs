use plan::{LaidPlane, Plan, Plane};

use super::section::{Section, framed};
use crate::{Figure, Fill, Item, LineType, Words};

/// Of a unit as drawn, mm.
const UNIT: f64 = 1.7;
/// Of the deck as drawn, mm.
const DECK: f64 = 4.0;
/// Underlayment and barrier under the units, mm.
const SHEETS: f64 = 1.4;

/// A cut up the slope through the eave: deck, edge metal, sheets, starter and the first courses.
pub(super) fn draw(plan: &Plan, plane: &Plane, laid: &LaidPlane, width: f64, words: &dyn Words) -> Option<Figure> {
    let shown = laid.courses.iter().take(3).collect::<Vec<_>>();
    let length = shown.first().map_or(0.0, |course| course.length_in);
    let head = |index: usize| shown[index].butt_in + shown[index].length_in;
    let high = head(shown.len().checked_sub(1)?);
    let section = Section::up_slope(plane, high + 8.0, width - 34.0, words)?;
    let mut items = base(&section, high);
    items.extend(starter(&section, laid));
    for (index, course) in shown.iter().enumerate().rev() {
        let butt = SHEETS + UNIT * if index == 0 { 1.0 } else { 2.0 };
        items.push(section.band([course.butt_in, head(index)], [butt, butt + UNIT], [SHEETS, SHEETS + UNIT], Fill::Paper));
    }
    // Lower courses cover the heads of none, but their butts are seen: draw them last.
    for (index, course) in shown.iter().enumerate() {
        let butt = SHEETS + UNIT * if index == 0 { 1.0 } else { 2.0 };
        items.push(section.line(&[[course.butt_in, butt], [course.butt_in, butt + UNIT]], LineType::Course));
    }
    items.extend(measures(&section, &shown, length, words));
    let (numbers, keyed) = key(plan, &section, plane, laid, words);
    items.extend(numbers);
    Some(framed(items, section.scale, keyed))
}

fn base(section: &Section, high: f64) -> Vec<Item> {
    let end = high + 3.0;
    let drop = section.at(0.0, -DECK);
    let fascia = vec![drop, [drop[0] + 5.0, drop[1]], [drop[0] + 5.0, drop[1] + 18.0], [drop[0], drop[1] + 18.0]];
    let edge = section.at(-0.3, 0.5);
    vec![
        Item::Shape { rings: vec![fascia], line: LineType::Piece, fill: Fill::Paper },
        section.band([0.0, end], [-DECK, 0.0], [-DECK, 0.0], Fill::Hatch),
        Item::Line {
            points: vec![section.at(3.0, 0.5), edge, [edge[0], edge[1] + 9.0], [edge[0] - 1.8, edge[1] + 10.8]],
            line: LineType::Course,
        },
        section.line(&[[0.2, 1.0], [end, 1.0]], LineType::Hidden),
    ]
}

fn starter(section: &Section, laid: &LaidPlane) -> Option<Item> {
    let starters = laid.starters.first()?;
    let to = starters.butt_in + starters.height_in;
    Some(section.band([starters.butt_in, to], [SHEETS, SHEETS + UNIT], [SHEETS, SHEETS + UNIT * 0.6], Fill::Paper))
}

fn measures(section: &Section, shown: &[&plan::Course], length: f64, words: &dyn Words) -> Vec<Item> {
    let word = |name: &str, inches: f64| format!("{} {}", words.word(name), words.length(inches));
    let mut items = Vec::new();
    if let [first, second, ..] = shown {
        items.extend(section.measure([first.butt_in, second.butt_in], 9.5, &word("exposure", first.exposure_in)));
        let to = first.butt_in + length;
        items.extend(section.measure([first.butt_in, to], 23.5, &word("unit", length)));
    }
    if let [first, _, third] = shown {
        let to = first.butt_in + length;
        if to > third.butt_in {
            items.extend(section.measure([third.butt_in, to], 16.5, &word("headlap", third.headlap_in)));
        }
    }
    items
}

fn key(plan: &Plan, section: &Section, plane: &Plane, laid: &LaidPlane, words: &dyn Words) -> (Vec<Item>, Vec<String>) {
    let high = laid.courses.first().map_or(0.0, |course| course.butt_in + course.length_in);
    let barrier = plan.details.eaves.iter().find(|eave| eave.plane == plane.id);
    let mut parts = vec![([high * 0.75, -DECK / 2.0], words.word("deck")), ([1.5, 0.5], words.word("drip edge"))];
    parts.push(([high * 0.55, 1.0], words.word("underlayment")));
    if let Some(eave) = barrier {
        let told = format!("{} {} {}", words.word("ice barrier"), words.word("up to"), words.length(eave.laid_in));
        parts.push(([high * 0.4, 0.6], told));
    }
    if let Some(starters) = laid.starters.first() {
        let told = format!("{} {}", words.word("starter"), words.length(starters.height_in));
        parts.push(([starters.butt_in + starters.height_in * 0.5, SHEETS + UNIT / 2.0], told));
    }
    let below = parts.into_iter().map(|(part, told)| (part, [part[0] + 1.5, -DECK - 11.0], told));
    let butt = laid.first_butt_in;
    let projection = (butt < 0.0).then(|| {
        let told = format!("{} {}", words.word("projection"), words.length(-butt));
        ([butt, SHEETS + UNIT], [butt - 3.5, 1.0], told)
    });
    section.key(below.chain(projection).collect())
}
