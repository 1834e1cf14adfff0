//! The rest of a plane, spread anew from where its courses lie on the roof.

use covering::Covering;
use roof::{Plane, Roof};

use crate::bond::NIL;
use crate::courses::{CourseLines, Courses, Limit, ROUNDING, Rest, Slope, Wanted};
use crate::relay_neighbour::{Neighbour, neighbours};
use crate::set_out::MOST_IN_10_FT;
use crate::square::Square;
use crate::{LaidPlane, Layout, Mark, Pole, SettingOut, Station};

/// Where a course lies on the roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Index in `roof.planes`.
    pub plane: usize,
    /// Counted from 0 at the eave.
    pub course: usize,
    /// From the pole's zero, the first butts as planned, to its butts at the left and the right end, inches.
    pub ends: [f64; 2],
}

/// A plane that was measured while it is laid.
#[derive(Debug, Clone, PartialEq)]
pub struct Relaid {
    /// Index in `roof.planes`.
    pub plane: usize,
    /// The highest course that was read, counted from 0.
    pub course: usize,
    /// u of its left and its right end.
    pub ends: [f64; 2],
    /// Where it lies by the plan, left and right.
    pub planned: [f64; 2],
    /// What is laid, reading by reading from the lowest up.
    pub laid: Vec<Checked>,
    /// The greatest exposure that the sheet allows there.
    pub greatest: f64,
    /// From butt to head of that course's units.
    pub length: f64,
    /// How far its line runs out of parallel with the eave in 10 ft, where that is seen, inches.
    pub out_of_parallel: Option<f64>,
    /// A course whose mark lies nearer to what was read than its own.
    pub nearer: Option<usize>,
    /// The courses above.
    pub outcome: Result<Spread, Box<NoRoom>>,
}

/// The courses between two readings, or between the first butts and the lowest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Checked {
    /// The course that was read, counted from 0.
    pub course: usize,
    /// From the pole's zero, left and right, inches.
    pub read: [f64; 2],
    /// How much higher than planned, left and right, inches.
    pub drift: [f64; 2],
    /// What the courses since the reading before show on the mean; `None` for the first course.
    pub shows: Option<[f64; 2]>,
}

/// Courses that reach the top line within all limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// The course lies on its marks at both ends, and all stays as planned.
    pub as_planned: bool,
    /// From the pole's zero, left and right, of the course that was read and of each one above it.
    pub butts: Vec<[f64; 2]>,
    /// Of the top line, left and right.
    pub top: [f64; 2],
    /// Courses more than planned.
    pub more: i64,
    /// About how many pieces more.
    pub pieces: i64,
    /// How much lower, and how much higher, the course could lie at its worse end before so many courses no longer do.
    pub room: [f64; 2],
    /// Fixed heights above, at which a line lands by the plan and now does not.
    pub missed: Vec<Station>,
    /// The plan's poles with the new marks of the courses above.
    pub poles: Vec<Pole>,
    /// Planes beyond hips and valleys whose courses met those of this one by the plan.
    pub neighbours: Vec<Neighbour>,
}

/// Left or right, seen facing the plane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The left end.
    Left,
    /// The right end.
    Right,
}

/// Why no number of courses fits, and what can be done.
#[derive(Debug, Clone, PartialEq)]
pub struct NoRoom {
    /// From the butts of the course that was read to the top line, left and right.
    pub heights: [f64; 2],
    /// The most courses that do not reach, and one more.
    pub in_the_way: Vec<InTheWay>,
    /// What can be done.
    pub ways: Vec<Way>,
}

/// What stands in the way of a number of courses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InTheWay {
    /// Of the course that was read and those above.
    pub courses: usize,
    /// Where it is worst.
    pub end: End,
    /// Which limit, and by how much.
    pub limit: Limit,
}

/// A way out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Way {
    /// Take up courses down to this one, counted from 0, and spread anew from its butts.
    TakeUp {
        /// The lowest course that is taken up.
        from: usize,
    },
    /// Let caps or aprons cover so many inches more.
    CoverMore {
        /// Inches.
        by: f64,
    },
    /// So many courses, of which the top one shows less than the least, under its cap or apron.
    ShortTop {
        /// Of the course that was read and those above.
        courses: usize,
        /// What the top one shows at its lower end, inches.
        shows: f64,
    },
    /// Change exposures by as much from course to course; it is seen.
    SeenChange {
        /// Inches.
        limit: f64,
    },
}

