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
        if best.is_some_and(|best| score.beyond_cure > best.beyond_cure) {
            return None;
        }
    }
    Some(score).filter(|score| best.is_none_or(|best| *score < best))
}

fn add(score: &mut Score, strip: &Strip, bond: &Bond, rules: &Rules) {
    // How far a joint can move before it comes too near to the joints of the courses that it must miss.
    let farthest = bond.step() / f64::from(bond.every) - rules.joint_offset;
    for [from, to] in strip.spans() {
        let [first, last] = [bond.first_past(from), bond.last_before(to)];
        let width = |cell: i64| (bond.left(cell) + bond.width).min(to) - bond.left(cell).max(from);
        let ends = if first < last { &[first, last][..] } else { &[first][..] };
        for width in ends.iter().map(|&cell| width(cell)).filter(|&width| rules.too_small(width)) {
            score.small += 1;
            score.beyond_cure += u64::from(rules.too_small(width + farthest));
        }
        score.pieces += (last - first + 1).max(0) as u64;
    }
    let mut next = i64::MIN;
    for touched in &strip.touched {
        let [first, last] = [bond.first_past(touched.from).max(next), bond.last_before(touched.to)];
        score.cut += (last - first + 1).max(0) as u64;
        next = next.max(last + 1);
    }
}
