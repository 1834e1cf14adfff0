//! Where the water of an upper eave falls on a lower roof.

use roof::{EdgeKind, Line, Plane, Point3, Roof};

use crate::Place;

/// An eave that drips on a plane below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Drip {
    /// A place on the eave from which it falls.
    pub(crate) from: Place,
    /// The plane on which it falls.
    pub(crate) below: usize,
}

/// So many spots along an eave are looked at.
const SPOTS: u32 = 16;
/// Water leaves the edge so far out, and falls so far at least, inches.
const OUT: f64 = 1.0;

/// Every eave that drips on another plane, once for each plane below.
pub(crate) fn drips(roof: &Roof) -> Vec<Drip> {
    let eaves = roof.lines.iter().filter(|line| line.kind == EdgeKind::Eave);
    let mut found: Vec<Drip> = Vec::new();
    for drip in eaves.flat_map(|line| of_eave(roof, line)) {
        if !found.iter().any(|other| (other.from.plane, other.below) == (drip.from.plane, drip.below)) {
            found.push(drip);
        }
    }
    found
}

fn of_eave<'a>(roof: &'a Roof, line: &'a Line) -> impl Iterator<Item = Drip> + 'a {
    let upper = line.planes.first().copied();
    let spots = (0..SPOTS).map(|spot| along(line, (f64::from(spot) + 0.5) / f64::from(SPOTS)));
    spots.filter_map(move |point| {
        let (upper, plane) = (upper?, roof.planes.get(upper?)?);
        let [in_x, in_y] = plane.frame.inward();
        let outside = [point[0] - OUT * in_x, point[1] - OUT * in_y];
        let below = highest_below(roof, upper, outside, point[2] - OUT)?;
        let [u, v] = plane.frame.place(point[0], point[1]);
        Some(Drip { from: Place { plane: upper, course: 0, u, v }, below })
    })
}

fn along(line: &Line, part: f64) -> Point3 {
    let [a, b] = line.ends;
    std::array::from_fn(|axis| a[axis] + part * (b[axis] - a[axis]))
}

fn highest_below(roof: &Roof, upper: usize, [x, y]: [f64; 2], ceiling: f64) -> Option<usize> {
    let height = |plane: &Plane| plane.frame.point(plane.frame.place(x, y))[2];
    let planes = roof.planes.iter().enumerate().filter(|(index, plane)| *index != upper && plane.has_place());
    let under = planes.filter(|(_, plane)| height(plane) < ceiling && holds(plane, plane.frame.place(x, y)));
    under.max_by(|(_, a), (_, b)| height(a).total_cmp(&height(b))).map(|(index, _)| index)
}

/// Whether a place lies on a plane: inside an odd number of its rings.
fn holds(plane: &Plane, [u, v]: roof::Place) -> bool {
    let rings = plane.places();
    let sides = rings.iter().flat_map(|ring| ring.iter().zip(ring.iter().cycle().skip(1)));
    let crossed = sides.filter(|([_, low], [_, high])| (*low > v) != (*high > v));
    crossed.filter(|([u1, v1], [u2, v2])| u1 + (v - v1) / (v2 - v1) * (u2 - u1) > u).count() % 2 == 1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{Trial, house};

    /// A house with its south eave at 18 ft over a porch 8 ft deep at 9 ft, along half its length.
    #[test]
    fn a_porch_under_an_eave() {
        let gable = [Some(8.0), None, Some(8.0), None];
        let tall = house("house", [0.0, 0.0, 40.0, 28.0], gable, 18.0);
        let porch = house("porch", [10.0, -8.0, 30.0, 4.0], [Some(4.0), None, None, None], 9.0);
        let both = Trial::on(&[tall.clone(), porch]);
        let names: Vec<[&str; 2]> = drips(&both.roof)
            .iter()
            .map(|drip| [drip.from.plane, drip.below].map(|plane| both.roof.planes[plane].name.as_str()))
            .collect();
        assert_eq!(names, [["house, south", "porch, south"]]);
        assert_eq!(drips(&Trial::on(&[tall]).roof), []);
    }
}
