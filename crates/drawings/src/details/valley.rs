use plan::{LaidPlane, Plan, Plane};

use super::section::{between, framed, scale_for};
use crate::{Figure, Fill, Item, LineType, Words};

/// One side of an open valley: from the middle of the valley square to the cut edge of the units, at its foot and at its top.
struct Clear {
    foot: f64,
    top: f64,
    long: f64,
}

/// An open valley laid flat: the metal seen between the cut edges, narrower at the top.
pub(super) fn draw(plan: &Plan, plane: &Plane, laid: &LaidPlane, width: f64, words: &dyn Words) -> Option<Figure> {
    let clear = clear(plan, plane, laid)?;
    // Across is drawn larger than along, or nothing would be seen of the taper; the figures tell.
    let across = scale_for(6.0 * clear.foot.max(clear.top), width * 0.5, words)?;
    const LONG: f64 = 50.0;
    let half = |inches: f64| across.paper(inches);
    let [foot, top] = [half(clear.foot), half(clear.top)];
    let out = 2.6 * foot.max(top);
    let side = |sign: f64| Item::Shape {
        rings: vec![vec![[sign * foot, LONG], [sign * top, 0.0], [sign * out, 0.0], [sign * out, LONG]]],
        line: LineType::Piece,
        fill: Fill::Hatch,
    };
    let mut items = vec![side(-1.0), side(1.0)];
    items.push(Item::Line { points: vec![[0.0, -3.0], [0.0, LONG + 3.0]], line: LineType::Limit });
    let told = |name: &str, inches: f64| format!("{} {}", words.word(name), words.length(inches));
    items.extend(between([[0.0, -8.0], [top, -8.0]], &told("clear at the top", clear.top)));
    items.extend(between([[0.0, LONG + 12.0], [foot, LONG + 12.0]], &told("clear at the foot", clear.foot)));
    items.extend(between([[out + 6.0, 0.0], [out + 6.0, LONG]], &told("valley", clear.long)));
    Some(framed(items, across, vec![words.word("half of the valley")]))
}

/// From the longest valley of the plane, with units at both sides, to the laid outline beside it.
fn clear(plan: &Plan, plane: &Plane, laid: &LaidPlane) -> Option<Clear> {
    let is_laid = |id: &str| plan.layout.planes.iter().any(|laid| laid.id == id);
    let sides = plane.outlines_in.iter().flat_map(|ring| ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)));
    let valleys = sides.zip(&plane.edges).filter(|(_, edge)| edge.kind == "valley" && is_laid(&edge.meets));

    let ((from, to), edge) = valleys.max_by(|a, b| a.1.length_ft.total_cmp(&b.1.length_ft))?;
    let [low, high] = if from[1] < to[1] { [from, to] } else { [to, from] };
    let long = libm::hypot(high[0] - low[0], high[1] - low[1]);
    let along = [(high[0] - low[0]) / long, (high[1] - low[1]) / long];
    // Corners of the laid outline that lie near the valley, by how far up it they lie and how far off it.
    let near = laid.laid_in.iter().flatten().filter_map(|corner| {
        let [dx, dy] = [corner[0] - low[0], corner[1] - low[1]];
        let [up, off] = [dx * along[0] + dy * along[1], (dx * along[1] - dy * along[0]).abs()];
        (off < 18.0 && (-18.0..long + 18.0).contains(&up)).then_some([up, off])
    });
    let near: Vec<[f64; 2]> = near.collect();
    let foot = near.iter().copied().reduce(|a, b| if b[0] < a[0] { b } else { a })?;
    let top = near.iter().copied().reduce(|a, b| if b[0] > a[0] { b } else { a })?;
    let is_open = foot[1] > 0.5 && top[1] > 0.5 && top[0] - foot[0] > long / 2.0;
    is_open.then_some(Clear { foot: foot[1], top: top[1], long: edge.length_ft * 12.0 })
}
