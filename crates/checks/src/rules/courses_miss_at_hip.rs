//! # Courses miss at hip
//!
//! ## What it finds
//! Planes that meet at a hip or a valley and climb by different heights a course, so that their lines do not meet there.
//! ## Why it matters
//! Lines that step at a hip are seen from the street, and mitred or woven work along it is not possible.
//! ## Remedy
//! Give both planes the same rise a course (exposure x sine of the pitch), or cap the hip and leave the valley open.
//! ## Source
//! Common practice, no published source; that equal rises make lines meet is geometry.

use roof::EdgeKind;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "courses-miss-at-hip",
    kind: Kind::Practice,
    family: Family::Pitch,
    endangers: &[Danger::Warranty],
    reading: Reading::Memory,
    about: "block",
    groups: &[],
    file: include_str!("courses_miss_at_hip.rs"),
    run: courses_miss_at_hip,
};

/// A tape mark: what differs less nobody can set out.
fn nobody_sees() -> f64 {
    figure!(0.0625)
}

fn courses_miss_at_hip(facts: &Facts) -> Verdict {
    let mut differ = Tally::lengths(Bound::AtMost);
    for line in facts.roof.lines.iter().filter(|line| matches!(line.kind, EdgeKind::Hip | EdgeKind::Valley)) {
        let rises: Vec<_> = line.planes.iter().filter_map(|&plane| rise_a_course(facts, plane)).collect();
        if let [(one, place), (other, _)] = rises[..] {
            differ.add((one - other).abs(), nobody_sees(), place);
        }
    }
    let verdict = differ.verdict(
        |worst| {
            let [is, _] = worst.inches();
            format!("{} climbs {is} more or less a course than its neighbour", facts.plane_name(worst.place))
        },
        |place| facts.name_of(place),
        "No two laid planes meet at a hip or a valley.",
    );
    if verdict.outcome == crate::Outcome::Pass {
        Verdict::pass("Courses meet at every hip and valley.")
    } else {
        verdict.looked_at()
    }
}

/// Height of a course, inches, and where it begins.
fn rise_a_course(facts: &Facts, plane: usize) -> Option<(f64, crate::Place)> {
    let laid = facts.laid().find(|laid| laid.index == plane)?;
    let pitch = laid.plane.pitch;
    let exposure = laid.units.courses.first()?.exposure;
    Some((exposure * pitch.rise() / 12.0 / pitch.slope_factor(), laid.place(0)))
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::{Trial, house};

    /// A hip roof with a flatter north side.
    fn hips(exposures: [f64; 4]) -> Trial {
        let pitches = [Some(8.0), Some(8.0), Some(12.0), Some(8.0)];
        let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], pitches, 9.0)]);
        exposures.into_iter().enumerate().for_each(|(plane, exposure)| trial.lay(plane, exposure));
        trial
    }

    /// sin 33.690° = 0.5547, sin 45° = 0.7071: 7 in rises 3.883 in; 5.4913 in on the steep side rises as much, and 5.5797 in
    /// rises 1/16 in more. Worked by hand.
    #[test]
    fn equal_rises_meet() {
        assert_eq!(hips([7.0, 7.0, 5.4913, 7.0]).outcome("courses-miss-at-hip"), Outcome::Pass);
        assert_eq!(hips([7.0, 7.0, 5.579, 7.0]).outcome("courses-miss-at-hip"), Outcome::Pass);
        assert_eq!(hips([7.0, 7.0, 5.5803, 7.0]).outcome("courses-miss-at-hip"), Outcome::Attention);
    }

    #[test]
    fn equal_exposures_at_unequal_pitches_miss() {
        let checked = hips([7.0; 4]).one("courses-miss-at-hip");
        let says = "house, east climbs 1-1/16\" more or less a course than its neighbour; 2 places in all.";
        assert_eq!((checked.outcome, checked.says.as_str()), (Outcome::Attention, says));
        assert_eq!(Trial::sound().outcome("courses-miss-at-hip"), Outcome::NotApplicable);
    }
}
