//! # Underlayment of too few layers
//!
//! ## What it finds
//! Planes of tile at 2-1/2 to less than 4 in 12 with a place under one layer of underlayment only, strips counted over each
//! other.
//! ## Why it matters
//! On a low slope wind drives rain under tile as a matter of course; the underlayment is the roof there.
//! ## Remedy
//! Lay strips of 36 in lapped 19 in over a starting strip of 19 in; write double_below = "4/12" into the sheet's [underlayment].
//! ## Source
//! International Building Code 2018, 1507.3.3, read; taken for R905.3.3 of the residential code.

use covering::Material;
use details::{Kind as Goods, Strip};

use crate::facts::sheets::overlap;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "underlayment-of-too-few-layers",
    kind: Kind::Code,
    family: Family::DryIn,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::In(&[Edition::Of2018]),
    about: "dry_in",
    groups: &[],
    file: include_str!("underlayment_of_too_few_layers.rs"),
    run: underlayment_of_too_few_layers,
};

fn underlayment_of_too_few_layers(facts: &Facts) -> Verdict {
    let mut layers = Tally::exact(Bound::AtLeast);
    let low = |plane: &roof::Plane| plane.pitch.rise() < figure!(4.0);
    for (index, plane, _) in facts.covered_in(Material::PlainTile).filter(|(_, plane, _)| low(plane)) {
        let top = plane.places().iter().flatten().map(|place| place[1]).fold(f64::NEG_INFINITY, f64::max);
        let strips: Vec<&Strip> = on_plane(facts, index).collect();
        for strip in &strips {
            for [u, v] in middles(strip, &strips, top) {
                let over = strips.iter().filter(|other| covers(other, [u, v])).count();
                layers.add(over as f64, 2.0, facts.place_on(index, [u, v]));
            }
        }
    }
    layers.verdict(
        |fewest| {
            let name = facts.plane_name(fewest.place);
            format!("{name}: tile below 4 in 12 lies on {} layer of underlayment; the code asks for 2", fewest.is)
        },
        |place| facts.name_of(place),
        "No tile is laid below 4 in 12, or no underlayment.",
    )
}

fn on_plane<'a>(facts: &Facts<'a>, plane: usize) -> impl Iterator<Item = &'a Strip> + use<'a> {
    let all = facts.strips(Goods::Underlayment).map(|(_, strip)| strip);
    all.filter(move |strip| strip.patches.first().is_some_and(|patch| patch.plane == plane))
}

/// The middle of a strip between every two heights at which another one begins or ends, up to the top of the plane.
fn middles(strip: &Strip, strips: &[&Strip], top: f64) -> Vec<[f64; 2]> {
    let Some(patch) = strip.patches.first() else { return Vec::new() };
    let [from, to] = [patch.v()[0], patch.v()[1].min(top)];
    let others = strips.iter().filter(|other| overlap(strip, other, 0)).flat_map(|other| &other.patches);
    let ends = others.flat_map(|patch| patch.v()).filter(|v| (from..=to).contains(v));
    let mut heights: Vec<f64> = ends.chain([from, to]).collect();
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|a, b| *a - *b < crate::tally::SLACK);
    let u = patch.u().iter().sum::<f64>() / 2.0;
    heights.windows(2).map(|pair| [u, f64::midpoint(pair[0], pair[1])]).collect()
}

fn covers(strip: &Strip, [u, v]: [f64; 2]) -> bool {
    let lies = |range: [f64; 2], at: f64| range[0] <= at && at <= range[1];
    strip.patches.first().is_some_and(|patch| lies(patch.u(), u) && lies(patch.v(), v))
}

#[cfg(test)]
mod tests {
    use details::Lies;

    use super::*;
    use crate::Outcome;
    use crate::trial::{Trial, house, strip};

    /// One slope of 14 ft run under tile, with strips between these heights.
    fn with(pitch: f64, bands: &[[f64; 2]]) -> Trial {
        let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(pitch), None, Some(pitch), None], 9.0)]);
        trial.covering.material = Material::PlainTile;
        let strips = bands.iter().zip(0..).map(|(&v, course)| strip(Lies::Course { course }, 0, [0.0, 480.0], v, &[]));
        trial.roll(Goods::Underlayment, 36.0, strips.collect());
        trial
    }

    /// A 19-in strip, then 36 in lapped 19, as the double underlayment of the code goes; 14 ft of run at 3 in 12 are 173.2 in.
    const DOUBLE: [[f64; 2]; 12] = {
        let mut bands = [[0.0, 19.0]; 12];
        let mut at = 1;
        while at < 12 {
            bands[at] = [17.0 * (at as f64 - 1.0), 17.0 * (at as f64 - 1.0) + 36.0];
            at += 1;
        }
        bands
    };

    #[test]
    fn two_layers_everywhere() {
        let rule = "underlayment-of-too-few-layers";
        assert_eq!(with(3.0, &DOUBLE).outcome(rule), Outcome::Pass);
        let mut holed = DOUBLE;
        holed[3] = [36.1, 70.0];
        assert_eq!(with(3.0, &holed).outcome(rule), Outcome::Fail, "a tenth of an inch under one layer");
        assert_eq!(with(3.0, &holed).adds(&with(3.0, &DOUBLE)), [rule, "underlayment-lap-too-short"]);
        let single = [[0.0, 36.0], [34.0, 70.0]];
        let says = "house, south: tile below 4 in 12 lies on 1 layer of underlayment; the code asks for 2; 2 places in all.";
        assert_eq!(with(3.0, &single).says(rule), says);
    }

    /// 4 in 12 itself is steep enough for one.
    #[test]
    fn one_will_do_from_four_in_twelve() {
        let single = [[0.0, 36.0], [34.0, 70.0]];
        let outcome = |pitch| with(pitch, &single).outcome("underlayment-of-too-few-layers");
        assert_eq!([outcome(3.99), outcome(4.0)], [Outcome::Fail, Outcome::NotApplicable]);
        let mut slate = with(3.0, &single);
        slate.covering.material = Material::CompositeSlate;
        assert_eq!(slate.outcome("underlayment-of-too-few-layers"), Outcome::NotApplicable);
    }
}
