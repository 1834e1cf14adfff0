//! Units that narrow towards the peak of a turret: every joint points at the peak, and as a course grows short fewer units
//! fill it.
//!
//! A course is parted into pieces of one width between two at the hips that may be narrower or wider. A unit away from the
//! middle leans, and must be cut from one as wide as it and its lean. What is laid low down decides what fits over it, so the
//! rows of all courses are found at once: those that leave no piece unsound and no joint near one that it must miss, if there
//! are any, and of these the fewest pieces. Whether a piece is sound takes a cut and a look for its nails, so of pieces off the
//! hips, which nearly always are, that is asked only in rows that are best if they are sound, until all of the best are known.

use std::collections::BTreeMap;

use roof::{EdgeKind, Place, Plane};
use units::Length;

use crate::bevel::Blank;
use crate::bond::NIL;
use crate::courses::CourseLines;
use crate::cut::{Cuts, sides};
use crate::lay::Setting;
use crate::legal::too_near;
use crate::outline::{edges, is_level};
use crate::piece::{Left, keep_left, left_of_shape};
use crate::resplit::{is_hidden, is_sound};
use crate::{Course, Cut, Hanging, Run};

/// Narrower pieces than this, in, are none.
const NARROWEST: f64 = 1.0;
/// Pieces at hips are tried in steps of such a part of the course; in coarser ones where joints two courses down count, as then
/// three courses hang together.
const STEPS: [u32; 2] = [32, 12];
/// So many pieces more than the fewest are tried.
const MORE: u32 = 4;

/// The plane between two hips that meet in a peak.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Fan {
    pub(crate) peak: Place,
    /// How far each hip, left and right, stands to the right of the peak for each inch below it.
    hips: [f64; 2],
}

impl Fan {
    /// `None` where no two hips meet in a peak, or where units so wide, from which they are cut with their lean, give only
    /// pieces narrower than the least.
    pub(crate) fn of(plane: &Plane, [unit, least]: [f64; 2], lines: &CourseLines) -> Option<Self> {
        let fan = Self::between_hips(plane)?;
        let fits = |course: usize| fan.fewest(fan.reach(lines.butts[course], lines.length(course)), [unit, least]).is_some();
        (0..lines.count()).all(fits).then_some(fan)
    }

    fn between_hips(plane: &Plane) -> Option<Self> {
        let hips: Vec<[Place; 2]> =
            edges(plane).filter(|&(line, kind)| kind == EdgeKind::Hip && !is_level(line)).map(|(line, _)| line).collect();
        let same = |a: Place, b: Place| (a[0] - b[0]).abs() < NIL && (a[1] - b[1]).abs() < NIL;
        let [right, left] = hips.iter().find_map(|&right| {
            let rises = right[1][1] > right[0][1];
            hips.iter().find(|left| rises && same(left[0], right[1]) && left[1][1] < left[0][1]).map(|&left| [right, left])
        })?;
        let peak = right[1];
        let lean = |foot: Place| (foot[0] - peak[0]) / (peak[1] - foot[1]);
        let hips = [lean(left[1]), lean(right[0])];
        (hips[1] > hips[0]).then_some(Self { peak, hips })
    }

    /// From the butts of units to their heads, or to the peak.
    fn reach(&self, butt: f64, length: f64) -> [f64; 2] {
        [butt, (butt + length).min(self.peak[1])]
    }

    /// u of the line from the peak that has such a part of the plane, 0 to 1, on its left.
    fn at(&self, part: f64, v: f64) -> f64 {
        let [left, right] = self.hips;
        self.peak[0] + (left + (right - left) * part) * (self.peak[1] - v)
    }

    fn width(&self, v: f64) -> f64 {
        self.at(1.0, v) - self.at(0.0, v)
    }

    /// The fewest pieces that fill a course.
    fn fewest(&self, reach: [f64; 2], [unit, least]: [f64; 2]) -> Option<u32> {
        let most = (self.width(reach[0]) / least.max(NARROWEST)).max(1.0) as u32;
        let fits = |split: Split| split.parts().into_iter().all(|parts| self.spread(parts, reach) <= unit + NIL);
        (1..=most).find(|&pieces| Split::all(pieces, STEPS[0]).into_iter().any(fits))
    }

