use covering::Covering;
use roof::{Place, Plane};
use units::Pitch;

use super::ROUNDING;
use super::grade::{Grade, by_course, grades};
use super::limits::Limits;
use super::solve::{Courses, Wanted, solve};
use super::station::{STRIP, Station, StationSide, stations};
use super::top::top;
use crate::SettingOut;
use crate::bond::NIL;

/// What a plane and its sheet ask of course lines, v in inches.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Slope {
    /// The first butts.
    pub(crate) first: f64,
    /// The top line.
    pub(crate) top: f64,
    /// Exposures that the sheet allows.
    pub(crate) limits: Limits,
    /// Heights between at which a line should land.
    pub(crate) stations: Vec<Station>,
    /// Of the plane.
    pub(crate) pitch: Pitch,
    /// Inches of rise for an inch up the slope.
    pub(crate) rise: f64,
    /// Height of v = 0 above the job's datum; `None` where only the shape is known.
    pub(crate) foot: Option<f64>,
    /// Pieces in a course of mean width, about.
    pub(crate) pieces_a_course: f64,
    /// The lengths of its units, from the longest, lowest, up.
    pub(crate) grades: Vec<Grade>,
}

/// The course lines of a plane, v in inches.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct CourseLines {
    /// Of every course from the lowest up; at least one.
    pub(crate) butts: Vec<f64>,
    /// Of the units of every course.
    pub(crate) grades: Vec<Grade>,
    /// The top line.
    pub(crate) top: f64,
    /// The least exposure that the sheet prefers.
    pub(crate) least: f64,
    /// Heights at which a line should land, and what came of them.
    pub(crate) stations: Vec<Station>,
}

impl Slope {
    /// `None` where there is nothing to lay or the sheet's exposures are no numbers to lay by.
    pub(crate) fn of(plane: &Plane, covering: &Covering, laid: &[Vec<Place>]) -> Option<Self> {
        let first = laid.iter().flatten().map(|&[_, v]| v).reduce(f64::min)?;
        let top = top(plane, covering)?;
        let limits = Limits::of(covering, plane.pitch)?;
        let mut stations = stations(plane, covering);
        stations.retain(|station| station.v > first + NIL && station.v < top - NIL);
        let rise = plane.pitch.rise() / 12.0 / plane.pitch.slope_factor();
        let foot = plane.has_place().then_some(plane.frame.origin[2]);
        let mean_width = plane.area().to_square_inches() / (top - first).max(NIL);
        let pieces_a_course = mean_width / (covering.unit.width + covering.gap).to_inches().max(NIL);
        let (pitch, grades) = (plane.pitch, grades(covering));
        Some(Self { first, top, limits, stations, pitch, rise, foot, pieces_a_course, grades })
    }

    /// The grade of units so long.
    pub(crate) fn grade(&self, length: f64) -> Grade {
        let is_it = |grade: &&Grade| (grade.length - length).abs() < NIL;
        self.grades.iter().find(is_it).or(self.grades.first()).copied().unwrap_or_default()
    }

    /// Height of a line.
    pub(crate) fn height(&self, v: f64) -> f64 {
        self.foot.unwrap_or(0.0) + v * self.rise
    }

    /// The fewest courses, none of which shows more than this.
    pub(crate) fn fewest(&self, exposure: f64) -> usize {
        ((self.top - self.first) / exposure * (1.0 - ROUNDING)).ceil().max(1.0) as usize
    }

    /// About how many pieces so many courses take.
    pub(crate) fn pieces(&self, courses: usize) -> f64 {
        self.pieces_a_course * courses as f64
    }

    /// The course lines of this plane at these heights, ascending, each with the units of the course over it. A height `near`
    /// the first butts or the top line, inches on the slope, is taken for it.
    pub(crate) fn at_heights(&self, heights: &[(f64, Grade)], near: f64, setting_out: &SettingOut) -> CourseLines {
        let v = |height: f64| (height - self.foot.unwrap_or(0.0)) / self.rise;
        let lines = || heights.iter().map(|&(height, grade)| (v(height), grade));
        let first = lines().take_while(|&(line, _)| line <= self.first + near).last().map(|(_, grade)| grade);
        let first = first.or_else(|| self.grades.first().copied()).map(|grade| (self.first, grade));
        let within = lines().filter(|&(line, _)| line > self.first + near && line < self.top - near);
        let (butts, grades) = first.into_iter().chain(within).unzip();
        self.lines(butts, grades, setting_out)
    }