/// What re-spreading needs to know.
#[derive(Clone, Copy)]
pub struct Relaying<'a> {
    /// Planes and lines.
    pub roof: &'a Roof,
    /// As planned.
    pub layout: &'a Layout,
    /// How it was set out.
    pub setting_out: &'a SettingOut,
}

/// Spreads the courses above a reading anew. All readings are of one plane, each of another course from the lowest up, and
/// lie one above the other. `None` if nothing is laid there.
pub fn relay<'a>(
    relaying: Relaying<'a>,
    covering_of: impl Fn(&Plane) -> Option<&'a Covering>,
    readings: &[Reading],
) -> Option<Relaid> {
    let highest = readings.last()?;
    let plane = relaying.roof.planes.get(highest.plane)?;
    let laid = relaying.layout.planes.iter().find(|laid| laid.plane == highest.plane)?;
    let ends = ends(laid, highest.course)?;
    let work = Work::new(plane, covering_of(plane)?, laid, relaying.setting_out, ends)?;
    let length = laid.courses.get(highest.course)?.length;
    let as_laid = work.as_laid(readings);
    let outcome = work.outcome(&as_laid, highest).map(|spread| {
        let neighbours = neighbours(relaying, &covering_of, highest, &work.planned_and_new(&spread));
        Spread { poles: work.poles(highest, &spread), neighbours, ..spread }
    });
    Some(Relaid {
        plane: highest.plane,
        course: highest.course,
        ends,
        planned: work.planned(highest.course),
        laid: work.checked(readings),
        greatest: work.slope.limits.greatest - work.slope.grade(length).shorter,
        length,
        out_of_parallel: work.out_of_parallel(highest),
        nearer: work.nearer(highest),
        outcome: outcome.map_err(Box::new),
    })
}

/// u of the outer ends of a course.
fn ends(laid: &LaidPlane, course: usize) -> Option<[f64; 2]> {
    let spans = laid.courses.get(course)?.spans(&laid.cuts);
    Some([spans.first()?[0], spans.last()?[1]])
}

/// A plane with its planned lines, measured from the pole's zero.
struct Work<'a> {
    covering: &'a Covering,
    laid: &'a LaidPlane,
    setting_out: &'a SettingOut,
    slope: Slope,
    square: Square,
    ends: [f64; 2],
}

impl<'a> Work<'a> {
    fn new(
        plane: &Plane,
        covering: &'a Covering,
        laid: &'a LaidPlane,
        setting_out: &'a SettingOut,
        ends: [f64; 2],
    ) -> Option<Self> {
        let slope = Slope::of(plane, covering, &laid.laid)?;
        let butts = laid.courses.iter().map(|course| course.butt).collect();
        let grades = laid.courses.iter().map(|course| slope.grade(course.length)).collect();
        let lines = CourseLines { butts, grades, top: laid.top, least: slope.limits.least, stations: laid.stations.clone() };
        let square = Square::of(plane, covering, &lines);
        Some(Self { covering, laid, setting_out, slope, square, ends })
    }

    fn running(&self, v: f64) -> [f64; 2] {
        self.ends.map(|u| (v - self.laid.first_butt) * self.square.share(u))
    }

    fn planned(&self, course: usize) -> [f64; 2] {
        self.running(self.laid.courses[course].butt)
    }

    fn top(&self) -> [f64; 2] {
        self.running(self.laid.top)
    }

    fn step(&self) -> f64 {
        self.setting_out.tape_step.to_inches()
    }

    fn on_tape(&self, running: f64) -> f64 {
        libm::round(running / self.step()) * self.step()
    }

    /// Of every course up to the highest that was read; between two readings they were laid with even drift.
    fn as_laid(&self, readings: &[Reading]) -> Vec<[f64; 2]> {
        let mut laid = vec![[0.0; 2]];
        let mut before = ([0.0; 2], 0);
        for reading in readings {
            let planned = self.planned(reading.course);
            let drift = [0, 1].map(|end| reading.ends[end] - planned[end]);
            for course in before.1 + 1..=reading.course {
                let part = (course - before.1) as f64 / (reading.course - before.1) as f64;
                let planned = self.planned(course);
                laid.push([0, 1].map(|end| planned[end] + before.0[end] + part * (drift[end] - before.0[end])));
            }
            laid[reading.course] = reading.ends;
            before = (drift, reading.course);
        }
        laid
    }

