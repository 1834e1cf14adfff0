use std::borrow::Cow;
use std::cell::OnceCell;
use std::ops::Range;

use covering::{Covering, GradedLength};
use roof::{Place, Plane, Roof};
use units::Length;

use crate::bevel::Blank;
use crate::bond::{Bond, NIL};
use crate::courses::{CourseLines, Shared, Slope, set_out};
use crate::cut::{Cuts, Edging, NIL_AREA, area, sides};
use crate::fan::{self, Fan};
use crate::legal::{Rules, faults};
use crate::mix::Mix;
use crate::nailing::{Nailing, unnailed};
use crate::outline::{laid, weathered};
use crate::piece::{Left, keep_left, left_in_columns, left_of};
use crate::random;
use crate::resplit::resplit;
use crate::set_out::mark_out;
use crate::start::start;
use crate::starters::{LowEdge, height, low_edges, starters};
use crate::strip::{Strip, strips};
use crate::{Course, Cut, Fault, Finding, Hanging, LaidPlane, Layout, Run, SettingOut, UnitKind, as_set_out};

/// Lays every plane that has a covering, with courses that meet at hips and valleys where that is asked for.
pub fn lay_roof<'a>(roof: &Roof, covering_of: impl Fn(&Plane) -> Option<&'a Covering>, setting_out: &SettingOut) -> Layout {
    let planes = roof.planes.iter().enumerate();
    let covered = planes.filter_map(|(index, plane)| Some((index, plane, covering_of(plane)?)));
    let chosen: Vec<_> = covered.map(|(index, plane, covering)| (index, plane, as_set_out(covering, setting_out))).collect();
    let outlined: Vec<(usize, &Plane, &Covering, _)> =
        chosen.iter().map(|(index, plane, covering)| (*index, *plane, covering.as_ref(), laid(plane, covering))).collect();
    let slopes =
        outlined.iter().filter_map(|(index, plane, covering, outline)| Some((*index, Slope::of(plane, covering, outline)?)));
    let Shared { mut lines, matched, unmatched } = set_out(roof, &slopes.collect(), setting_out);
    let lay =
        |(index, plane, covering, outline)| lay_lines(index, plane, covering, outline, lines.remove(&index), setting_out);
    Layout { planes: outlined.into_iter().map(lay).collect(), matched, unmatched }
}

/// Lays one plane by itself: course lines, start offset, pieces, cuts, starters, and findings for what could not be cured.
/// A plane outside the sheet's pitches is laid at the shortest exposure that the sheet knows. A plane without area, or
/// a sheet whose unit has no size, gives no courses.
#[must_use]
pub fn lay(plane_index: usize, plane: &Plane, covering: &Covering, setting_out: &SettingOut) -> LaidPlane {
    let covering = &as_set_out(covering, setting_out);
    let outline = laid(plane, covering);
    let lines = Slope::of(plane, covering, &outline).map(|slope| slope.alone(setting_out));
    lay_lines(plane_index, plane, covering, outline, lines, setting_out)
}

fn lay_lines(
    plane_index: usize,
    plane: &Plane,
    covering: &Covering,
    outline: Vec<Vec<Place>>,
    lines: Option<CourseLines>,
    setting_out: &SettingOut,
) -> LaidPlane {
    let (Some(lines), Some(bond)) = (lines, Bond::of(covering)) else { return bare(plane_index, covering, outline) };
    let narrows = setting_out.tapered.contains(&plane.block);
    let fan = narrows.then(|| Fan::of(plane, [bond.width, covering.least_piece.to_inches()], &lines));
    let mut laid = Setting::new(plane, covering, outline, lines.clone(), bond, fan.flatten()).lay(plane_index);
    if narrows && laid.peak.is_none() {
        laid.findings.push(Finding { fault: Fault::NotTapered, course: 0, at: [0.0, laid.first_butt] });
    }
    mark_out(laid, plane, covering, &lines, setting_out)
}

