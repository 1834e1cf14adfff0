use plan::{Plane, Roof};

/// A place in plan, feet.
pub(crate) type Place = [f64; 2];

/// A plane lies over another thing if it is higher by more than this, feet.
pub(crate) const HIGHER: f64 = 0.02;

/// A plane as seen from above, in feet.
pub(crate) struct Surface<'a> {
    pub(crate) plane: &'a Plane,
    pub(crate) rings: Vec<Vec<Place>>,
    /// Left, low, right, high.
    pub(crate) bounds: [f64; 4],
    /// Unit vector in plan, the way the water runs.
    pub(crate) fall: Place,
    /// A corner in space.
    corner: [f64; 3],
    /// The same corner in the plane's own frame, inches.
    corner_in: [f64; 2],
}

impl<'a> Surface<'a> {
    /// `None` if the plane has no corners.
    pub(crate) fn of(roof: &Roof, plane: &'a Plane) -> Option<Self> {
        let rings: Vec<Vec<Place>> =
            plane.outlines_ft.iter().map(|ring| ring.iter().map(|&[x, y, _]| [x, y]).collect()).collect();
        let turn = (plane.facing_deg + roof.north_deg).to_radians();
        Some(Self {
            plane,
            bounds: bounds(rings.iter().flatten().copied())?,
            rings,
            fall: [libm::sin(turn), libm::cos(turn)],
            corner: *plane.outlines_ft.first()?.first()?,
            corner_in: *plane.outlines_in.first()?.first()?,
        })
    }

    /// To the right along the bearing side, seen facing the plane from the ground.
    pub(crate) const fn right(&self) -> Place {
        [-self.fall[1], self.fall[0]]
    }

    /// The plan place of a place on the plane, which is told in inches of its own frame.
    pub(crate) fn place(&self, [u, v]: [f64; 2]) -> Place {
        let along = (u - self.corner_in[0]) / 12.0;
        let run = (v - self.corner_in[1]) / 12.0 / libm::hypot(1.0, self.plane.pitch / 12.0);
        let right = self.right();
        [self.corner[0] + along * right[0] - run * self.fall[0], self.corner[1] + along * right[1] - run * self.fall[1]]
    }

    /// The place in the plane's own frame, inches, of a plan place: the inverse of [`Self::place`].
    pub(crate) fn own(&self, [x, y]: Place) -> [f64; 2] {
        let [dx, dy] = [(x - self.corner[0]) * 12.0, (y - self.corner[1]) * 12.0];
        let right = self.right();
        let run = -(dx * self.fall[0] + dy * self.fall[1]);
        [
            self.corner_in[0] + dx * right[0] + dy * right[1],
            self.corner_in[1] + run * libm::hypot(1.0, self.plane.pitch / 12.0),
        ]
    }

    /// Height of the plane, or of its extension, feet.
    pub(crate) fn height(&self, [x, y]: Place) -> f64 {
        let fallen = (x - self.corner[0]) * self.fall[0] + (y - self.corner[1]) * self.fall[1];
        self.corner[2] - fallen * self.plane.pitch / 12.0
    }

    pub(crate) fn covers(&self, at: Place) -> bool {
        let [left, low, right, high] = self.bounds;
        let near = left <= at[0] && at[0] <= right && low <= at[1] && at[1] <= high;
        near && self.sides().filter(|&side| is_right_of(at, side)).count() % 2 == 1
    }

    /// Whether this plane lies over another at a place.
    pub(crate) fn is_over(&self, other: &Surface, at: Place) -> bool {
        self.height(at) > other.height(at) + HIGHER && self.covers(at)
    }

    pub(crate) fn sides(&self) -> impl Iterator<Item = [Place; 2]> + '_ {
        self.rings
            .iter()
            .flat_map(|ring| ring.iter().copied().zip(ring.iter().copied().cycle().skip(1)).map(|(a, b)| [a, b]))
    }
}

/// Whether a level ray from `at` to the right meets the side.
fn is_right_of([x, y]: Place, [a, b]: [Place; 2]) -> bool {
    (a[1] > y) != (b[1] > y) && a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]) > x
}

/// Left, low, right, high; `None` without places.
pub(crate) fn bounds(places: impl Iterator<Item = Place>) -> Option<[f64; 4]> {
    places.map(|[x, y]| [x, y, x, y]).reduce(|a, b| [a[0].min(b[0]), a[1].min(b[1]), a[2].max(b[2]), a[3].max(b[3])])
}

#[cfg(test)]
mod tests {
    use super::*;
    use covering::Catalog;
    use reader::Format;

    /// On a house whose north is turned: the plan tells every corner twice, in space and in the frame of its plane.
    #[test]
    fn frame_and_space_agree_about_every_corner() {
        let (job, _) = plan::read_job(include_str!("../../../examples/hip.toml"), Format::Toml);
        let roof = plan::plan(&job.unwrap(), &Catalog::shipped()).roof;
        for plane in &roof.planes {
            let surface = Surface::of(&roof, plane).unwrap();
            for (place, [x, y, z]) in plane.outlines_in.concat().into_iter().zip(plane.outlines_ft.concat()) {
                let [dx, dy] = [surface.place(place)[0] - x, surface.place(place)[1] - y];
                assert!(dx.abs() < 1e-6 && dy.abs() < 1e-6, "{}: {dx} {dy}", plane.name);
                let [du, dv] = [surface.own([x, y])[0] - place[0], surface.own([x, y])[1] - place[1]];
                assert!(du.abs() < 1e-4 && dv.abs() < 1e-4, "{}: {du} {dv}", plane.name);
                assert!((surface.height([x, y]) - z).abs() < 1e-6, "{}", plane.name);
            }
        }
    }
}
