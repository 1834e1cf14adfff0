use super::Contour;
use crate::{Number, Point, Wide, add, distance, dot, scale, sub};

/// How finely the arithmetic tells things apart.
#[derive(Debug, Clone, Copy)]
pub(super) struct Care<N> {
    /// Points nearer than this are one point.
    pub(super) near: N,
    /// Directions nearer than this are one direction.
    pub(super) one_way: N,
    /// Runs that differ by less than this are one run.
    pub(super) still: N,
    /// What is made straight before.
    pub(super) meant: Meant,
}

/// What an outline was meant to be, and is not because it was rounded.
#[derive(Debug, Clone, Copy)]
pub(super) struct Meant {
    /// Sides whose directions differ by less than this, in radians, are made parallel: they were meant to be, and what
    /// is left of the difference would otherwise send vertices along them at any speed.
    pub(super) parallel: f64,
    /// Parallel sides nearer to one line than this lie on one line.
    pub(super) one_line: f64,
}

impl Meant {
    /// To the last digit what was given.
    pub(super) const AS_DRAWN: Self = Self { parallel: 0.0, one_line: 0.0 };
    /// Far below a tape mark: moves a corner of a 100-ft side by less than 1/1000 in.
    pub(super) const PARALLEL: Self = Self { parallel: 1e-6, one_line: 1e-4 };
    /// Moves a corner of a 100-ft side by 1/100 in.
    const COARSELY: Self = Self { parallel: 1.6e-5, one_line: 1e-2 };
}

impl Care<f64> {
    pub(super) fn narrow(meant: Meant) -> Self {
        Self { near: crate::TOLERANCE, one_way: 1e-9, still: 1e-12, meant }
    }

    /// Where places nearer than a tolerance must be told apart: costs little and often helps.
    pub(super) fn narrower() -> Self {
        Self { near: 1e-7, ..Self::narrow(Meant::PARALLEL) }
    }

    pub(super) fn coarse() -> Self {
        Self { near: 1e-3, ..Self::narrow(Meant::COARSELY) }
    }
}

impl Care<Wide> {
    /// Of 71 digits some 68 are left after the point. Sides rounded to `f64` are parallel or differ by some 1e-16 rad,
    /// so that a vertex between two of them keeps 50; what differs at all differs by far more than these bounds.
    pub(super) fn wide(meant: Meant) -> Self {
        Self { near: Wide::from(1e-40), one_way: Wide::from(1e-45), still: Wide::from(1e-48), meant }
    }
}

/// The moving line of one face: `normal · p = offset + run · time`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line<N> {
    pub(super) along: Point<N>,
    pub(super) normal: Point<N>,
    pub(super) offset: N,
    pub(super) run: N,
}

impl<N: Number> Line<N> {
    /// Through `middle`, where it is at time `start`.
    fn new(side: &Drawn<N>, start: N) -> Self {
        let normal = [-side.along[1], side.along[0]];
        Self { along: side.along, normal, offset: dot(normal, side.middle) - side.run * start, run: side.run }
    }

    /// The same line, running otherwise from a height on.
    pub(super) fn changed(self, at: N, run: N) -> Self {
        Self { offset: self.offset + (self.run - run) * at, run, ..self }
    }
}

/// A side as drawn.
#[derive(Debug, Clone, Copy)]
struct Drawn<N> {
    middle: Point<N>,
    along: Point<N>,
    length: f64,
    run: N,
}

/// The line of every side. Nearly parallel sides take the direction of the longest of them, and of those the ones that
/// lie on one line and run alike take its place.
pub(super) fn straightened<N: Number>(contours: &[Contour], start: f64, care: Care<N>) -> Vec<Line<N>> {
    let mut sides: Vec<Drawn<N>> = contours.iter().flat_map(drawn).collect();
    // Angle of the line without its sense, with the seam turned away from the axes along which houses stand.
    let angle = |side: &Drawn<N>| {
        (libm::atan2(side.along[1].to_f64(), side.along[0].to_f64()) + 1.0).rem_euclid(std::f64::consts::PI)
    };
    let families = families(&sides, (0..sides.len()).collect(), angle, care.meant.parallel);
    for family in &families {
        let shared = sides[longest(&sides, family)].along;
        for &side in family {
            let same_way = dot(shared, sides[side].along) > N::ZERO;
            sides[side].along = if same_way { shared } else { scale(shared, -N::ONE) };
        }
    }
    let mut lines: Vec<Line<N>> = sides.iter().map(|side| Line::new(side, start.into())).collect();
    for family in families.into_iter().filter(|family| family.len() > 1) {
        let across = lines[family[0]].normal;
        let (with, against): (Vec<usize>, Vec<usize>) =
            family.into_iter().partition(|&side| dot(across, lines[side].normal) > N::ZERO);
        let place = |side: &Drawn<N>| dot(across, side.middle).to_f64();
        for row in [with, against].into_iter().flat_map(|alike| self::families(&sides, alike, place, care.meant.one_line)) {
            let kept = lines[longest(&sides, &row)];
            for side in row {
                if (lines[side].run - kept.run).magnitude() < care.one_way {
                    lines[side] = kept;
                }
            }
        }
    }
    lines
}

fn drawn<N: Number>(contour: &Contour) -> impl Iterator<Item = Drawn<N>> {
    crate::polygon::sides(&contour.corners).zip(&contour.sides).map(|((a, b), side)| {
        let (a, b) = (a.map(N::from), b.map(N::from));
        let (length, half) = (distance(a, b), N::from(0.5));
        let along = scale(sub(b, a), N::ONE / length);
        Drawn { middle: scale(add(a, b), half), along, length: length.to_f64(), run: side.run.into() }
    })
}

/// Sorts sides by a measure and parts them where it leaps by `gap` or more.
fn families<N>(sides: &[Drawn<N>], mut of: Vec<usize>, measure: impl Fn(&Drawn<N>) -> f64, gap: f64) -> Vec<Vec<usize>> {
    of.sort_by(|&a, &b| measure(&sides[a]).total_cmp(&measure(&sides[b])).then(a.cmp(&b)));
    of.chunk_by(|&a, &b| measure(&sides[b]) - measure(&sides[a]) < gap).map(<[usize]>::to_vec).collect()
}

/// The longest of some sides, the first of equals.
fn longest<N>(sides: &[Drawn<N>], of: &[usize]) -> usize {
    of.iter().copied().max_by(|&a, &b| sides[a].length.total_cmp(&sides[b].length).then(b.cmp(&a))).unwrap_or(0)
}
