//! Cures pieces that are too small or cannot be nailed: what lies wholly under a cap or an apron is left out; else the piece
//! and its neighbours give way to others with their joints moved, or to one from a wide unit.

use std::ops::Range;

use i_overlay::core::{fill_rule::FillRule, overlay_rule::OverlayRule};
use roof::Place;

use crate::bevel::{Blank, Side};
use crate::bond::NIL;
use crate::cut::{Cuts, NIL_AREA, area};
use crate::lay::Setting;
use crate::legal::{nearest_joint, too_near};
use crate::outline::overlaid;
use crate::piece::{Left, left_of};
use crate::{Course, Cut, Hanging, Run};

/// Steps in which joints are moved further than the least that makes pieces wide enough, in: on the tape's marks.
const STEP: f64 = 0.5;

/// Works from the eave up. Courses above still have their joints where the bond puts them.
pub(crate) fn resplit(setting: &Setting<'_>, courses: &mut [Course], cuts: &mut Cuts<'_>) {
    for index in 0..courses.len() {
        let mut run = 0;
        while run < courses[index].runs.len() {
            let next = if !is_unsound(setting, &courses[index].runs[run], cuts) {
                None
            } else if is_needless(setting, &courses[index], run, cuts) {
                leave_out(&mut courses[index], run);
                Some(run)
            } else if courses[index].runs[run].count == 1 {
                cure(setting, courses, index, run, cuts)
            } else {
                None
            };
            // What was put in is sound, but what follows it is still to be seen.
            run = next.unwrap_or(run + 1);
        }
    }
}

fn cut_of<'a>(run: &Run, cuts: &'a Cuts<'_>) -> Option<&'a Cut> {
    run.cut.and_then(|cut| cuts.shapes.get(cut as usize))
}

fn is_unsound(setting: &Setting<'_>, run: &Run, cuts: &Cuts<'_>) -> bool {
    cut_of(run, cuts).is_some_and(|cut| !is_sound(setting, cut))
}

pub(crate) fn is_sound(setting: &Setting<'_>, cut: &Cut) -> bool {
    !setting.rules.too_small(cut.width) && setting.edging.holds(cut)
}

/// Nothing of any of a run's pieces is weathered.
fn is_needless(setting: &Setting<'_>, course: &Course, run: usize, cuts: &Cuts<'_>) -> bool {
    let run = &course.runs[run];
    let butt = |index: u32| course.butt - if run.hangs.hangs(index) { setting.step } else { 0.0 };
    let mut corners = (0..).zip(run.lefts()).map(|(index, left)| [left, butt(index)]);
    cut_of(run, cuts).is_some_and(|cut| corners.all(|corner| is_hidden(setting, cut, corner)))
}

/// Nothing of a piece is weathered: no place that rain reaches needs it as a layer.
pub(crate) fn is_hidden(setting: &Setting<'_>, cut: &Cut, corner: Place) -> bool {
    let place = |at: &Place| [at[0] + corner[0], at[1] + corner[1]];
    let parts = cut.parts.iter().map(|part| part.iter().map(place).collect()).collect();
    let seen = overlaid(&parts, setting.weathered(), OverlayRule::Intersect, FillRule::NonZero);
    seen.iter().map(|part| area(part)).sum::<f64>() < NIL_AREA
}

fn leave_out(course: &mut Course, run: usize) {
    if let Some(next) = course.runs.get_mut(run + 1) {
        next.joint_before = false;
    }
    course.runs.remove(run);
}

/// Puts sound pieces in the place of an unsound one and its neighbours to one hand; the run from which to go on.
fn cure(setting: &Setting<'_>, courses: &mut [Course], course: usize, run: usize, cuts: &mut Cuts<'_>) -> Option<usize> {
    let desk = Desk { setting, courses, course };
    let (group, pieces) = [2, 3].into_iter().find_map(|count| {
        let hands = [Side::Right, Side::Left].into_iter();
        let groups: Vec<Group> = hands.filter_map(|hand| Group::of(&courses[course], run, hand, count, cuts)).collect();
        let wide = setting.wide(course);
        let choices: Vec<Vec<Vec<u32>>> = groups.iter().map(|group| choices(wide, group)).collect();
        let ranks = 0..choices.iter().map(Vec::len).max().unwrap_or(0);
        ranks.into_iter().find_map(|rank| {
            let at_rank = groups.iter().zip(&choices).filter_map(|(group, choices)| Some((group, choices.get(rank)?)));
            at_rank.into_iter().find_map(|(group, units)| Some((group.clone(), desk.fill(group, units)?)))
        })
    })?;
    let start = group.range.start;
    let runs = group.runs(pieces, cuts);
    courses[course].runs.splice(group.range, runs);
    Some(start)
}

