//! Courses spread evenly from the first butts to the top line.

use super::ROUNDING;
use super::limits::Limits;

/// v of the butts of n = ⌈S / greatest⌉ courses of S / n each; where that is below the least, courses of the least and a
/// short one.
pub(super) fn butts(first: f64, top: f64, limits: &Limits) -> Vec<f64> {
    let slope = top - first;
    let courses = (slope / limits.greatest * (1.0 - ROUNDING)).ceil().max(1.0);
    let exposure = (slope / courses).clamp(limits.least, limits.greatest);
    (0..courses as u32).map(|course| first + f64::from(course) * exposure).collect()
}

#[cfg(test)]
mod tests {
    use super::super::CourseLines;
    use super::*;

    fn lines(first: f64, top: f64, least: f64, greatest: f64) -> CourseLines {
        CourseLines { butts: butts(first, top, &Limits { least, greatest }), top, least }
    }

    /// Arithmetic: ⌈201.9 / 8.5⌉ = 24 courses of 8.4125 in; a 20-in slate then laps 20 − 2 × 8.4125 = 3.175 in.
    /// 8.5 in is the exposure of a 20-in slate at 3-in lap in US Simplified Practice Recommendation R14-28.
    #[test]
    fn courses_shrink_to_land_at_the_top_line() {
        let lines = lines(-1.5, 200.4, 8.0, 8.5);
        assert_eq!(lines.count(), 24);
        assert!((lines.shows(0) - 8.4125).abs() < 1e-12);
        assert_eq!(lines.short_top(), None);
    }

    #[test]
    fn rounding_adds_no_course() {
        let even = lines(0.0, 10.0 * 7.1 + 1e-12, 6.0, 7.1);
        assert_eq!(even.count(), 10);
        assert!(even.shows(0) <= 7.1);
        assert_eq!(lines(0.0, 10.0 * 7.1 + 1e-6, 6.0, 7.1).count(), 11);
    }

    #[test]
    fn below_the_least_exposure_the_top_course_is_short() {
        let lines = lines(0.0, 15.0, 7.0, 7.4);
        assert_eq!((lines.count(), lines.shows(0)), (3, 7.0));
        assert_eq!(lines.short_top(), Some(1.0));
    }

    #[test]
    fn a_plane_lower_than_its_caps_still_has_a_course() {
        let lines = lines(0.0, -2.0, 6.0, 7.0);
        assert_eq!((lines.count(), lines.shows(0)), (1, 0.0));
    }
}
