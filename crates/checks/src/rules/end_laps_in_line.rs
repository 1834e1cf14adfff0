//! # End laps in line
//!
//! ## What it finds
//! End laps of underlayment less than 6 ft along from an end lap of a strip that it laps.
//! ## Why it matters
//! Two end laps over each other leave no whole sheet under the place where both may open.
//! ## Remedy
//! Begin the upper strip with another length; where a roll runs out there, cut it shorter.
//! ## Source
//! International Residential Code, underlayment: end laps offset 6 ft (as a state adopts it for two layers and a town's page tells it for one), quoted.

use details::{Kind as Goods, Strip};

use crate::facts::sheets::{end_laps, overlap};
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "end-laps-in-line",
    kind: Kind::Code,
    family: Family::DryIn,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "dry_in.end_lap_offset",
    groups: &[],
    file: include_str!("end_laps_in_line.rs"),
    run: end_laps_in_line,
};

fn end_laps_in_line(facts: &Facts) -> Verdict {
    let mut offsets = Tally::lengths(Bound::AtLeast);
    let strips: Vec<&Strip> = facts.strips(Goods::Underlayment).map(|(_, strip)| strip).collect();
    for (index, strip) in strips.iter().enumerate() {
        let beside = |other: &&&Strip| overlap(strip, other, 1);
        let below: Vec<f64> = strips[..index].iter().filter(beside).flat_map(|other| ends(other)).collect();
        for (at, (_, along)) in ends(strip).into_iter().zip(end_laps(strip)) {
            let nearest = below.iter().map(|other| (other - at).abs()).min_by(f64::total_cmp);
            if let (Some(offset), Some(place)) = (nearest, facts.place_along(strip, along)) {
                offsets.add(offset, figure!(72.0), place);
            }
        }
    }
    offsets.verdict(
        |nearest| {
            let [is, least] = nearest.inches();
            format!(
                "{}: an end lap of underlayment is {is} along from one of the strip it laps; the code asks for {least}",
                facts.plane_name(nearest.place)
            )
        },
        |place| facts.name_of(place),
        "No two strips of underlayment that lap have end laps.",
    )
}

/// Where on its plane each piece but the first of a strip begins.
fn ends(strip: &Strip) -> Vec<f64> {
    let left = strip.patches.first().map_or(0.0, |patch| patch.u()[0]);
    end_laps(strip).map(|(_, along)| left + along).collect()
}

#[cfg(test)]
mod tests {
    use details::Lies;

    use super::*;
    use crate::Outcome;
    use crate::trial::{Trial, strip};

    /// Two strips with an end lap each, the upper one's so far to the right of the lower one's.
    fn offset(by: f64, foot: f64) -> Trial {
        let mut trial = Trial::sound();
        let ends = |at: f64| [[0.0, at + 6.0], [at, 400.0 - at]];
        let low = strip(Lies::Course { course: 0 }, 0, [0.0, 400.0], [0.0, 36.0], &ends(150.0));
        // The upper strip begins 10 in further left.
        let high = strip(Lies::Course { course: 1 }, 0, [-10.0, 400.0], [foot, foot + 36.0], &ends(160.0 + by));
        trial.roll(Goods::Underlayment, 36.0, vec![low, high]);
        trial
    }

    #[test]
    fn six_feet_are_enough() {
        let rule = "end-laps-in-line";
        for by in [72.0, -72.0] {
            assert_eq!(offset(by, 32.0).outcome(rule), Outcome::Attention);
            assert_eq!(offset(by * 0.999, 32.0).outcome(rule), Outcome::Fail);
        }
        let says = "house, south: an end lap of underlayment is 48\" along from one of the strip it laps; the code asks for 72\". \
                    The text of the 2018 edition was not read.";
        assert_eq!(offset(48.0, 32.0).says(rule), says);
        assert_eq!(offset(48.0, 32.0).adds(&offset(72.0, 32.0)), [rule]);
        assert_eq!(offset(0.0, 36.0).outcome(rule), Outcome::NotApplicable, "strips that do not lap");
    }
}
