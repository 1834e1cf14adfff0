//! Courses of random widths, piece by piece from left to right: each joint misses those below it and leaves the course over
//! it room for its own.
//!
//! A search that looks a few pieces ahead: whole units of the mix first, the width most wanted first; where none fits, a
//! unit is cut narrower or a wide one taken; then a piece may be too small, and last a joint too near, which are findings.
//! It goes on from piece to piece and never back further than it looks ahead, so its cost grows with the pieces.

use roof::Place;

use crate::bevel::{Blank, Side};
use crate::bond::NIL;
use crate::cut::Cuts;
use crate::lay::Setting;
use crate::legal::too_near;
use crate::mix::Mix;
use crate::piece::{Left, left_in_columns, left_of};
use crate::resplit::{is_hidden, is_sound};
use crate::strip::Strip;
use crate::{Course, Hanging, Run, UnitKind};

/// Pieces looked ahead.
const AHEAD: usize = 8;
/// Of those, so many are laid before the next look.
const LAID: usize = 5;
/// Pieces tried in one look.
const TRIES: u32 = 600;
/// Steps in which a joint is moved where a unit is cut, in: on the tape's marks.
const STEP: f64 = 0.5;
/// A stretch free of joints below must be so long, in, that a crew can hit it.
const ROOM: f64 = 0.0625;

/// What is given up to lay a piece, from nothing to most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Ease {
    /// Whole units, save at edges.
    Whole,
    /// A unit may be cut narrower, or be a wide one.
    Cut,
    /// A piece may be too small or not take its nails.
    Small,
    /// A joint may come too near to one below.
    Near,
}

/// All courses of a plane, from the lowest up.
pub(crate) fn courses(setting: &Setting<'_>, mix: &mut Mix, cuts: &mut Cuts<'_>) -> Vec<Course> {
    let mut courses: Vec<Course> = Vec::with_capacity(setting.strips.len());
    let mut joints: [Vec<f64>; 2] = [Vec::new(), Vec::new()];
    for course in 0..setting.strips.len() {
        let row = Row::new(setting, course, &joints, mix);
        let laid = row.lay(cuts);
        let [one_down, _] = joints;
        joints = [laid.joints(), one_down];
        courses.push(laid);
    }
    courses
}

/// A piece in its place.
#[derive(Debug)]
struct Piece {
    place: [f64; 2],
    unit: usize,
    left: Left,
    /// There is a joint right of it.
    joins: bool,
}

/// The joints of one course must leave those of the next room.
#[derive(Debug, Clone, Copy)]
struct Room {
    /// How far a joint keeps the next course's off.
    own: f64,
    /// How far one of the course below keeps them off; none where they need not be missed.
    below: Option<f64>,
    /// The longest stretch without a joint in the next course.
    longest: f64,
}

/// A place with the unit that is to fill it.
type Choice = ([f64; 2], usize);

