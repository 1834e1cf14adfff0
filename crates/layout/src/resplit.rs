//! Cures pieces that are too small: the sliver and its neighbour give way to two pieces with the joint moved.

use crate::cut::Cuts;
use crate::lay::Setting;
use crate::legal::nearest_joint;
use crate::piece::{Left, left_of};
use crate::strip::Strip;
use crate::{Course, Run};

/// Works from the eave up. Courses above still have their joints where the bond puts them.
pub(crate) fn resplit(setting: &Setting<'_>, courses: &mut [Course], cuts: &mut Cuts) {
    for index in 0..courses.len() {
        let mut run = 0;
        while run < courses[index].runs.len() {
            if is_sliver(setting, &courses[index].runs[run], cuts) {
                cure(setting, courses, index, run, cuts);
            }
            run += 1;
        }
    }
}

fn is_sliver(setting: &Setting<'_>, run: &Run, cuts: &Cuts) -> bool {
    let cut = run.cut.and_then(|cut| cuts.shapes.get(cut as usize));
    run.count == 1 && cut.is_some_and(|cut| setting.rules.too_small(cut.width))
}

/// Tries the sliver with its left neighbour, then with its right one.
fn cure(setting: &Setting<'_>, courses: &mut [Course], course: usize, run: usize, cuts: &mut Cuts) {
    let runs = &courses[course].runs;
    let has_left = run > 0 && runs[run].joint_before;
    let has_right = runs.get(run + 1).is_some_and(|next| next.joint_before);
    let sides = [(has_left, run.saturating_sub(1), Sliver::Right), (has_right, run, Sliver::Left)];
    for (_, left_run, sliver) in sides.into_iter().filter(|side| side.0) {
        let pair = Pair::of(&courses[course], left_run, cuts);
        if let Some(split) = pair.split(setting, courses, course, sliver) {
            courses[course].runs.splice(left_run..left_run + 2, split.into_runs(&pair, cuts));
            return;
        }
    }
}

/// Which of two neighbours is too small.
#[derive(Clone, Copy, PartialEq)]
enum Sliver {
    Left,
    Right,
}

/// The last piece of a run and the first of the next, with a joint between.
struct Pair {
    runs: [Run; 2],
    /// From the left unit's left side to the right unit's right side, before cutting.
    place: [f64; 2],
    /// From the leftmost to the rightmost point, after cutting.
    extent: [f64; 2],
    /// Right side of the left piece.
    joint: f64,
}

impl Pair {
    fn of(course: &Course, left_run: usize, cuts: &Cuts) -> Self {
        let runs = [course.runs[left_run], course.runs[left_run + 1]];
        let [left, right] = [Run { left: runs[0].last_left(), count: 1, ..runs[0] }, Run { count: 1, ..runs[1] }];
        let extent = [left.extent(&cuts.shapes)[0], right.extent(&cuts.shapes)[1]];
        Self { runs, place: [left.left, right.right()], extent, joint: left.right() }
    }

    /// The joint moved by the least that makes both pieces large enough and keeps it off the joints that it must miss.
    fn split(&self, setting: &Setting<'_>, courses: &[Course], course: usize, sliver: Sliver) -> Option<Split> {
        let (gap, unit, least) = (setting.bond.gap, setting.bond.width, setting.rules.least_piece);
        let [from, to] = self.extent;
        let most_left = (from + least).max(to - gap - unit);
        let most_right = (from + unit).min(to - gap - least);
        let mut joint = match sliver {
            Sliver::Left => most_left.max(self.joint),
            Sliver::Right => most_right.min(self.joint),
        };
        while joint >= most_left && joint <= most_right {
            match in_the_way(setting, courses, course, joint + gap / 2.0) {
                None => return self.cut_at(setting, &setting.strips[course], joint),
                Some(near) if sliver == Sliver::Right => joint = near - setting.rules.joint_offset - gap / 2.0,
                Some(near) => joint = near + setting.rules.joint_offset - gap / 2.0,
            }
        }
        None
    }

    fn cut_at(&self, setting: &Setting<'_>, strip: &Strip, joint: f64) -> Option<Split> {
        let (gap, unit) = (setting.bond.gap, setting.bond.width);
        let left = [self.place[0].max(joint - unit), joint];
        let right = [joint + gap, self.place[1].min(joint + gap + unit)];
        let pieces = [left, right].map(|place| left_of(&setting.outline, strip, place, unit));
        let sound = pieces.iter().all(|piece| match piece {
            Left::Nothing => false,
            Left::All => true,
            Left::Part(cut) => !setting.rules.too_small(cut.width),
        });
        (sound && strip.joins([joint, joint + gap])).then_some(Split { places: [left, right], pieces })
    }
}

/// A joint of a course that must be missed, too near to `u`.
fn in_the_way(setting: &Setting<'_>, courses: &[Course], course: usize, u: f64) -> Option<f64> {
    let near = setting.rules.neighbours(course, courses.len()).filter_map(|other| nearest_joint(&courses[other], u));
    near.into_iter().find(|near| setting.rules.too_near((near - u).abs()))
}

/// Two pieces in the place of two others.
struct Split {
    places: [[f64; 2]; 2],
    pieces: [Left; 2],
}

impl Split {
    /// The runs that take the place of the pair's two: what is left of them, and the two pieces between.
    fn into_runs(self, pair: &Pair, cuts: &mut Cuts) -> Vec<Run> {
        let [before, after] = pair.runs;
        let [left, right] = self.places;
        let [left_piece, right_piece] = self.pieces;
        let step = before.step;
        let mut run = |[from, to]: [f64; 2], piece: Left, joint_before| {
            let cut = if let Left::Part(cut) = piece { Some(cuts.number(cut)) } else { None };
            Run { left: from, width: to - from, step, count: 1, unit: before.unit, cut, joint_before }
        };
        let first = Run { count: before.count - 1, ..before };
        let last = Run { left: after.left + step, count: after.count - 1, joint_before: true, ..after };
        let joint_before = before.count > 1 || before.joint_before;
        let runs = [first, run(left, left_piece, joint_before), run(right, right_piece, true), last];
        runs.into_iter().filter(|run| run.count > 0).collect()
    }
}