    /// How wide a unit must be for a piece with its lean.
    fn spread(&self, [left, right]: [f64; 2], reach: [f64; 2]) -> f64 {
        let from = reach.map(|v| self.at(left, v)).into_iter().fold(f64::INFINITY, f64::min);
        let to = reach.map(|v| self.at(right, v)).into_iter().fold(f64::NEG_INFINITY, f64::max);
        to - from
    }

    /// The line that bounds a piece, from the foot of its course up, so far right of the line to the peak.
    fn bound(&self, part: f64, foot: f64, by: f64) -> [Place; 2] {
        [[self.at(part, foot) + by, foot], [self.peak[0] + by, self.peak[1]]]
    }
}

/// A course in pieces of one width, save those at the hips.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Split {
    pieces: u32,
    /// Of the course, 0 to 1: the piece at the left hip, and at the right one too where there are more than two.
    end: f64,
}

impl Split {
    /// All ways to part a course into so many pieces: in equal ones, as half bond lies over those, and in steps between.
    fn all(pieces: u32, steps: u32) -> Vec<Self> {
        let steps = (1..steps).map(|step| f64::from(step) / f64::from(steps));
        let known = [1.0, 0.5].map(|of_a_piece| of_a_piece / (f64::from(pieces) - 2.0 + 2.0 * of_a_piece));
        let ends: Vec<f64> = match pieces {
            1 => vec![1.0],
            2 => steps.collect(),
            _ => known
                .into_iter()
                .chain(steps.filter(|end| *end < 0.5 && known.iter().all(|known| (known - end).abs() > NIL)))
                .collect(),
        };
        ends.into_iter().map(|end| Self { pieces, end }).collect()
    }

    /// Between the pieces at the hips.
    fn middle(self) -> f64 {
        match self.pieces {
            0..=2 => self.end,
            pieces => (1.0 - 2.0 * self.end) / f64::from(pieces - 2),
        }
    }

    /// The joints between two hips, each by the part of the plane on its left.
    fn joints(self) -> Vec<f64> {
        (0..self.pieces.saturating_sub(1)).map(|joint| self.end + f64::from(joint) * self.middle()).collect()
    }

    /// The parts of the plane on both sides of each piece.
    fn parts(self) -> Vec<[f64; 2]> {
        let bounds: Vec<f64> = [0.0].into_iter().chain(self.joints()).chain([1.0]).collect();
        bounds.windows(2).map(|pair| [pair[0], pair[1]]).collect()
    }

    /// How far the pieces at the hips are from a whole place or a half one, in hundredths: what looks best counts least.
    fn uneven(self) -> u32 {
        let part = if self.pieces > 2 { self.end / self.middle() } else { 2.0 * self.end };
        ([1.0, 0.5].map(|even| (part - even).abs()).into_iter().fold(f64::INFINITY, f64::min) * 100.0) as u32
    }
}

/// A way to lay one course.
struct Row {
    split: Split,
    joints: Vec<f64>,
    /// What it costs by itself: its pieces off the hips are taken to be sound until they are looked at.
    cost: Cost,
    is_known: bool,
}

impl Row {
    /// `None` where a piece is wider than any unit.
    fn of(split: Split, bench: &mut Bench<'_, '_>) -> Option<Self> {
        let parts = split.parts();
        let units = parts.iter().map(|&parts| bench.unit(parts));
        let wide = units.map(|unit| Some(u32::from(bench.setting.units[unit? as usize].wide))).sum::<Option<u32>>()?;
        let wrong = bench.starters_find_no_joint(split);
        let cost = Cost { wrong, wide, pieces: split.pieces, uneven: split.uneven(), ..Cost::default() };
        let ends = [Some(0), (parts.len() > 1).then(|| parts.len() - 1)];
        let cost = ends.into_iter().flatten().fold(cost, |cost, end| cost.and(bench.look(parts[end]), 0));
        Some(Self { split, joints: split.joints(), cost, is_known: parts.len() <= 2 })
    }

    /// Looks at its pieces off the hips.
    fn look(&mut self, bench: &mut Bench<'_, '_>) {
        let parts = self.split.parts();
        let middle = &parts[1..parts.len() - 1];
        self.cost = middle.iter().fold(self.cost, |cost, &parts| cost.and(bench.look(parts), 0));
        self.is_known = true;
    }

