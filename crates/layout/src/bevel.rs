use roof::{EdgeKind, Place};

use crate::cut::sides;
use crate::outline::{OutlineSide, distance_to};

/// Places of a piece's boundary this near, in, to the boundary of its blank lie on it.
const ON: f64 = 1e-5;
/// Cuts whose angle to the course line or to a line square to it is less, degrees, lean no way.
const UPRIGHT: f64 = 1e-6;

/// Left or right, seen facing the plane from the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Towards the plane's left end.
    Left,
    /// Towards its right end.
    Right,
}

impl Side {
    /// `left` or `right`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// Which way a cut edge of a piece looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Facing {
    /// To one side, slanted or straight up the slope.
    Side(Side),
    /// Down the slope.
    Down,
    /// Up the slope.
    Up,
}

impl Facing {
    /// `left`, `right`, `down` or `up`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Side(side) => side.name(),
            Self::Down => "down",
            Self::Up => "up",
        }
    }
}

/// A cut edge of a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bevel {
    /// The edge of the roof that cut it; `None` for the side of a unit that narrows towards its neighbour's.
    pub kind: Option<EdgeKind>,
    /// Degrees between the cut and the course line, 0 for one along the course, 90 for one straight up the slope.
    pub angle: f64,
    /// Which way it looks.
    pub facing: Facing,
    /// Its ends, from the blank's lower left corner, inches; the piece lies on its left.
    pub line: [Place; 2],
}

impl Bevel {
    fn new(kind: Option<EdgeKind>, line @ [from, to]: [Place; 2]) -> Self {
        let [along, up] = [to[0] - from[0], to[1] - from[1]];
        let angle = libm::atan2(up.abs(), along.abs()).to_degrees();
        let facing = match (angle < UPRIGHT, along > 0.0, up > 0.0) {
            (true, true, _) => Facing::Down,
            (true, false, _) => Facing::Up,
            (false, _, true) => Facing::Side(Side::Right),
            (false, _, false) => Facing::Side(Side::Left),
        };
        Self { kind, angle, facing, line }
    }

    /// Cut neither along the course nor square to it.
    #[must_use]
    pub fn is_slanted(&self) -> bool {
        self.angle > UPRIGHT && self.angle < 90.0 - UPRIGHT
    }

    /// Inches.
    #[must_use]
    pub fn length(&self) -> f64 {
        let [from, to] = self.line;
        libm::hypot(to[0] - from[0], to[1] - from[1])
    }
}

/// What a piece is cut from, and where that lies before it is cut to the outline.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Blank {
    /// Lower left corner on the plane.
    pub(crate) corner: Place,
    /// Of the place along the course: the unit's own width, or less where a joint was moved.
    pub(crate) width: f64,
    /// From butt to head.
    pub(crate) height: f64,
    /// Width of the unit.
    pub(crate) unit: f64,
    /// The side on which the joint was moved, if it was.
    pub(crate) moved: Option<Side>,
    /// The lines to which a unit that narrows is cut, left and right, from the corner.
    pub(crate) narrowed: [Option<[Place; 2]>; 2],
}

impl Blank {
    fn is_on_boundary(&self, [from, to]: [Place; 2]) -> bool {
        let both_at = |axis: usize, value: f64| (from[axis] - value).abs() < ON && (to[axis] - value).abs() < ON;
        both_at(0, 0.0) || both_at(0, self.width) || both_at(1, 0.0) || both_at(1, self.height)
    }

    /// Whether a side lies on a line to which the unit narrows.
    fn is_narrowed(&self, side: [Place; 2]) -> bool {
        [0, 1].iter().any(|&hand| self.is_narrowed_at(hand, side))
    }

    /// As [`Blank::is_narrowed`], of the left line, 0, or of the right one, 1.
    pub(crate) fn is_narrowed_at(&self, hand: usize, side: [Place; 2]) -> bool {
        self.narrowed[hand].is_some_and(|line| side.iter().all(|&at| off_line(line, at) < ON))
    }

    /// Whether some of a boundary of the blank bounds the piece too: straight up at `u`, or level at `v`.
    fn keeps(&self, parts: &[Vec<Place>], axis: usize, value: f64) -> bool {
        let on = |[from, to]: [Place; 2]| (from[axis] - value).abs() < ON && (to[axis] - value).abs() < ON;
        parts.iter().flat_map(|part| sides(part)).any(on)
    }
}

/// How far a place lies off a line, however far that is prolonged.
fn off_line([from, to]: [Place; 2], at: Place) -> f64 {
    let [along, up] = [to[0] - from[0], to[1] - from[1]];
    let twice = along * (at[1] - from[1]) - up * (at[0] - from[0]);
    twice.abs() / libm::hypot(along, up).max(f64::MIN_POSITIVE)
}