    fn checked(&self, readings: &[Reading]) -> Vec<Checked> {
        let start = Reading { plane: 0, course: 0, ends: [0.0; 2] };
        let befores = std::iter::once(&start).chain(readings);
        let checked = befores.zip(readings).map(|(before, reading)| {
            let planned = self.planned(reading.course);
            let courses = reading.course - before.course;
            let mean = [0, 1].map(|end| (reading.ends[end] - before.ends[end]) / courses.max(1) as f64);
            Checked {
                course: reading.course,
                read: reading.ends,
                drift: [0, 1].map(|end| reading.ends[end] - planned[end]),
                shows: (courses > 0).then_some(mean),
            }
        });
        checked.collect()
    }

    fn out_of_parallel(&self, reading: &Reading) -> Option<f64> {
        let in_10_ft = (reading.ends[1] - reading.ends[0]).abs() / (self.ends[1] - self.ends[0]).max(NIL) * 120.0;
        (in_10_ft > MOST_IN_10_FT.to_inches()).then_some(in_10_ft)
    }

    fn nearer(&self, reading: &Reading) -> Option<usize> {
        let off = |course: usize| {
            let planned = self.planned(course);
            (0..2).map(|end| (planned[end] - reading.ends[end]).abs()).sum::<f64>()
        };
        let nearest = (0..self.laid.courses.len()).min_by(|&a, &b| off(a).total_cmp(&off(b)))?;
        (off(nearest) < off(reading.course)).then_some(nearest)
    }

    fn outcome(&self, as_laid: &[[f64; 2]], reading: &Reading) -> Result<Spread, NoRoom> {
        let planned = self.planned(reading.course);
        let as_planned = [0, 1]
            .iter()
            .all(|&end| (self.on_tape(planned[end]) - self.on_tape(reading.ends[end])).abs() < self.step() / 2.0);
        let rests = self.rests(as_laid, self.setting_out.sight_limit.to_inches(), false);
        let left = self.laid.courses.len() - reading.course;
        if as_planned {
            let butts = (reading.course..self.laid.courses.len()).map(|course| self.planned(course)).collect();
            return Ok(self.spread(&rests, butts, true));
        }
        let found = count(&rests, left).and_then(|count| Some([rests[0].over(count)?, rests[1].over(count)?]));
        let Some([left, right]) = found else { return Err(self.no_room(as_laid, &rests)) };
        let butts = left.iter().zip(right).map(|(left, right)| [reading.ends[0] + left, reading.ends[1] + right]);
        Ok(self.spread(&rests, butts.collect(), false))
    }

    /// What is left above the last of these courses, at the left end and at the right.
    fn rests(&self, as_laid: &[[f64; 2]], sight: f64, free_top: bool) -> [Rest; 2] {
        [0, 1].map(|end| self.rest(as_laid, end, sight, free_top))
    }

    fn rest(&self, as_laid: &[[f64; 2]], end: usize, sight: f64, free_top: bool) -> Rest {
        let course = as_laid.len() - 1;
        let (at, top) = (as_laid[course][end], self.top()[end]);
        let lines: Vec<f64> = (0..self.laid.courses.len()).map(|course| self.planned(course)[end]).collect();
        let shows: Vec<f64> = lines.windows(2).map(|pair| pair[1] - pair[0]).chain([top - lines[lines.len() - 1]]).collect();
        let shorter: Vec<f64> = self.laid.courses.iter().map(|course| self.slope.grade(course.length).shorter).collect();
        // As the sheet's own unit would show: a change of length is no change that is seen.
        let shows: Vec<f64> = shows.iter().zip(&shorter).map(|(shows, shorter)| shows + shorter).collect();
        let limits = self.slope.limits;
        // On the shorter side of a plane out of square the plan itself goes below the least.
        let least = shows[course..shows.len() - 1].iter().copied().fold(limits.least, f64::min);
        let change = |course: usize| (shows[course] - shows[course - 1]).abs();
        let seen = sight * (1.0 + ROUNDING);
        let free = shows.len() - 1 > course && (shows[shows.len() - 1] < least || change(shows.len() - 1) > seen);
        let [low, high] =
            self.lowest(as_laid, end, if course > 0 { change(course).max(sight) } else { f64::INFINITY }, least);
        let stretch = (top - at) / (top - lines[course]).max(NIL);
        Rest {
            asked: Courses {
                height: top - at,
                least: least.min(high),
                greatest: limits.greatest,
                step: self.step(),
                sight,
                wanted: self.wanted(at, top, end),
                shorter: shorter[course..].to_vec(),
            },
            planned: lines[course..].iter().map(|line| (line - lines[course]) * stretch).collect(),
            lowest: [low, high],
            free_top: free_top || free,
        }
    }