fn bare(plane: usize, covering: &Covering, laid: Vec<Vec<Place>>) -> LaidPlane {
    let nailing = Nailing::of(covering);
    let units = units(covering);
    let nails = units.iter().map(|unit| nailing.map_or_else(Vec::new, |nailing| nailing.whole(unit.width, unit.length)));
    LaidPlane { plane, laid, nails: nails.collect(), units, ..LaidPlane::default() }
}

/// Of each length, from the longest down: the field unit or the widths of the mix from the narrowest up, then the wide unit where
/// the sheet has one that is wider.
fn units(covering: &Covering) -> Vec<UnitKind> {
    let widths = Mix::of(covering).map_or_else(|| vec![covering.unit.width.to_inches()], |mix| mix.widths);
    let widest = widths.last().copied().unwrap_or_default();
    let wide = covering.wide.map(|wide| wide.width.to_inches()).filter(|&width| width > widest);
    let of_length = |graded: GradedLength| {
        let [length, thickness] = [graded.length, graded.thickness].map(Length::to_inches);
        let kind = move |width, wide| UnitKind { length, width, thickness, wide };
        let field = widths.iter().map(move |&width| kind(width, false));
        field.chain(wide.map(|width| kind(width, true)))
    };
    covering.grades().into_iter().flat_map(of_length).collect()
}

/// All that is settled before the first piece is laid.
pub(crate) struct Setting<'a> {
    pub(crate) covering: &'a Covering,
    pub(crate) outline: Vec<Vec<Place>>,
    pub(crate) rules: Rules,
    /// Of the first course.
    pub(crate) bond: Bond,
    /// One for every course.
    pub(crate) strips: Vec<Strip>,
    pub(crate) edging: Edging<'a>,
    pub(crate) units: Vec<UnitKind>,
    /// How far every other unit of a course hangs, the first course's none.
    pub(crate) step: f64,
    /// Random widths, where the bond is of these.
    mix: Option<Mix>,
    /// Where units narrow towards a peak.
    fan: Option<Fan>,
    plane: &'a Plane,
    weathered: OnceCell<Vec<Vec<Place>>>,
    lines: CourseLines,
    /// With the height of the starters along each.
    low_edges: Vec<(LowEdge, f64)>,
}

impl<'a> Setting<'a> {
    fn new(
        plane: &'a Plane,
        covering: &'a Covering,
        outline: Vec<Vec<Place>>,
        lines: CourseLines,
        bond: Bond,
        fan: Option<Fan>,
    ) -> Self {
        let rules = Rules::of(covering);
        let step = covering.bonds.step.filter(|_| fan.is_none()).unwrap_or_default().to_inches();
        let hangs = |course: usize| if course == 0 { 0.0 } else { step };
        let bands = lines.butts.iter().enumerate();
        let bands = bands.map(|(course, &butt)| [butt - hangs(course), butt + lines.length(course)]);
        let strips = strips(&outline, &bands.collect::<Vec<_>>());
        let mix = Mix::of(covering).filter(|_| fan.is_none());
        let origin = if mix.is_some() || fan.is_some() { 0.0 } else { start(&strips, &bond, &rules) };
        let bond = bond.at(origin, 0);
        let starters_of = |edge: LowEdge| {
            let above = lines.course_at(edge.v);
            (edge, height(covering, lines.shows(above), lines.length(above)))
        };
        let low_edges = low_edges(plane, covering, &outline).into_iter().map(starters_of).collect();
        let edging = Edging::of(plane, covering, &outline);
        let units = bare(0, covering, Vec::new()).units;
        let weathered = OnceCell::new();
        Self { edging, units, mix, fan, step, plane, weathered, covering, outline, rules, bond, strips, lines, low_edges }
    }