/// The units from which a group may be cut anew, left to right, the cheapest choice first: one for two, the same as
/// before, and the wide unit where the sheet has one, for one piece, for the last towards the edge, for the other, for both.
fn choices(wide: Option<u32>, group: &Group) -> Vec<Vec<u32>> {
    let mut own: Vec<u32> = group.pieces.iter().map(|piece| piece.unit).collect();
    if group.hand == Side::Left {
        own.reverse();
    }
    let inner = own[0];
    let mut choices = match (wide, own.len()) {
        (Some(wide), 2) => vec![vec![inner], own, vec![wide], vec![inner, wide], vec![wide, inner], vec![wide, wide]],
        (Some(wide), _) => vec![own, vec![inner, wide], vec![wide, wide], vec![inner, inner, wide]],
        (None, 2) => vec![vec![inner], own],
        (None, _) => vec![own],
    };
    if group.hand == Side::Left {
        choices.iter_mut().for_each(|units| units.reverse());
    }
    choices
}

/// Neighbours with joints between, the unsound piece at one end.
#[derive(Clone)]
struct Group {
    /// The unsound piece's end.
    hand: Side,
    /// The runs that they lie in.
    range: Range<usize>,
    /// What is left of the first run, to the left of the group.
    before: Option<Run>,
    pieces: Vec<Run>,
    /// What is left of the last run.
    after: Option<Run>,
    /// From the first unit's left side to the last one's right side, before cutting.
    place: [f64; 2],
    /// From the leftmost to the rightmost point, after cutting.
    extent: [f64; 2],
}

impl Group {
    /// `None` where the piece has not so many neighbours.
    fn of(course: &Course, run: usize, hand: Side, count: usize, cuts: &Cuts<'_>) -> Option<Self> {
        let runs = &course.runs;
        let (mut range, mut pieces, mut rest) = (run..run + 1, vec![runs[run]], 0);
        while pieces.len() < count {
            if rest == 0 {
                let near = if hand == Side::Right { range.start.checked_sub(1)? } else { range.end };
                let joined = if hand == Side::Right { runs[range.start] } else { *runs.get(near)? };
                if !joined.joint_before {
                    return None;
                }
                (range, rest) = (range.start.min(near)..range.end.max(near + 1), runs[near].count);
            }
            rest -= 1;
            if hand == Side::Right {
                pieces.insert(0, single(&runs[range.start], rest));
            } else {
                let last = &runs[range.end - 1];
                pieces.push(single(last, last.count - 1 - rest));
            }
        }
        let [from, to] = [*pieces.first()?, *pieces.last()?];
        let left = |run: Run| (rest > 0).then_some(Run { count: rest, ..run });
        let [before, after] = match hand {
            Side::Right => [left(runs[range.start]), None],
            Side::Left => {
                let last = runs[range.end - 1];
                let first = last.left + f64::from(last.count - rest) * last.step;
                let hangs = last.hangs.without(last.count - rest);
                [None, left(Run { left: first, joint_before: true, hangs, ..last })]
            }
        };
        let extent = [from.extent(&cuts.shapes)[0], to.extent(&cuts.shapes)[1]];
        Some(Self { hand, range, before, pieces, after, place: [from.left, to.right()], extent })
    }

    /// A piece of so many hangs if the one hung that lay in its turn, counted from the unsound end.
    fn hanging(&self, piece: usize, of: usize) -> Hanging {
        let turn = match self.hand {
            Side::Left => Some(piece),
            Side::Right => (self.pieces.len() + piece).checked_sub(of),
        };
        turn.and_then(|turn| self.pieces.get(turn)).map_or(Hanging::None, |run| run.hangs)
    }

    /// Where the right side of a piece was before; of those that went the nearest to the unsound end.
    fn joint(&self, piece: usize) -> f64 {
        self.pieces.get(piece).map_or(self.place[1], Run::right)
    }

    /// The runs that take the place of the group's.
    fn runs(&self, pieces: Vec<Piece>, cuts: &mut Cuts<'_>) -> Vec<Run> {
        let (first, own) = (self.pieces[0].joint_before, self.pieces[0].step);
        let count = pieces.len();
        let new = pieces.into_iter().enumerate().map(|(index, piece)| {
            let [left, right] = piece.place;
            let cut = piece.cut.map(|(cut, blank)| cuts.number(cut, &blank));
            let joint_before = first || index > 0;
            let hangs = self.hanging(index, count);
            Run { left, width: right - left, step: own, count: 1, unit: piece.unit, cut, joint_before, hangs }
        });
        self.before.into_iter().chain(new.collect::<Vec<_>>()).chain(self.after).collect()
    }
}

/// One piece of a run.
fn single(run: &Run, index: u32) -> Run {
    let left = run.left + f64::from(index) * run.step;
    Run { left, count: 1, joint_before: index > 0 || run.joint_before, hangs: run.hangs.without(index), ..*run }
}

/// A piece that is put in.
#[derive(Clone)]
struct Piece {
    place: [f64; 2],
    unit: u32,
    cut: Option<(Cut, Blank)>,
}