    /// How many of its joints come too near to one of a row below, where the plane is so wide.
    fn near(&self, below: &Self, width: f64, least: f64) -> u32 {
        let mut others = below.joints.iter().peekable();
        let is_near = |joint: &&f64| {
            // Joints ascend: what is far to the left of one is so of all that follow.
            while others.next_if(|other| **other < **joint && !too_near((**joint - **other) * width, least)).is_some() {}
            others.peek().is_some_and(|other| too_near((**joint - **other).abs() * width, least))
        };
        self.joints.iter().filter(is_near).count() as u32
    }
}

/// What is given up to lay rows, the worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
struct Cost {
    /// Pieces that are too small or cannot be nailed, joints that come too near, and stretches that leave starters no joint.
    wrong: u32,
    /// Pieces under caps that cannot be nailed, and are left out.
    left_out: u32,
    /// Pieces from wide units.
    wide: u32,
    pieces: u32,
    uneven: u32,
}

impl Cost {
    fn and(self, other: Self, near: u32) -> Self {
        Self {
            wrong: self.wrong + other.wrong + near,
            left_out: self.left_out + other.left_out,
            wide: self.wide + other.wide,
            pieces: self.pieces + other.pieces,
            uneven: self.uneven + other.uneven,
        }
    }
}

/// As it is cut, what from, and the number of that unit.
type Piece = (Cut, Blank, u32);

/// Where the pieces of one course are cut and looked at.
struct Bench<'a, 'b> {
    setting: &'a Setting<'b>,
    fan: &'a Fan,
    course: usize,
    /// What pieces that were looked at cost, by the bits of their parts.
    known: BTreeMap<[u64; 2], Cost>,
}

impl<'a, 'b> Bench<'a, 'b> {
    fn new(setting: &'a Setting<'b>, fan: &'a Fan, course: usize) -> Self {
        Self { setting, fan, course, known: BTreeMap::new() }
    }

    fn reach(&self) -> [f64; 2] {
        let strip = &self.setting.strips[self.course];
        self.fan.reach(strip.butt, strip.head - strip.butt)
    }

    /// The ways to lay the course: from the fewest pieces that the widest units give to some more than those that the sheet's own
    /// give, so that there is one over which the next fewer fit.
    fn rows(&mut self) -> Vec<Row> {
        let rules = &self.setting.rules;
        let steps = STEPS[usize::from(rules.offsets.len() > 1)];
        let fewest = |unit: f64| self.fan.fewest(self.reach(), [unit, rules.least_piece]).unwrap_or(1);
        let widths = self.setting.kinds(self.course).1.iter().map(|kind| kind.width);
        let [of_widest, of_own] = [fewest(widths.fold(0.0, f64::max)), fewest(self.setting.bond.width)];
        let splits = (of_widest..=of_own + MORE).flat_map(|pieces| Split::all(pieces, steps));
        splits.filter_map(|split| Row::of(split, self)).collect()
    }

    /// Under the first course: stretches in which every joint of starters would be too near to one over it, longer than a starter.
    fn starters_find_no_joint(&self, split: Split) -> u32 {
        let starter = &self.setting.covering.starter;
        let [own, width] = [starter.joint_offset, starter.width].map(Length::to_inches);
        let butt = self.setting.strips[self.course].butt;
        let seen = [butt, butt + self.setting.shows(self.course)];
        let mut stretches: Vec<[f64; 2]> = Vec::new();
        for joint in split.joints().into_iter().filter(|_| self.course == 0) {
            let ends = seen.map(|v| self.fan.at(joint, v));
            let [from, to] = [ends[0].min(ends[1]) - own, ends[0].max(ends[1]) + own];
            match stretches.last_mut().filter(|last| from < last[1]) {
                Some(last) => last[1] = to,
                None => stretches.push([from, to]),
            }
        }
        stretches.iter().filter(|[from, to]| to - from > width + self.setting.bond.gap).count() as u32
    }

    /// What a piece is cut from: a field unit, or a wide one if it needs that; `None` if it is wider than any.
    fn unit(&self, parts: [f64; 2]) -> Option<u32> {
        let (first, kinds) = self.setting.kinds(self.course);
        let spread = self.fan.spread(parts, self.reach());
        let kind = [kinds.iter().position(|kind| !kind.wide), kinds.iter().position(|kind| kind.wide)];
        let fits = kind.into_iter().flatten().find(|&kind| spread <= kinds[kind].width + NIL)?;
        Some(first + fits as u32)
    }

