//! Graduated slopes: the longest units lie lowest, and shorter ones follow stretch by stretch.

use covering::Covering;

use super::ROUNDING;

/// No course of a shorter unit shows less than this part of what the longest may show.
const LEAST_PART: f64 = 0.25;

/// One length of the units of a slope, inches.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Grade {
    /// From butt to head.
    pub(crate) length: f64,
    /// How much less its courses show than those of the sheet's own unit, so that the headlap stays.
    pub(crate) shorter: f64,
    /// Part of the slope that it covers, with all longer ones below it.
    to: f64,
}

/// The lengths of a sheet, from the longest down; of a sheet that is not graduated the one.
pub(crate) fn grades(covering: &Covering) -> Vec<Grade> {
    let graded = covering.grades();
    let all: f64 = graded.iter().map(|graded| graded.share).sum();
    let mut below = 0.0;
    let grade = |graded: covering::GradedLength| {
        below += graded.share / all.max(f64::MIN_POSITIVE);
        let shorter = covering.shortened(graded.length).to_inches();
        Grade { length: graded.length.to_inches(), shorter, to: below }
    };
    graded.into_iter().map(grade).collect()
}

/// The grade of every course that it takes to reach `height` at the greatest exposures; `of_slope` turns inches on the slope
/// into the measure of the height. A course belongs to the stretch in which its middle lies.
pub(crate) fn by_course(grades: &[Grade], height: f64, greatest: f64, of_slope: f64) -> Vec<Grade> {
    let mut courses: Vec<Grade> = Vec::new();
    let (mut line, mut grade) = (0.0, 0);
    while let Some(mut own) = grades.get(grade).copied() {
        own.shorter = own.shorter.min(greatest / of_slope * (1.0 - LEAST_PART));
        let shows = greatest - own.shorter * of_slope;
        if grade + 1 < grades.len() && line + shows / 2.0 > own.to * height {
            grade += 1;
            continue;
        }
        courses.push(own);
        line += shows;
        if line >= height * (1.0 - ROUNDING) {
            break;
        }
    }
    courses
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a slope of 80 in, half of it in units that show 8 in and half in units that show 6 in. Five courses of 8 in reach
    /// 40 in; 36 + 6 = 42 would pass the middle by more than half a course. Of the other 40 in seven courses of 6 in are 42.
    #[test]
    fn each_length_has_its_share_of_the_slope() {
        let grade = |shorter, to| Grade { length: 20.0 - 2.0 * shorter, shorter, to };
        let courses = by_course(&[grade(0.0, 0.5), grade(2.0, 1.0)], 80.0, 8.0, 1.0);
        let longs = courses.iter().filter(|grade| grade.shorter < 1.0).count();
        assert_eq!((longs, courses.len()), (5, 12));
    }
}
