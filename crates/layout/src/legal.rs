//! Is it legal? The rules of joints and of least pieces, asked by the search and, of the finished layout, on their own.

use covering::Covering;
use units::Length;

use crate::{Course, Fault, Finding, Joints, LaidPlane};

/// Rounding that makes no fault, in.
const SLACK: f64 = 1e-6;

/// What the sheet asks of joints and pieces, in inches.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Rules {
    /// Least distance along the course from a joint to those one course down, two courses down, as far as they must be missed.
    pub(crate) offsets: Vec<f64>,
    /// Least greatest width of a piece.
    pub(crate) least_piece: f64,
}

impl Rules {
    pub(crate) fn of(covering: &Covering) -> Self {
        Self {
            offsets: (1..=2).map_while(|down| covering.joint_offset_down(down)).map(Length::to_inches).collect(),
            least_piece: covering.least_piece.to_inches(),
        }
    }

    pub(crate) fn too_small(&self, width: f64) -> bool {
        width < self.least_piece - SLACK
    }

    /// Least distance from a joint to those of the course below.
    pub(crate) fn joint_offset(&self) -> f64 {
        self.offsets.first().copied().unwrap_or_default()
    }

    /// The courses whose joints a course must miss, and by how much.
    pub(crate) fn neighbours(&self, course: usize, courses: usize) -> impl Iterator<Item = (usize, f64)> + '_ {
        let reach = self.offsets.len();
        let [from, to] = [course.saturating_sub(reach), (course + reach + 1).min(courses)];
        let others = (from..to).filter(move |&other| other != course);
        others.map(move |other| (other, self.offsets[other.abs_diff(course) - 1]))
    }
}

/// Whether a distance between joints is too short.
pub(crate) fn too_near(distance: f64, least: f64) -> bool {
    distance < least - SLACK
}

/// Every piece too small and every joint too near to one that it must miss.
pub(crate) fn faults(plane: &LaidPlane, covering: &Covering) -> Vec<Finding> {
    let rules = Rules::of(covering);
    (0..plane.courses.len())
        .flat_map(|course| small_pieces(plane, course, &rules).chain(near_joints(plane, course, &rules)))
        .collect()
}

fn small_pieces<'a>(plane: &'a LaidPlane, course: usize, rules: &'a Rules) -> impl Iterator<Item = Finding> + 'a {
    let row = &plane.courses[course];
    let cuts = row.runs.iter().filter_map(|run| plane.cuts.get(run.cut? as usize).map(|cut| (run, cut)));
    cuts.filter(|(_, cut)| rules.too_small(cut.width)).flat_map(move |(run, cut)| {
        let fault = Fault::PieceTooSmall { is: Length::inches(cut.width), least: Length::inches(rules.least_piece) };
        let [u, v] = cut.middle();
        run.lefts().map(move |left| Finding { fault, course, at: [left + u, row.butt + v] })
    })
}

/// One finding for each two rows of joints that come too near, at the worst place.
fn near_joints<'a>(plane: &'a LaidPlane, course: usize, rules: &'a Rules) -> impl Iterator<Item = Finding> + 'a {
    let v = nearest_at(plane, course);
    rules.neighbours(course, course + 1).flat_map(move |(below, least)| {
        let near = nearest_rows(plane.joint_rows(course, v), plane.joint_rows(below, v), least).into_iter();
        near.filter(move |&(is, _)| too_near(is, least)).map(move |(is, u)| {
            let fault = Fault::JointOverJoint { is: Length::inches(is), least: Length::inches(least) };
            Finding { fault, course, at: [u, v] }
        })
    })
}

/// The height at which what is seen of a course's joints is nearest to those below: its butts, or the next course's where
/// joints run together upwards.
fn nearest_at(plane: &LaidPlane, course: usize) -> f64 {
    let row = &plane.courses[course];
    if plane.peak.is_some() { row.butt + row.exposure } else { row.butt }
}

/// Least distance, and its place, of every two rows of joints that come within reach of each other.
fn nearest_rows(upper: impl Iterator<Item = Joints>, lower: impl Iterator<Item = Joints>, reach: f64) -> Vec<(f64, f64)> {
    let lower: Vec<Joints> = lower.collect();
    let mut passed = 0;
    let mut nearest = Vec::new();
    for row in upper {
        passed += lower[passed..].iter().take_while(|below| below.last() < row.first - reach).count();
        let near = lower[passed..].iter().take_while(|below| below.first < row.last() + reach);
        nearest.extend(near.map(|below| between_rows(&row, below)));
    }
    nearest
}

/// Least distance between the joints of two rows, and the place of it in the first one.
fn between_rows(row: &Joints, other: &Joints) -> (f64, f64) {
    let nearer = |a: (f64, f64), b: (f64, f64)| if b.0 < a.0 { b } else { a };
    if row.count == 1 || (row.step - other.step).abs() > SLACK {
        let all = row.each().map(|u| ((nearest(other, u) - u).abs(), u));
        return all.fold((f64::INFINITY, row.first), nearer);
    }
    // Steps are equal: a distance, once met, is met all along, up to the end of one of the rows.
    let own = [row.first, row.last()].map(|u| ((nearest(other, u) - u).abs(), u));
    let others = [other.first, other.last()].map(|u| nearest(row, u)).map(|u| ((nearest(other, u) - u).abs(), u));
    own.into_iter().chain(others).fold((f64::INFINITY, row.first), nearer)
}

/// The joint of a row that is nearest to `u`.
pub(crate) fn nearest(row: &Joints, u: f64) -> f64 {
    let index = ((u - row.first) / row.step).round().clamp(0.0, f64::from(row.count - 1));
    row.first + index * row.step
}

/// The joint of a course that is nearest to `u`.
pub(crate) fn nearest_joint(course: &Course, u: f64) -> Option<f64> {
    nearest_of(course.joint_rows(), u)
}

/// The joint of some rows that is nearest to `u`.
pub(crate) fn nearest_of(rows: impl Iterator<Item = Joints>, u: f64) -> Option<f64> {
    rows.map(|row| nearest(&row, u)).min_by(|a, b| (a - u).abs().total_cmp(&(b - u).abs()))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn the_nearest_of_two_rows_is_the_nearest_of_all_pairs(
            first in -20.0..20.0f64, count in 1u32..12, other_first in -20.0..20.0f64, other_count in 1u32..12,
            step in 1.0..6.0f64, other_step in proptest::option::of(1.0..6.0f64),
        ) {
            let row = Joints { first, step, count };
            let other = Joints { first: other_first, step: other_step.unwrap_or(step), count: other_count };
            let all = row.each().flat_map(|u| other.each().map(move |v| (u - v).abs())).fold(f64::INFINITY, f64::min);
            prop_assert!((between_rows(&row, &other).0 - all).abs() < 1e-9);
        }
    }
}
