//! # Valley metal too narrow
//!
//! ## What it finds
//! Metal of open valleys that reaches less far from the middle than the code asks: under wood shingles 10 in, from 12 in 12 on
//! 7 in; under shakes and tile 11 in; under slate 7-1/2 in. Turned edges and the rib are not counted.
//! ## Why it matters
//! Where the water of the steeper plane crosses the middle it runs up under the units; the metal must reach further than it
//! does.
//! ## Remedy
//! Give the sheet's valley_clear and valley_flange more, so that the blank gets wider; where units then find no nail off the metal, close the valley.
//! ## Source
//! International Residential Code, R905.7.6 wood shingles (as the Minnesota Residential Code 2015 reprints the edition of 2012), quoted; shakes and tile by the International Building Code 2018; slate from memory, not read.

use covering::Material;
use details::MetalKind;
use roof::Plane;

use crate::facts::metal::{half_width, runs};
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::{Reading, Text};
use crate::{Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "valley-metal-too-narrow",
    kind: Kind::Code,
    family: Family::Edges,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("valley_metal_too_narrow.rs"),
    run: valley_metal_too_narrow,
};

/// From the middle, inches.
fn asked(material: Material, plane: &Plane) -> Option<(f64, Text)> {
    let text = |source, reading| Text { source, reading };
    match material {
        Material::WoodShingle => {
            let least = if plane.pitch.rise() < figure!(12.0) { figure!(10.0) } else { figure!(7.0) };
            let source = "International Residential Code, R905.7.6, as the Minnesota Residential Code 2015 reprints the edition of \
                          2012, quoted.";
            Some((least, text(source, Reading::Memory)))
        }
        Material::WoodShake => {
            let read = Reading::In(&[Edition::Of2018]);
            Some((figure!(11.0), text("International Building Code 2018, 1507.9.9, read.", read)))
        }
        Material::PlainTile => {
            let source = "International Building Code, 1507.3.9, from memory, not read.";
            Some((figure!(11.0), text(source, Reading::Memory)))
        }
        Material::NaturalSlate => {
            let source = "International Residential Code, R905.6.6, valley flashing of 15 in, from memory, not read.";
            Some((figure!(7.5), text(source, Reading::Memory)))
        }
        Material::CompositeSlate => None,
    }
}

fn valley_metal_too_narrow(facts: &Facts) -> Verdict {
    let mut widths = Tally::lengths(Bound::AtLeast);
    let mut text = None;
    for run in runs(facts, MetalKind::OpenValley) {
        let plane = facts.roof.planes.get(run.along.plane);
        let covering = facts.covering(run.along.plane);
        let Some((least, source)) = plane.zip(covering).and_then(|(plane, covering)| asked(covering.material, plane)) else {
            continue;
        };
        text = Some(source);
        for piece in &run.pieces {
            widths.add(half_width(facts, run, piece), least, facts.place_on(run.along.plane, piece.ends[1]));
        }
    }
    let verdict = widths.verdict(
        |narrowest| {
            let [is, least] = narrowest.inches();
            let name = facts.plane_name(narrowest.place);
            format!("{name}: valley metal reaches {is} from the middle; the code asks for {least}")
        },
        |place| facts.name_of(place),
        "The code gives no width for an open valley here.",
    );
    verdict.by(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    const NAME: &str = "valley-metal-too-narrow";

    fn with(material: Material, pitch: f64, girth: f64) -> Trial {
        let mut trial = Trial::of(material);
        trial.set_pitch(pitch);
        trial.metal(MetalKind::OpenValley, &[[[0.0, 0.0], [60.0, 80.0]]], girth);
        trial
    }

    /// Edges turned back 1/2 in each take an inch off the blank; the rest lies half on each side.
    #[test]
    fn so_far_from_the_middle() {
        use Material::{NaturalSlate, PlainTile, WoodShake, WoodShingle};
        for (material, pitch, least) in [
            (WoodShingle, 8.0, 10.0),
            (WoodShingle, 11.99, 10.0),
            (WoodShingle, 12.0, 7.0),
            (PlainTile, 8.0, 11.0),
            (NaturalSlate, 8.0, 7.5),
        ] {
            let outcome = |girth| with(material, pitch, girth).outcome(NAME);
            let found = [outcome(2.0 * least + 1.0), outcome(2.0 * least + 0.98)];
            assert_eq!(found, [Outcome::Attention, Outcome::Fail], "{material:?} {pitch}");
        }
        assert_eq!(with(WoodShake, 8.0, 23.0).outcome(NAME), Outcome::Pass);
        assert_eq!(with(WoodShake, 8.0, 22.98).outcome(NAME), Outcome::Fail);
        assert_eq!(with(Material::CompositeSlate, 8.0, 12.0).outcome(NAME), Outcome::NotApplicable);
    }

    #[test]
    fn what_is_told() {
        let found = with(Material::WoodShake, 8.0, 17.0).one(NAME);
        assert_eq!(found.says, "house, south: valley metal reaches 8\" from the middle; the code asks for 11\".");
        assert_eq!(found.source, "International Building Code 2018, 1507.9.9, read.");
        assert_eq!(with(Material::WoodShake, 8.0, 17.0).adds(&with(Material::WoodShake, 8.0, 23.0)), [NAME]);
        // A rib of 1 in takes 2 in of the blank.
        let mut ribbed = with(Material::WoodShake, 8.0, 23.0);
        ribbed.details.metal.iter_mut().for_each(|metal| metal.items[0].runs[0].ribbed = true);
        assert_eq!(ribbed.outcome(NAME), Outcome::Fail);
    }
}
