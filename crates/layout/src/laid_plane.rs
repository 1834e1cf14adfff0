use roof::Place;
use units::Length;

use crate::{Course, Cut, Finding, Guide, Hanging, Joints, Matched, OutOfSquare, Pole, Run, Starters, Station, Unmatched};

/// The units of the whole roof, plane by plane in the roof's order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Layout {
    /// One for every plane that is laid.
    pub planes: Vec<LaidPlane>,
    /// Planes whose courses meet at hips and valleys, where that was asked for.
    pub matched: Vec<Matched>,
    /// Hips and valleys at which they were to meet and cannot.
    pub unmatched: Vec<Unmatched>,
}

/// One plane with its units. All numbers are inches in the plane's own frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LaidPlane {
    /// Index in `roof.planes`.
    pub plane: usize,
    /// v of the first butt: the pole's zero.
    pub first_butt: f64,
    /// v of the top line: ridge less the cap's cover, wall less the apron, and so on.
    pub top: f64,
    /// How far units that hang do so below their course line; nil where butts lie straight.
    pub step: f64,
    /// Where the joints of all courses meet if they are prolonged, where units narrow towards it; none where joints run straight up.
    pub peak: Option<Place>,
    /// From eave to ridge.
    pub courses: Vec<Course>,
    /// The boundary that units are cut to: outer rings counter-clockwise, holes clockwise.
    pub laid: Vec<Vec<Place>>,
    /// The kinds of units that pieces are made from: the sheet's field unit, or the widths of its mix; then its wide unit. Runs
    /// point here.
    pub units: Vec<UnitKind>,
    /// Nails of a whole unit of each kind, from its lower left corner; none where the sheet does not say where they go.
    pub nails: Vec<Vec<Place>>,
    /// Shapes of cut pieces, each once; runs point here.
    pub cuts: Vec<Cut>,
    /// The course under the first, along every level low edge.
    pub starters: Vec<Starters>,
    /// What could not be cured, with its place.
    pub findings: Vec<Finding>,
    /// Sum of the areas of the pieces cut from field units, sq in.
    pub cut_area: f64,
    /// Heights at which a course line should land, and what came of them, from the lowest up.
    pub stations: Vec<Station>,
    /// One for every rake and stretch; one up the middle where none passes every course.
    pub poles: Vec<Pole>,
    /// Lines to be snapped along the edges of caps.
    pub guides: Vec<Guide>,
    /// Where left and right rafters differ: pieces are those of level lines up to the higher end; poles have their own marks.
    pub out_of_square: Option<OutOfSquare>,
}

/// A kind of unit, inches.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct UnitKind {
    /// From butt to head.
    pub length: f64,
    /// Along the course.
    pub width: f64,
    /// At the butt.
    pub thickness: f64,
    /// It is the sheet's wide unit, from which pieces at edges are cut.
    pub wide: bool,
}

impl LaidPlane {
    /// How far the units of a course cover those two courses below it, three at triple lap; in the first courses, those over
    /// them stand for what is not there.
    #[must_use]
    pub fn headlap(&self, course: usize, covering: &covering::Covering) -> Length {
        let over = covering.lap.courses() as usize;
        let lines: Vec<f64> = self.courses.iter().map(|course| course.butt).chain([self.top]).collect();
        let below = course.saturating_sub(over);
        let hangs = self.hangs(below);
        let apart = match lines.get(below + over) {
            Some(above) => above - lines[below],
            None => self.courses[course].exposure * over as f64,
        };
        Length::inches(self.courses[below].length - apart - hangs)
    }

    /// How far any unit of a course hangs below its line.
    #[must_use]
    pub fn hangs(&self, course: usize) -> f64 {
        let any = self.courses.get(course).is_some_and(|row| row.runs.iter().any(|run| run.hangs != Hanging::None));
        if any { self.step } else { 0.0 }
    }

    /// The joints of a course as rows of equal steps, ascending, where they cross a height `v` of the plane.
    pub fn joint_rows(&self, course: usize, v: f64) -> impl Iterator<Item = Joints> + '_ {
        let row = &self.courses[course];
        let nearer = self.peak.map(|[u, top]| (u, (top - v) / (top - row.butt)));
        row.joint_rows().map(move |joints| match nearer {
            Some((u, part)) => Joints { first: u + (joints.first - u) * part, step: joints.step * part, ..joints },
            None => joints,
        })
    }

    /// Pieces from one kind of unit.
    #[must_use]
    pub fn counts_of(&self, unit: u32) -> Counts {
        counts(self.courses.iter().flat_map(|course| &course.runs).filter(|run| run.unit == unit))
    }

    /// Field pieces, whole units among them, cut pieces.
    #[must_use]
    pub fn counts(&self) -> Counts {
        counts(self.courses.iter().flat_map(|course| &course.runs))
    }
}

fn counts<'a>(runs: impl Iterator<Item = &'a Run>) -> Counts {
    let mut counts = Counts::default();
    for run in runs {
        let count = u64::from(run.count);
        if run.cut.is_some() { counts.cut += count } else { counts.whole += count }
    }
    counts
}

/// How many pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Whole units.
    pub whole: u64,
    /// Every piece that is not whole, head trims included.
    pub cut: u64,
}

impl Counts {
    /// All pieces.
    #[must_use]
    pub const fn pieces(self) -> u64 {
        self.whole + self.cut
    }
}
