use super::Contour;
use crate::{Point, add, distance, dot, scale, sub};

/// Directions nearer than this are one direction.
pub(super) const PARALLEL: f64 = 1e-9;

/// How finely the arithmetic tells things apart.
#[derive(Debug, Clone, Copy)]
pub(super) struct Care {
    /// Points nearer than this are one point.
    pub(super) near: f64,
    /// Sides whose directions differ by less than this, in radians, are made parallel: they were meant to be, and what
    /// is left of the difference would otherwise send vertices along them at any speed.
    pub(super) parallel: f64,
    /// Parallel sides nearer to one line than this lie on one line.
    pub(super) one_line: f64,
}

/// The moving line of one face: `normal · p = offset + run · time`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Line {
    pub(super) along: Point,
    pub(super) normal: Point,
    pub(super) offset: f64,
    pub(super) run: f64,
}

impl Line {
    /// Through `middle`, where it is at time `start`.
    fn new(middle: Point, along: Point, run: f64, start: f64) -> Self {
        let normal = [-along[1], along[0]];
        Self { along, normal, offset: dot(normal, middle) - run * start, run }
    }

    /// The same line, running otherwise from a height on.
    pub(super) fn changed(self, at: f64, run: f64) -> Self {
        Self { offset: self.offset + (self.run - run) * at, run, ..self }
    }
}

/// A side as drawn.
#[derive(Debug, Clone, Copy)]
struct Drawn {
    middle: Point,
    along: Point,
    length: f64,
    run: f64,
}

/// The line of every side. Nearly parallel sides take the direction of the longest of them, and of those the ones that
/// lie on one line and run alike take its place.
pub(super) fn straightened(contours: &[Contour], start: f64, care: Care) -> Vec<Line> {
    let mut sides: Vec<Drawn> = contours.iter().flat_map(drawn).collect();
    // Angle of the line without its sense, with the seam turned away from the axes along which houses stand.
    let angle = |side: &Drawn| (libm::atan2(side.along[1], side.along[0]) + 1.0).rem_euclid(std::f64::consts::PI);
    let families = families(&sides, (0..sides.len()).collect(), angle, care.parallel);
    for family in &families {
        let shared = sides[longest(&sides, family)].along;
        for &side in family {
            sides[side].along = scale(shared, dot(shared, sides[side].along).signum());
        }
    }
    let mut lines: Vec<Line> = sides.iter().map(|side| Line::new(side.middle, side.along, side.run, start)).collect();
    for family in families.into_iter().filter(|family| family.len() > 1) {
        let across = lines[family[0]].normal;
        let (with, against): (Vec<usize>, Vec<usize>) =
            family.into_iter().partition(|&side| dot(across, lines[side].normal) > 0.0);
        for row in [with, against]
            .into_iter()
            .flat_map(|alike| self::families(&sides, alike, |side| dot(across, side.middle), care.one_line))
        {
            let kept = lines[longest(&sides, &row)];
            for side in row {
                if (lines[side].run - kept.run).abs() < PARALLEL {
                    lines[side] = kept;
                }
            }
        }
    }
    lines
}

fn drawn(contour: &Contour) -> impl Iterator<Item = Drawn> + '_ {
    crate::polygon::sides(&contour.corners).zip(&contour.sides).map(|((a, b), side)| {
        let length = distance(a, b);
        Drawn { middle: scale(add(a, b), 0.5), along: scale(sub(b, a), 1.0 / length), length, run: side.run }
    })
}

/// Sorts sides by a measure and parts them where it leaps by `gap` or more.
fn families(sides: &[Drawn], mut of: Vec<usize>, measure: impl Fn(&Drawn) -> f64, gap: f64) -> Vec<Vec<usize>> {
    of.sort_by(|&a, &b| measure(&sides[a]).total_cmp(&measure(&sides[b])).then(a.cmp(&b)));
    of.chunk_by(|&a, &b| measure(&sides[b]) - measure(&sides[a]) < gap).map(<[usize]>::to_vec).collect()
}

/// The longest of some sides, the first of equals.
fn longest(sides: &[Drawn], of: &[usize]) -> usize {
    of.iter().copied().max_by(|&a, &b| sides[a].length.total_cmp(&sides[b].length).then(b.cmp(&a))).unwrap_or(0)
}
