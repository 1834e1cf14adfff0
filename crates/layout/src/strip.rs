//! The band of a plane that one course's units can reach, from its butts to its heads, and what an edge does to it.
//!
//! Only columns that an edge touches need a closer look; between them a course is all in, all out, or trimmed level.

use roof::Place;

use crate::bond::NIL;
use crate::cut::sides;

/// The laid outline between the butts and the heads of a course.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Strip {
    /// v of the butts.
    pub(crate) butt: f64,
    /// v of the heads.
    pub(crate) head: f64,
    /// Sides of the outline that pass through, each with the laid area on its left.
    pub(crate) sides: Vec<[Place; 2]>,
    /// Columns touched by sides that are not level, from left to right, apart from each other.
    pub(crate) touched: Vec<Touched>,
}

/// Columns from one u to another that a side touches.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Touched {
    /// Leftmost u.
    pub(crate) from: f64,
    /// Rightmost u; equal to `from` for a side straight up the slope.
    pub(crate) to: f64,
    /// The v ranges that are laid in every column between the touched ones before and these.
    pub(crate) laid_before: Vec<[f64; 2]>,
}

impl Strip {
    fn new(butt: f64, head: f64, sides: Vec<[Place; 2]>) -> Self {
        let mut strip = Self { butt, head, sides, touched: Vec::new() };
        strip.touched = strip.touch();
        strip
    }

    /// The part of it that one unit reaches, from its own butt to its head.
    pub(crate) fn of_unit(&self, butt: f64, length: f64) -> Self {
        Self { butt, head: butt + length, sides: self.sides.clone(), touched: Vec::new() }
    }

    /// v just above the butts: what lies on the line itself is not within.
    fn foot(&self) -> f64 {
        self.butt + NIL
    }

    /// What is left of a side between butts and heads; `None` if nothing.
    fn within(&self, side: [Place; 2]) -> Option<[Place; 2]> {
        clipped(side, 1, [self.foot(), self.head - NIL])
    }

    fn touch(&self) -> Vec<Touched> {
        let mut ranges: Vec<[f64; 2]> = self.steep().filter_map(|side| self.within(side)).map(u_range).collect();
        ranges.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let mut touched: Vec<Touched> = Vec::new();
        for [from, to] in ranges {
            match touched.last_mut().filter(|last| from <= last.to + NIL) {
                Some(last) => last.to = last.to.max(to),
                None => {
                    let laid_before = touched.last().map_or_else(Vec::new, |last| self.plain([last.to, from]));
                    touched.push(Touched { from, to, laid_before });
                }
            }
        }
        touched
    }

    /// Sides that are not level.
    fn steep(&self) -> impl Iterator<Item = [Place; 2]> + '_ {
        self.sides.iter().copied().filter(|[from, to]| from[1].total_cmp(&to[1]).is_ne())
    }

    /// The v ranges laid in untouched columns: only level sides cross them.
    fn plain(&self, [from, to]: [f64; 2]) -> Vec<[f64; 2]> {
        self.column(f64::midpoint(from, to))
    }

    /// The v ranges of the laid area on the line straight up the slope at `u`.
    pub(crate) fn column(&self, u: f64) -> Vec<[f64; 2]> {
        let mut levels: Vec<f64> = self.sides.iter().filter_map(|&side| level_at(side, u)).collect();
        levels.retain(|&v| v > self.foot() && v < self.head - NIL);
        levels.sort_by(f64::total_cmp);
        if self.is_laid_at_foot(u) {
            levels.insert(0, self.butt);
        }
        if levels.len() % 2 == 1 {
            levels.push(self.head);
        }
        levels.chunks_exact(2).map(|range| [range[0], range[1]]).filter(|[low, high]| high - low > NIL).collect()
    }

    /// Whether pieces both sides of a gap lie side by side at some height: then the gap is a joint.
    pub(crate) fn joins(&self, [left, right]: [f64; 2]) -> bool {
        let beyond = self.column(right + 2.0 * NIL);
        let side_by_side = |a: &[f64; 2], b: &[f64; 2]| a[1].min(b[1]) - a[0].max(b[0]) > NIL;
        self.column(left - 2.0 * NIL).iter().any(|range| beyond.iter().any(|other| side_by_side(range, other)))
    }

    /// Sides that cross the foot left of `u` are odd in number.
    fn is_laid_at_foot(&self, u: f64) -> bool {
        let foot = self.foot();
        let left = self.steep().filter(|&[from, to]| {
            (from[1] > foot) != (to[1] > foot) && from[0] + (to[0] - from[0]) * ((foot - from[1]) / (to[1] - from[1])) < u
        });
        left.count() % 2 == 1
    }

    /// From and to of every stretch in which each column holds some laid area.
    pub(crate) fn spans(&self) -> impl Iterator<Item = [f64; 2]> + '_ {
        let starts = (0..self.touched.len()).filter(|&index| self.touched[index].laid_before.is_empty());
        starts.map(|start| {
            let more = self.touched[start + 1..].iter().take_while(|next| !next.laid_before.is_empty()).count();
            [self.touched[start].from, self.touched[start + more].to]
        })
    }
}

