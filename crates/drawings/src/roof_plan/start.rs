use plan::{LaidPlane, Plan};

use super::view::{View, direction};
use crate::ring::crossings;
use crate::surface::Surface;
use crate::{Fill, Item, LineType, Point};

/// Of the disc, mm.
const RADIUS: f64 = 1.0;
/// Of the pointer: where it begins, its tip, and half of its width, mm.
const POINTER: [f64; 3] = [1.5, 4.9, 1.5];

/// Where laying starts on a plane: the left end of the first butts, and the way the course is laid from there.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Start {
    pub(crate) at: Point,
    /// Unit vector on the paper.
    pub(crate) along: Point,
}

impl Start {
    /// `None` where nothing is laid.
    pub(crate) fn of(plan: &Plan, surface: &Surface, view: &View) -> Option<Self> {
        let laid = plan.layout.planes.iter().find(|laid| laid.id == surface.plane.id)?;
        let at = view.point(surface.place([left_end(laid)?, laid.first_butt_in]));
        Some(Self { at, along: direction(surface.right()) })
    }

    pub(crate) fn room(&self) -> [Point; 4] {
        let [back, front, aside] = [-RADIUS, POINTER[1], POINTER[2].max(RADIUS)];
        [[back, -aside], [front, -aside], [front, aside], [back, aside]].map(|corner| self.point(corner))
    }

    pub(crate) fn draw(&self) -> Item {
        let [from, to, aside] = POINTER;
        let pointer = [[from, -aside], [to, 0.0], [from, aside]].map(|corner| self.point(corner)).to_vec();
        Item::Shape { rings: vec![self.disc(), pointer], line: LineType::Unseen, fill: Fill::Ink }
    }

    fn disc(&self) -> Vec<Point> {
        let corner = |step: u32| {
            let turn = f64::from(step) * std::f64::consts::TAU / 24.0;
            [self.at[0] + RADIUS * libm::cos(turn), self.at[1] + RADIUS * libm::sin(turn)]
        };
        (0..24).map(corner).collect()
    }

    fn point(&self, [forward, aside]: [f64; 2]) -> Point {
        let [dx, dy] = self.along;
        [self.at[0] + forward * dx - aside * dy, self.at[1] + forward * dy + aside * dx]
    }
}

/// u at which the first butts begin. In a valley the units reach further to the left than their butts.
fn left_end(laid: &LaidPlane) -> Option<f64> {
    let &[left, _] = laid.courses.first()?.spans_in.first()?;
    let just_above = laid.first_butt_in + JUST_ABOVE;
    let entries = laid.laid_in.iter().flat_map(|ring| crossings(ring, just_above));
    Some(entries.reduce(f64::min).map_or(left, |entry| entry.max(left)))
}

/// Height over the first butts at which their line surely runs inside the outline, inches.
const JUST_ABOVE: f64 = 0.01;
