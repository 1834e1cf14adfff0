//! # Underlayment lap too short
//!
//! ## What it finds
//! Strips of underlayment that lap the strip below by less than 2 in; under tile below 4 in 12, where it lies double, by less
//! than 19 in.
//! ## Why it matters
//! Water that runs down on the underlayment gets behind a strip that laps too little, and wind opens the lap.
//! ## Remedy
//! Take a greater top_lap for the roll, [underlayment] in the covering's sheet.
//! ## Source
//! International Residential Code, underlayment (19 in of 36-in strips laid double, as a state adopts it; 2 in for a single layer, as a town's page tells), quoted.

use covering::{Covering, Material};
use details::{Kind as Goods, Strip};
use roof::Plane;

use crate::facts::sheets::overlap;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, SLACK, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "underlayment-lap-too-short",
    kind: Kind::Code,
    family: Family::DryIn,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("underlayment_lap_too_short.rs"),
    run: underlayment_lap_too_short,
};

fn underlayment_lap_too_short(facts: &Facts) -> Verdict {
    let mut laps = Tally::lengths(Bound::AtLeast);
    let strips: Vec<&Strip> = facts.strips(Goods::Underlayment).map(|(_, strip)| strip).collect();
    for strip in &strips {
        let Some(patch) = strip.patches.first() else { continue };
        let plane = facts.roof.planes.get(patch.plane);
        let (Some(plane), Some(covering)) = (plane, facts.covering(patch.plane)) else { continue };
        if let Some(over) = next_over(strip, &strips) {
            laps.add(patch.v()[1] - over, least(plane, covering), facts.place_on(patch.plane, [patch.u()[0], over]));
        }
    }
    laps.verdict(
        |shortest| {
            let [is, least] = shortest.inches();
            format!(
                "{}: underlayment laps the strip below by {is}; the code asks for {least}",
                facts.plane_name(shortest.place)
            )
        },
        |place| facts.name_of(place),
        "No strip of underlayment lies over another.",
    )
}

fn least(plane: &Plane, covering: &Covering) -> f64 {
    let is_double = covering.material == Material::PlainTile && plane.pitch.rise() < figure!(4.0);
    if is_double { figure!(19.0) } else { figure!(2.0) }
}

/// Foot of the next strip on a plane: of those that reach higher, and lie over the same stretch of it, the lowest.
fn next_over(strip: &Strip, strips: &[&Strip]) -> Option<f64> {
    let top = |strip: &Strip| strip.patches.first().map(|patch| patch.v()[1]);
    let higher = strips.iter().filter(|other| overlap(strip, other, 0) && top(other) > top(strip).map(|top| top + SLACK));
    higher.filter_map(|other| Some(other.patches.first()?.v()[0])).min_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use details::Lies;

    use super::*;
    use crate::Outcome;
    use crate::trial::{Trial, strip};

    fn with(bands: &[[f64; 2]]) -> Trial {
        let mut trial = Trial::sound();
        let strips = bands.iter().zip(0..).map(|(&v, course)| strip(Lies::Course { course }, 0, [0.0, 120.0], v, &[]));
        trial.roll(Goods::Underlayment, 36.0, strips.collect());
        trial
    }

    const RULE: &str = "underlayment-lap-too-short";

    #[test]
    fn two_inches_over_a_single_layer() {
        let lapped = |lap: f64| with(&[[0.0, 36.0], [36.0 - lap, 72.0 - lap], [68.0 - lap, 104.0 - lap]]);
        assert_eq!([lapped(2.0), lapped(1.99)].map(|trial| trial.outcome(RULE)), [Outcome::Attention, Outcome::Fail]);
        let says = "house, south: underlayment laps the strip below by 1\"; the code asks for 2\". \
                    The text of the 2018 edition was not read.";
        assert_eq!(lapped(1.0).says(RULE), says);
        assert_eq!(lapped(1.0).adds(&lapped(2.0)), [RULE]);
        assert_eq!(with(&[[0.0, 36.0]]).outcome(RULE), Outcome::NotApplicable);
    }

    /// 19 in, then 36 in lapped 19.
    #[test]
    fn nineteen_inches_where_tile_lies_low() {
        let lapped = |lap: f64, pitch: f64| {
            let mut trial = with(&[[0.0, 19.0], [0.0, 36.0], [36.0 - lap, 72.0 - lap]]);
            trial.set_pitch(pitch);
            trial.covering.material = Material::PlainTile;
            trial.outcome(RULE)
        };
        assert_eq!([lapped(19.0, 3.99), lapped(18.99, 3.99)], [Outcome::Attention, Outcome::Fail]);
        assert_eq!(lapped(18.99, 4.0), Outcome::Attention);
    }
}