/// A side's point straight above or below `u`. Ends count on their left only, so that a shared corner counts once.
fn level_at([from, to]: [Place; 2], u: f64) -> Option<f64> {
    ((from[0] > u) != (to[0] > u)).then(|| from[1] + (to[1] - from[1]) * ((u - from[0]) / (to[0] - from[0])))
}

fn u_range([from, to]: [Place; 2]) -> [f64; 2] {
    [from[0].min(to[0]), from[0].max(to[0])]
}

/// The stretch of a side whose coordinate on an axis lies in a range; `None` if nothing does.
pub(crate) fn clipped([from, to]: [Place; 2], axis: usize, [low, high]: [f64; 2]) -> Option<[Place; 2]> {
    let other = 1 - axis;
    let at = |value: f64| {
        let mut place = [value; 2];
        place[other] = from[other] + (to[other] - from[other]) * ((value - from[axis]) / (to[axis] - from[axis]));
        place
    };
    let end = |place: Place| match place[axis] {
        value if value < low => at(low),
        value if value > high => at(high),
        _ => place,
    };
    let apart = from[axis].max(to[axis]) < low || from[axis].min(to[axis]) > high;
    (!apart && low <= high).then(|| [end(from), end(to)])
}

/// The strips of all courses of a plane from the lowest up, each from its butts to its heads.
pub(crate) fn strips(outline: &[Vec<Place>], bands: &[[f64; 2]]) -> Vec<Strip> {
    let mut waiting: Vec<[Place; 2]> = outline.iter().flat_map(|ring| sides(ring)).collect();
    let low = |[from, to]: &[Place; 2]| from[1].min(to[1]);
    waiting.sort_by(|a, b| low(b).total_cmp(&low(a)));
    let mut passing: Vec<[Place; 2]> = Vec::new();
    let strip = |&[butt, head]: &[f64; 2]| {
        while let Some(side) = waiting.pop_if(|side| low(side) < head) {
            passing.push(side);
        }
        passing.retain(|[from, to]| from[1].max(to[1]) > butt + NIL);
        Strip::new(butt, head, passing.clone())
    };
    bands.iter().map(strip).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strip(outline: &[Vec<Place>]) -> Strip {
        strips(outline, &[[0.0, 10.0]]).remove(0)
    }

    #[test]
    fn a_level_top_trims_every_column_alike() {
        let strip = strip(&[vec![[0.0, 0.0], [50.0, 0.0], [50.0, 7.0], [0.0, 7.0]]]);
        assert_eq!(strip.touched.len(), 2);
        assert_eq!(strip.touched[1].laid_before, [[0.0, 7.0]]);
        assert_eq!(strip.spans().collect::<Vec<_>>(), [[0.0, 50.0]]);
    }

    #[test]
    fn a_hole_through_the_course_parts_it() {
        let strip = strip(&[
            vec![[0.0, 0.0], [50.0, 0.0], [50.0, 30.0], [0.0, 30.0]],
            vec![[20.0, -5.0], [20.0, 15.0], [24.0, 15.0], [24.0, -5.0]],
        ]);
        assert_eq!(strip.spans().collect::<Vec<_>>(), [[0.0, 20.0], [24.0, 50.0]]);
        assert_eq!(strip.column(22.0), Vec::<[f64; 2]>::new());
        assert_eq!(strip.column(25.0), [[0.0, 10.0]]);
    }

    #[test]
    fn a_raking_side_touches_the_columns_it_passes() {
        let strip = strip(&[vec![[0.0, 0.0], [50.0, 0.0], [0.0, 50.0]]]);
        assert!((strip.touched[1].from - 40.0).abs() < 1e-6 && (strip.touched[1].to - 50.0).abs() < 1e-6);
        assert_eq!(strip.column(45.0), [[0.0, 5.0]]);
    }
}
