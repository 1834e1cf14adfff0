//! # Falls from roof
//!
//! ## What it finds
//! What holds people on this very roof, by its steepest plane: steeper than 4 in 12 is a steep roof.
//! ## Why it matters
//! Falls kill more roofers than all else; on a steep roof a warning line holds nobody.
//! ## Remedy
//! Guard rails with toe boards, nets or personal fall arrest, planned before anybody climbs; no foot on wet, frosted or dusty units, none on finished courses; local law and your own safety plan decide.
//! ## Source
//! 29 CFR 1926.501(b)(13) as explained by the Occupational Safety and Health Administration (United States), read; 4 in 12 as a guide to 1926.500 quotes it.

use roof::Plane;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "falls-from-roof",
    kind: Kind::Practice,
    family: Family::People,
    endangers: &[Danger::Safety],
    reading: Reading::Read,
    about: "block",
    groups: &[],
    file: include_str!("falls_from_roof.rs"),
    run: falls_from_roof,
};

fn falls_from_roof(facts: &Facts) -> Verdict {
    let steepest = facts.covered().map(|(index, plane, _)| (index, plane));
    let Some((index, plane)) = steepest.reduce(|a, b| if b.1.pitch.rise() > a.1.pitch.rise() { b } else { a }) else {
        return Verdict::not_applicable("There is no plane to cover.");
    };
    let says =
        format!("{} is {}: {} from {} ft above a lower level up", plane.name, plane.pitch, held_by(plane), figure!(6.0));
    Verdict::found(Outcome::Attention, says, vec![Place { plane: index, course: 0, u: 0.0, v: 0.0 }])
}

fn held_by(plane: &Plane) -> &'static str {
    if plane.pitch.rise() > figure!(4.0) {
        "a steep roof, guard rails with toe boards, nets or personal fall arrest"
    } else {
        "guard rails, nets or personal fall arrest"
    }
}

#[cfg(test)]
mod tests {
    use crate::Outcome;
    use crate::trial::Trial;

    /// Steeper than 4 in 12, as a guide quotes 29 CFR 1926.500; from 6 ft up, 29 CFR 1926.501(b)(13).
    #[test]
    fn four_in_twelve_is_not_yet_steep() {
        let says = |rise| {
            let mut trial = Trial::sound();
            trial.set_pitch(rise);
            trial.says("falls-from-roof")
        };
        let low = "house, south is 4/12: guard rails, nets or personal fall arrest from 6 ft above a lower level up.";
        assert_eq!(says(4.0), low);
        assert!(says(4.01).contains("a steep roof, guard rails with toe boards"));
        assert_eq!(Trial::sound().outcome("falls-from-roof"), Outcome::Attention);
    }
}