    fn lay(self, plane: usize) -> LaidPlane {
        let mut cuts = Cuts::new(&self.edging);
        let mut mix = self.mix.clone();
        let courses = match (&self.fan, &mut mix) {
            (Some(fan), _) => fan::courses(&self, fan, &mut cuts),
            (None, Some(mix)) => random::courses(&self, mix, &mut cuts),
            (None, None) => self.even_courses(&mut cuts),
        };
        let cut_area = self.cut_area(&courses, &cuts.shapes);
        let mut laid = LaidPlane {
            first_butt: self.lines.first(),
            top: self.lines.top,
            step: self.step,
            peak: self.fan.map(|fan| fan.peak),
            courses,
            cuts: cuts.shapes,
            cut_area,
            ..bare(plane, self.covering, Vec::new())
        };
        let edges = self.low_edges.iter();
        laid.starters = edges.flat_map(|&(edge, height)| starters(&laid, self.covering, edge, height)).collect();
        laid.findings = self.short_top().into_iter().chain(faults(&laid, self.covering)).collect();
        laid.findings.extend(unnailed(&laid, &self.rules, &self.edging));
        let off_the_mix = mix.iter().flat_map(|mix| mix.faults(self.covering));
        laid.findings.extend(off_the_mix.map(|fault| Finding { fault, course: 0, at: [0.0, laid.first_butt] }));
        laid.laid = self.outline;
        laid
    }

    fn even_courses(&self, cuts: &mut Cuts<'_>) -> Vec<Course> {
        let mut courses: Vec<Course> = (0..self.lines.count()).map(|course| self.course(course, cuts)).collect();
        resplit(self, &mut courses, cuts);
        courses
    }

    fn cut_area(&self, courses: &[Course], cuts: &[Cut]) -> f64 {
        let runs = courses.iter().flat_map(|course| &course.runs);
        let field = runs.filter(|run| self.units.get(run.unit as usize).is_none_or(|unit| !unit.wide));
        field.filter_map(|run| cuts.get(run.cut? as usize).map(|cut| f64::from(run.count) * cut.area)).sum()
    }

    /// From butt to head of a course's units.
    pub(crate) fn length(&self, course: usize) -> f64 {
        self.lines.length(course)
    }

    /// The kinds of units that are as long as a course's, and the number of the first of them.
    pub(crate) fn kinds(&self, course: usize) -> (u32, &[UnitKind]) {
        let length = self.length(course);
        let mut lengths = self.units.chunk_by(|a, b| (a.length - b.length).abs() < NIL);
        let is_it = |kinds: &&[UnitKind]| kinds.iter().any(|unit| (unit.length - length).abs() < NIL);
        let first = self.units.iter().position(|unit| (unit.length - length).abs() < NIL).unwrap_or_default();
        (first as u32, lengths.find(is_it).unwrap_or_default())
    }

    /// The number of the wide unit that is as long as a course's, where the sheet has one.
    pub(crate) fn wide(&self, course: usize) -> Option<u32> {
        let (first, kinds) = self.kinds(course);
        kinds.iter().position(|unit| unit.wide).map(|wide| first + wide as u32)
    }

    /// What a course shows.
    pub(crate) fn shows(&self, course: usize) -> f64 {
        self.lines.shows(course)
    }

    /// What rain and people see; asked for only where something may lie beyond it.
    pub(crate) fn weathered(&self) -> &Vec<Vec<Place>> {
        self.weathered.get_or_init(|| weathered(self.plane, self.covering))
    }

