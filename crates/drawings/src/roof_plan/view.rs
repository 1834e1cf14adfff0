use super::overhead::Overhead;
use crate::surface::Place;
use crate::{Point, Scale};

/// The roof seen from above at a scale; the upper left corner of its bounds lies at the origin.
#[derive(Clone, Copy)]
pub(crate) struct View {
    scale: Scale,
    left: f64,
    high: f64,
    /// Width and height, mm.
    pub(crate) size: [f64; 2],
}

impl View {
    pub(crate) fn of(overhead: &Overhead, scale: Scale) -> Self {
        let [left, low, right, high] = overhead.bounds;
        Self { scale, left, high, size: [right - left, high - low].map(|feet| scale.paper(feet * 12.0)) }
    }

    pub(crate) fn point(&self, [x, y]: Place) -> Point {
        [x - self.left, self.high - y].map(|feet| self.scale.paper(feet * 12.0))
    }

    /// The plan place that is drawn at a point.
    pub(crate) fn place(&self, [x, y]: Point) -> Place {
        let foot = self.scale.paper(12.0);
        [self.left + x / foot, self.high - y / foot]
    }
}

/// A direction in plan as it runs on the paper, where y points down.
pub(crate) const fn direction([x, y]: Place) -> Point {
    [x, -y]
}