/// Where a course is cut anew.
struct Desk<'a, 'b> {
    setting: &'a Setting<'b>,
    courses: &'a [Course],
    course: usize,
}

impl Desk<'_, '_> {
    /// Fills the place of a group with pieces from these units, left to right, with joints moved as little as makes them
    /// all sound and keeps the joints off those that they must miss.
    fn fill(&self, group: &Group, units: &[u32]) -> Option<Vec<Piece>> {
        let mut pieces = Vec::new();
        self.fill_from(group, group.place[0], units, &mut pieces).then_some(pieces)
    }

    fn fill_from(&self, group: &Group, from: f64, units: &[u32], pieces: &mut Vec<Piece>) -> bool {
        let Some((&unit, rest)) = units.split_first() else { return false };
        if rest.is_empty() {
            let turn = [pieces.len(), pieces.len() + 1];
            return self.piece(group, [from, group.place[1]], unit, turn).is_some_and(|piece| {
                pieces.push(piece);
                true
            });
        }
        let [most_left, most_right] = self.reach(group, from, unit, rest);
        let old = group.joint(pieces.len());
        let mut joint = if group.hand == Side::Right { most_right.min(old) } else { most_left.max(old) };
        let step = if rest.len() > 1 { 2.0 * STEP } else { STEP };
        while joint >= most_left - NIL && joint <= most_right + NIL {
            joint = match self.in_the_way(joint) {
                Some((near, least)) if group.hand == Side::Right => near - least - self.gap() / 2.0,
                Some((near, least)) => near + least - self.gap() / 2.0,
                None if self.split_at(group, [from, joint], units, pieces) => return true,
                None if group.hand == Side::Right => joint - step,
                None => joint + step,
            };
        }
        false
    }

    fn split_at(&self, group: &Group, place: [f64; 2], units: &[u32], pieces: &mut Vec<Piece>) -> bool {
        let next = place[1] + self.gap();
        if !self.setting.shared_strip(self.course).joins([place[1], next]) {
            return false;
        }
        let Some(piece) = self.piece(group, place, units[0], [pieces.len(), pieces.len() + units.len()]) else {
            return false;
        };
        pieces.push(piece);
        let filled = self.fill_from(group, next, &units[1..], pieces);
        if !filled {
            pieces.pop();
        }
        filled
    }

    /// Where the right side of a piece from one unit can lie, if others follow.
    fn reach(&self, group: &Group, from: f64, unit: u32, rest: &[u32]) -> [f64; 2] {
        let (gap, least) = (self.gap(), self.setting.rules.least_piece);
        let [start, end] = [from.max(group.extent[0]), group.extent[1]];
        let follow: f64 = rest.iter().map(|&unit| self.width(unit) + gap).sum();
        let [most_left, most_right] = [(start + least).max(end - follow), start + self.width(unit)];
        [most_left, most_right.min(end - (gap + least) * rest.len() as f64)]
    }

    /// A sound piece between two joints, or a joint and the end of the group.
    fn piece(&self, group: &Group, [from, to]: [f64; 2], unit: u32, [index, of]: [usize; 2]) -> Option<Piece> {
        let width = self.width(unit);
        let [start, end] = [from.max(group.extent[0]), to.min(group.extent[1])];
        let place = if to - from <= width {
            [from, to]
        } else if end <= from + width && !(index == 0 && group.hand == Side::Left) {
            [from, from + width]
        } else if start >= to - width {
            [to - width, to]
        } else {
            [start, start + width]
        };
        let line = self.setting.line(self.course, group.hanging(index, of).hangs(0));
        let strip = line.as_ref();
        if end > place[1] + NIL {
            return None;
        }
        let (corner, height) = ([place[0], strip.butt], strip.head - strip.butt);
        let blank =
            Blank { corner, width: place[1] - place[0], height, unit: width, moved: Some(group.hand), ..Blank::default() };
        match left_of(&self.setting.outline, strip, place, width) {
            Left::Nothing => None,
            Left::All => Some(Piece { place, unit, cut: None }),
            Left::Part(cut) => {
                let finished = self.setting.edging.finished(cut, &blank);
                is_sound(self.setting, &finished).then_some(Piece { place, unit, cut: Some((finished, blank)) })
            }
        }
    }

    fn gap(&self) -> f64 {
        self.setting.bond.gap
    }

    fn width(&self, unit: u32) -> f64 {
        self.setting.units.get(unit as usize).map_or(0.0, |unit| unit.width)
    }

    /// A joint of a course that must be missed, too near to one right of `right_side`, and how far it must stay off.
    fn in_the_way(&self, right_side: f64) -> Option<(f64, f64)> {
        let u = right_side + self.gap() / 2.0;
        let mut others = self.setting.rules.neighbours(self.course, self.courses.len());
        others.find_map(|(other, least)| {
            let near = nearest_joint(&self.courses[other], u)?;
            too_near((near - u).abs(), least).then_some((near, least))
        })
    }
}