    /// A course with every joint where the bond puts it.
    fn course(&self, course: usize, cuts: &mut Cuts<'_>) -> Course {
        let strip = &self.strips[course];
        let bond = self.bond.at(self.bond.origin, course as u32);
        let row = Row { bond, unit: self.kinds(course).0, runs: Vec::new(), next: i64::MIN };
        let lines = [self.line(course, false), self.line(course, true)];
        let shared = self.shared_strip(course);
        let mut laying = Laying { setting: self, course, shared, lines, hanging: self.hanging(course), row };
        let mut next = i64::MIN;
        for touched in &strip.touched {
            let bond = laying.row.bond;
            let [first, last] = [bond.first_past(touched.from).max(next), bond.last_before(touched.to)];
            if !touched.laid_before.is_empty() && next < first {
                laying.columns(next..first, &touched.laid_before, cuts);
            }
            for cell in first..=last {
                laying.cell(cell, cuts);
            }
            next = first.max(last + 1);
        }
        self.laid_course(course, laying.row.runs)
    }

    /// A course with its units.
    pub(crate) fn laid_course(&self, course: usize, runs: Vec<Run>) -> Course {
        Course { butt: self.lines.butts[course], exposure: self.shows(course), length: self.length(course), runs }
    }

    /// Whether every other unit of a course hangs.
    fn hanging(&self, course: usize) -> bool {
        self.step > NIL && course > 0
    }

    /// The strip of a course's units that hang, or of those that do not.
    pub(crate) fn line(&self, course: usize, hangs: bool) -> Cow<'_, Strip> {
        let strip = &self.strips[course];
        if !self.hanging(course) {
            return Cow::Borrowed(strip);
        }
        let down = if hangs { self.step } else { 0.0 };
        Cow::Owned(strip.of_unit(self.lines.butts[course] - down, self.length(course)))
    }

    /// The strip that neighbours reach together, whether one hangs or not.
    pub(crate) fn shared_strip(&self, course: usize) -> Cow<'_, Strip> {
        let strip = &self.strips[course];
        if !self.hanging(course) {
            return Cow::Borrowed(strip);
        }
        Cow::Owned(strip.of_unit(self.lines.butts[course], self.length(course) - self.step))
    }

    /// A unit that would only reach up behind the first course over a higher low edge is not laid: nothing of it is
    /// weathered, and the starters there take its place. Units in columns all alike share the edge, so one stands for all.
    pub(crate) fn unless_starter(&self, left: Left, corner: Place, shows: f64) -> Left {
        let parts = match &left {
            Left::Part(cut) if cut.parts.iter().flatten().all(|&[_, v]| v > shows - NIL) => &cut.parts,
            _ => return left,
        };
        let behind: f64 = self.low_edges.iter().map(|starters| behind_starters(parts, corner, starters)).sum();
        if behind > parts.iter().map(|part| area(part)).sum::<f64>() - NIL_AREA { Left::Nothing } else { left }
    }

    fn short_top(&self) -> Option<Finding> {
        let is = Length::inches(self.lines.short_top()?);
        let course = self.strips.len() - 1;
        let strip = &self.strips[course];
        let at = [strip.touched.first().map_or(0.0, |touched| touched.from), self.lines.butts[course]];
        Some(Finding { fault: Fault::ShortTopCourse { is, least: Length::inches(self.lines.least) }, course, at })
    }
}

/// Area of a piece that the starters of one edge, so high, cover.
fn behind_starters(parts: &[Vec<Place>], [u, v]: Place, &(edge, height): &(LowEdge, f64)) -> f64 {
    let [low, high] = [edge.v - v, edge.v - v + height];
    let starters = [[edge.from - u, low], [edge.to - u, low], [edge.to - u, high], [edge.from - u, high]];
    let covered = |part: &Vec<Place>| sides(&starters).fold(part.clone(), |kept, side| keep_left(&kept, side));
    parts.iter().map(|part| area(&covered(part))).sum()
}

/// A course of one width, cell by cell.
struct Laying<'a, 'b> {
    setting: &'a Setting<'b>,
    course: usize,
    /// That neighbours reach together.
    shared: Cow<'a, Strip>,
    /// Of the units that do not hang, and of those that do.
    lines: [Cow<'a, Strip>; 2],
    hanging: bool,
    row: Row,
}

impl Laying<'_, '_> {
    /// Odd cells hang, and even ones in every other pair of courses, so that those that hang do not stand in columns.
    fn hangs(&self, cell: i64) -> bool {
        self.hanging && (cell + self.course as i64 / 2).rem_euclid(2) == 1
    }

