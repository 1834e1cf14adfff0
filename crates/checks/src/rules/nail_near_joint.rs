//! # Nail near joint
//!
//! ## What it finds
//! Nails of whole units that stand nearer than the sheet allows to a joint of the course above, which lies over them.
//! ## Why it matters
//! Water runs through the joint straight onto the nail and down its shank into the deck.
//! ## Remedy
//! Shift the start of the course above, or move the nails of this course along within what the sheet allows.
//! ## Source
//! The covering's data sheet, place of the nails and their distance off joints.

use covering::NailLine;
use layout::Joints;

use crate::facts::Laid;
use crate::facts::joints::compare;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "nail-near-joint",
    kind: Kind::Maker,
    family: Family::Fastening,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["nails"],
    file: include_str!("nail_near_joint.rs"),
    run: nail_near_joint,
};

fn nail_near_joint(facts: &Facts) -> Verdict {
    let mut distances = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let line = laid.covering.conditions.nail_line;
        let Some((line, least)) = line.and_then(|line| Some((line, line.off_joint?))) else {
            return Verdict::not_in_sheet("how far nails stay off joints, [nails] side, up and off_joint");
        };
        for course in 1..laid.units.courses.len() {
            under_joints(&laid, course, &line, least.to_inches(), &mut distances);
        }
    }
    distances.verdict(
        |nearest| {
            let [is, least] = nearest.inches();
            format!("{} has a nail {is} from a joint above it; the sheet asks for {least}", facts.name_of(nearest.place))
        },
        |place| facts.name_of(place),
        "No joint lies over a nail.",
    )
}

/// Nails of the course below one against the joints of that one, where these reach over them.
fn under_joints(laid: &Laid, course: usize, line: &NailLine, least: f64, distances: &mut Tally) {
    let [below, above] = [course - 1, course].map(|course| &laid.units.courses[course]);
    let height = below.butt + line.up.to_inches();
    if height < above.butt {
        return;
    }
    let joints: Vec<Joints> = above.joint_rows().collect();
    let side = line.side.to_inches();
    for run in below.runs.iter().filter(|run| run.cut.is_none()) {
        for first in [run.left + side, run.left + run.width - side] {
            let nails = Joints { first, step: run.step, count: run.count };
            compare(laid, course - 1, &[nails], &joints, least, distances);
        }
    }
}

#[cfg(test)]
mod tests {
    use units::Length;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// Half bond of 12 in units 1/4 in apart: the joints above stand at the middles, 6 in from either side.
    fn nailed(side: f64, up: f64) -> Trial {
        let mut trial = Trial::sound();
        let [side, up, off] = [side, up, 1.5].map(Length::inches);
        trial.covering.conditions.nail_line = Some(NailLine { side, up, off_joint: Some(off) });
        trial
    }

    #[test]
    fn the_least_distance_itself_is_enough() {
        assert_eq!(nailed(4.5, 10.0).outcome("nail-near-joint"), Outcome::Pass);
        assert_eq!(nailed(4.52, 10.0).adds(&nailed(1.5, 10.0)), ["nail-near-joint"]);
        // Twenty nails a course less two at the end, where no joint stands above; nineteen courses lie under another.
        let near = nailed(5.0, 10.0).one("nail-near-joint");
        let says = "has a nail 1\" from a joint above it; the sheet asks for 1-1/2\"";
        assert!(near.says.contains(says), "{}", near.says);
    }

    /// A nail below the next butts is not under that course at all.
    #[test]
    fn only_what_reaches_over_the_nail_counts() {
        assert_eq!(nailed(5.0, 6.9).outcome("nail-near-joint"), Outcome::NotApplicable);
        assert_eq!(nailed(5.0, 7.0).outcome("nail-near-joint"), Outcome::Fail);
        assert_eq!(Trial::sound().outcome("nail-near-joint"), Outcome::NotApplicable);
    }

    /// One unit moved brings its nails under a joint of the course above it.
    #[test]
    fn one_shifted_course() {
        let mut trial = nailed(1.5, 10.0);
        trial.covering.joint_offset = Length::inches(1.0);
        let sound = nailed(1.5, 10.0);
        trial.layout.planes[0].courses[6].runs[0].left += 4.0;
        let found = trial.one("nail-near-joint");
        let mut courses: Vec<usize> = found.places.iter().map(|place| place.course).collect();
        courses.dedup();
        assert_eq!(courses, [5, 6], "the nails of course 6 under course 7, those of course 7 under course 8");
        assert_eq!(trial.adds(&sound), ["nail-near-joint"]);
    }
}
