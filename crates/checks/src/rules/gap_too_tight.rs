//! # Gap too tight
//!
//! ## What it finds
//! Gaps narrower than the units grow from the day on which they are laid to the hottest they get in the sun: coefficient x width
//! x degrees.
//! ## Why it matters
//! Units that touch push each other up: they bow, draw their nails and open the laps.
//! ## Remedy
//! Leave the gap that is told here at this temperature, by the units' own and not the air's.
//! ## Source
//! The covering's data sheet, movement and width; growth = coefficient x length x change of temperature.

use layout::Run;

use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "gap-too-tight",
    kind: Kind::Maker,
    family: Family::Lap,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Read,
    about: "laying.unit_temperature",
    groups: &["movement", "unit", "lap"],
    file: include_str!("gap_too_tight.rs"),
    run: gap_too_tight,
};

fn gap_too_tight(facts: &Facts) -> Verdict {
    let Some(laid_at) = facts.laying.unit_temperature else {
        return Verdict::missing(&["[laying] unit_temperature"]);
    };
    let mut gaps = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let Some(movement) = laid.covering.conditions.movement else {
            return Verdict::not_in_sheet("how the units move with warmth, [movement]");
        };
        for (number, course) in laid.units.courses.iter().enumerate() {
            for run in course.runs.iter().filter(|run| run.count > 1) {
                let needed = movement.expansion.growth(width(run), laid_at, movement.hottest).to_inches();
                gaps.add(run.step - run.width, needed.max(0.0), laid.place_at(number, run.left));
            }
        }
    }
    gaps.verdict(
        |tightest| {
            let [is, least] = tightest.inches();
            format!("{} has gaps of {is}; units laid at {laid_at} need {least}", facts.name_of(tightest.place))
        },
        |place| facts.name_of(place),
        "No two units lie side by side.",
    )
}

fn width(run: &Run) -> units::Length {
    units::Length::inches(run.width)
}

#[cfg(test)]
mod tests {
    use covering::Movement;
    use units::{Expansion, Length, Temperature};

    use crate::Outcome;
    use crate::trial::Trial;

    /// 12 in units of 70e-6 per °F, up to 170 °F.
    fn laid_at(fahrenheit: f64, gap: f64) -> Trial {
        let mut trial = Trial::sound();
        let (expansion, hottest) = (Expansion::per_fahrenheit(70e-6), Temperature::fahrenheit(170.0));
        trial.covering.conditions.movement = Some(Movement { expansion, hottest, greatest_gap: None });
        trial.covering.gap = Length::inches(gap);
        trial.set_exposure(Trial::EXPOSURE);
        trial.laying.unit_temperature = Some(Temperature::fahrenheit(fahrenheit));
        trial
    }

    /// 70e-6 × 12 × 130 = 0.1092 in from 40 to 170 °F, × 50 = 0.042 in from 120 °F; worked by hand.
    #[test]
    fn the_gap_that_is_needed() {
        let outcome = |fahrenheit, gap| laid_at(fahrenheit, gap).outcome("gap-too-tight");
        assert_eq!([outcome(40.0, 0.1093), outcome(40.0, 0.1091)], [Outcome::Pass, Outcome::Fail]);
        assert_eq!([outcome(120.0, 0.0421), outcome(120.0, 0.0419)], [Outcome::Pass, Outcome::Fail]);
        assert_eq!(outcome(180.0, 0.0), Outcome::Pass);
    }

    #[test]
    fn a_cold_morning_is_told() {
        let sound = laid_at(40.0, 0.25);
        let mut tight = laid_at(40.0, 0.25);
        let run = &mut tight.layout.planes[0].courses[3].runs[0];
        run.step = run.width + 0.0625;
        run.count = 2;
        assert_eq!(tight.adds(&sound), ["gap-too-tight"]);
        assert_eq!(
            tight.says("gap-too-tight"),
            "house, south, course 4 has gaps of 1/16\"; units laid at 40 °F need 1/8\"."
        );
        assert_eq!(Trial::sound().says("gap-too-tight"), "The job does not give [laying] unit_temperature.");
    }
}
