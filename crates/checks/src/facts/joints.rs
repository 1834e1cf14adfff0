//! Distances of joints from those below, row by row: a plane has thousands of joints and a handful of rows.

use layout::Joints;

use super::Laid;
use crate::tally::Tally;

/// Steps that differ by less, in inches over a whole row, are one.
const ONE_STEP: f64 = 1e-6;

/// Every joint against the nearest one so many courses down.
pub(crate) fn over(laid: &Laid, down: usize, least: f64, offsets: &mut Tally) {
    let courses = &laid.units.courses;
    let at_butts = |course: usize| laid.units.joint_rows(course, courses[course].butt).collect::<Vec<_>>();
    let rows: Vec<Vec<Joints>> = (0..courses.len()).map(at_butts).collect();
    for course in down..rows.len() {
        if laid.units.peak.is_none() {
            compare(laid, course, &rows[course], &rows[course - down], least, offsets);
            continue;
        }
        // Joints run together upwards: they are nearest where the upper ones are last seen.
        let seen_to = courses[course].butt + courses[course].exposure;
        let [above, below] = [course, course - down].map(|row| laid.units.joint_rows(row, seen_to).collect::<Vec<_>>());
        compare(laid, course, &above, &below, least, offsets);
    }
}

/// Joints of a course against those of one below it, rows ascending.
pub(crate) fn compare(laid: &Laid, course: usize, above: &[Joints], below: &[Joints], least: f64, offsets: &mut Tally) {
    for row in above {
        for stretch in stretches(row, below) {
            let ends = [0, stretch.row.count - 1].map(|index| stretch.offset(index));
            if stretch.is_even() && !ends.iter().any(|&offset| offsets.breaks(offset, least)) {
                let [first, last] = [stretch.row.first, stretch.row.last()].map(|u| laid.place_at(course, u));
                offsets.add(ends[0], least, first);
                offsets.add(ends[1], least, last);
            } else {
                for (index, joint) in (0..).zip(stretch.row.each()) {
                    offsets.add(stretch.offset(index), least, laid.place_at(course, joint));
                }
            }
        }
    }
}

/// The joints of a row from one place to another; none if there are none.
pub(crate) fn within(row: Joints, [from, to]: [f64; 2]) -> Option<Joints> {
    let before = |u: f64, or_at: bool| {
        let is_before = |index: u32| if or_at { at(&row, index) <= u } else { at(&row, index) < u };
        // Division lands at most one off.
        let near = ((u - row.first) / row.step).floor().clamp(0.0, f64::from(row.count)) as u32;
        let candidates = near.saturating_sub(1)..=(near + 2).min(row.count);
        candidates.rev().find(|&count| count == 0 || is_before(count - 1)).unwrap_or(0)
    };
    let [skipped, reached] = [before(from, false), before(to, true)];
    (reached > skipped).then(|| Joints { first: at(&row, skipped), step: row.step, count: reached - skipped })
}

fn at(row: &Joints, index: u32) -> f64 {
    row.first + f64::from(index) * row.step
}

/// Joints of one row that have the same neighbours below: two joints that stand still, or a row that steps along.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    row: Joints,
    below: Below,
}

#[derive(Debug, Clone, Copy)]
enum Below {
    /// The nearest to the left and to the right.
    Still([Option<f64>; 2]),
    /// Between the ends of a row.
    Row(Joints),
}

impl Stretch {
    /// From a joint to the nearest below.
    fn offset(&self, index: u32) -> f64 {
        let joint = at(&self.row, index);
        let [left, right] = match self.below {
            Below::Still(sides) => sides,
            Below::Row(row) => {
                let last = row.count.saturating_sub(2);
                let left = ((joint - row.first) / row.step).floor().clamp(0.0, f64::from(last)) as u32;
                [Some(at(&row, left)), Some(at(&row, left + 1))]
            }
        };
        let far = |side: Option<f64>| side.map_or(f64::INFINITY, |below| (joint - below).abs());
        far(left).min(far(right))
    }

    /// The offset is nowhere less than at one of the ends: between two joints it rises, then falls; over a row of the same
    /// step it does not change.
    fn is_even(&self) -> bool {
        match self.below {
            Below::Still(_) => true,
            Below::Row(row) => (row.step - self.row.step).abs() * f64::from(self.row.count) < ONE_STEP,
        }
    }
}

