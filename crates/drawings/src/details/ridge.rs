use plan::{LaidPlane, Plan, Plane};

use super::section::{Section, framed, scale_for};
use crate::{Figure, Fill, Item, LineType, Words};

/// A cut square through the ridge: deck, slot and vent, the top courses and the cap or the metal over them.
pub(super) fn draw(plan: &Plan, plane: &Plane, laid: &LaidPlane, width: f64, words: &dyn Words) -> Option<Figure> {
    let guide = laid.guides.iter().find(|guide| guide.kind == "ridge" && guide.off_in > 0.0)?;
    let vents = plan.details.vents.as_ref().filter(|vents| !vents.ridges.is_empty());
    let slot = vents.and_then(|vents| vents.slot_in);
    let reach = guide.off_in * 3.0;
    let turn = libm::atan2(plane.pitch, 12.0).to_degrees();
    let scale = scale_for(2.0 * reach * libm::cos(turn.to_radians()), width - 30.0, words)?;
    // Along the right-hand slope downwards, and mirrored.
    let right = Section { foot: [0.0, 0.0], turn: -turn, scale };
    let mirror = |[x, y]: [f64; 2]| [-x, y];
    let half = slot.map_or(0.0, |slot| slot / 2.0);
    let of_side = |side: f64| -> Vec<Item> {
        let at = |v: f64, w: f64| if side > 0.0 { right.at(v, w) } else { mirror(right.at(v, w)) };
        let band = |from: f64, to: f64, w: [f64; 2], fill: Fill| Item::Shape {
            rings: vec![vec![at(from, w[0]), at(to, w[0]), at(to, w[1]), at(from, w[1])]],
            line: LineType::Piece,
            fill,
        };
        // Both halves of the cap meet over the middle.
        let mitre = |w: f64| -w * libm::tan(turn.to_radians()) / scale.paper(1.0);
        let mut items = vec![band(half, reach, [-4.0, 0.0], Fill::Hatch)];
        items.push(band(guide.off_in * 0.35 + half, reach, [1.2, 3.2], Fill::Paper));
        if slot.is_some() {
            items.push(band(half * 0.2, guide.off_in * 0.95, [3.2, 6.2], Fill::Paper));
        }
        let under = if slot.is_some() { 6.2 } else { 3.2 };
        let [low, high] = [under, under + 2.0];
        let ring = vec![at(mitre(low), low), at(guide.off_in, low), at(guide.off_in, high), at(mitre(high), high)];
        items.push(Item::Shape { rings: vec![ring], line: LineType::Piece, fill: Fill::Paper });
        items
    };
    let mut items = of_side(-1.0);
    items.extend(of_side(1.0));
    let has_metal = plan.details.metal.iter().flat_map(|metal| &metal.items).any(|item| item.id == "ridge-metal");
    let [cover, edge] = if has_metal { ["ridge metal", "metal line"] } else { ["cap", "cap line"] };
    let told = |name: &str, inches: f64| format!("{} {}", words.word(name), words.length(inches));
    items.extend(right.measure([0.0, guide.off_in], 15.0, &told(edge, guide.off_in)));
    let mut parts = vec![([guide.off_in * 0.7, 7.0], words.word(cover)), ([reach * 0.8, -2.0], words.word("deck"))];
    if let Some(slot) = slot {
        parts.push(([guide.off_in * 0.4, 4.6], words.word("ridge vent")));
        parts.push(([0.0, -3.0], told("slot", slot)));
    }
    let below = parts.into_iter().map(|(part, told)| (part, [part[0] + 1.0, -16.0], told));
    let (numbers, keyed) = right.key(below.collect());
    items.extend(numbers);
    Some(framed(items, scale, keyed))
}
