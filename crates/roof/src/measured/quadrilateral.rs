//! Four corners from the tapes between them. Six tapes stand between four corners of a flat figure and five fix it.

use geom::{Point, cross, distance, sub};

/// The six tapes: eave, right rake, top, left rake, then the diagonals from the lower left and from the lower right.
pub(super) type Tapes = [f64; 6];

pub(super) const EAVE: usize = 0;
pub(super) const RIGHT: usize = 1;
pub(super) const TOP: usize = 2;
pub(super) const LEFT: usize = 3;
pub(super) const DIAGONAL_LEFT: usize = 4;
pub(super) const DIAGONAL_RIGHT: usize = 5;

/// Keys of the job file.
pub(super) const KEYS: [&str; 6] = ["eave", "right_rake", "top", "left_rake", "diagonal_left", "diagonal_right"];

/// Corners at the ends of each tape: lower left 0, lower right 1, upper right 2, upper left 3.
const ENDS: [[usize; 2]; 6] = [[0, 1], [1, 2], [2, 3], [3, 0], [0, 2], [1, 3]];

fn between(a: usize, b: usize) -> usize {
    ENDS.iter().position(|&ends| ends == [a, b] || ends == [b, a]).unwrap_or_default()
}

/// The third corner of a triangle that stands on the line from the origin to (`base`, 0), which may run to the left; `None`
/// if the other two sides do not reach.
pub(super) fn apex(base: f64, from_start: f64, from_end: f64) -> Option<Point> {
    let x = (base * base + from_start * from_start - from_end * from_end) / (2.0 * base);
    let above = (from_start - x) * (from_start + x);
    (above > 0.0).then(|| [x, above.sqrt()])
}

/// The tape that the other five ask for in place of `of`: two triangles stand on the tape opposite.
///
/// In a figure whose corners all turn one way the other two corners lie on one side of a side, on both sides of a diagonal.
pub(super) fn needed(tapes: &Tapes, of: usize) -> Option<f64> {
    let [r, s] = ENDS[of];
    let base = ENDS.iter().position(|ends| !ends.contains(&r) && !ends.contains(&s))?;
    let [p, q] = ENDS[base];
    let stands = |corner: usize| apex(tapes[base], tapes[between(p, corner)], tapes[between(q, corner)]);
    let (one, [x, y]) = (stands(r)?, stands(s)?);
    let other = if of < DIAGONAL_LEFT { [x, y] } else { [x, -y] };
    Some(distance(one, other))
}

/// The corners from all tapes but the right diagonal, the eave along the first axis; `None` if they make no figure whose
/// corners all turn one way.
pub(super) fn corners(tapes: &Tapes) -> Option<[Point; 4]> {
    let upper_right = apex(tapes[EAVE], tapes[DIAGONAL_LEFT], tapes[RIGHT])?;
    let [along, off] = apex(tapes[DIAGONAL_LEFT], tapes[LEFT], tapes[TOP])?;
    let [ux, uy] = upper_right.map(|c| c / tapes[DIAGONAL_LEFT]);
    let upper_left = [along * ux - off * uy, along * uy + off * ux];
    let corners = [[0.0, 0.0], [tapes[EAVE], 0.0], upper_right, upper_left];
    let turns = |at: usize| area(&corners, [at, (at + 1) % 4, (at + 2) % 4]) > 0.0;
    (0..4).all(turns).then_some(corners)
}

/// Twice the area of a triangle of corners, positive if they run counter-clockwise.
fn area(corners: &[Point; 4], [a, b, c]: [usize; 3]) -> f64 {
    cross(sub(corners[b], corners[a]), sub(corners[c], corners[a]))
}

/// Changes the six tapes as little as possible, by the sum of squares, so that they fit each other. They must nearly fit.
///
/// Adjustment with one condition (Gauss's least squares): the condition is that the right diagonal is the one the other
/// five ask for. Its slopes come from statics: small changes of six tapes keep a flat figure if they do no work on a state
/// of stress in balance, and in four corners joined by six bars the stress in bar `ij` per inch of its length is
/// 1 / (area of `ijk` × area of `ijl`), areas signed.
pub(super) fn spread(typed: &Tapes) -> Option<Tapes> {
    let mut fitted = *typed;
    // A miss of half an inch is gone to the last bit after three rounds or four.
    for _ in 0..8 {
        let slopes = slopes(&corners(&fitted)?);
        let miss = fitted[DIAGONAL_RIGHT] - needed(&fitted, DIAGONAL_RIGHT)?;
        let moved: f64 = (0..6).map(|at| slopes[at] * (typed[at] - fitted[at])).sum();
        let share = (miss + moved) / slopes.iter().map(|slope| slope * slope).sum::<f64>();
        fitted = std::array::from_fn(|at| typed[at] - slopes[at] * share);
    }
    Some(fitted)
}

/// How much the miss grows for an inch of each tape.
fn slopes(corners: &[Point; 4]) -> Tapes {
    let work = |at: usize| {
        let [i, j] = ENDS[at];
        let mut others = (0..4).filter(|&corner| corner != i && corner != j);
        let areas = others.by_ref().map(|corner| area(corners, [i, j, corner])).product::<f64>();
        distance(corners[i], corners[j]) / areas
    };
    let of_right_diagonal = work(DIAGONAL_RIGHT);
    std::array::from_fn(|at| work(at) / of_right_diagonal)
}

