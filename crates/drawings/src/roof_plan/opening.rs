use super::view::View;
use crate::{Fill, Item, LineType, Point};

/// Openings narrower than this, mm, are drawn without their diagonals.
const CROSSED: f64 = 1.5;

/// A hole in the roof as it is drawn: its outline, crossed by diagonals.
pub(crate) struct Opening<'a> {
    pub(crate) name: &'a str,
    pub(crate) corners: Vec<Point>,
}

impl<'a> Opening<'a> {
    pub(crate) fn of(opening: &'a plan::Opening, view: &View) -> Self {
        let places: Vec<Point> = opening.outline_ft.iter().map(|&[x, y, _]| view.point([x, y])).collect();
        Self { name: &opening.name, corners: turns(&places) }
    }

    pub(crate) fn middle(&self) -> Point {
        let count = self.corners.len().max(1) as f64;
        self.corners.iter().fold([0.0; 2], |sum, at| [sum[0] + at[0] / count, sum[1] + at[1] / count])
    }

    /// From its middle to its furthest corner, mm.
    pub(crate) fn reach(&self) -> f64 {
        let [x, y] = self.middle();
        self.corners.iter().map(|corner| libm::hypot(corner[0] - x, corner[1] - y)).fold(0.0, f64::max)
    }

    pub(crate) fn draw(&self) -> Vec<Item> {
        let outline = Item::Shape { rings: vec![self.corners.clone()], line: LineType::Course, fill: Fill::Paper };
        let diagonal =
            |from: usize| Item::Line { points: vec![self.corners[from], self.corners[from + 2]], line: LineType::Piece };
        let crossed = self.corners.len() == 4 && self.reach() >= CROSSED;
        std::iter::once(outline).chain((0..2).filter(|_| crossed).map(diagonal)).collect()
    }
}

/// The corners at which the outline turns in plan: astride of a ridge it has others.
fn turns(corners: &[Point]) -> Vec<Point> {
    let around = |at: usize| [corners.len() - 1, 0, 1].map(|step| corners[(at + step) % corners.len()]);
    let is_turn = |at: &usize| {
        let [before, here, after] = around(*at);
        let [a, b] = [[here[0] - before[0], here[1] - before[1]], [after[0] - here[0], after[1] - here[1]]];
        (a[0] * b[1] - a[1] * b[0]).abs() > 1e-6 * libm::hypot(a[0], a[1]) * libm::hypot(b[0], b[1])
    };
    (0..corners.len()).filter(is_turn).map(|at| corners[at]).collect()
}
