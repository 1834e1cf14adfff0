use plan::Plan;

use super::stretch::{Stretch, stretches};
use crate::Words;
use crate::surface::{Surface, bounds};

/// The roof seen from above, in feet, before it is drawn at any scale.
pub(crate) struct Overhead<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) words: &'a dyn Words,
    pub(crate) surfaces: Vec<Surface<'a>>,
    pub(crate) stretches: Vec<Stretch>,
    /// Left, low, right, high.
    pub(crate) bounds: [f64; 4],
}

impl<'a> Overhead<'a> {
    /// `None` if there is no plane.
    pub(crate) fn of(plan: &'a Plan, words: &'a dyn Words) -> Option<Self> {
        let roof = &plan.roof;
        let surfaces: Vec<Surface> = roof.planes.iter().filter_map(|plane| Surface::of(roof, plane)).collect();
        let all = surfaces.iter().flat_map(|surface| surface.rings.iter().flatten().copied());
        Some(Self { plan, words, bounds: bounds(all)?, stretches: stretches(roof, &surfaces), surfaces })
    }

    /// The planes some part of which may lie over a part of this one.
    pub(crate) fn above(&self, surface: &Surface) -> Vec<&Surface<'a>> {
        let [left, low, right, high] = surface.bounds;
        let meets = |b: [f64; 4]| b[0] < right && left < b[2] && b[1] < high && low < b[3];
        let may = |other: &&Surface| other.plane.id != surface.plane.id && meets(other.bounds);
        self.surfaces.iter().filter(may).collect()
    }
}
