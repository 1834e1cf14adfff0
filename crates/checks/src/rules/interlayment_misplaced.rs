//! # Interlayment misplaced
//!
//! ## What it finds
//! Felt between courses of shakes that is narrower than 18 in, or whose lower edge is not twice the exposure above the butts it
//! belongs to.
//! ## Why it matters
//! Shakes are split and let water through; the felt throws it out again. Lower it would show in the gaps, higher it covers too
//! little.
//! ## Remedy
//! Lay strips of 18 in, lower edge twice the exposure above the butt.
//! ## Source
//! Wood shakes, placement, as a state adopts it, quoted.

use details::{Kind as Goods, Lies};

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, SLACK, Tally};
use crate::text::Reading;
use crate::{Facts, Family, Outcome};

pub(crate) const RULE: Rule = Rule {
    name: "interlayment-misplaced",
    kind: Kind::Code,
    family: Family::DryIn,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "dry_in.interlayment",
    groups: &[],
    file: include_str!("interlayment_misplaced.rs"),
    run: interlayment_misplaced,
};

fn interlayment_misplaced(facts: &Facts) -> Verdict {
    let mut widths = Tally::lengths(Bound::AtLeast);
    let mut misplaced = Vec::new();
    for (_, strip) in facts.strips(Goods::Interlayment) {
        let (Some(patch), Lies::Course { course }) = (strip.patches.first(), strip.lies) else { continue };
        let laid = facts.layout.planes.iter().find(|laid| laid.plane == patch.plane);
        let Some(units) = laid.and_then(|laid| laid.courses.get(course as usize)) else { continue };
        let place = crate::Place { course: course as usize, ..facts.place_on(patch.plane, [patch.u()[0], units.butt]) };
        let [low, high] = patch.v();
        widths.add(high - low, figure!(18.0), place);
        if (low - units.butt - figure!(2.0) * units.exposure).abs() > SLACK {
            misplaced.push((low - units.butt, place));
        }
    }
    if let Some(&(is, first)) = misplaced.first() {
        let places = misplaced.iter().map(|&(_, place)| place).collect();
        let [is, asked] = [is, 2.0 * facts.exposure_at(first)].map(|inches| units::Length::inches(inches).in_inches());
        let says = format!("{}: the felt begins {is} above the butts; the code asks for {asked}", facts.name_of(first));
        return Verdict::found(Outcome::Fail, says, places);
    }
    widths.verdict(
        |narrowest| {
            let [is, least] = narrowest.inches();
            format!("{}: felt {is} wide lies between the shakes; the code asks for {least}", facts.name_of(narrowest.place))
        },
        |place| facts.name_of(place),
        "No felt lies between courses.",
    )
}

#[cfg(test)]
mod tests {
    use covering::Material;

    use super::*;
    use crate::trial::{Trial, strip};

    /// Shakes at 10 in; a strip for the fourth course, whose butts are at 30 in.
    fn with(low: f64, width: f64) -> Trial {
        let mut trial = Trial::of(Material::WoodShake);
        let felt = strip(Lies::Course { course: 3 }, 0, [0.0, 120.0], [low, low + width], &[]);
        trial.roll(Goods::Interlayment, width, vec![felt]);
        trial
    }

    #[test]
    fn eighteen_inches_twice_the_exposure_up() {
        let rule = "interlayment-misplaced";
        let outcome = |low, width| with(low, width).outcome(rule);
        assert_eq!([outcome(50.0, 18.0), outcome(50.0, 17.99)], [Outcome::Attention, Outcome::Fail]);
        assert_eq!([outcome(49.9, 18.0), outcome(50.1, 18.0)], [Outcome::Fail; 2]);
        let unread = " The text of the 2018 edition was not read.";
        let low = "house, south, course 4: the felt begins 15\" above the butts; the code asks for 20\".";
        assert_eq!(with(45.0, 18.0).says(rule), low.to_owned() + unread);
        let narrow = "house, south, course 4: felt 12\" wide lies between the shakes; the code asks for 18\".";
        assert_eq!(with(50.0, 12.0).says(rule), narrow.to_owned() + unread);
        assert_eq!(with(50.0, 12.0).adds(&with(50.0, 18.0)), [rule]);
        assert_eq!(Trial::sound().outcome(rule), Outcome::NotApplicable);
    }
}
