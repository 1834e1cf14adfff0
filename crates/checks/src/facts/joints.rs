//! Distances of joints from those below.

use layout::Course;

use super::Laid;
use crate::tally::Tally;

/// Every joint against the nearest one so many courses down.
pub(crate) fn over(laid: &Laid, down: usize, least: f64, offsets: &mut Tally) {
    let joints: Vec<Vec<f64>> = laid.units.courses.iter().map(Course::joints).collect();
    for course in down..joints.len() {
        compare(laid, course, &joints[course], &joints[course - down], least, offsets);
    }
}

/// Joints of a course against those of one below it, both ascending.
pub(crate) fn compare(laid: &Laid, course: usize, above: &[f64], below: &[f64], least: f64, offsets: &mut Tally) {
    let mut left = 0;
    for &joint in above {
        left += below[left..].partition_point(|&under| under <= joint).saturating_sub(1);
        let near = below[left..].iter().take(2).map(|under| (under - joint).abs());
        if let Some(offset) = near.min_by(f64::total_cmp) {
            offsets.add(offset, least, laid.place_at(course, joint));
        }
    }
}
