//! # Joint over joint
//!
//! ## What it finds
//! Joints that stand nearer than the covering's sheet allows to a joint they must miss: one of the course below; in triple
//! lap one of the two courses below; in the first course also one of the starters.
//! ## Why it matters
//! Water that enters a joint must land on a whole unit. Where two joints stand in line it runs through both, and under them
//! there is only the head of the next unit, or the deck.
//! ## Remedy
//! Shift the start of the course, or make its last two units share what is left over.
//! ## Source
//! The covering's data sheet, least joint offset of units and of starters.

use layout::{Course, Starters};

use crate::facts::Laid;
use crate::facts::joints::{compare, over};
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, SLACK, Tally};
use crate::{Facts, Family, Reading};

pub(crate) const RULE: Rule = Rule {
    name: "joint-over-joint",
    kind: Kind::Maker,
    family: Family::Lap,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["lap", "starter"],
    file: include_str!("joint_over_joint.rs"),
    run: joint_over_joint,
};

fn joint_over_joint(facts: &Facts) -> Verdict {
    let mut offsets = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let joints: Vec<Vec<f64>> = laid.units.courses.iter().map(Course::joints).collect();
        let reach = laid.covering.lap.bond() as usize - 1;
        (1..=reach).for_each(|down| over(&laid, down, laid.covering.joint_offset.to_inches(), &mut offsets));
        over_starters(&laid, &joints, &mut offsets);
    }
    offsets.verdict(
        |nearest| {
            let [is, least] = nearest.inches();
            let place = nearest.place;
            let at = units::Length::inches(place.u);
            format!("{} has a joint {at} along, {is} from one below; the sheet asks for {least}", facts.name_of(place))
        },
        |place| facts.name_of(place),
        "No joint stands over another course.",
    )
}

fn over_starters(laid: &Laid, joints: &[Vec<f64>], offsets: &mut Tally) {
    let least = laid.covering.starter.joint_offset.to_inches();
    for starters in &laid.units.starters {
        let flush = |course: &Course| (course.butt - starters.butt).abs() <= SLACK;
        if let Some(first) = laid.units.courses.iter().position(flush) {
            let above: Vec<f64> =
                joints[first].iter().copied().filter(|u| (starters.from..=starters.to).contains(u)).collect();
            compare(laid, first, &above, &starter_joints(laid, starters), least, offsets);
        }
    }
}

/// The middle of each gap between neighbouring starters.
fn starter_joints(laid: &Laid, starters: &Starters) -> Vec<f64> {
    let half_gap = (starters.step - laid.covering.starter.width.to_inches()) / 2.0;
    (1..starters.count).map(|index| starters.left + f64::from(index) * starters.step - half_gap).collect()
}

#[cfg(test)]
mod tests {
    use covering::Lap;
    use proptest::prelude::*;
    use units::Length;

    use super::*;
    use crate::trial::Trial;
    use crate::{Outcome, Place};

    fn courses(places: &[Place]) -> Vec<usize> {
        places.iter().map(|place| place.course).collect()
    }

    /// Half bond of 12 in units and 1/4 in gaps: joints are 6-1/8 in apart.
    #[test]
    fn the_least_offset_itself_is_enough() {
        let mut trial = Trial::sound();
        trial.covering.joint_offset = Length::inches(6.125);
        assert_eq!(trial.outcome("joint-over-joint"), Outcome::Pass);
        trial.covering.joint_offset = Length::inches(6.126);
        assert_eq!(trial.outcome("joint-over-joint"), Outcome::Fail);
    }

    /// A course shifted by 4 in comes 2-1/8 in near to the one below it, and so does the one above it.
    #[test]
    fn a_shifted_course() {
        let mut trial = Trial::sound();
        trial.layout.planes[0].courses[4].runs[0].left += 4.0;
        let checked = trial.one("joint-over-joint");
        assert_eq!(checked.outcome, Outcome::Fail);
        let mut found = courses(&checked.places);
        found.dedup();
        assert_eq!(found, [4, 5]);
        assert!(checked.says.contains("2-1/8\" from one below; the sheet asks for 3\""), "{}", checked.says);
    }

    /// In triple lap the second course below counts too: half bond, sound in double lap, puts every joint in line there.
    #[test]
    fn triple_lap_must_miss_two_courses() {
        let mut trial = Trial::sound();
        trial.covering.lap = Lap::Triple;
        let checked = trial.one("joint-over-joint");
        assert!(checked.says.contains("0\" from one below"), "{}", checked.says);
        assert_eq!(checked.places.first().map(|place| place.course), Some(2));
    }

    /// Joints of starters and first course at least 2 in apart (common practice, no published source).
    #[test]
    fn starters_must_miss_the_first_course() {
        let mut trial = Trial::sound();
        let first = trial.layout.planes[0].courses[0].runs[0].left;
        let mut shifted = |by: f64| {
            trial.layout.planes[0].starters[0].left = first + by;
            trial.outcome("joint-over-joint")
        };
        assert_eq!(shifted(2.0), Outcome::Pass);
        assert_eq!(shifted(-2.0), Outcome::Pass);
        assert_eq!(shifted(1.99), Outcome::Fail);
        assert_eq!(shifted(-1.99), Outcome::Fail);
    }

    #[test]
    fn one_unit_a_course_has_no_joints() {
        let mut trial = Trial::sound();
        for course in &mut trial.layout.planes[0].courses {
            course.runs[0].count = 1;
        }
        assert_eq!(trial.outcome("joint-over-joint"), Outcome::NotApplicable);
    }

    proptest! {
        /// The walk along two courses finds what comparing every pair finds.
        #[test]
        fn nearest_joints_by_brute_force(
            mut above in prop::collection::vec(0.0f64..100.0, 1..9),
            mut below in prop::collection::vec(0.0f64..100.0, 1..9),
            least in 0.5f64..20.0,
        ) {
            above.sort_by(f64::total_cmp);
            below.sort_by(f64::total_cmp);
            let trial = Trial::sound();
            let coverings = trial.coverings();
            let facts = trial.facts(&coverings);
            let laid = facts.laid().next().unwrap();
            let mut offsets = Tally::lengths(Bound::AtLeast);
            compare(&laid, 0, &above, &below, least, &mut offsets);
            let near = |joint: &&f64| below.iter().any(|under| (under - **joint).abs() < least - SLACK);
            let expected: Vec<f64> = above.iter().filter(near).copied().collect();
            let found = offsets.verdict(|_| String::new(), |_| String::new(), "").places;
            prop_assert_eq!(found.iter().map(|place| place.u).collect::<Vec<_>>(), expected);
        }
    }
}
