//! # Gap opens too wide
//!
//! ## What it finds
//! Gaps that open beyond what the covering's sheet allows when the units shrink to the coldest they get.
//! ## Why it matters
//! Through a wide gap sun and driven rain reach what lies below, and the joint is seen as a line.
//! ## Remedy
//! Lay on a milder day, or leave only as much gap as the units need at this temperature.
//! ## Source
//! The covering's data sheet, movement; growth = coefficient x length x change of temperature.

use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "gap-opens-too-wide",
    kind: Kind::Maker,
    family: Family::Lap,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "site.coldest",
    groups: &["movement", "unit", "lap"],
    file: include_str!("gap_opens_too_wide.rs"),
    run: gap_opens_too_wide,
};

fn gap_opens_too_wide(facts: &Facts) -> Verdict {
    let (Some(laid_at), Some(coldest)) = (facts.laying.unit_temperature, facts.site.coldest) else {
        let [laid, cold] = [facts.laying.unit_temperature, facts.site.coldest].map(|given| given.is_some());
        return Verdict::missing(&absent(&[(laid, "[laying] unit_temperature"), (cold, "[site] coldest")]));
    };
    let mut gaps = Tally::lengths(Bound::AtMost);
    for laid in facts.laid() {
        let movement = laid.covering.conditions.movement;
        let Some((movement, greatest)) = movement.and_then(|movement| Some((movement, movement.greatest_gap?))) else {
            return Verdict::not_in_sheet("the widest a gap may open, [movement] greatest_gap");
        };
        for (number, course) in laid.units.courses.iter().enumerate() {
            for run in course.runs.iter().filter(|run| run.count > 1) {
                let shrinks = movement.expansion.growth(units::Length::inches(run.width), coldest, laid_at).to_inches();
                let place = laid.place_at(number, run.left);
                gaps.add(run.step - run.width + shrinks.max(0.0), greatest.to_inches(), place);
            }
        }
    }
    gaps.verdict(
        |widest| {
            let [is, most] = widest.inches();
            format!("{}: gaps open to {is} at {coldest}; the sheet allows {most}", facts.name_of(widest.place))
        },
        |place| facts.name_of(place),
        "No two units lie side by side.",
    )
}

#[cfg(test)]
mod tests {
    use covering::Movement;
    use units::{Expansion, Length, Temperature};

    use crate::Outcome;
    use crate::trial::Trial;

    fn cold(greatest: f64) -> Trial {
        let mut trial = Trial::sound();
        let (expansion, hottest) = (Expansion::per_fahrenheit(70e-6), Temperature::fahrenheit(170.0));
        let greatest_gap = Some(Length::inches(greatest));
        trial.covering.conditions.movement = Some(Movement { expansion, hottest, greatest_gap });
        trial.laying.unit_temperature = Some(Temperature::fahrenheit(60.0));
        trial.site.coldest = Some(Temperature::fahrenheit(-10.0));
        trial
    }

    /// 1/4 in, and 70e-6 × 12 × 70 = 0.0588 in from 60 to −10 °F: 0.3088 in. Worked by hand.
    #[test]
    fn the_widest_gap_itself_is_allowed() {
        assert_eq!(cold(0.3089).outcome("gap-opens-too-wide"), Outcome::Pass);
        assert_eq!(cold(0.3087).adds(&cold(0.5)), ["gap-opens-too-wide"]);
        let says = "house, south, course 1: gaps open to 5/16\" at -10 °F; the sheet allows 1/4\"; 20 places in all.";
        assert_eq!(cold(0.25).says("gap-opens-too-wide"), says);
        let absent = "The job does not give [laying] unit_temperature and [site] coldest.";
        assert_eq!(Trial::sound().says("gap-opens-too-wide"), absent);
    }
}