    fn look(&mut self, parts: [f64; 2]) -> Cost {
        let bits = parts.map(f64::to_bits);
        if let Some(&known) = self.known.get(&bits) {
            return known;
        }
        let piece = self.piece(parts);
        let is_wrong = piece.as_ref().is_some_and(|(cut, ..)| !is_sound(self.setting, cut));
        let cost = Cost { wrong: is_wrong.into(), left_out: piece.is_none().into(), ..Cost::default() };
        self.known.insert(bits, cost);
        cost
    }

    /// What lies between two lines to the peak, as it is cut; `None` if nothing, or nothing that is seen and can be nailed.
    fn piece(&self, parts: [f64; 2]) -> Option<Piece> {
        let Self { setting, fan, course, .. } = *self;
        let number = self.unit(parts)?;
        let unit = setting.units[number as usize].width;
        let strip = &setting.strips[course];
        let (foot, half_gap) = (strip.butt, setting.bond.gap / 2.0);
        let is_joint = parts.map(|part| part > 0.0 && part < 1.0);
        let by = [half_gap, -half_gap];
        let [left, right] = [0, 1].map(|hand| fan.bound(parts[hand], foot, if is_joint[hand] { by[hand] } else { 0.0 }));
        let corner = left[0];
        let width = right[0][0] - corner[0];
        if width < NIL {
            return None;
        }
        // The piece lies on the left of each.
        let sides = [is_joint[0].then_some([left[1], left[0]]), is_joint[1].then_some(right)];
        let [from, to] = [fan.at(0.0, foot) - NARROWEST, fan.at(1.0, foot) + NARROWEST];
        let all = vec![[from, foot], [to, foot], [to, strip.head], [from, strip.head]];
        let place = sides.iter().flatten().fold(all, |kept, &side| keep_left(&kept, side));
        let left = left_of_shape(&setting.outline, strip, place, corner, unit);
        let Left::Part(cut) = setting.unless_starter(left, corner, setting.shows(course)) else { return None };
        let from_corner = |line: [Place; 2]| line.map(|at| [at[0] - corner[0], at[1] - corner[1]]);
        let narrowed = sides.map(|side| side.map(from_corner));
        let blank = Blank { corner, width, height: strip.head - foot, unit, narrowed, moved: None };
        let cut = setting.edging.finished(cut, &blank);
        let is_needless = !is_sound(setting, &cut) && is_hidden(setting, &cut, corner);
        (!is_needless).then_some((cut, blank, number))
    }

    /// The pieces of a row, each a run of its own: none is as another.
    fn runs(&self, split: Split, cuts: &mut Cuts<'_>) -> Vec<Run> {
        let mut runs: Vec<Run> = Vec::with_capacity(split.pieces as usize);
        let mut meets = false;
        for parts in split.parts() {
            let Some((cut, blank, unit)) = self.piece(parts) else {
                meets = false;
                continue;
            };
            let joint_before = meets && narrows(&cut, &blank, 0);
            meets = narrows(&cut, &blank, 1);
            runs.push(Run {
                left: blank.corner[0],
                width: blank.width,
                step: blank.width + self.setting.bond.gap,
                count: 1,
                unit,
                cut: Some(cuts.number(cut, &blank)),
                joint_before,
                hangs: Hanging::None,
            });
        }
        runs
    }
}

/// Whether a piece reaches the joint to its left, 0, or to its right, 1.
fn narrows(cut: &Cut, blank: &Blank, hand: usize) -> bool {
    let on = |side: [Place; 2]| blank.is_narrowed_at(hand, side);
    cut.parts.iter().flat_map(|part| sides(part)).any(on)
}

/// All courses of a plane, from the lowest up.
pub(crate) fn courses(setting: &Setting<'_>, fan: &Fan, cuts: &mut Cuts<'_>) -> Vec<Course> {
    let mut search = Search::new(setting, fan);
    let chosen = search.best();
    let laid = search.benches.iter().zip(&search.rows).zip(chosen);
    laid.map(|((bench, rows), row)| setting.laid_course(bench.course, bench.runs(rows[row].split, cuts))).collect()
}

