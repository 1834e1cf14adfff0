//! # Wind class below site
//!
//! ## What it finds
//! Coverings tested in less wind than the place has. Where the test counts the nominal wind, the basic one of the maps is brought
//! down to it: x square root of 0.6.
//! ## Why it matters
//! Beyond what it was tested in, nobody knows whether the covering stays on, and the maker's warranty ends.
//! ## Remedy
//! Choose a covering tested in the wind of the place, with the nails of the test.
//! ## Source
//! The covering's data sheet, tested wind; the nominal wind by International Residential Code, R301.2.1.3, from memory, not read.

use covering::{WindSpeed, WindTest};

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "wind-class-below-site",
    kind: Kind::Maker,
    family: Family::Wind,
    endangers: &[Danger::Leak, Danger::Warranty, Danger::Code, Danger::Safety],
    reading: Reading::Read,
    about: "site.wind_mph",
    groups: &["tested"],
    file: include_str!("wind_class_below_site.rs"),
    run: wind_class_below_site,
};

fn wind_class_below_site(facts: &Facts) -> Verdict {
    let Some(basic) = facts.site.wind_mph else {
        return Verdict::missing(&["[site] wind_mph"]);
    };
    let coverings = facts.coverings();
    let Some(test) = coverings.iter().find_map(|(_, covering)| covering.conditions.tested.wind.as_ref()) else {
        return Verdict::not_in_sheet("the wind it was tested in, [tested] wind");
    };
    let (asked, name) = asked(test, basic);
    let says = format!("Tested in {} mph by {}; the {name} wind here is {asked:.0} mph.", test.mph, test.test);
    Verdict::judged(test.mph >= asked, says)
}

/// The wind of the place, as the test counts it.
fn asked(test: &WindTest, basic: f64) -> (f64, &'static str) {
    match test.speed {
        WindSpeed::Basic => (basic, "basic"),
        WindSpeed::Nominal => (basic * figure!(0.6).sqrt(), "nominal"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn tested(mph: f64, speed: WindSpeed, basic: f64) -> Trial {
        let mut trial = Trial::sound();
        trial.covering.conditions.tested.wind = Some(WindTest { mph, speed, test: "ASTM D3161, class F".into() });
        trial.site.wind_mph = Some(basic);
        trial
    }

    /// 140 mph basic is 108.44 mph nominal (× √0.6, by hand).
    #[test]
    fn the_wind_of_the_test_itself_is_stood() {
        let outcome = |mph, speed, basic| tested(mph, speed, basic).outcome("wind-class-below-site");
        assert_eq!(outcome(110.0, WindSpeed::Basic, 110.0), Outcome::Pass);
        assert_eq!(outcome(110.0, WindSpeed::Basic, 110.5), Outcome::Fail);
        assert_eq!(outcome(108.5, WindSpeed::Nominal, 140.0), Outcome::Pass);
        assert_eq!(outcome(108.4, WindSpeed::Nominal, 140.0), Outcome::Fail);
        let weak = tested(90.0, WindSpeed::Nominal, 140.0);
        assert_eq!(
            weak.says("wind-class-below-site"),
            "Tested in 90 mph by ASTM D3161, class F; the nominal wind here is 108 mph."
        );
        assert_eq!(weak.adds(&tested(110.0, WindSpeed::Nominal, 140.0)), ["wind-class-below-site"]);
        let silent = Trial { site: weak.site, ..Trial::sound() };
        assert_eq!(silent.outcome("wind-class-below-site"), Outcome::NotApplicable);
        assert_eq!(Trial::sound().says("wind-class-below-site"), "The job does not give [site] wind_mph.");
    }
}