    /// The course lines of this plane by itself.
    pub(crate) fn alone(&self, setting_out: &SettingOut) -> CourseLines {
        let height = self.top - self.first;
        let mut grades = by_course(&self.grades, height, self.limits.greatest, 1.0);
        let is_graduated = self.grades.len() > 1;
        let asked = Courses {
            height,
            least: self.limits.least,
            greatest: self.limits.greatest,
            step: setting_out.tape_step.to_inches(),
            sight: setting_out.sight_limit.to_inches(),
            wanted: self.stations.iter().map(|station| self.wanted(station)).collect(),
            shorter: grades.iter().filter(|_| is_graduated).map(|grade| grade.shorter).collect(),
        };
        let butts: Vec<f64> = solve(&asked).into_iter().map(|line| self.first + line).collect();
        // The solver settles the count where all units have one length.
        let own = grades.last().copied();
        grades.resize_with(butts.len(), || own.unwrap_or_default());
        self.lines(butts, grades, setting_out)
    }

    /// A station with what it costs not to meet it.
    pub(crate) fn wanted(&self, station: &Station) -> Wanted {
        let miss = station.weight();
        Wanted {
            height: station.v - self.first,
            is_above: station.side == StationSide::Above,
            miss,
            least_strip: self.limits.least / 2.0,
            strip: if station.leaves_strips() { miss * STRIP } else { miss },
        }
    }

    /// These butts as this plane's lines, each with the units of the course over it.
    pub(crate) fn lines(&self, butts: Vec<f64>, grades: Vec<Grade>, setting_out: &SettingOut) -> CourseLines {
        let half_step = setting_out.tape_step.to_inches() / 2.0 * (1.0 + ROUNDING);
        let seen = |station: &Station| Station { shows: strip(station, &butts, self.top, half_step), ..*station };
        let stations = self.stations.iter().map(seen).collect();
        CourseLines { butts, grades, top: self.top, least: self.limits.least, stations }
    }
}

/// What is left of the course that a station ends; `None` where a line lands there.
fn strip(station: &Station, butts: &[f64], top: f64, half_step: f64) -> Option<f64> {
    let under = butts.iter().rev().find(|&&butt| butt <= station.v).map_or(station.v, |butt| station.v - butt);
    let over = butts.iter().find(|&&butt| butt > station.v).copied().unwrap_or(top) - station.v;
    let shows = if station.side == StationSide::Above { over } else { under };
    (under.min(over) > half_step).then_some(shows)
}

impl CourseLines {
    /// v of the first butts.
    pub(crate) fn first(&self) -> f64 {
        self.butts.first().copied().unwrap_or(self.top)
    }

    /// How many courses.
    pub(crate) fn count(&self) -> usize {
        self.butts.len()
    }

    /// What a course shows: to the next line, or to the top.
    pub(crate) fn shows(&self, course: usize) -> f64 {
        let next = self.butts.get(course + 1).copied().unwrap_or(self.top);
        (next - self.butts[course]).max(0.0)
    }

    /// What a course halfway up shows.
    pub(crate) fn middle(&self) -> f64 {
        self.shows(self.count() / 2)
    }

    /// From butt to head of a course's units.
    pub(crate) fn length(&self, course: usize) -> f64 {
        self.grades.get(course).map_or(0.0, |grade| grade.length)
    }

    /// What a course would show if it were of the sheet's own unit.
    pub(crate) fn shows_as_own(&self, course: usize) -> f64 {
        self.shows(course) + self.grades.get(course).map_or(0.0, |grade| grade.shorter)
    }

    /// The course whose butts lie at a height or next below it.
    pub(crate) fn course_at(&self, v: f64) -> usize {
        self.butts.iter().take_while(|&&butt| butt < v + NIL).count().saturating_sub(1)
    }

    /// What the last course shows, where that is less than the least exposure.
    pub(crate) fn short_top(&self) -> Option<f64> {
        let top = self.count() - 1;
        (self.shows_as_own(top) < self.least * (1.0 - ROUNDING)).then(|| self.shows(top))
    }
}