    /// The least and the most that the last of these courses may show, as of the sheet's own unit.
    fn lowest(&self, as_laid: &[[f64; 2]], end: usize, change: f64, least: f64) -> [f64; 2] {
        let greatest = self.slope.limits.greatest;
        let course = as_laid.len() - 1;
        let shorter = |course: usize| self.slope.grade(self.laid.courses[course].length).shorter;
        let shown = |below: usize| as_laid[course][end] - as_laid[below][end] + shorter(below);
        let Some(below) = course.checked_sub(1).map(shown) else {
            return [least, greatest];
        };
        let lowest = course.saturating_sub(self.covering.lap.courses() as usize - 1);
        let covered = as_laid[course][end] - as_laid[lowest][end] + self.laid.hangs(lowest);
        let leaves = self
            .covering
            .band(self.slope.pitch)
            .map_or(f64::INFINITY, |band| self.laid.courses[lowest].length - band.headlap.to_inches() - covered);
        let leaves = leaves + shorter(course);
        let usual = below.clamp(least, greatest);
        let high = (usual + change).min(greatest).min(if leaves > 0.0 { leaves } else { f64::INFINITY });
        [(usual - change).max(least).min(high), high]
    }

    fn wanted(&self, at: f64, top: f64, end: usize) -> Vec<Wanted> {
        let share = self.square.share(self.ends[end]);
        let wanted = self.slope.stations.iter().map(|station| {
            let wanted = self.slope.wanted(station);
            Wanted { height: wanted.height * share - at, ..wanted }
        });
        wanted.filter(|wanted| wanted.height > NIL && wanted.height < top - at - NIL).collect()
    }

    fn spread(&self, rests: &[Rest; 2], butts: Vec<[f64; 2]>, as_planned: bool) -> Spread {
        let planned = rests[0].planned.len();
        let room = |end: usize| {
            let of = |rest: &Rest| rest.reach(butts.len()).map_or(0.0, |reach| (reach[end] - rest.asked.height).abs());
            rests.iter().map(of).fold(f64::INFINITY, f64::min)
        };
        Spread {
            as_planned,
            top: self.top(),
            more: butts.len() as i64 - planned as i64,
            pieces: (self.slope.pieces(butts.len()) - self.slope.pieces(planned)).round() as i64,
            room: [room(1), room(0)],
            missed: self.missed(&butts),
            butts,
            poles: Vec::new(),
            neighbours: Vec::new(),
        }
    }

    fn missed(&self, butts: &[[f64; 2]]) -> Vec<Station> {
        let half = self.step() / 2.0 * (1.0 + ROUNDING);
        let is_missed = |station: &&Station| {
            let at = self.running(station.v);
            let is_above = butts.first().is_some_and(|lowest| at[0] > lowest[0] + half);
            is_above && (0..2).any(|end| butts.iter().all(|butt| (butt[end] - at[end]).abs() > half))
        };
        let met = self.laid.stations.iter().filter(|station| station.shows.is_none());
        met.filter(is_missed).copied().collect()
    }

    fn no_room(&self, as_laid: &[[f64; 2]], rests: &[Rest; 2]) -> NoRoom {
        let few = rests.iter().map(Rest::too_few).max().unwrap_or_default();
        let in_the_way = [few, few + 1].into_iter().filter(|&courses| courses > 0).filter_map(|courses| {
            let of = |(rest, end): (&Rest, End)| rest.limit(courses).map(|limit| InTheWay { courses, end, limit });
            let size = |found: &InTheWay| found.limit.by();
            rests.iter().zip([End::Left, End::Right]).filter_map(of).max_by(|a, b| size(a).total_cmp(&size(b)))
        });
        NoRoom {
            heights: [0, 1].map(|end| rests[end].asked.height),
            in_the_way: in_the_way.collect(),
            ways: self.ways(as_laid, rests, few),
        }
    }