/// Of two rows of different courses, lower and upper, how many joints of the upper come too near.
type Near = Vec<Vec<u32>>;

/// The best rows up to a course that end with one row, and the one before it where two courses down count.
#[derive(Debug, Clone, Copy)]
struct Best {
    cost: Cost,
    /// The row before the last one, and the last one.
    last: [usize; 2],
    /// Which of the best of the course below it goes on from.
    from: usize,
}

struct Search<'a, 'b> {
    /// One for each course.
    benches: Vec<Bench<'a, 'b>>,
    /// What the course over a row has to miss tells two best rows apart also by the row before it.
    two_down: bool,
    rows: Vec<Vec<Row>>,
    /// For each course, against the one below and the one two down; empty where there is none or it need not be missed.
    near: Vec<[Near; 2]>,
}

impl<'a, 'b> Search<'a, 'b> {
    fn new(setting: &'a Setting<'b>, fan: &'a Fan) -> Self {
        let courses = setting.strips.len();
        let mut benches: Vec<Bench<'_, '_>> = (0..courses).map(|course| Bench::new(setting, fan, course)).collect();
        let rows: Vec<Vec<Row>> = benches.iter_mut().map(Bench::rows).collect();
        let near = |course: usize, down: usize| {
            let width = fan.width(setting.strips[course].butt + setting.shows(course));
            let below = course.checked_sub(down).map(|below| &rows[below]);
            let Some((below, &least)) = below.zip(setting.rules.offsets.get(down - 1)) else { return Near::new() };
            below.iter().map(|under| rows[course].iter().map(|row| row.near(under, width, least)).collect()).collect()
        };
        let near = (0..courses).map(|course| [near(course, 1), near(course, 2)]).collect();
        Self { benches, two_down: setting.rules.offsets.len() > 1, rows, near }
    }

    /// The row of each course. Rows that were not looked at cost no more than they will, so what is best and known is best.
    fn best(&mut self) -> Vec<usize> {
        loop {
            let chosen = self.best_as_known();
            let mut is_known = true;
            for (course, &row) in chosen.iter().enumerate() {
                let row = &mut self.rows[course][row];
                if !row.is_known {
                    is_known = false;
                    row.look(&mut self.benches[course]);
                }
            }
            if is_known {
                return chosen;
            }
        }
    }

    fn best_as_known(&self) -> Vec<usize> {
        let first = |rows: &Vec<Row>| {
            let best = |(row, of): (usize, &Row)| Best { cost: of.cost, last: [0, row], from: 0 };
            rows.iter().enumerate().map(best).collect::<Vec<_>>()
        };
        let mut all: Vec<Vec<Best>> = self.rows.first().map(first).into_iter().collect();
        for course in 1..self.rows.len() {
            let best = self.go_on(course, &all[course - 1]);
            all.push(best);
        }
        traced(&all)
    }

    /// From the best rows up to the course below one to those up to it.
    fn go_on(&self, course: usize, before: &[Best]) -> Vec<Best> {
        let (here, [one_down, two_down]) = (&self.rows[course], &self.near[course]);
        let mut best: Vec<Option<Best>> =
            vec![None; here.len() * if self.two_down { self.rows[course - 1].len() } else { 1 }];
        for (from, &Best { cost, last: [two, one], .. }) in before.iter().enumerate() {
            for (row, of) in here.iter().enumerate() {
                let near = |near: &Near, below: usize| near.get(below).map_or(0, |near| near[row]);
                let cost = cost.and(of.cost, near(one_down, one) + near(two_down, two));
                let place = &mut best[row + if self.two_down { one * here.len() } else { 0 }];
                if place.is_none_or(|known| cost < known.cost) {
                    *place = Some(Best { cost, last: [one, row], from });
                }
            }
        }
        best.into_iter().flatten().collect()
    }
}

/// The rows of the best last one, from the eave up.
fn traced(all: &[Vec<Best>]) -> Vec<usize> {
    let Some(last) = all.last() else { return Vec::new() };
    let mut index = (0..last.len()).min_by_key(|&best| last[best].cost).unwrap_or_default();
    let mut chosen: Vec<usize> = Vec::with_capacity(all.len());
    for best in all.iter().rev() {
        chosen.push(best[index].last[1]);
        index = best[index].from;
    }
    chosen.reverse();
    chosen
}
