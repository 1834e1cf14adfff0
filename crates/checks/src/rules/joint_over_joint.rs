//! # Joint over joint
//!
//! ## What it finds
//! Joints that stand nearer than the covering's sheet allows to a joint they must miss: one of the course below; in triple
//! lap, or where the sheet asks for it, one of the two courses below; in the first course also one of the starters.
//! ## Why it matters
//! Water that enters a joint must land on a whole unit. Where two joints stand in line it runs through both, and under them
//! there is only the head of the next unit, or the deck.
//! ## Remedy
//! Shift the start of the course, or make its last two units share what is left over.
//! ## Source
//! The covering's data sheet, least joint offset of units, one course down and two, and of starters.

use layout::{Course, Joints, Starters};

use crate::facts::Laid;
use crate::facts::joints::{compare, over, within};
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
    groups: &["lap", "bond", "starter"],
    file: include_str!("joint_over_joint.rs"),
    run: joint_over_joint,
};

fn joint_over_joint(facts: &Facts) -> Verdict {
    let mut offsets = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        for (down, least) in (1..=2).filter_map(|down| Some((down, laid.covering.joint_offset_down(down)?))) {
            over(&laid, down as usize, least.to_inches(), &mut offsets);
        }
        over_starters(&laid, &mut offsets);
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

fn over_starters(laid: &Laid, offsets: &mut Tally) {
    let least = laid.covering.starter.joint_offset.to_inches();
    for starters in &laid.units.starters {
        let flush = |course: &Course| (course.butt - starters.butt).abs() <= SLACK;
        if let Some(first) = laid.units.courses.iter().position(flush) {
            let course = &laid.units.courses[first];
            // Joints that lean are asked for at both ends of what is seen of them.
            let ends = [course.butt, course.butt + course.exposure];
            for &v in if laid.units.peak.is_some() { &ends[..] } else { &ends[..1] } {
                let rows = laid.units.joint_rows(first, v);
                let above: Vec<Joints> = rows.filter_map(|row| within(row, [starters.from, starters.to])).collect();
                compare(laid, first, &above, &starter_joints(laid, starters.butt), least, offsets);
            }
        }
    }
}

/// The middle of each gap between neighbouring starters at one height, those between two rows too.
fn starter_joints(laid: &Laid, butt: f64) -> Vec<Joints> {
    let half_gap = laid.covering.gap.to_inches() / 2.0;
    let rows: Vec<&Starters> = laid.units.starters.iter().filter(|row| (row.butt - butt).abs() <= SLACK).collect();
    let goes_on = |end: f64| rows.iter().any(|next| (next.left - end).abs() <= SLACK);
    let joints = rows.iter().filter_map(|row| {
        let end = row.left + f64::from(row.count) * row.step;
        let count = row.count.saturating_sub(u32::from(!goes_on(end)));
        (count > 0).then_some(Joints { first: row.left + row.step - half_gap, step: row.step, count })
    });
    joints.collect()
}

#[cfg(test)]
mod tests {
    use covering::Lap;
    use units::Length;

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

    /// Half bond stands in line with the joints two courses down: a sheet that asks for these to be missed refuses it.
    #[test]
    fn two_courses_down_where_the_sheet_asks() {
        let mut trial = Trial::sound();
        trial.covering.bonds.two_down = Some(Length::inches(0.5));
        let checked = trial.one("joint-over-joint");
        assert_eq!(checked.places.first().map(|place| place.course), Some(2));
        trial.covering.bonds.two_down = Some(Length::ZERO);
        assert_eq!(trial.outcome("joint-over-joint"), Outcome::Pass);
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

    /// Starters laid as two rows of 5 and 6: the joint between the rows counts too. Units of the first course are moved so that
    /// one joint stands over it, 61-1/8 in along, where a sixth starter begins.
    #[test]
    fn the_joint_between_two_rows_of_starters_counts() {
        let split = |apart: f64| {
            let mut trial = Trial::sound();
            let laid = &mut trial.layout.planes[0];
            let whole = laid.starters[0];
            let middle = whole.left + 5.0 * whole.step;
            laid.starters = vec![
                layout::Starters { to: middle, count: 5, ..whole },
                layout::Starters { from: middle, left: middle, count: 6, ..whole },
            ];
            let first = laid.courses[0].runs[0];
            let left = middle - whole.step / 2.0 + apart;
            let [a, b] = [0.0, first.step].map(|by| layout::Run { left: left + by - 0.5 * first.step, count: 1, ..first });
            laid.courses[0].runs = vec![a, layout::Run { joint_before: true, ..b }];
            trial.one("joint-over-joint").places.iter().filter(|place| place.course == 0).count()
        };
        assert_eq!([split(0.0), split(1.99), split(-1.99)], [1, 1, 1]);
        assert_eq!([split(2.0), split(-2.0)], [0, 0]);
    }

    #[test]
    fn one_unit_a_course_has_no_joints() {
        let mut trial = Trial::sound();
        for course in &mut trial.layout.planes[0].courses {
            course.runs[0].count = 1;
        }
        assert_eq!(trial.outcome("joint-over-joint"), Outcome::NotApplicable);
    }
}