/// The triangle, its longest side first, if the other two do not reach over that.
pub(super) fn unreached(tapes: &Tapes, mut triangle: [usize; 3]) -> Option<[usize; 3]> {
    triangle.sort_by(|&a, &b| tapes[b].total_cmp(&tapes[a]));
    let [longest, b, c] = triangle;
    (tapes[longest] >= tapes[b] + tapes[c]).then_some(triangle)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn tapes_of(corners: &[Point; 4]) -> Tapes {
        std::array::from_fn(|at| distance(corners[ENDS[at][0]], corners[ENDS[at][1]]))
    }

    fn any_figure() -> impl Strategy<Value = [Point; 4]> {
        let numbers = (60.0..900.0, -200.0..200.0, 60.0..600.0, -200.0..200.0, 60.0..600.0);
        numbers
            .prop_map(|(eave, left, left_up, right, right_up): (f64, f64, f64, f64, f64)| {
                [[0.0, 0.0], [eave, 0.0], [eave + right, right_up], [left, left_up]]
            })
            .prop_filter("every triangle of corners is a good one", |corners| (0..4).all(|at| is_good(corners, at)))
    }

    /// Turns to the left, and by an angle whose sine is well above 0: no tape fixes a triangle that is nearly a line.
    fn is_good(corners: &[Point; 4], at: usize) -> bool {
        let triangle = [at, (at + 1) % 4, (at + 2) % 4];
        let [a, b, c] = triangle.map(|at| corners[at]);
        area(corners, triangle) > 0.1 * distance(a, b).max(distance(a, c)).max(distance(b, c)).powi(2)
    }

    /// Two right triangles of 3, 4 and 5: a rectangle.
    #[test]
    fn a_rectangle_of_three_and_four_has_diagonals_of_five() {
        let tapes = [4.0, 3.0, 4.0, 3.0, 5.0, 5.0];
        for at in 0..6 {
            assert!((needed(&tapes, at).unwrap() - tapes[at]).abs() < 1e-12);
        }
        let found = corners(&tapes).unwrap();
        for (is, should) in found.iter().zip([[0.0, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]]) {
            assert!(distance(*is, should) < 1e-12);
        }
    }

    #[test]
    fn what_does_not_reach_is_no_triangle() {
        assert_eq!(apex(20.0, 10.0, 8.0), None);
        assert_eq!(apex(20.0, 12.0, 8.0), None, "flat on the base");
        assert_eq!(unreached(&[20.0, 8.0, 0.0, 10.0, 0.0, 0.0], [EAVE, LEFT, RIGHT]), Some([EAVE, LEFT, RIGHT]));
        assert_eq!(unreached(&[4.0, 3.0, 0.0, 5.0, 0.0, 0.0], [EAVE, LEFT, RIGHT]), None);
    }

    proptest! {
        #[test]
        fn the_tapes_of_a_figure_give_it_back(figure in any_figure()) {
            let tapes = tapes_of(&figure);
            let found = corners(&tapes).unwrap();
            for (is, should) in found.iter().zip(figure) {
                prop_assert!(distance(*is, should) < 1e-6, "{is:?} {should:?}");
            }
            for at in 0..6 {
                prop_assert!((needed(&tapes, at).unwrap() - tapes[at]).abs() < 1e-6);
            }
        }

        /// Slopes against differences of the miss itself.
        #[test]
        fn slopes_are_those_of_the_miss(figure in any_figure(), at in 0usize..6) {
            let miss = |tapes: &Tapes| tapes[DIAGONAL_RIGHT] - needed(tapes, DIAGONAL_RIGHT).unwrap();
            let (mut up, mut down) = (tapes_of(&figure), tapes_of(&figure));
            up[at] += 1e-4;
            down[at] -= 1e-4;
            let slope = (miss(&up) - miss(&down)) / 2e-4;
            prop_assert!((slope - slopes(&figure)[at]).abs() < 1e-4 * (1.0 + slope.abs()), "{slope}");
        }

        /// What is spread fits, and no figure near it is nearer to the tapes as typed.
        #[test]
        fn no_figure_is_nearer_than_the_spread_one(
            figure in any_figure(),
            off in prop::array::uniform6(-0.1f64..0.1),
            push in prop::array::uniform5(-0.05f64..0.05),
        ) {
            let tapes = tapes_of(&figure);
            let typed: Tapes = std::array::from_fn(|at| tapes[at] + off[at]);
            let fitted = spread(&typed).unwrap();
            prop_assert!((needed(&fitted, DIAGONAL_RIGHT).unwrap() - fitted[DIAGONAL_RIGHT]).abs() < 1e-9);
            let squares = |tapes: &Tapes| tapes.iter().zip(&typed).map(|(a, b)| (a - b) * (a - b)).sum::<f64>();
            let mut near = corners(&fitted).unwrap();
            for (at, push) in [(1, 0), (2, 0), (2, 1), (3, 0), (3, 1)].into_iter().zip(push) {
                near[at.0][at.1] += push;
            }
            prop_assert!(squares(&fitted) <= squares(&tapes_of(&near)) + 1e-9);
            prop_assert!(squares(&fitted) <= squares(&tapes) + 1e-9, "the true figure is no nearer");
        }
    }
}
