//! Where on a plane a pile may stand: on the plane's own surface, and neither under nor over another roof.

use geom::region::{Region, area, bounds, common, contains, less};
use roof::{Place, Plane, Roof};

/// What two roofs share in plan by less than this, sq in, is rounding.
const NIL: f64 = 1.0;
/// A patch may reach over an edge by so much, in.
const HAIR: f64 = 1e-3;

/// A rectangle across and up the slope, inches: least and greatest corner.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Patch {
    pub(crate) least: Place,
    pub(crate) greatest: Place,
}

impl Patch {
    pub(crate) fn size(&self) -> [f64; 2] {
        [0, 1].map(|axis| self.greatest[axis] - self.least[axis])
    }

    pub(crate) fn middle(&self) -> Place {
        [0, 1].map(|axis| f64::midpoint(self.least[axis], self.greatest[axis]))
    }

    fn about(middle: Place, size: [f64; 2]) -> Self {
        let corner = |side: f64| [0, 1].map(|axis| middle[axis] + side * size[axis] / 2.0);
        Self { least: corner(-1.0), greatest: corner(1.0) }
    }

    fn ring(&self) -> Vec<Place> {
        let ([left, low], [right, high]) = (self.least, self.greatest);
        vec![[left, low], [right, low], [right, high], [left, high]]
    }
}

/// A plane's outline less what another roof covers, or stands over, in plan. Where a plane's place is not known, neither is that.
pub(crate) fn footing(roof: &Roof, index: usize) -> Region {
    let Some(plane) = roof.planes.get(index) else { return Region::new() };
    let own = plane.places();
    if !plane.has_place() {
        return own;
    }
    let [least, greatest] = bounds(&own);
    let meets = |other: &Region| {
        let [low, high] = bounds(other);
        (0..2).all(|axis| low[axis] < greatest[axis] && least[axis] < high[axis])
    };
    let others = roof.planes.iter().enumerate().filter(|(at, other)| *at != index && other.has_place());
    let shadows = others.map(|(_, other)| shadow(plane, other)).filter(meets);
    shadows.filter(|shadow| area(&common(&own, shadow)) > NIL).fold(own.clone(), |free, shadow| less(&free, &shadow))
}

/// Another plane, seen in plan, in the coordinates of this one.
fn shadow(plane: &Plane, other: &Plane) -> Region {
    let ring = |ring: &roof::Ring| ring.corners.iter().map(|&[x, y, _]| plane.frame.place(x, y)).collect();
    other.rings.iter().map(ring).collect()
}

/// Parts of the whole size that are tried, and places along each side of what a pile has to itself.
const SIZES: [f64; 3] = [1.0, 0.75, 0.5];
const STEPS: u32 = 8;

/// The patch of a pile, within `own`, as large as `side` allows, as near as can be to `wished`; none where not even half of it, or no
/// unit of this size, finds room.
pub(crate) fn patch_within(free: &Region, own: Patch, side: f64, wished: Place, unit: [f64; 2]) -> Option<Patch> {
    let here = common(free, &[own.ring()]);
    if here.is_empty() {
        return None;
    }
    let [least, greatest] = bounds(&here);
    let own = Patch { least, greatest };
    let whole = own.size().map(|room| room.min(side));
    SIZES.into_iter().find_map(|part| {
        let size = whole.map(|side| side * part);
        let [short, long] = [size[0].min(size[1]), size[0].max(size[1])];
        let holds_unit = short >= unit[0].min(unit[1]) && long >= unit[0].max(unit[1]);
        holds_unit.then(|| nearest(&here, own, size, wished)).flatten()
    })
}

fn nearest(here: &Region, own: Patch, size: [f64; 2], wished: Place) -> Option<Patch> {
    // As far as the middle may go.
    let from = [0, 1].map(|axis| own.least[axis] + size[axis] / 2.0);
    let to = [0, 1].map(|axis| own.greatest[axis] - size[axis] / 2.0);
    let kept = [0, 1].map(|axis| wished[axis].clamp(from[axis], to[axis].max(from[axis])));
    let at = |axis: usize, step: u32| from[axis] + (to[axis] - from[axis]).max(0.0) * f64::from(step) / f64::from(STEPS);
    let grid = (0..=STEPS).flat_map(|up| (0..=STEPS).map(move |across| [at(0, across), at(1, up)]));
    let mut middles: Vec<Place> = [kept].into_iter().chain(grid).collect();
    middles.sort_by(|a, b| geom::distance(*a, kept).total_cmp(&geom::distance(*b, kept)));
    middles.into_iter().map(|middle| Patch::about(middle, size)).find(|patch| holds(here, patch))
}

/// Whether a patch lies in a region altogether: its middle does, and no edge passes through it.
fn holds(region: &Region, patch: &Patch) -> bool {
    let inner = Patch { least: patch.least.map(|least| least + HAIR), greatest: patch.greatest.map(|most| most - HAIR) };
    let mut sides = region.iter().flat_map(|ring| geom::polygon::sides(ring));
    contains(region, patch.middle()) && !sides.any(|(a, b)| passes(&inner, a, b))
}

/// Whether a stretch passes through a rectangle.
fn passes(patch: &Patch, from: Place, to: Place) -> bool {
    let mut part = [0.0_f64, 1.0_f64];
    for axis in 0..2 {
        let way = to[axis] - from[axis];
        let [low, high] = [patch.least[axis] - from[axis], patch.greatest[axis] - from[axis]];
        if way.abs() < f64::MIN_POSITIVE {
            if low > 0.0 || high < 0.0 {
                return false;
            }
        } else {
            let [enter, leave] = if way > 0.0 { [low / way, high / way] } else { [high / way, low / way] };
            part = [part[0].max(enter), part[1].min(leave)];
        }
    }
    part[0] < part[1]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(corners: &[Place]) -> Region {
        vec![corners.to_vec()]
    }

    const CELL: Patch = Patch { least: [0.0, 0.0], greatest: [72.0, 48.0] };

    fn within(free: &Region, wished: Place) -> Option<Patch> {
        patch_within(free, CELL, 48.0, wished, [11.0, 20.0])
    }

    #[test]
    fn where_all_is_free_it_is_whole_and_where_it_is_wished() {
        let patch = within(&vec![CELL.ring()], [30.0, 24.0]).unwrap_or(CELL);
        assert_eq!((patch.size(), patch.middle()), ([48.0, 48.0], [30.0, 24.0]));
    }

    /// Right of a valley that runs from the lower left corner up to the right.
    #[test]
    fn beside_a_valley_it_stands_off_or_shrinks() {
        let free = ring(&[[0.0, 0.0], [72.0, 0.0], [72.0, 48.0]]);
        let Some(patch) = within(&free, [48.0, 16.0]) else { panic!("there is room") };
        assert!(patch.size()[0] < 48.0 && patch.least[0] * 48.0 / 72.0 >= patch.greatest[1] - 0.01, "{patch:?}");
        // A sliver holds no unit.
        assert_eq!(within(&ring(&[[0.0, 0.0], [72.0, 0.0], [72.0, 9.0]]), [48.0, 4.0]), None);
    }

    #[test]
    fn it_goes_round_a_chimney() {
        let mut free = vec![CELL.ring()];
        free.push(vec![[30.0, 10.0], [30.0, 40.0], [44.0, 40.0], [44.0, 10.0]]);
        let Some(patch) = within(&free, [36.0, 24.0]) else { panic!("there is room") };
        assert!(patch.greatest[0] <= 30.01 || patch.least[0] >= 43.99 || patch.greatest[1] <= 10.01, "{patch:?}");
    }
}
