//! # Exposure over code
//!
//! ## What it finds
//! Courses of wood shingles or shakes that show more than the code allows for their length, their grade and the plane's pitch.
//! ## Why it matters
//! Wood is laid in two or three layers because each one splits and lets some water by; too long an exposure leaves one.
//! ## Remedy
//! Lay more courses with a smaller exposure, or use longer wood or a better grade.
//! ## Source
//! International Residential Code, Table R905.7.5 wood shingles (read in the 2018 edition), Table R905.8.6 shakes (from memory, not read).

use covering::{Covering, Material, Parted};

use crate::facts::shown;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::{Reading, Text};
use crate::{Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "exposure-over-code",
    kind: Kind::Code,
    family: Family::Pitch,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::In(&[Edition::Of2018]),
    about: "covering.sheet",
    groups: &[],
    file: include_str!("exposure_over_code.rs"),
    run: exposure_over_code,
};

const SHINGLES: Text = Text {
    source: "International Residential Code, Table R905.7.5, read in the 2018 edition.",
    reading: Reading::In(&[Edition::Of2018]),
};
const SHAKES: Text =
    Text { source: "International Residential Code, Table R905.8.6, from memory, not read.", reading: Reading::Memory };

/// Wood shingles, length in inches: greatest exposures of grades 1, 2, 3 from 3 in 12 to below 4 in 12, and from 4 in 12 up.
/// Table R905.7.5.
fn shingles(length: f64) -> Option<[[f64; 3]; 2]> {
    match length.round() as u32 {
        16 => Some([[figure!(3.75), figure!(3.5), figure!(3.0)], [figure!(5.0), figure!(4.0), figure!(3.5)]]),
        18 => Some([[figure!(4.25), figure!(4.0), figure!(3.5)], [figure!(5.5), figure!(4.5), figure!(4.0)]]),
        24 => Some([[figure!(5.75), figure!(5.5), figure!(5.0)], [figure!(7.5), figure!(6.5), figure!(5.5)]]),
        _ => None,
    }
}

/// Shakes of naturally durable wood: greatest exposure by length, way of parting and grade, at any pitch. Table R905.8.6.
fn shakes(length: f64, parted: Parted, grade: u32) -> Option<f64> {
    match (length.round() as u32, parted, grade) {
        (18, Parted::TaperSawn, 2) => Some(figure!(5.5)),
        (24, Parted::TaperSawn, 2) => Some(figure!(7.5)),
        (18, _, 1) => Some(figure!(7.5)),
        (24, _, 1) => Some(figure!(10.0)),
        _ => None,
    }
}

/// The greatest exposure of a covering at a pitch, in inches.
fn greatest(covering: &Covering, rise: f64) -> Option<f64> {
    let wood = covering.conditions.wood.as_ref()?;
    let length = covering.unit.length.to_inches();
    match covering.material {
        Material::WoodShingle => {
            let [low, steep] = shingles(length)?;
            let column = if rise < figure!(4.0) { low } else { steep };
            column.get(wood.grade.checked_sub(1)? as usize).copied()
        }
        Material::WoodShake => shakes(length, wood.parted, wood.grade),
        _ => None,
    }
}

fn exposure_over_code(facts: &Facts) -> Verdict {
    let mut exposures = Tally::lengths(Bound::AtMost);
    let mut text = None;
    for laid in facts.laid().filter(|laid| laid.is_wood()) {
        text = Some(if laid.covering.material == Material::WoodShingle { SHINGLES } else { SHAKES });
        match greatest(laid.covering, laid.plane.pitch.rise()) {
            Some(greatest) => shown(&laid).for_each(|(shows, place)| exposures.add(shows, greatest, place)),
            None => exposures.cannot_judge(laid.place(0)),
        }
    }
    let verdict = exposures.verdict(
        |widest| {
            let [is, most] = widest.inches();
            format!("{} shows {is} of the wood; the code allows {most} at this pitch", facts.name_of(widest.place))
        },
        |place| {
            let plane = facts.plane_name(place);
            format!("{plane}: the sheet gives no [wood] grade, or the code's table has no row for this length and grade")
        },
        "No plane is laid in wood.",
    );
    verdict.by(text)
}

#[cfg(test)]
mod tests {
    use units::Length;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn wood(material: Material, length: f64, grade: u32) -> Trial {
        let mut trial = Trial::of(material);
        trial.covering.unit.length = Length::inches(length);
        trial.covering.conditions.wood.as_mut().unwrap().grade = grade;
        trial
    }

    fn at_most(trial: &mut Trial, rise: f64, exposure: f64, at_best: Outcome) {
        trial.set_pitch(rise);
        trial.set_exposure(exposure);
        assert_eq!(trial.outcome("exposure-over-code"), at_best, "{exposure} at {rise}");
        trial.set_exposure(exposure + 0.01);
        assert_eq!(trial.outcome("exposure-over-code"), Outcome::Fail, "{exposure} at {rise}");
    }

    /// International Residential Code 2018, Table R905.7.5; the same in the Minnesota Residential Code 2015.
    #[test]
    fn shingles_by_length_grade_and_pitch() {
        for (length, low, steep) in [
            (16.0, [3.75, 3.5, 3.0], [5.0, 4.0, 3.5]),
            (18.0, [4.25, 4.0, 3.5], [5.5, 4.5, 4.0]),
            (24.0, [5.75, 5.5, 5.0], [7.5, 6.5, 5.5]),
        ] {
            for grade in 1..=3 {
                let mut trial = wood(Material::WoodShingle, length, grade);
                at_most(&mut trial, 3.99, low[grade as usize - 1], Outcome::Pass);
                at_most(&mut trial, 4.0, steep[grade as usize - 1], Outcome::Pass);
            }
        }
    }

    /// Table R905.8.6, from memory, not read.
    #[test]
    fn shakes_by_length_and_grade() {
        for (length, grade, exposure) in [(18.0, 1, 7.5), (24.0, 1, 10.0), (18.0, 2, 5.5), (24.0, 2, 7.5)] {
            at_most(&mut wood(Material::WoodShake, length, grade), 6.0, exposure, Outcome::Attention);
        }
    }

    #[test]
    fn one_course_too_wide_is_told() {
        let mut trial = Trial::of(Material::WoodShingle);
        trial.raise_from(3, 0.625);
        let checked = trial.one("exposure-over-code");
        assert_eq!(checked.says, "house, south, course 3 shows 5-5/8\" of the wood; the code allows 5-1/2\" at this pitch.");
        assert_eq!(checked.places.iter().map(|place| place.course).collect::<Vec<_>>(), [2]);
        assert_eq!(
            trial.adds(&Trial::of(Material::WoodShingle)),
            ["exposure-too-great", "exposure-over-code", "headlap-too-short"]
        );
    }

    #[test]
    fn a_row_that_is_not_there_cannot_be_judged() {
        assert_eq!(wood(Material::WoodShingle, 20.0, 1).outcome("exposure-over-code"), Outcome::Attention);
        assert_eq!(Trial::sound().outcome("exposure-over-code"), Outcome::NotApplicable);
    }
}
