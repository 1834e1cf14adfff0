use plan::{LaidPlane, MetalRun, Plan, Plane};

use super::section::{Along, Section, framed};
use crate::{Figure, Fill, Item, LineType, Point, Words};

/// Of a unit as drawn, mm.
const UNIT: f64 = 1.7;
/// Height of the leg on the wall as drawn, mm: the plan has the blank, not the bends.
const LEG: f64 = 14.0;

/// A cut up the slope at the wall over it: the last courses, the cut one nailed through its face, the apron over it.
pub(super) fn draw(
    plan: &Plan,
    plane: &Plane,
    laid: &LaidPlane,
    run: &MetalRun,
    width: f64,
    words: &dyn Words,
) -> Option<Figure> {
    let wall = run.pieces.first()?.ends_in[0][1];
    let last = run.pieces.first()?.course? as usize;
    let shown = laid.courses.get(last.checked_sub(1)?..=last)?;
    let zero = shown[0].butt_in;
    let high = wall - zero;
    let section = Section::up_slope(plane, high + 4.0, width - 40.0, words)?;
    let mut items = vec![section.band([-2.0, high], [-4.0, 0.0], [-4.0, 0.0], Fill::Hatch), masonry(section.at(high, 0.0))];
    for course in shown.iter().rev() {
        let at = course.butt_in - zero;
        let to = (at + plan.covering.length_in).min(high);
        items.push(section.band([at, to], [2.0 * UNIT, 3.0 * UNIT], [UNIT * 0.4, 1.4 * UNIT], Fill::Paper));
    }
    let leg = run.roof_leg_in?;
    items.push(apron(&section, [high - leg, high]));
    let exposure = format!("{} {}", words.word("exposure"), words.length(shown[0].exposure_in));
    items.extend(section.measure([0.0, shown[0].exposure_in], 12.0, &exposure));
    items.extend(section.measure([high - leg, high], 18.0, &format!("{} {}", words.word("apron"), words.length(leg))));
    let (numbers, keyed) = key(&section, run, [shown[1].butt_in - zero, high - leg, high], words);
    items.extend(numbers);
    Some(framed(items, section.scale, keyed))
}

/// The wall from a little under the deck up.
fn masonry([x, y]: Point) -> Item {
    let ring = vec![[x, y + 8.0], [x + 6.0, y + 8.0], [x + 6.0, y - LEG - 12.0], [x, y - LEG - 12.0]];
    Item::Shape { rings: vec![ring], line: LineType::PlaneEdge, fill: Fill::Hatch }
}

/// Down over the units and up the wall.
fn apron(section: &Section, [from, to]: [f64; 2]) -> Item {
    let bend = section.at(to, 2.4 * UNIT);
    let points = vec![section.at(from, 3.4 * UNIT), bend, [bend[0], bend[1] - LEG]];
    Item::Line { points, line: LineType::Course }
}

fn key(section: &Section, run: &MetalRun, [butt, seen, wall]: [f64; 3], words: &dyn Words) -> (Vec<Item>, Vec<String>) {
    let piece = &run.pieces[0];
    let lengths: f64 = run.pieces.iter().map(|piece| piece.length_in).sum();
    let [girth, lengths] = [piece.girth_in, lengths].map(|inches| words.length(inches));
    let size = format!("{} {girth}, {} {lengths}", words.word("blank"), words.word("in all"));
    let sealed = (run.sealed_joints > 0).then(|| format!("; {} {}", words.word("sealed laps"), run.sealed_joints));
    let apron = format!("{}: {size}{}", words.word("apron"), sealed.unwrap_or_default());
    let nails = (run.face_nails > 0).then(|| format!("{}: {}", words.word("face nails"), run.face_nails));
    let middle = f64::midpoint(seen, wall);
    let over = [Some(([middle, 3.0 * UNIT], apron)), nails.map(|told| ([middle, 1.5 * UNIT], told))];
    let parts = over.into_iter().flatten().chain([([butt + 0.5, 2.5 * UNIT], words.word("last course cut"))]);
    let below = |(index, (part, told)): (usize, (Along, String))| (part, [part[0] - 2.0 - 3.0 * index as f64, -14.0], told);
    section.key(parts.enumerate().map(below).collect())
}
