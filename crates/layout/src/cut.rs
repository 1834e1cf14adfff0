use std::collections::BTreeMap;

use covering::Covering;
use roof::{Place, Plane};

use crate::bevel::{Bevel, Blank, Facing, Made, Side, bevels, made};
use crate::nailing::Nailing;
use crate::outline::{OutlineSide, outline_sides};

/// Remains below this area, sq in, are no pieces, and units that miss less than it are whole.
pub(crate) const NIL_AREA: f64 = 1e-6;

/// The shape of a cut piece.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cut {
    /// What is left of the unit, counter-clockwise, from the unit's lower left corner, inches.
    /// More than one part where an edge cuts a unit in two; a clockwise part is a hole.
    pub parts: Vec<Vec<Place>>,
    /// Sq in.
    pub area: f64,
    /// Greatest width along the course at any height.
    pub width: f64,
    /// Its cut edges, those that a roof's edge made and those to which a unit narrows, in the order of the parts.
    pub bevels: Vec<Bevel>,
    /// Which sides must be the unit's own.
    pub made: Made,
    /// Where its nails go, from the same corner as the parts; none where it cannot be nailed or the sheet does not say.
    pub nails: Vec<Place>,
}

impl Cut {
    pub(crate) fn of(parts: Vec<Vec<Place>>) -> Self {
        let area = parts.iter().map(|part| area(part)).sum();
        let width = widest(&parts);
        Self { parts, area, width, ..Self::default() }
    }

    /// Least and greatest u of what is left, from the unit's left side.
    #[must_use]
    pub fn extent(&self) -> [f64; 2] {
        let us = self.parts.iter().flatten().map(|&[u, _]| u);
        us.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], u| [least.min(u), most.max(u)])
    }

    /// The side of its longest slanted cut, seen facing the plane from the ground: the offcut of a left hip's piece fits
    /// a right valley of equal angle. Of two equally long the left, whichever rounding made the longer. `None` where nothing is
    /// slanted.
    #[must_use]
    pub fn hand(&self) -> Option<Side> {
        let slanted = || self.bevels.iter().filter(|bevel| bevel.is_slanted());
        let longest = slanted().map(Bevel::length).reduce(f64::max)?;
        let is_longest =
            |side| slanted().any(|bevel| bevel.length() > longest - 1.0 / STEPS && bevel.facing == Facing::Side(side));
        [Side::Left, Side::Right].into_iter().find(|&side| is_longest(side))
    }

    /// A point within the first part, for pointing at the piece.
    pub(crate) fn middle(&self) -> Place {
        let part = self.parts.first().map_or(&[][..], |part| part);
        let count = part.len().max(1) as f64;
        [0, 1].map(|axis| part.iter().map(|at| at[axis]).sum::<f64>() / count)
    }

    /// Equal for shapes that agree to 2^-16 in and were cut by the same edges, with the same sides made.
    fn key(&self) -> Vec<i64> {
        let mut key = Vec::with_capacity(2 * self.parts.iter().map(|part| part.len() + 1).sum::<usize>());
        for part in &self.parts {
            let start = (0..part.len()).min_by_key(|&at| quantised(part[at])).unwrap_or(0);
            key.push(part.len() as i64);
            key.extend(part[start..].iter().chain(&part[..start]).flat_map(|&at| quantised(at)));
        }
        let mut kinds: Vec<i64> = self.bevels.iter().map(|bevel| bevel.kind.map_or(-1, |kind| kind as i64)).collect();
        kinds.sort_unstable();
        key.extend(kinds);
        key.extend([self.made.butt, self.made.left, self.made.right].map(i64::from));
        key
    }
}

/// In an inch: what agrees to one is alike.
const STEPS: f64 = 65_536.0;

fn quantised(at: Place) -> [i64; 2] {
    at.map(|inches| (inches * STEPS).round() as i64)
}

/// Shoelace sum; positive counter-clockwise.
pub(crate) fn area(ring: &[Place]) -> f64 {
    let Some(&[u0, v0]) = ring.first() else { return 0.0 };
    let twice: f64 =
        ring.windows(2).map(|pair| (pair[0][0] - u0) * (pair[1][1] - v0) - (pair[1][0] - u0) * (pair[0][1] - v0)).sum();
    twice / 2.0
}

/// The sides of a ring, each from a corner to the next.
pub(crate) fn sides(ring: &[Place]) -> impl Iterator<Item = [Place; 2]> + '_ {
    ring.iter().zip(ring.iter().cycle().skip(1)).map(|(&from, &to)| [from, to])
}

/// Longest level line within the parts. Widths change linearly between the levels of corners, so the longest
/// lies at one of those, seen from above or from below.
fn widest(parts: &[Vec<Place>]) -> f64 {
    let mut levels: Vec<f64> = parts.iter().flatten().map(|&[_, v]| v).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup();
    levels.windows(2).map(|band| widest_between(parts, band[0], band[1])).fold(0.0, f64::max)
}

fn widest_between(parts: &[Vec<Place>], low: f64, high: f64) -> f64 {
    let at = |[from, to]: [Place; 2], v: f64| from[0] + (to[0] - from[0]) * ((v - from[1]) / (to[1] - from[1]));
    let mut crossing: Vec<[f64; 2]> = parts
        .iter()
        .flat_map(|part| sides(part))
        .filter(|[from, to]| from[1].min(to[1]) <= low && from[1].max(to[1]) >= high)
        .map(|side| [at(side, low), at(side, high)])
        .collect();
    crossing.sort_by(|a, b| (a[0] + a[1]).total_cmp(&(b[0] + b[1])));
    crossing.chunks_exact(2).map(|pair| (pair[1][0] - pair[0][0]).max(pair[1][1] - pair[0][1])).fold(0.0, f64::max)
}

