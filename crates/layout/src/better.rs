//! Is it better? What one start offset makes of a plane, without laying it.

use crate::bond::Bond;
use crate::legal::Rules;
use crate::strip::Strip;

/// Less is better, the first figure first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(crate) struct Score {
    /// Pieces at the ends of spans so small that no joint can be moved far enough to cure them.
    pub(crate) beyond_cure: u64,
    /// Pieces at the ends of spans that are too small.
    pub(crate) small: u64,
    /// All pieces.
    pub(crate) pieces: u64,
    /// Those that an edge touches.
    pub(crate) cut: u64,
}

/// The score of a plane whose first course has a unit's left side at `origin`; `None` as soon as it is seen to be no
/// better than `best`.
pub(crate) fn better(strips: &[Strip], bond: &Bond, origin: f64, rules: &Rules, best: Option<Score>) -> Option<Score> {
    let mut score = Score::default();
    for (course, strip) in (0..).zip(strips) {
        add(&mut score, strip, &bond.at(origin, course), rules);
        // Every figure only grows from course to course, so what is worse now is worse in the end.
        if best.is_some_and(|best| score >= best) {
            return None;
        }
    }
    Some(score)
}

fn add(score: &mut Score, strip: &Strip, bond: &Bond, rules: &Rules) {
    // How far a joint can move before it comes too near to the joints of the courses that it must miss.
    let farthest = bond.step() / f64::from(bond.every) - rules.joint_offset();
    let mut next = i64::MIN;
    for [from, to] in strip.spans() {
        let [first, last] = [bond.first_past(from).max(next), bond.last_before(to)];
        let width = |cell: i64| (bond.left(cell) + bond.width).min(to) - bond.left(cell).max(from);
        let ends = [first, last].into_iter().take((last - first + 1).clamp(0, 2) as usize);
        for width in ends.map(width).filter(|&width| rules.too_small(width)) {
            score.small += 1;
            score.beyond_cure += u64::from(rules.too_small(width + farthest));
        }
        score.pieces += (last - first + 1).max(0) as u64;
        next = next.max(last + 1);
    }
    score.cut += cut(strip, bond);
}

/// Cells that a side touches, and those in columns that a level side trims.
fn cut(strip: &Strip, bond: &Bond) -> u64 {
    let (mut cut, mut next) = (0, i64::MIN);
    for touched in &strip.touched {
        let [first, last] = [bond.first_past(touched.from).max(next), bond.last_before(touched.to)];
        let trimmed = !touched.laid_before.is_empty() && touched.laid_before != [[strip.butt, strip.head]];
        cut += if trimmed { first - next } else { 0 } + (last - first + 1).max(0);
        next = first.max(last + 1);
    }
    cut as u64
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::piece::{Left, left_of};
    use crate::strip::strips;

    /// Some side begins or ends so near to a side of a cell that the remains can be no piece by their area.
    fn is_close(strips: &[Strip], bond: &Bond, origin: f64) -> bool {
        (0..).zip(strips).any(|(course, strip)| {
            let bond = bond.at(origin, course);
            let off = |u: f64| (u - bond.origin).rem_euclid(bond.step());
            let mut ends = strip.touched.iter().flat_map(|touched| [touched.from, touched.to]);
            ends.any(|u| [0.0, bond.width, bond.step()].iter().any(|side| (off(u) - side).abs() < 0.01))
        })
    }

    /// Every cell is clipped and counted.
    fn laid_out(outline: &[Vec<roof::Place>], strips: &[Strip], bond: &Bond, origin: f64, rules: &Rules) -> Score {
        let mut score = Score::default();
        for (course, strip) in (0..).zip(strips) {
            let bond = bond.at(origin, course);
            for cell in -60..60 {
                match left_of(outline, strip, [bond.left(cell), bond.left(cell) + bond.width], bond.width) {
                    Left::Nothing => {}
                    Left::All => score.pieces += 1,
                    Left::Part(cut) => {
                        score.small += u64::from(rules.too_small(cut.width));
                        score.pieces += 1;
                        score.cut += 1;
                    }
                }
            }
        }
        score
    }

    proptest! {
        #[test]
        fn a_score_is_what_laying_would_give(
            width in 80.0..250.0f64, height in 20.0..70.0f64, left in -0.9..0.5f64, right in -0.5..0.9f64, origin in 0.0..8.0f64,
        ) {
            let outline = [vec![[0.0, 0.0], [width, 0.0], [width + right * height, height], [left * height, height]]];
            let butts: Vec<f64> = (0..(height / 5.0) as u32).map(|course| f64::from(course) * 5.0).collect();
            let bands: Vec<[f64; 2]> = butts.iter().map(|&butt| [butt, butt + 14.0]).collect();
            let strips = strips(&outline, &bands);
            let bond = Bond { origin: 0.0, width: 8.0, gap: 0.25, every: 2 };
            let rules = Rules { offsets: vec![2.0], least_piece: 3.0 };
            prop_assume!(!is_close(&strips, &bond, origin));
            let score = better(&strips, &bond, origin, &rules, None).unwrap();
            prop_assert_eq!(Score { beyond_cure: 0, ..score }, laid_out(&outline, &strips, &bond, origin, &rules));
        }
    }
}
