//! A quick lower bound: at any height the pieces of one unit lie side by side.

use super::candidate::Candidate;
use super::shape::{Blank, SNUG, Shape};
use super::table::Table;

/// Levels looked at, as parts of the unit's length.
const LEVELS: [f64; 7] = [0.0, 1.0 / 8.0, 0.25, 0.5, 0.75, 7.0 / 8.0, 1.0];

/// Units that the pieces need at least: one for every piece that goes with no other, and for the others as many as their
/// widths at each of a few heights ask for, or their areas, or those that must keep the unit's one left side, or its right.
pub(crate) fn least_units(table: &Table) -> u64 {
    let lonely = |kind: usize| table.complete && table.mates[kind].is_empty();
    let (alone, social): (Vec<usize>, Vec<usize>) = (0..table.kinds.len()).partition(|&kind| lonely(kind));
    let kinds: Vec<&Candidate> = social.into_iter().map(|kind| &table.kinds[kind]).collect();
    let alone: u64 = alone.into_iter().map(|kind| table.kinds[kind].count).sum();
    let by_side = [0.0, 1.0].map(|side| at_side(&kinds, &table.blank, side));
    let by_level = LEVELS.iter().map(|level| at_level(&kinds, &table.blank, level * table.blank.length));
    alone + by_level.chain(by_side).fold(by_area(&kinds, &table.blank), u64::max)
}

fn by_area(kinds: &[&Candidate], blank: &Blank) -> u64 {
    let area: f64 = kinds.iter().map(|kind| kind.area * kind.count as f64).sum();
    (area / blank.area() * (1.0 - 1e-9)).ceil() as u64
}

/// Pieces that must lie at one end of the unit, if they are tall enough to be in each other's way there: on the butt line.
fn at_side(kinds: &[&Candidate], blank: &Blank, side: f64) -> u64 {
    let room = |shape: &Shape| if side > 0.0 { shape.from } else { blank.width - shape.width - shape.to };
    let kept = |kind: &&&Candidate| {
        let wide = kind.shapes[0].width + 2.0 * SNUG < blank.width;
        let ends = kind.shapes.iter().all(|shape| room(shape) > 0.0 && shape.from >= shape.to);
        kind.foot > SNUG && wide && ends
    };
    kinds.iter().filter(kept).map(|kind| kind.count).sum()
}

/// Pieces that may come from several heights count nothing.
fn at_level(kinds: &[&Candidate], blank: &Blank, v: f64) -> u64 {
    let alone = kinds.iter().filter(|kind| kind.shapes.len() == 1);
    let widths = alone.map(|kind| (kind.shapes[0].width_at(v), kind.count)).filter(|(width, _)| *width > 0.0);
    packed(widths.map(|(width, count)| (width + blank.kerf, count)).collect(), blank.width + blank.kerf + 64.0 * SNUG)
}

/// The second bound of S. Martello and P. Toth, Lower bounds and reduction procedures for the bin packing problem,
/// Discrete Applied Mathematics 28 (1990), from memory, not read: for any threshold, rods longer than the stock less the
/// threshold go alone, those over half go one to a stock, and those from the threshold up fill what these leave.
pub(crate) fn packed(mut rods: Vec<(f64, u64)>, stock: f64) -> u64 {
    rods.sort_by(|a, b| b.0.total_cmp(&a.0));
    let thresholds = rods.iter().map(|rod| rod.0).filter(|&rod| rod <= stock / 2.0);
    let mut sums = vec![(0u64, 0.0f64)];
    for &(rod, count) in &rods {
        let (counted, length) = sums[sums.len() - 1];
        sums.push((counted + count, length + rod * count as f64));
    }
    let until = |longer_than: f64| sums[rods.partition_point(|rod| rod.0 > longer_than)];
    let (halves, long) = until(stock / 2.0);
    let bound = |threshold: f64| {
        let (alone, longest) = until(stock - threshold);
        let from_threshold = sums[rods.partition_point(|rod| rod.0 >= threshold)].1;
        let room = (halves - alone) as f64 * stock - (long - longest);
        let rest = ((from_threshold - long - room) / stock * (1.0 - 1e-9) - 1e-9).ceil().max(0.0);
        halves + rest as u64
    };
    thresholds.map(bound).fold(halves, u64::max)
}

#[cfg(test)]
mod tests {
    use super::packed;

    /// Worked by hand: 7 and 6 go one to a stock of 10 and leave 3 and 4; three of 3 fill those but for one.
    #[test]
    fn rods_over_half_go_alone_and_the_others_fill_up() {
        assert_eq!(packed(vec![(7.0, 1), (6.0, 1)], 10.0), 2);
        assert_eq!(packed(vec![(7.0, 1), (6.0, 1), (3.0, 3)], 10.0), 3);
        assert_eq!(packed(vec![(4.0, 6)], 10.0), 3);
        assert_eq!(packed(vec![], 10.0), 0);
    }
}