    fn ways(&self, as_laid: &[[f64; 2]], rests: &[Rest; 2], few: usize) -> Vec<Way> {
        let sight = self.setting_out.sight_limit.to_inches();
        let from = |as_laid: &[[f64; 2]]| self.laid.courses.len() - (as_laid.len() - 1);
        let holds = |as_laid: &[[f64; 2]], sight: f64| count(&self.rests(as_laid, sight, false), from(as_laid)).is_some();
        let take_up = (1..as_laid.len()).rev().find(|&course| holds(&as_laid[..course], sight));
        let take_up = take_up.map(|from| Way::TakeUp { from });
        let over = |rest: &Rest| rest.reach(few).map_or(0.0, |[_, high]| (rest.asked.height - high).max(0.0));
        let by = rests.iter().map(over).fold(0.0, f64::max);
        let cover = (few > 0 && by < self.slope.limits.least / 2.0).then_some(Way::CoverMore { by });
        let free = self.rests(as_laid, sight, true);
        let tops = |courses: usize| {
            let shows = |rest: &Rest| rest.over(courses).and_then(|lines| Some(rest.asked.height - lines.last()?));
            let shows = shows(&free[0])?.min(shows(&free[1])?);
            free.iter().all(|rest| rest.holds(courses)).then_some(Way::ShortTop { courses, shows })
        };
        let steps = (1..64).map(|steps| sight + f64::from(steps) * self.step());
        let seen = steps.take_while(|limit| *limit <= self.slope.limits.greatest).find(|&limit| holds(as_laid, limit));
        let seen = seen.map(|limit| Way::SeenChange { limit });
        [cover, tops(few + 1), seen, take_up].into_iter().flatten().collect()
    }

    /// The plan's poles with marks of the courses above the reading.
    fn poles(&self, reading: &Reading, spread: &Spread) -> Vec<Pole> {
        let across = (self.ends[1] - self.ends[0]).max(NIL);
        let at = |[left, right]: [f64; 2], u: f64| left + (right - left) * (u - self.ends[0]) / across;
        let last = self.laid.courses.len() - 1;
        let pole = |pole: &Pole| {
            let [lowest, highest] = [pole.marks.first(), pole.marks.last()].map(|mark| mark.map_or(0, |mark| mark.course));
            let above = spread.butts.iter().enumerate().skip(1).map(|(nth, butts)| (reading.course + nth, *butts));
            let passed = above.filter(|&(course, _)| course >= lowest && (course <= highest || highest == last));
            let mark = |(course, butts): (usize, [f64; 2])| {
                let [butt, top] = [at(butts, pole.u), at(spread.top, pole.u)];
                let head =
                    Some(butt + self.length(reading.course, spread.butts.len(), course)).filter(|head| *head <= top + NIL);
                let hang = Some(butt - self.laid.step).filter(|_| self.laid.step > NIL);
                let [hang, head] = [hang, head].map(|mark| mark.map(|mark| self.on_tape(mark)));
                Mark { course, butt: self.on_tape(butt), hang, head }
            };
            Pole { marks: passed.map(mark).collect(), ..pole.clone() }
        };
        self.laid.poles.iter().map(pole).filter(|pole| !pole.marks.is_empty()).collect()
    }

    /// From butt to head of a course's units when so many are laid from the one that was read up: those more are of its length,
    /// those fewer are left out above it.
    fn length(&self, read: usize, count: usize, course: usize) -> f64 {
        let planned = (course + self.laid.courses.len()).checked_sub(read + count).map_or(read, |planned| planned.max(read));
        self.laid.courses[if course == read { read } else { planned }].length
    }

    /// v of each line above the reading at the left and the right end, as it is now spread.
    fn planned_and_new(&self, spread: &Spread) -> Vec<[f64; 2]> {
        let v = |running: f64, end: usize| {
            self.laid.first_butt + running / self.square.share(self.ends[end]).max(f64::MIN_POSITIVE)
        };
        spread.butts.iter().map(|butts| [0, 1].map(|end| v(butts[end], end))).collect()
    }
}

/// The number of courses nearest to the planned one that both ends hold.
fn count(rests: &[Rest; 2], planned: usize) -> Option<usize> {
    let nearest = (0..=planned).flat_map(|off| [planned - off, planned + off]).filter(|&count| count > 0);
    nearest.into_iter().find(|&count| rests.iter().all(|rest| rest.holds(count)))
}
