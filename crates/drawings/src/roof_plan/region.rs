use super::overhead::Overhead;
use super::view::View;
use crate::clear::Taken;
use crate::surface::Surface;
use crate::{Point, Words};

/// Steps of the grid of places along each side of a region, at most.
const STEPS: f64 = 45.0;
/// Least step of the grid, mm.
const STEP: f64 = 0.8;

/// The part of the drawing that shows one plane.
pub(crate) struct Region<'a> {
    pub(crate) surface: &'a Surface<'a>,
    pub(crate) words: &'a dyn Words,
    view: &'a View,
    above: Vec<&'a Surface<'a>>,
    /// Places on it, a grid; all of the plane if none of it is seen.
    places: Vec<Point>,
    /// Mean of the places.
    pub(crate) middle: Point,
    /// Name of a plane that hides it all.
    pub(crate) under: Option<String>,
}

impl<'a> Region<'a> {
    pub(crate) fn of(overhead: &'a Overhead, surface: &'a Surface<'a>, view: &'a View) -> Self {
        let grid = grid(surface, view);
        let above = overhead.above(surface);
        let covers = |at: Point| above.iter().find(|other| other.is_over(surface, view.place(at)));
        let seen: Vec<Point> = grid.iter().copied().filter(|&at| covers(at).is_none()).collect();
        let under = if seen.is_empty() { grid.first().and_then(|&at| covers(at)) } else { None };
        let under = under.map(|other| other.plane.name.clone());
        let places = if seen.is_empty() { grid } else { seen };
        Self { middle: mean(&places), surface, words: overhead.words, view, above, places, under }
    }

    /// Left, top, right, bottom, mm, wide enough to take in the plane's own edges however they were rounded.
    pub(crate) fn bounds(&self) -> [f64; 4] {
        let [left, low, right, high] = self.surface.bounds;
        let ([left, top], [right, bottom]) = (self.view.point([left, high]), self.view.point([right, low]));
        [left - 1.0, top - 1.0, right + 1.0, bottom + 1.0]
    }

    /// Whether a point shows this plane.
    pub(crate) fn shows(&self, at: Point) -> bool {
        let place = self.view.place(at);
        let is_hidden = self.above.iter().any(|other| other.is_over(self.surface, place));
        self.surface.covers(place) && is_hidden == self.under.is_some()
    }

    /// The places, the middle first among them, at which a shape is clear of what is taken.
    pub(crate) fn clear(&self, taken: &Taken, shape: impl Fn(Point) -> [Point; 4]) -> Vec<Point> {
        let middle = self.shows(self.middle).then_some(self.middle);
        middle.into_iter().chain(self.places.iter().copied()).filter(|&at| taken.is_clear(&shape(at))).collect()
    }
}

pub(crate) fn distance(a: Point, b: Point) -> f64 {
    libm::hypot(a[0] - b[0], a[1] - b[1])
}

/// Points of the drawing that lie on the plane; where it is too small for any, the middle of its first ring.
fn grid(surface: &Surface, view: &View) -> Vec<Point> {
    let [left, low, right, high] = surface.bounds;
    let ([left, top], [right, bottom]) = (view.point([left, high]), view.point([right, low]));
    let step = ((right - left).max(bottom - top) / STEPS).max(STEP);
    let [columns, rows] = [right - left, bottom - top].map(|long| (long / step) as usize);
    let along = |from: f64, index: usize| from + step * (index as f64 + 0.5);
    let all = (0..rows).flat_map(|row| (0..columns).map(move |column| [along(left, column), along(top, row)]));
    let found: Vec<Point> = all.filter(|&at| surface.covers(view.place(at))).collect();
    if found.is_empty() { vec![middle_of_ring(surface, view)] } else { found }
}

fn middle_of_ring(surface: &Surface, view: &View) -> Point {
    let corners: Vec<Point> = surface.rings.iter().take(1).flatten().map(|&corner| view.point(corner)).collect();
    mean(&corners)
}

fn mean(points: &[Point]) -> Point {
    let count = points.len().max(1) as f64;
    points.iter().fold([0.0; 2], |sum, at| [sum[0] + at[0] / count, sum[1] + at[1] / count])
}
