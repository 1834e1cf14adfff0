//! # Sidelap below code
//!
//! ## What it finds
//! Joints of wood shingles or shakes less than 1-1/2 in from a joint of the course below; of shingles also joints in line with
//! one two courses below.
//! ## Why it matters
//! Wood swells, shrinks and splits: joints that stand near each other become one crack down to the felt.
//! ## Remedy
//! Shift the start of the course, or choose another width at this place.
//! ## Source
//! International Residential Code, R905.7.5 (as the Minnesota Residential Code 2015 reprints the edition of 2012) and R905.8.6 (as a state adopts it), quoted; the editions of 2015 to 2024 were not read.

use covering::Material;

use crate::facts::{Laid, joints};
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "sidelap-below-code",
    kind: Kind::Code,
    family: Family::Lap,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("sidelap_below_code.rs"),
    run: sidelap_below_code,
};

/// Least distance to a joint of the course below, in inches.
fn least() -> f64 {
    figure!(1.5)
}

/// Joints nearer than the code's narrowest keyway, 1/4 in, are in line.
fn in_line() -> f64 {
    figure!(0.25)
}

fn sidelap_below_code(facts: &Facts) -> Verdict {
    let mut offsets = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid().filter(Laid::is_wood) {
        joints::over(&laid, 1, least(), &mut offsets);
        if laid.covering.material == Material::WoodShingle {
            joints::over(&laid, 2, in_line(), &mut offsets);
        }
    }
    offsets.verdict(
        |nearest| {
            let [is, least] = nearest.inches();
            format!("{} has a joint {is} from one below; the code asks for {least}", facts.name_of(nearest.place))
        },
        |place| facts.name_of(place),
        "No joint of wood stands over another course.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// A course shifted so that its joints come within a distance of those below: sound ones are 2.083 in apart (thirds of 6-1/4).
    fn shifted(by: f64) -> Trial {
        let mut trial = Trial::of(Material::WoodShingle);
        trial.layout.planes[0].courses[4].runs[0].left += by;
        trial
    }

    /// 1-1/2 in: Minnesota Residential Code 2015 (International Residential Code 2012), R905.7.5.
    #[test]
    fn the_least_sidelap_itself_is_enough() {
        let third = 6.25 / 3.0;
        assert_eq!(shifted(third - 1.5).outcome("sidelap-below-code"), Outcome::Attention);
        let near = shifted(third - 1.49);
        let checked = near.one("sidelap-below-code");
        assert_eq!(checked.outcome, Outcome::Fail);
        let says = "house, south, course 5 has a joint 1.4900\" from one below; the code asks for 1.5000\"; 9 places in all. \
                    The text of the 2018 edition was not read.";
        assert_eq!(checked.says, says);
        assert!(checked.places.iter().all(|place| place.course == 4));
    }

    /// No two joints in any three adjacent courses in line, the same place.
    #[test]
    fn shingles_must_not_line_up_over_two_courses() {
        let two_down = |offset: f64| {
            let mut trial = Trial::of(Material::WoodShingle);
            // Half bond keeps 3-1/8 in to the course below and lines up with the second one down.
            for (number, course) in trial.layout.planes[0].courses.iter_mut().enumerate() {
                let half = if number % 2 == 0 { 0.0 } else { 3.125 };
                course.runs[0].left = half + if number % 4 < 2 { 0.0 } else { offset };
            }
            trial.outcome("sidelap-below-code")
        };
        assert_eq!(two_down(0.25), Outcome::Attention);
        assert_eq!(two_down(0.249), Outcome::Fail);
        let mut shakes = Trial::of(Material::WoodShake);
        assert_eq!(shakes.outcome("sidelap-below-code"), Outcome::Attention);
        shakes.covering.material = Material::CompositeSlate;
        assert_eq!(shakes.outcome("sidelap-below-code"), Outcome::NotApplicable);
    }
}
