//! One outline of a piece at one height in the unit, ready to be set beside others.

use roof::Place;

use crate::cut::{area, sides};

/// Places in a unit that differ by less, in, are one: no saw and no tape is finer.
pub(crate) const SNUG: f64 = 1.0 / 16_384.0;

/// What one unit offers, and what the sheet asks of those who cut it. Inches.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Blank {
    pub(crate) length: f64,
    pub(crate) width: f64,
    /// Two pieces of one unit lie this far apart.
    pub(crate) kerf: f64,
    /// Of the pieces of one unit only one may be narrower than this.
    pub(crate) least_offcut: f64,
    /// Pieces without a made butt may come from any height.
    pub(crate) even: bool,
    /// Pieces may be turned head for tail.
    pub(crate) turned: bool,
}

impl Blank {
    /// Pieces of one unit have no more area than this, each allowed to overstep by [`SNUG`].
    pub(crate) fn area(&self) -> f64 {
        (self.length + 64.0 * SNUG) * (self.width + 64.0 * SNUG)
    }
}

/// Edges that must be the unit's own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Kept {
    /// The lower edge, or some of it.
    pub butt: bool,
    /// The left side.
    pub left: bool,
    /// The right side.
    pub right: bool,
}

/// A convex part, as two chains from its foot to its head.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Part {
    left: Vec<Place>,
    right: Vec<Place>,
}

/// A piece at one height in the unit. u is from the piece's leftmost point, v from the unit's butt.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shape {
    pub(crate) parts: Vec<Part>,
    pub(crate) width: f64,
    /// Where its leftmost point may lie in the unit.
    pub(crate) from: f64,
    pub(crate) to: f64,
    /// Of its lowest point.
    pub(crate) low: f64,
    pub(crate) turned: bool,
}

impl Shape {
    /// Of rings whose lower left corner is at the origin, raised by `low`.
    pub(crate) fn new(rings: &[Vec<Place>], kept: Kept, low: f64, blank: &Blank) -> Self {
        let raised: Vec<Vec<Place>> = rings.iter().map(|ring| ring.iter().map(|&[u, v]| [u, v + low]).collect()).collect();
        let [width, _] = extent(rings);
        let room = (blank.width - width).max(0.0);
        let [from, to] = match kept {
            Kept { left: true, .. } => [0.0, 0.0],
            Kept { right: true, .. } => [room, room],
            _ => [0.0, room],
        };
        Self { parts: parts(&raised), width, from, to, low, turned: false }
    }

    /// How far right of this one's leftmost point the other's must lie at least, to be a kerf apart on its right at
    /// every height; `None` where they pass above each other.
    pub(crate) fn reach(&self, other: &Self, kerf: f64) -> Option<f64> {
        let pairs = self.parts.iter().flat_map(|part| other.parts.iter().map(move |beside| (part, beside)));
        pairs.filter_map(|(part, beside)| part.reach(beside, kerf)).reduce(f64::max)
    }

    /// Width at a height, gaps between parts left out.
    pub(crate) fn width_at(&self, v: f64) -> f64 {
        self.parts.iter().filter_map(|part| Some(at(&part.right, v)? - at(&part.left, v)?)).sum()
    }
}

/// u of a chain at a height.
fn at(chain: &[Place], v: f64) -> Option<f64> {
    let [low, high] = chain.windows(2).map(|pair| [pair[0], pair[1]]).find(|[low, high]| low[1] <= v && v <= high[1])?;
    Some(low[0] + (high[0] - low[0]) * ((v - low[1]) / (high[1] - low[1]).max(f64::MIN_POSITIVE)))
}

/// Width and height of the box around rings.
pub(crate) fn extent(rings: &[Vec<Place>]) -> Place {
    let corners = rings.iter().flatten();
    corners.fold([0.0; 2], |[width, height], &[u, v]| [f64::max(width, u), f64::max(height, v)])
}

