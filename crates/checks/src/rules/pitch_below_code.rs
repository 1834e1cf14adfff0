//! # Pitch below code
//!
//! ## What it finds
//! Planes that are flatter than the residential code allows for slate, tile, wood shingles or shakes.
//! ## Why it matters
//! Laps of small units shed water only where it runs off fast; below these pitches an official refuses the roof.
//! ## Remedy
//! Cover this plane with something that the code allows at its pitch, or change the pitch.
//! ## Source
//! International Residential Code, R905.3.2 tile 2-1/2 in 12, R905.6.2 slate 4 in 12 (both from memory, not read), R905.7 wood shingles 3 in 12, R905.8 shakes 3 in 12 (read in the 2018 edition; the International Building Code 2018, 1507.9.2, asks for 4 in 12 under shakes).

use covering::Material;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::{Reading, Text};
use crate::{Edition, Facts, Family, Place};

pub(crate) const RULE: Rule = Rule {
    name: "pitch-below-code",
    kind: Kind::Code,
    family: Family::Pitch,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::In(&[Edition::Of2018]),
    about: "covering.sheet",
    groups: &[],
    file: include_str!("pitch_below_code.rs"),
    run: pitch_below_code,
};

/// Least rise in 12, and where it stands.
fn least(material: Material) -> Option<(f64, Text)> {
    let row = |rise, source, reading| Some((rise, Text { source, reading }));
    let read = Reading::In(&[Edition::Of2018]);
    match material {
        Material::PlainTile => {
            row(figure!(2.5), "International Residential Code, R905.3.2, from memory, not read.", Reading::Memory)
        }
        Material::NaturalSlate => {
            row(figure!(4.0), "International Residential Code, R905.6.2, from memory, not read.", Reading::Memory)
        }
        Material::WoodShingle => {
            row(figure!(3.0), "International Residential Code, R905.7, read in the 2018 edition.", read)
        }
        Material::WoodShake => row(
            figure!(3.0),
            "International Residential Code, R905.8, read in the 2018 edition (the International Building Code 2018, 1507.9.2, \
             asks for 4 in 12).",
            read,
        ),
        Material::CompositeSlate => None,
    }
}

fn pitch_below_code(facts: &Facts) -> Verdict {
    let mut pitches = Tally::exact(Bound::AtLeast);
    let mut text = None;
    for (index, plane, covering) in facts.covered() {
        if let Some((rise, source)) = least(covering.material) {
            pitches.add(plane.pitch.rise(), rise, Place { plane: index, course: 0, u: 0.0, v: 0.0 });
            text = Some(source);
        }
    }
    let verdict = pitches.verdict(
        |flattest| {
            let [is, least] = flattest.in_12();
            format!("{} is {is}; the code asks for {least} at least", facts.plane_name(flattest.place))
        },
        |place| facts.name_of(place),
        "The code has no least pitch of its own for this covering.",
    );
    verdict.by(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// International Residential Code 2018, R905.7 and R905.8 (3 in 12, the tables begin there); slate 4 and tile 2-1/2 in 12
    /// from memory, not read, and so never more than looked at.
    #[test]
    fn the_least_pitch_itself_is_allowed() {
        for (material, least, at_best) in [
            (Material::PlainTile, 2.5, Outcome::Attention),
            (Material::NaturalSlate, 4.0, Outcome::Attention),
            (Material::WoodShingle, 3.0, Outcome::Pass),
            (Material::WoodShake, 3.0, Outcome::Pass),
        ] {
            let mut trial = Trial::of(material);
            trial.set_pitch(least);
            assert_eq!(trial.outcome("pitch-below-code"), at_best, "{material:?}");
            trial.set_pitch(least - 0.01);
            assert_eq!(trial.outcome("pitch-below-code"), Outcome::Fail, "{material:?}");
        }
        assert_eq!(Trial::sound().outcome("pitch-below-code"), Outcome::NotApplicable);
    }

    #[test]
    fn the_edition_is_told() {
        let mut trial = Trial::of(Material::WoodShake);
        trial.set_pitch(3.5);
        assert_eq!(trial.says("pitch-below-code"), "house, south is 3.5/12; the code asks for 3/12 at least.");
        trial.site.code = Some(Edition::Of2021);
        let checked = trial.one("pitch-below-code");
        assert_eq!((checked.outcome, checked.read_source), (Outcome::Attention, false));
        assert!(checked.says.ends_with("3/12 at least. The text of the 2021 edition was not read."), "{}", checked.says);
        trial.site.code = None;
        assert!(trial.says("pitch-below-code").ends_with("The job names no edition of the code, [site] code."));
    }

    #[test]
    fn a_flat_slate_roof_breaks_the_code_alone() {
        let sound = Trial::of(Material::NaturalSlate);
        let mut trial = Trial::of(Material::NaturalSlate);
        trial.set_pitch(3.9);
        assert_eq!(trial.adds(&sound), ["pitch-below-code"]);
        assert!(trial.one("pitch-below-code").source.contains("R905.6.2"));
    }
}
