use crate::clear::boxed;
use crate::{Fill, Item, LineType, Point};

/// Of the head, mm.
const HEAD: [f64; 2] = [2.6, 1.7];
/// Room across an arrow, mm.
const ACROSS: f64 = 3.4;
/// Room left before and behind it, mm.
const AROUND: f64 = 1.0;

/// An arrow that points the way the water runs.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Arrow {
    pub(crate) middle: Point,
    /// Unit vector on the paper.
    pub(crate) along: Point,
    /// From tail to tip, mm.
    pub(crate) length: f64,
}

impl Arrow {
    pub(crate) fn room(&self) -> [Point; 4] {
        let turn = libm::atan2(self.along[1], self.along[0]).to_degrees();
        boxed(self.middle, [self.length + 2.0 * AROUND, ACROSS], turn)
    }

    /// How far its room reaches from its middle in a direction, mm.
    pub(crate) fn reach(&self, along: Point) -> f64 {
        let corners = Self { middle: [0.0; 2], ..*self }.room();
        corners.iter().map(|corner| corner[0] * along[0] + corner[1] * along[1]).fold(0.0, f64::max)
    }

    pub(crate) fn draw(&self) -> [Item; 2] {
        let half = self.length / 2.0;
        let shaft = vec![self.point([-half, 0.0]), self.point([half - HEAD[0], 0.0])];
        let head = [[half, 0.0], [half - HEAD[0], HEAD[1] / 2.0], [half - HEAD[0], -HEAD[1] / 2.0]];
        let rings = vec![head.map(|corner| self.point(corner)).to_vec()];
        [
            Item::Line { points: shaft, line: LineType::Course },
            Item::Shape { rings, line: LineType::Unseen, fill: Fill::Ink },
        ]
    }

    fn point(&self, [forward, aside]: [f64; 2]) -> Point {
        let [dx, dy] = self.along;
        [self.middle[0] + forward * dx - aside * dy, self.middle[1] + forward * dy + aside * dx]
    }
}