impl Part {
    /// Of a convex counter-clockwise ring.
    fn convex(ring: &[Place]) -> Self {
        let chain = |rightmost: bool| {
            let outer = |a: &Place, b: &Place| if rightmost { b[0].total_cmp(&a[0]) } else { a[0].total_cmp(&b[0]) };
            let goes = |[from, to]: &[Place; 2]| if rightmost { to[1] > from[1] } else { to[1] < from[1] };
            let mut chain: Vec<Place> = sides(ring).filter(goes).flatten().collect();
            chain.sort_by(|a, b| a[1].total_cmp(&b[1]).then(outer(a, b)));
            chain.dedup_by(|a, b| a[1].total_cmp(&b[1]).is_eq());
            chain
        };
        Self { left: chain(false), right: chain(true) }
    }

    /// As [`Shape::reach`]. The differences between a point of the one and a point of the other fill a convex shape;
    /// grown by the kerf, it holds the places at which the two would be too near. Its right side is the two chains'
    /// edges in order of their slope, and the greatest reach lies where that side, grown, crosses level zero.
    fn reach(&self, other: &Self, kerf: f64) -> Option<f64> {
        let (own, others) = (&self.right, &other.left);
        let (mut i, mut j) = (0, others.len() - 1);
        let point = |i: usize, j: usize| [own[i][0] - others[j][0], own[i][1] - others[j][1]];
        let mut here = point(0, j);
        let mut most: Option<f64> = None;
        if here[1] >= kerf - SNUG || point(own.len() - 1, 0)[1] <= SNUG - kerf {
            return None;
        }
        while i + 1 < own.len() || j > 0 {
            let step_own =
                i + 1 < own.len() && (j == 0 || leans_more_right([own[i], own[i + 1]], [others[j - 1], others[j]]));
            if step_own {
                i += 1
            } else {
                j -= 1
            }
            let next = point(i, j);
            if let Some(reach) = grown(here, next, kerf) {
                most = Some(most.map_or(reach, |most| most.max(reach)));
            }
            here = next;
        }
        most
    }
}

/// Whether the first of two rising edges leans further to the right.
fn leans_more_right([a, b]: [Place; 2], [c, d]: [Place; 2]) -> bool {
    (b[0] - a[0]) * (d[1] - c[1]) >= (d[0] - c[0]) * (b[1] - a[1])
}

/// Greatest u at level zero of a rising edge grown by the kerf.
fn grown([u0, v0]: Place, [u1, v1]: Place, kerf: f64) -> Option<f64> {
    let [low, high] = [v0.max(-kerf), v1.min(kerf)];
    if low > high {
        return None;
    }
    let lean = if v1 > v0 { (u1 - u0) / (v1 - v0) } else { 0.0 };
    let v = (kerf * lean / libm::sqrt(1.0 + lean * lean)).clamp(low, high);
    Some(u0 + lean * (v - v0) + libm::sqrt((kerf * kerf - v * v).max(0.0)))
}

/// Convex parts that fill the rings: the ring itself, or the bands between the levels of its corners.
fn parts(rings: &[Vec<Place>]) -> Vec<Part> {
    match rings {
        [ring] if is_convex(ring) => vec![Part::convex(ring)],
        _ => bands(rings),
    }
}

pub(crate) fn is_convex(ring: &[Place]) -> bool {
    let count = ring.len();
    (0..count).all(|index| {
        let [a, b, c] = [ring[index], ring[(index + 1) % count], ring[(index + 2) % count]];
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) >= -1e-9
    })
}

fn bands(rings: &[Vec<Place>]) -> Vec<Part> {
    let mut levels: Vec<f64> = rings.iter().flatten().map(|&[_, v]| v).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|b, a| *b - *a < 1e-9);
    levels.windows(2).flat_map(|band| band_parts(rings, band[0], band[1])).collect()
}