/// A course as it grows.
struct Row<'a, 'b> {
    setting: &'a Setting<'b>,
    course: usize,
    /// The kinds of its length, those of the mix and then the wide one, and the number of the first.
    kinds: (u32, &'a [UnitKind]),
    strip: &'a Strip,
    shows: f64,
    /// Joints of the course one down and of that two down, ascending.
    joints_below: &'a [Vec<f64>; 2],
    /// Those of them that a look can come near.
    below: [&'a [f64]; 2],
    mix: &'a mut Mix,
    rooms: Vec<Room>,
    /// What is still to be tried, the choices for a piece after those for the piece before it.
    choices: Vec<Choice>,
    /// Laid, and looked at ahead.
    pieces: Vec<Piece>,
    joints: Vec<f64>,
    span: [f64; 2],
    /// Where the next span begins.
    next: f64,
    tries: u32,
}

impl<'a, 'b> Row<'a, 'b> {
    fn new(setting: &'a Setting<'b>, course: usize, below: &'a [Vec<f64>; 2], mix: &'a mut Mix) -> Self {
        let gap = setting.bond.gap;
        let widest = mix.widths.last().copied().unwrap_or_default();
        let rules = &setting.rules;
        let field = Room { own: rules.joint_offset(), below: rules.offsets.get(1).copied(), longest: widest + gap };
        let starter = &setting.covering.starter;
        let [own, width] = [starter.joint_offset, starter.width].map(units::Length::to_inches);
        let over_starters = Room { own, below: None, longest: width + gap };
        // Any course may be the first over some low edge, but a starter is cut to fit more easily than a slate is found.
        let rooms = if course == 0 { vec![field, over_starters] } else { vec![field] };
        let (strip, shows) = (&setting.strips[course], setting.shows(course));
        Self {
            setting,
            course,
            kinds: setting.kinds(course),
            strip,
            shows,
            joints_below: below,
            below: [&[]; 2],
            mix,
            rooms,
            choices: Vec::new(),
            pieces: Vec::new(),
            joints: Vec::new(),
            span: [0.0; 2],
            next: f64::INFINITY,
            tries: 0,
        }
    }

    fn lay(mut self, cuts: &mut Cuts<'_>) -> Course {
        let spans: Vec<[f64; 2]> = self.strip.spans().collect();
        let mut from = f64::NEG_INFINITY;
        for (index, &[left, right]) in spans.iter().enumerate() {
            self.span = [left.max(from), right];
            self.next = spans.get(index + 1).map_or(f64::INFINITY, |next| next[0]);
            from = self.lay_span();
        }
        self.setting.laid_course(self.course, self.runs(cuts))
    }

    /// Where the next span may begin.
    fn lay_span(&mut self) -> f64 {
        let [mut at, to] = self.span;
        while at < to - NIL {
            let (laid, joints) = (self.pieces.len(), self.joints.len());
            self.below = self.joints_near(at);
            for ease in [Ease::Whole, Ease::Cut, Ease::Small, Ease::Near] {
                self.tries = TRIES;
                if self.look(at, AHEAD, ease) {
                    break;
                }
            }
            let ends = self.pieces.last().is_none_or(|piece| self.is_last(piece.place));
            let kept = if ends { self.pieces.len() } else { laid + LAID };
            while self.pieces.len() > kept {
                self.take_back();
            }
            debug_assert!(self.joints.len() >= joints, "what is laid stays");
            let Some(last) = self.pieces.last().filter(|_| self.pieces.len() > laid) else { return to };
            at = last.place[1] + self.gap();
        }
        at
    }

    /// The joints below as far as a look from `at` on asks for them.
    fn joints_near(&self, at: f64) -> [&'a [f64]; 2] {
        let widest = self.setting.units.iter().map(|unit| unit.width).fold(0.0, f64::max) + self.gap();
        let farthest = |reach: f64, room: &Room| reach.max(room.longest + 2.0 * (room.own + room.below.unwrap_or_default()));
        let beside = widest + self.rooms.iter().fold(0.0, farthest);
        self.joints_below.each_ref().map(|joints| {
            let from = joints.partition_point(|&joint| joint < at - beside);
            let to = joints.partition_point(|&joint| joint <= at + AHEAD as f64 * widest + beside);
            &joints[from..to]
        })
    }

    /// Puts in pieces from `at` on, so many or up to the end of the span; takes them back if it finds none.
    fn look(&mut self, at: f64, ahead: usize, ease: Ease) -> bool {
        if ahead == 0 {
            return true;
        }
        let first = self.choices.len();
        self.choose_whole(at);
        let mut found = (first..self.choices.len()).any(|choice| self.lays(choice, ahead, ease));
        if !found && ease >= Ease::Cut {
            self.choices.truncate(first);
            self.choose_cut(at);
            found = (first..self.choices.len()).any(|choice| self.lays(choice, ahead, ease));
        }
        self.choices.truncate(first);
        found
    }

    /// Whether a choice and what is looked at behind it can be laid; if not, nothing of it stays.
    fn lays(&mut self, choice: usize, ahead: usize, ease: Ease) -> bool {
        let (place, unit) = self.choices[choice];
        if self.tries == 0 && ease < Ease::Near {
            return false;
        }
        self.tries = self.tries.saturating_sub(1);
        if !self.put(place, unit, ease) {
            return false;
        }
        let goes_on = self.is_last(place) || self.look(place[1] + self.gap(), ahead - 1, ease);
        if !goes_on {
            self.take_back();
        }
        goes_on
    }

    fn is_last(&self, place: [f64; 2]) -> bool {
        place[1] + self.gap() >= self.span[1] - NIL
    }

    fn gap(&self) -> f64 {
        self.setting.bond.gap
    }

    /// Adds the whole units of the mix that may begin at `at`, the most wanted first.
    fn choose_whole(&mut self, at: f64) {
        let rest = self.span[1] - at;
        // Of those that reach the end the narrowest loses least.
        let closing = self.mix.widths.iter().position(|&width| width >= rest - NIL).unwrap_or(usize::MAX);
        self.mix.rank();
        let whole = self.mix.ranked().filter(|&unit| unit <= closing);
        self.choices.extend(whole.map(|unit| ([at, at + self.mix.widths[unit]], unit)));
    }

    fn width(&self, unit: usize) -> f64 {
        self.kinds.1[unit].width
    }

    /// Adds a wide unit and places narrower than a unit: up to where the joints below leave room, and in steps; what loses
    /// least first.
    fn choose_cut(&mut self, at: f64) {
        let units = self.kinds.1;
        let wide = units.iter().position(|unit| unit.wide);
        self.choices.extend(wide.map(|wide| ([at, at + units[wide].width], wide)));
        let first = self.choices.len();
        let widest = units.last().map_or(0.0, |unit| unit.width);
        let [least, most] = [at + self.setting.rules.least_piece, at + widest];
        let half_gap = self.gap() / 2.0;
        let around = self.setting.rules.offsets.iter().zip(self.below).flat_map(|(&offset, joints)| {
            let from = joints.partition_point(|&joint| joint + offset < least);
            let near = joints[from..].iter().take_while(move |&&joint| joint - offset <= most + half_gap);
            near.flat_map(move |joint| [joint - offset - half_gap, joint + offset - half_gap])
        });
        let steps = ((most - least) / STEP).max(0.0) as u32;
        let stepped = (1..=steps).map(|step| most - f64::from(step) * STEP);
        let rights = around.chain(stepped).filter(|&right| right >= least && right < most - NIL);
        let unit_of = |right: f64| units.iter().position(|unit| unit.width >= right - at - NIL);
        self.choices.extend(rights.filter_map(|right| Some(([at, right], unit_of(right)?))));
        let lost = |&([left, right], unit): &Choice| units[unit].width - (right - left);
        self.choices[first..].sort_by(|a, b| lost(a).total_cmp(&lost(b)));
    }

    /// Puts a piece in if it is legal, as far as that is not given up.
    fn put(&mut self, place: [f64; 2], unit: usize, ease: Ease) -> bool {
        let joint = place[1] + self.gap() / 2.0;
        let may_join = !self.is_last(place) || place[1] + self.gap() > self.next;
        if may_join && ease < Ease::Near && !self.is_clear(joint) && self.joins(place[1]) {
            return false;
        }
        let Some(left) = self.left(place, unit, ease) else { return false };
        let joins = may_join && left != Left::Nothing && self.joins(place[1]);
        if joins && ease < Ease::Near && !self.leaves_room(joint) {
            return false;
        }
        if joins {
            self.joints.push(joint);
        }
        self.mix.count(unit, true);
        self.pieces.push(Piece { place, unit, left, joins });
        true
    }

    fn take_back(&mut self) {
        let Some(piece) = self.pieces.pop() else { return };
        self.mix.count(piece.unit, false);
        if piece.joins {
            self.joints.pop();
        }
    }

    /// Pieces both sides of a gap lie side by side.
    fn joins(&self, right: f64) -> bool {
        let sides = [right, right + self.gap()];
        self.plain([sides[0] - 3.0 * NIL, sides[1] + 3.0 * NIL]).is_some_and(|ranges| !ranges.is_empty())
            || self.strip.joins(sides)
    }

    /// The laid ranges of v of columns that no edge touches; `None` where one does.
    fn plain(&self, [from, to]: [f64; 2]) -> Option<&'a [[f64; 2]]> {
        let next = self.strip.touched.partition_point(|touched| touched.to <= from + NIL);
        let touched = self.strip.touched.get(next)?;
        (touched.from >= to - NIL).then_some(&touched.laid_before)
    }

    /// What is left of a unit in a place; `None` if that is too small or cannot be nailed and must not be so.
    fn left(&self, place: [f64; 2], unit: usize, ease: Ease) -> Option<Left> {
        let (strip, width) = (self.strip, self.width(unit));
        let corner = [place[0], strip.butt];
        let plain = self.plain(place);
        let left = match plain {
            Some([range]) if range[0] <= strip.butt && range[1] >= strip.head && place[1] - place[0] > width - NIL => {
                return Some(Left::All);
            }
            Some(ranges) => left_in_columns(ranges, strip, place[1] - place[0], width),
            None => left_of(&self.setting.outline, strip, place, width),
        };
        let left = self.setting.unless_starter(left, corner, self.shows);
        let is_legal = plain.is_some() || ease >= Ease::Small || self.is_sound(&left, place, unit);
        is_legal.then_some(left)
    }

    fn is_sound(&self, left: &Left, place: [f64; 2], unit: usize) -> bool {
        let Left::Part(cut) = left else { return true };
        let finished = self.setting.edging.finished(cut.clone(), &self.blank(place, unit));
        is_sound(self.setting, &finished) || is_hidden(self.setting, &finished, [place[0], self.strip.butt])
    }

    fn blank(&self, [left, right]: [f64; 2], unit: usize) -> Blank {
        let (width, height) = (right - left, self.strip.head - self.strip.butt);
        let unit = self.width(unit);
        let moved = (width < unit - NIL).then_some(Side::Right);
        Blank { corner: [left, self.strip.butt], width, height, unit, moved, ..Blank::default() }
    }

    /// A joint misses those below it.
    fn is_clear(&self, joint: f64) -> bool {
        self.setting.rules.offsets.iter().zip(self.below).all(|(&offset, joints)| {
            let next = joints.partition_point(|&below| below < joint);
            let near = &joints[next.saturating_sub(1)..(next + 1).min(joints.len())];
            near.iter().all(|below| !too_near((below - joint).abs(), offset))
        })
    }

    /// With this joint the next course finds a place for one within each stretch of its widest unit.
    fn leaves_room(&self, joint: f64) -> bool {
        self.rooms.iter().all(|room| self.blocked(joint, room) <= room.longest + NIL)
    }

    /// How long the stretch round a joint is in which the next course can have none.
    fn blocked(&self, joint: f64, room: &Room) -> f64 {
        let below = |from: f64| self.below[0].partition_point(|&other| other < from);
        let [mut low, mut high] = [joint - room.own, joint + room.own];
        let mut own = self.joints.len();
        while high - low <= room.longest + NIL {
            if let Some(before) = own.checked_sub(1).map(|before| self.joints[before]).filter(|u| u + room.own > low - ROOM)
            {
                (low, own) = (low.min(before - room.own), own - 1);
                continue;
            }
            let Some(offset) = room.below else { break };
            let first = self.below[0].get(below(low - offset - ROOM)).filter(|&&u| u - offset < low - NIL);
            let last = below(high + offset + ROOM).checked_sub(1).map(|index| self.below[0][index]);
            match (first, last.filter(|&u| u + offset > high + NIL)) {
                (None, None) => break,
                (first, last) => {
                    low = first.map_or(low, |u| u - offset);
                    high = last.map_or(high, |u| u + offset);
                }
            }
        }
        let least = self.setting.rules.least_piece;
        let [from, to] = self.span;
        let low = if low < from + least { low.min(from) } else { low };
        let high = if high > to - least { high.max(to) } else { high };
        high - low
    }

    /// The pieces as runs, without those of which nothing is weathered and which could not be nailed.
    fn runs(&self, cuts: &mut Cuts<'_>) -> Vec<Run> {
        let mut runs: Vec<Run> = Vec::with_capacity(self.pieces.len());
        let mut joined = false;
        for piece in &self.pieces {
            let cut = match &piece.left {
                Left::Nothing => None,
                Left::All => Some(None),
                Left::Part(cut) => {
                    let number = cuts.number(cut.clone(), &self.blank(piece.place, piece.unit));
                    let shape = &cuts.shapes[number as usize];
                    let corner: Place = [piece.place[0], self.strip.butt];
                    let is_needless = !is_sound(self.setting, shape) && is_hidden(self.setting, shape, corner);
                    (!is_needless).then_some(Some(number))
                }
            };
            if let Some(cut) = cut {
                self.add(&mut runs, piece, cut, joined);
            }
            joined = cut.is_some() && piece.joins;
        }
        runs
    }

    fn add(&self, runs: &mut Vec<Run>, piece: &Piece, cut: Option<u32>, joint_before: bool) {
        let [left, right] = piece.place;
        let (width, unit) = (right - left, self.kinds.0 + piece.unit as u32);
        let alike = |run: &&mut Run| run.unit == unit && run.cut == cut && (run.width - width).abs() < NIL;
        match runs.last_mut().filter(|_| joint_before).filter(alike) {
            Some(run) => run.count += 1,
            None => runs.push(Run {
                left,
                width,
                step: width + self.gap(),
                count: 1,
                unit,
                cut,
                joint_before,
                hangs: Hanging::None,
            }),
        }
    }
}
