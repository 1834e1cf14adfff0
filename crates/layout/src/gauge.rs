//! Course lines: how many, how far apart.

use covering::Covering;
use roof::{EdgeKind, Place, Plane};

use crate::cut::sides;
use crate::outline::{edges, is_level, weather_line, weathered_top};

/// S / e this close above a whole number is that number: rounding must not add a course.
const ROUNDING: f64 = 1e-9;

/// The course lines of a plane, v in inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Gauge {
    /// The first butts.
    pub(crate) first: f64,
    /// The top line.
    pub(crate) top: f64,
    /// Spacing of the lines.
    pub(crate) exposure: f64,
    /// How many.
    pub(crate) courses: u32,
    /// The least exposure that the sheet prefers.
    pub(crate) least: f64,
}

impl Gauge {
    /// `None` where there is nothing to lay or the sheet's exposures are no numbers to lay by.
    pub(crate) fn of(plane: &Plane, covering: &Covering, laid: &[Vec<Place>]) -> Option<Self> {
        let first = laid.iter().flatten().map(|&[_, v]| v).reduce(f64::min)?;
        let top = top(plane, covering)?;
        let [least, greatest] = exposures(covering, plane);
        (least > 0.0 && greatest.is_finite()).then(|| Self::between(first, top, least, greatest))
    }

    /// Courses n = ⌈S / greatest⌉ of S / n each; where that is below the least, courses of the least and a short one.
    fn between(first: f64, top: f64, least: f64, greatest: f64) -> Self {
        let slope = top - first;
        let courses = (slope / greatest * (1.0 - ROUNDING)).ceil().max(1.0);
        let exposure = (slope / courses).clamp(least, greatest);
        Self { first, top, exposure, courses: courses as u32, least }
    }

    /// v of the butts of a course.
    pub(crate) fn butt(&self, course: u32) -> f64 {
        self.first + f64::from(course) * self.exposure
    }

    /// What a course shows: to the next line, or to the top.
    pub(crate) fn shows(&self, course: u32) -> f64 {
        if course + 1 == self.courses { (self.top - self.butt(course)).max(0.0) } else { self.exposure }
    }

    /// What the last course shows, where that is less than the least exposure.
    pub(crate) fn short_top(&self) -> Option<f64> {
        let shows = self.shows(self.courses - 1);
        (shows < self.least * (1.0 - ROUNDING)).then_some(shows)
    }
}

/// Least and greatest exposure; outside the sheet's pitches both are the shortest that the sheet knows.
fn exposures(covering: &Covering, plane: &Plane) -> [f64; 2] {
    let shortest = covering.shortest_exposure();
    let [least, greatest] =
        covering.band(plane.pitch).map_or([shortest; 2], |band| [band.least_exposure, band.greatest_exposure]);
    [least.to_inches().min(greatest.to_inches()), greatest.to_inches()]
}

/// The highest line up to which courses are seen.
fn top(plane: &Plane, covering: &Covering) -> Option<f64> {
    let places = plane.places();
    let level = edges(plane).filter(|&(side, _)| is_level(side) && side[1][0] < side[0][0]);
    let lines = level.map(|([from, _], kind)| from[1] + weather_line(covering, kind));
    let peaks = places.iter().zip(&plane.rings).flat_map(|(places, ring)| {
        let kinds: Vec<EdgeKind> = ring.edges.iter().map(|edge| edge.kind).collect();
        hip_peaks(places, &kinds)
    });
    let peaks = peaks.map(|v| v + weather_line(covering, EdgeKind::Hip));
    lines.chain(peaks).chain(weathered_top(plane, covering)).reduce(f64::max)
}

/// v of the corners where a hip ends and nothing rises further.
fn hip_peaks(places: &[Place], kinds: &[EdgeKind]) -> Vec<f64> {
    let sides: Vec<[Place; 2]> = sides(places).collect();
    let before = |index: usize| (index + sides.len() - 1) % sides.len();
    (0..sides.len().min(kinds.len()))
        .filter(|&index| [index, before(index)].iter().any(|&side| kinds.get(side) == Some(&EdgeKind::Hip)))
        .filter(|&index| rises(sides[before(index)]) && falls(sides[index]))
        .map(|index| places[index][1])
        .collect()
}

fn rises(side: [Place; 2]) -> bool {
    !is_level(side) && side[1][1] > side[0][1]
}

fn falls(side: [Place; 2]) -> bool {
    !is_level(side) && side[1][1] < side[0][1]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Arithmetic: ⌈201.9 / 8.5⌉ = 24 courses of 8.4125 in; a 20-in slate then laps 20 − 2 × 8.4125 = 3.175 in.
    /// 8.5 in is the exposure of a 20-in slate at 3-in lap in US Simplified Practice Recommendation R14-28.
    #[test]
    fn courses_shrink_to_land_at_the_top_line() {
        let gauge = Gauge::between(-1.5, 200.4, 8.0, 8.5);
        assert_eq!(gauge.courses, 24);
        assert!((gauge.exposure - 8.4125).abs() < 1e-12);
        assert_eq!(gauge.short_top(), None);
    }

    #[test]
    fn rounding_adds_no_course() {
        let gauge = Gauge::between(0.0, 10.0 * 7.1 + 1e-12, 6.0, 7.1);
        assert_eq!(gauge.courses, 10);
        assert!(gauge.exposure <= 7.1);
        assert_eq!(Gauge::between(0.0, 10.0 * 7.1 + 1e-6, 6.0, 7.1).courses, 11);
    }

    #[test]
    fn below_the_least_exposure_the_top_course_is_short() {
        let gauge = Gauge::between(0.0, 15.0, 7.0, 7.4);
        assert_eq!((gauge.courses, gauge.exposure), (3, 7.0));
        assert_eq!(gauge.short_top(), Some(1.0));
    }

    #[test]
    fn a_plane_lower_than_its_caps_still_has_a_course() {
        let gauge = Gauge::between(0.0, -2.0, 6.0, 7.0);
        assert_eq!((gauge.courses, gauge.shows(0)), (1, 0.0));
    }
}