fn band_parts(rings: &[Vec<Place>], low: f64, high: f64) -> Vec<Part> {
    let at = |[from, to]: [Place; 2], v: f64| from[0] + (to[0] - from[0]) * ((v - from[1]) / (to[1] - from[1]));
    let through = |[from, to]: &[Place; 2]| from[1].min(to[1]) < low + 5e-10 && from[1].max(to[1]) > high - 5e-10;
    let mut crossing: Vec<[f64; 2]> =
        rings.iter().flat_map(|ring| sides(ring)).filter(through).map(|side| [at(side, low), at(side, high)]).collect();
    crossing.sort_by(|a, b| (a[0] + a[1]).total_cmp(&(b[0] + b[1])));
    let part = |pair: &[[f64; 2]]| {
        let chain = |[foot, head]: [f64; 2]| vec![[foot, low], [head, high]];
        Part { left: chain(pair[0]), right: chain(pair[1]) }
    };
    crossing.chunks_exact(2).map(part).collect()
}

/// Sum of the rings' areas, holes taken off.
pub(crate) fn area_of(rings: &[Vec<Place>]) -> f64 {
    rings.iter().map(|ring| area(ring)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    const BLANK: Blank = Blank { length: 20.0, width: 12.0, kerf: 0.25, least_offcut: 0.0, even: false, turned: false };

    fn shape(ring: &[Place]) -> Shape {
        Shape::new(&[ring.to_vec()], Kept::default(), 0.0, &BLANK)
    }

    #[test]
    fn upright_sides_are_a_kerf_apart() {
        let [a, b] = [
            shape(&[[0.0, 0.0], [5.0, 0.0], [5.0, 20.0], [0.0, 20.0]]),
            shape(&[[0.0, 0.0], [3.0, 0.0], [3.0, 8.0], [0.0, 8.0]]),
        ];
        assert!((a.reach(&b, 0.25).unwrap() - 5.25).abs() < 1e-12);
        assert!((b.reach(&a, 0.25).unwrap() - 3.25).abs() < 1e-12);
    }

    /// Two sides of a cut that rises 4 in 3 lie kerf × 5 / 4 apart along the course.
    #[test]
    fn the_kerf_is_square_to_the_cut() {
        let hip = shape(&[[0.0, 0.0], [9.0, 0.0], [0.0, 12.0]]);
        let valley = shape(&[[9.0, 0.0], [9.0, 12.0], [0.0, 12.0]]);
        assert!((hip.reach(&valley, 0.4).unwrap() - 0.5).abs() < 1e-12);
    }

    #[test]
    fn pieces_one_above_the_other_do_not_meet() {
        let low = shape(&[[0.0, 0.0], [9.0, 0.0], [9.0, 5.0], [0.0, 5.0]]);
        let ring = vec![[0.0, 0.0], [9.0, 0.0], [9.0, 4.0], [0.0, 4.0]];
        let high = |low| Shape::new(std::slice::from_ref(&ring), Kept::default(), low, &BLANK);
        assert_eq!(low.reach(&high(5.25), 0.25), None);
        assert!(low.reach(&high(5.2), 0.25).unwrap() > 9.0);
        assert_eq!(high(5.25).reach(&low, 0.25), None);
    }

    #[test]
    fn a_notched_piece_is_as_wide_as_its_rows() {
        let ring = [[0.0, 0.0], [4.0, 0.0], [4.0, 10.0], [9.0, 10.0], [9.0, 20.0], [0.0, 20.0]];
        let notched = shape(&ring);
        assert_eq!(notched.parts.len(), 2);
        assert!((notched.width_at(5.0) - 4.0).abs() < 1e-12 && (notched.width_at(15.0) - 9.0).abs() < 1e-12);
        assert!(
            (notched.reach(&shape(&[[0.0, 0.0], [2.0, 0.0], [2.0, 9.0], [0.0, 9.0]]), 0.25).unwrap() - 4.25).abs() < 1e-12
        );
    }
}
