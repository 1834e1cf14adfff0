use plan::{LaidPlane, Plan, Plane};

use super::section::{Section, framed};
use crate::{Figure, Fill, Item, LineType, Scale, Words};

/// A cut along a course through the rake, seen from below: sheets under, edge metal over, units out past it.
pub(super) fn draw(plan: &Plan, plane: &Plane, laid: &LaidPlane, width: f64, words: &dyn Words) -> Option<Figure> {
    if !plane.edges.iter().any(|edge| edge.kind == "rake") {
        return None;
    }
    let off = projection(plane, laid)?;
    let reach = plan.covering.width_in * 1.6;
    let scale: Scale = super::section::scale_for(reach + 4.0, width - 30.0, words)?;
    let section = Section { foot: [0.0, 0.0], turn: 0.0, scale };
    let edge = section.at(0.0, 1.6);
    let mut items = vec![
        section.band([0.0, reach], [-4.0, 0.0], [-4.0, 0.0], Fill::Hatch),
        section.line(&[[0.0, 1.0], [reach, 1.0]], LineType::Hidden),
        Item::Line {
            points: vec![section.at(3.0, 1.6), edge, [edge[0], edge[1] + 10.0], [edge[0] - 1.8, edge[1] + 11.8]],
            line: LineType::Course,
        },
        section.band([-off, plan.covering.width_in - off], [2.4, 4.2], [2.4, 4.2], Fill::Paper),
        section.band([plan.covering.width_in - off + plan.covering.gap_in, reach], [2.4, 4.2], [2.4, 4.2], Fill::Paper),
    ];
    let told = |name: &str, inches: f64| format!("{} {}", words.word(name), words.length(inches));
    items.extend(section.measure([-off, 0.0], 18.0, &told("projection", off)));
    items.extend(section.measure([-off, plan.covering.width_in - off], 10.0, &told("unit", plan.covering.width_in)));
    let gap = plan.covering.width_in - off + plan.covering.gap_in / 2.0;
    let parts = [
        ([reach * 0.8, -2.0], words.word("deck")),
        ([reach * 0.35, 1.0], words.word("underlayment")),
        ([1.5, 1.6], words.word("drip edge")),
        ([gap, 3.3], told("gap", plan.covering.gap_in)),
    ];
    let (numbers, keyed) = section.key(parts.map(|(part, told)| (part, [part[0] + 1.0, -12.0], told)).into());
    items.extend(numbers);
    Some(framed(items, scale, keyed))
}

/// How far the laid outline stands out past the plane's, at the side that has most of it; none where it does not.
fn projection(plane: &Plane, laid: &LaidPlane) -> Option<f64> {
    let left = |rings: &[Vec<[f64; 2]>]| rings.iter().flatten().map(|corner| corner[0]).reduce(f64::min);
    let off = left(&plane.outlines_in)? - left(&laid.laid_in)?;
    (off > 0.0).then_some(off)
}