/// What tells of a cut piece which edges cut it and how it is nailed.
#[derive(Debug)]
pub(crate) struct Edging<'a> {
    pub(crate) outline: Vec<OutlineSide>,
    pub(crate) nailing: Option<Nailing<'a>>,
    made_at_rakes: bool,
}

impl<'a> Edging<'a> {
    pub(crate) fn of(plane: &Plane, covering: &'a Covering, laid: &[Vec<Place>]) -> Self {
        let outline = outline_sides(plane, covering, laid);
        Self { outline, nailing: Nailing::of(covering), made_at_rakes: covering.edges.made_at_rakes }
    }

    /// A cut with its edges; nails come later, once for each shape.
    fn edged(&self, cut: Cut, blank: &Blank) -> Cut {
        let bevels = bevels(&cut.parts, blank, &self.outline);
        let made = made(&cut.parts, blank, &bevels, self.made_at_rakes);
        Cut { bevels, made, ..cut }
    }

    fn nailed(&self, cut: Cut, blank: &Blank) -> Cut {
        let nails = self.nailing.map_or_else(Vec::new, |nailing| nailing.places(&cut.parts, blank, &cut.bevels));
        Cut { nails, ..cut }
    }

    /// A cut with all that is told of it.
    pub(crate) fn finished(&self, cut: Cut, blank: &Blank) -> Cut {
        self.nailed(self.edged(cut, blank), blank)
    }

    /// Whether the nails of a piece hold it, as far as the sheet says where they go.
    pub(crate) fn holds(&self, cut: &Cut) -> bool {
        self.nailing.is_none_or(|nailing| nailing.holds(cut.nails.len()))
    }
}

/// The cut shapes of a plane, each once.
#[derive(Debug)]
pub(crate) struct Cuts<'a> {
    pub(crate) shapes: Vec<Cut>,
    numbers: BTreeMap<Vec<i64>, u32>,
    edging: &'a Edging<'a>,
}

impl<'a> Cuts<'a> {
    pub(crate) fn new(edging: &'a Edging<'a>) -> Self {
        Self { shapes: Vec::new(), numbers: BTreeMap::new(), edging }
    }

    /// The number of a shape as it comes from its blank.
    pub(crate) fn number(&mut self, cut: Cut, blank: &Blank) -> u32 {
        let cut = self.edging.edged(cut, blank);
        let next = self.shapes.len() as u32;
        let number = *self.numbers.entry(cut.key()).or_insert(next);
        if number == next {
            self.shapes.push(self.edging.nailed(cut, blank));
        }
        number
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_triangle_is_widest_at_its_foot_and_a_kite_in_the_middle() {
        let triangle = Cut::of(vec![vec![[0.0, 0.0], [3.0, 0.0], [0.0, 8.0]]]);
        assert!((triangle.width - 3.0).abs() < 1e-12 && (triangle.area - 12.0).abs() < 1e-12);
        let kite = Cut::of(vec![vec![[0.0, 2.0], [2.0, 0.0], [5.0, 3.0], [2.0, 9.0]]]);
        assert!((kite.width - (5.0 - 0.285_714_285_714_285_7)).abs() < 1e-9, "{}", kite.width);
    }

    /// A piece that ends alike at both sides has one hand on all planes, whichever of its sides rounding made the longer.
    #[test]
    fn of_two_equal_slants_the_left_is_the_hand() {
        let slant = |side, foot: f64, head: f64| Bevel {
            kind: None,
            angle: 80.0,
            facing: Facing::Side(side),
            line: [[foot, 0.0], [head, 9.0]],
        };
        let hand = |foot: f64| {
            let bevels = vec![slant(Side::Left, 0.0, 2.0), slant(Side::Right, foot, 6.0)];
            Cut { bevels, ..Cut::default() }.hand()
        };
        assert_eq!([8.0 - 1e-9, 8.0, 8.0 + 1e-9].map(hand), [Some(Side::Left); 3]);
        assert_eq!([7.9, 8.1].map(hand), [Some(Side::Left), Some(Side::Right)]);
    }

    #[test]
    fn two_legs_are_no_wider_than_the_wider_leg() {
        let left = vec![[0.0, 0.0], [2.0, 0.0], [2.0, 5.0], [0.0, 5.0]];
        let right = vec![[4.0, 0.0], [7.0, 0.0], [7.0, 5.0], [4.0, 5.0]];
        let legs = Cut::of(vec![left, right]);
        assert!((legs.width - 3.0).abs() < 1e-12);
        assert!(legs.extent()[0].abs() < 1e-12 && (legs.extent()[1] - 7.0).abs() < 1e-12);
    }

    #[test]
    fn equal_shapes_are_kept_once() {
        let edging = Edging { outline: Vec::new(), nailing: None, made_at_rakes: false };
        let mut cuts = Cuts::new(&edging);
        let blank = Blank { corner: [0.0; 2], width: 8.0, height: 9.0, unit: 8.0, ..Blank::default() };
        let square = |from: usize| {
            let mut ring = vec![[0.0, 0.0], [3.0, 0.0], [3.0, 8.0], [0.0, 8.0]];
            ring.rotate_left(from);
            Cut::of(vec![ring])
        };
        assert_eq!([0, 1, 2, 3].map(|from| cuts.number(square(from), &blank)), [0; 4]);
        assert_eq!(cuts.number(Cut::of(vec![vec![[0.0, 0.0], [3.0, 0.0], [3.0, 8.1], [0.0, 8.0]]]), &blank), 1);
    }
}