/// A row cut where its neighbours below change.
fn stretches(row: &Joints, below: &[Joints]) -> impl Iterator<Item = Stretch> {
    let from = below.partition_point(|under| under.last() < row.first).saturating_sub(1);
    let to = below.partition_point(|under| under.first <= row.last());
    let near = &below[from.min(to)..(to + 1).min(below.len())];
    let ends = |index: usize| {
        let left = index.checked_sub(1).map(|left| near[left].last());
        [left, near.get(index).map(|right| right.first)]
    };
    let row = *row;
    let between = (0..=near.len()).filter_map(move |index| {
        let sides = ends(index);
        let [after, before] =
            [sides[0].map_or(f64::NEG_INFINITY, f64::next_up), sides[1].map_or(f64::INFINITY, f64::next_down)];
        let row = within(row, [after, before]).filter(|_| sides != [None, None])?;
        Some((row, Below::Still(sides)))
    });
    let over = near.iter().filter_map(move |under| {
        let row = within(row, [under.first, under.last()])?;
        Some((row, if under.count > 1 { Below::Row(*under) } else { Below::Still([Some(under.first), None]) }))
    });
    let mut all: Vec<Stretch> = between.chain(over).map(|(row, below)| Stretch { row, below }).collect();
    all.sort_by(|a, b| a.row.first.total_cmp(&b.row.first));
    all.into_iter()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::rule::Verdict;
    use crate::tally::{Bound, SLACK};
    use crate::trial::Trial;

    /// Rows that follow each other, in sixteenths so that no comparison hangs on rounding.
    fn rows() -> impl Strategy<Value = Vec<Joints>> {
        let row = (1u32..400, prop::sample::select(vec![40u32, 100, 196, 197]), 1u32..9);
        prop::collection::vec(row, 1..6).prop_map(|rows| {
            let mut from = 0.0;
            let row = |(gap, step, count): (u32, u32, u32)| {
                let row = Joints { first: from + f64::from(gap) / 16.0, step: f64::from(step) / 16.0, count };
                from = row.last();
                row
            };
            rows.into_iter().map(row).collect()
        })
    }

    fn found(above: &[Joints], below: &[Joints], least: f64) -> Verdict {
        let trial = Trial::sound();
        let coverings = trial.coverings();
        let facts = trial.facts(&coverings);
        let laid = facts.laid().next().unwrap();
        let mut offsets = Tally::lengths(Bound::AtLeast);
        compare(&laid, 0, above, below, least, &mut offsets);
        offsets.verdict(|tightest| format!("{:.6}", tightest.is), |_| String::new(), "")
    }

    fn each(rows: &[Joints]) -> Vec<f64> {
        rows.iter().flat_map(Joints::each).collect()
    }

    proptest! {
        /// Rows against rows find what comparing every pair of joints finds: the same places, the same tightest.
        #[test]
        fn rows_find_what_every_pair_finds(above in rows(), below in rows(), sixteenths in 1u32..160) {
            let least = f64::from(sixteenths) / 16.0;
            let under = each(&below);
            let nearest = |joint: &f64| under.iter().map(|other| (other - joint).abs()).fold(f64::INFINITY, f64::min);
            let verdict = found(&above, &below, least);
            let near: Vec<f64> = each(&above).into_iter().filter(|joint| nearest(joint) < least - SLACK).collect();
            prop_assert_eq!(verdict.places.iter().map(|place| place.u).collect::<Vec<_>>(), near);
            let tightest = each(&above).iter().map(nearest).fold(f64::INFINITY, f64::min);
            let told: f64 = verdict.says.trim_end_matches('.').split(';').next().unwrap().parse().unwrap();
            prop_assert!((told - tightest).abs() <= 1e-5, "{} is not {}", told, tightest);
        }

        #[test]
        fn within_is_what_lies_between(rows in rows(), ends in [-20i32..700, -20..700]) {
            let [from, to] = ends.map(|end| f64::from(end) / 16.0);
            for row in rows {
                let kept: Vec<f64> = row.each().filter(|joint| (from..=to).contains(joint)).collect();
                let found: Vec<f64> = within(row, [from, to]).iter().flat_map(Joints::each).collect();
                prop_assert_eq!(found, kept);
            }
        }
    }

    /// A hundred million joints over as many, in the time that a handful takes.
    #[test]
    fn the_length_of_a_row_costs_nothing() {
        let row = |first: f64| Joints { first, step: 12.25, count: 100_000_000 };
        assert_eq!(found(&[row(0.0)], &[row(6.125)], 6.125).says, "6.125000.");
    }

    #[test]
    fn nothing_below_is_nothing_to_compare() {
        let row = Joints { first: 0.0, step: 1.0, count: 3 };
        assert_eq!(found(&[row], &[], 1.0).outcome, crate::Outcome::NotApplicable);
    }
}