/// The cut edges of a piece: what of its boundary is no boundary of its blank, each with the nearest side of the outline.
pub(crate) fn bevels(parts: &[Vec<Place>], blank: &Blank, outline: &[OutlineSide]) -> Vec<Bevel> {
    let all = parts.iter().flat_map(|part| sides(part));
    let cut = all.filter(|&side| blank.is_narrowed(side) || !blank.is_on_boundary(side));
    cut.filter_map(|line| {
        if blank.is_narrowed(line) {
            return Some(Bevel::new(None, line));
        }
        let middle = [0, 1].map(|axis| f64::midpoint(line[0][axis], line[1][axis]) + blank.corner[axis]);
        let off = |side: &&OutlineSide| distance_to(side.line, middle);
        let nearest = outline.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
        Some(Bevel::new(Some(nearest.kind), line))
    })
    .collect()
}

/// The edges of a piece that must be the unit's own, as it was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Made {
    /// Some of the butt is seen, or lies over the course below.
    pub butt: bool,
    /// The left side meets a neighbour or the sky.
    pub left: bool,
    /// The right side does.
    pub right: bool,
}

/// Which sides of a piece must be made ones. A side that is cut to the outline is none, save at a rake where the sheet
/// wants the made side outside: then the other one is cut. Where a joint was moved, the side there is cut.
pub(crate) fn made(parts: &[Vec<Place>], blank: &Blank, bevels: &[Bevel], made_at_rakes: bool) -> Made {
    let narrowed = blank.width < blank.unit - ON;
    let keeps = |hand: usize, u: f64| blank.narrowed[hand].is_none() && blank.keeps(parts, 0, u);
    let [keeps_left, keeps_right] = [keeps(0, 0.0), keeps(1, blank.width)];
    let cut_at = |hand| narrowed && keeps_left && keeps_right && blank.moved == Some(hand);
    let sky = |hand| made_at_rakes && bevels.iter().any(|bevel| is_upright_rake(bevel, hand));
    let [sky_left, sky_right] = [sky(Side::Left), sky(Side::Right)];
    Made {
        butt: blank.keeps(parts, 1, 0.0),
        left: sky_left || (keeps_left && !sky_right && !cut_at(Side::Left)),
        right: (sky_right && !sky_left) || (keeps_right && !sky_left && !cut_at(Side::Right)),
    }
}

fn is_upright_rake(bevel: &Bevel, hand: Side) -> bool {
    bevel.kind == Some(EdgeKind::Rake) && bevel.facing == Facing::Side(hand) && bevel.angle > 90.0 - UPRIGHT
}

#[cfg(test)]
mod tests {
    use super::*;

    fn blank(width: f64, moved: Option<Side>) -> Blank {
        Blank { corner: [100.0, 50.0], width, height: 20.0, unit: 12.0, moved, ..Blank::default() }
    }

    #[test]
    fn a_cut_has_its_angle_its_facing_and_what_cut_it() {
        let part = vec![[0.0, 0.0], [12.0, 0.0], [12.0, 8.0], [0.0, 20.0]];
        let outline = [
            OutlineSide { line: [[0.0, 50.0], [112.0, 50.0]], kind: EdgeKind::Eave },
            OutlineSide { line: [[120.0, 50.0], [90.0, 80.0]], kind: EdgeKind::Hip },
        ];
        let found = bevels(&[part], &blank(12.0, None), &outline);
        let [bevel] = found[..] else { panic!("{found:?}") };
        assert_eq!((bevel.kind, bevel.facing), (Some(EdgeKind::Hip), Facing::Side(Side::Right)));
        assert!((bevel.angle - 45.0).abs() < 1e-9 && bevel.is_slanted());
    }

    /// The made edge outside at either rake: common practice, no published source.
    #[test]
    fn at_rakes_the_made_side_stays_outside() {
        let part = |from: f64, to: f64| vec![vec![[from, 0.0], [to, 0.0], [to, 20.0], [from, 20.0]]];
        let rake = |[from, to]: [Place; 2]| vec![Bevel::new(Some(EdgeKind::Rake), [from, to])];
        let left = rake([[5.0, 20.0], [5.0, 0.0]]);
        let made_of = |parts: &[Vec<Place>], bevels: &[Bevel], at_rakes| {
            let made = made(parts, &blank(12.0, None), bevels, at_rakes);
            [made.left, made.right]
        };
        assert_eq!(made_of(&part(5.0, 12.0), &left, true), [true, false]);
        assert_eq!(made_of(&part(5.0, 12.0), &left, false), [false, true]);
        let right = rake([[7.0, 0.0], [7.0, 20.0]]);
        assert_eq!(made_of(&part(0.0, 7.0), &right, true), [false, true]);
        assert_eq!(made_of(&part(0.0, 7.0), &right, false), [true, false]);
    }

    #[test]
    fn a_piece_between_neighbours_is_cut_where_its_joint_was_moved() {
        let part = vec![vec![[0.0, 0.0], [9.0, 0.0], [9.0, 20.0], [0.0, 20.0]]];
        let found = made(&part, &blank(9.0, Some(Side::Right)), &[], true);
        assert_eq!(found, Made { butt: true, left: true, right: false });
    }
}