    fn hangings(&self, first: i64) -> Hanging {
        if self.hanging { Hanging::from(self.hangs(first)) } else { Hanging::None }
    }

    fn cell(&mut self, cell: i64, cuts: &mut Cuts<'_>) {
        let (left, unit) = (self.row.bond.left(cell), self.row.bond.width);
        let line = &self.lines[usize::from(self.hangs(cell))];
        let kept = left_of(&self.setting.outline, line, [left, left + unit], unit);
        self.put(cell..cell + 1, kept, cuts);
    }

    /// Columns that are all alike.
    fn columns(&mut self, cells: Range<i64>, laid: &[[f64; 2]], cuts: &mut Cuts<'_>) {
        let unit = self.row.bond.width;
        let kept = |line: &Strip| {
            let within = laid.iter().map(|[low, high]| [low.max(line.butt), high.min(line.head)]);
            left_in_columns(&within.filter(|[low, high]| high - low > NIL).collect::<Vec<_>>(), line, unit, unit)
        };
        let first = usize::from(self.hangs(cells.start));
        let both = [kept(&self.lines[first]), kept(&self.lines[1 - first])];
        if !self.hanging || both.iter().all(|kept| *kept == Left::All) {
            let [kept, _] = both;
            return self.put(cells, kept, cuts);
        }
        for (cell, kept) in cells.zip(both.iter().cycle()) {
            self.put(cell..cell + 1, kept.clone(), cuts);
        }
    }

    fn put(&mut self, cells: Range<i64>, kept: Left, cuts: &mut Cuts<'_>) {
        let line = &self.lines[usize::from(self.hangs(cells.start))];
        let shows = self.setting.lines.butts[self.course] + self.setting.shows(self.course) - line.butt;
        let kept = self.setting.unless_starter(kept, [self.row.bond.left(cells.start), line.butt], shows);
        let hangings = self.hangings(cells.start);
        self.row.place([&self.shared, line], cells, kept, hangings, cuts);
    }
}

/// A course as it grows from left to right.
struct Row {
    bond: Bond,
    /// The kind of its units.
    unit: u32,
    runs: Vec<Run>,
    /// The cell after the last one laid.
    next: i64,
}

impl Row {
    fn blank(&self, strip: &Strip, cell: i64) -> Blank {
        let width = self.bond.width;
        Blank {
            corner: [self.bond.left(cell), strip.butt],
            width,
            height: strip.head - strip.butt,
            unit: width,
            ..Blank::default()
        }
    }

    /// Units in cells, in the strip of their own line; joints are where neighbours lie side by side in the shared one.
    fn place(&mut self, [shared, line]: [&Strip; 2], cells: Range<i64>, left: Left, hangs: Hanging, cuts: &mut Cuts<'_>) {
        let cut = match left {
            Left::Nothing => return,
            Left::All => None,
            Left::Part(cut) => Some(cuts.number(cut, &self.blank(line, cells.start))),
        };
        let joint_before = self.next == cells.start
            && shared.joins([self.bond.left(cells.start) - self.bond.gap, self.bond.left(cells.start)]);
        let count = (cells.end - cells.start) as u32;
        self.next = cells.end;
        let follows = |run: &&mut Run| run.cut == cut && run.hangs.without(run.count) == hangs;
        match self.runs.last_mut().filter(|_| joint_before).filter(follows) {
            Some(run) => run.count += count,
            None => self.runs.push(Run {
                left: self.bond.left(cells.start),
                width: self.bond.width,
                step: self.bond.step(),
                count,
                unit: self.unit,
                cut,
                joint_before,
                hangs,
            }),
        }
    }
}
