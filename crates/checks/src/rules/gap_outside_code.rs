//! # Gap outside code
//!
//! ## What it finds
//! Gaps between wood shingles outside 1/4 to 3/8 in, between shakes outside 3/8 to 5/8 in (treated taper-sawn ones 1/4 to 3/8 in).
//! ## Why it matters
//! Wood that is laid too tight buckles when it swells; laid too wide it bares the joint below to the sun.
//! ## Remedy
//! Set the gap on the sheet to what the code asks for, and gauge it while laying.
//! ## Source
//! International Residential Code, R905.7.5 shingles (as the Minnesota Residential Code 2015 reprints the edition of 2012), quoted; shakes by International Building Code 2018, Table 1507.9.8, taken for R905.8.6 from memory, not read.

use covering::{Material, Parted};
use layout::Run;

use crate::facts::Laid;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "gap-outside-code",
    kind: Kind::Code,
    family: Family::Lap,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("gap_outside_code.rs"),
    run: gap_outside_code,
};

/// Narrowest and widest gap, inches.
fn limits(laid: &Laid) -> Option<[f64; 2]> {
    let wood = laid.covering.conditions.wood.as_ref();
    let is_treated_taper_sawn = wood.is_some_and(|wood| wood.treated && wood.parted == Parted::TaperSawn);
    match laid.covering.material {
        Material::WoodShingle => Some([figure!(0.25), figure!(0.375)]),
        Material::WoodShake if is_treated_taper_sawn => Some([figure!(0.25), figure!(0.375)]),
        Material::WoodShake => Some([figure!(0.375), figure!(0.625)]),
        _ => None,
    }
}

fn gap_outside_code(facts: &Facts) -> Verdict {
    let [mut tight, mut wide] = [Bound::AtLeast, Bound::AtMost].map(Tally::lengths);
    for laid in facts.laid() {
        let Some([least, most]) = limits(&laid) else { continue };
        for (number, course) in laid.units.courses.iter().enumerate() {
            for run in course.runs.iter().filter(|run| run.count > 1) {
                tight.add(gap(run), least, laid.place_at(number, run.left));
                wide.add(gap(run), most, laid.place_at(number, run.left));
            }
        }
    }
    let tell = |asks: &'static str| {
        move |worst: &crate::tally::Measured| {
            let [is, limit] = worst.inches();
            format!("{} has gaps of {is}; the code asks for {asks} {limit}", facts.name_of(worst.place))
        }
    };
    let nothing = "No plane is laid in wood.";
    let verdict = tight.verdict(tell("at least"), |place| facts.name_of(place), nothing);
    if verdict.outcome == crate::Outcome::Fail {
        verdict
    } else {
        wide.verdict(tell("at most"), |place| facts.name_of(place), nothing)
    }
}

fn gap(run: &Run) -> f64 {
    run.step - run.width
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn with(material: Material, gap: f64) -> Trial {
        let mut trial = Trial::of(material);
        trial.layout.planes[0].courses[2].runs[0].step = trial.covering.unit.width.to_inches() + gap;
        trial
    }

    fn keeps(material: Material, [least, most]: [f64; 2]) {
        let outcome = |gap| with(material, gap).outcome("gap-outside-code");
        assert_eq!([least, most].map(outcome), [Outcome::Attention; 2]);
        assert_eq!([least - 0.002, most + 0.003].map(outcome), [Outcome::Fail; 2]);
    }

    /// Shingles: Minnesota Residential Code 2015 (International Residential Code 2012), R905.7.5; shakes: International Building
    /// Code 2018, Table 1507.9.8.
    #[test]
    fn both_limits_are_allowed() {
        keeps(Material::WoodShingle, [0.25, 0.375]);
        keeps(Material::WoodShake, [0.375, 0.625]);
    }

    #[test]
    fn treated_taper_sawn_shakes_lie_closer() {
        let outcome = |gap| {
            let mut trial = with(Material::WoodShake, gap);
            trial.layout.planes[0].courses.truncate(3);
            trial.layout.planes[0].courses.drain(..2);
            trial.covering.conditions.wood.as_mut().unwrap().treated = true;
            trial.outcome("gap-outside-code")
        };
        assert_eq!(
            [0.248, 0.25, 0.375, 0.378].map(outcome),
            [Outcome::Fail, Outcome::Attention, Outcome::Attention, Outcome::Fail]
        );
    }

    #[test]
    fn a_tight_course_is_told() {
        let says = "house, south, course 3 has gaps of 1/8\"; the code asks for at least 1/4\". \
                    The text of the 2018 edition was not read.";
        assert_eq!(with(Material::WoodShingle, 0.125).says("gap-outside-code"), says);
        assert_eq!(Trial::sound().outcome("gap-outside-code"), Outcome::NotApplicable);
    }
}
