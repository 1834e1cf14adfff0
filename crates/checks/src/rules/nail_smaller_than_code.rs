//! # Nail smaller than code
//!
//! ## What it finds
//! Nails that are shorter or thinner than the code lists for wood shingles, shakes and tile.
//! ## Why it matters
//! Box nails of these sizes hold in the deck and do not split the wood; an official counts what is on the box.
//! ## Remedy
//! Buy the nail that the code lists, or a stouter one.
//! ## Source
//! International Residential Code, Table R905.7.5(2) wood (read in the 2018 edition; 24 in shingles from memory, not read); International Building Code 2018, 1507.3.6 tile (read).

use covering::{Covering, Material, Parted};

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::tally::SLACK;
use crate::text::{Reading, Text};
use crate::{Edition, Facts, Family};

pub(crate) const RULE: Rule = Rule {
    name: "nail-smaller-than-code",
    kind: Kind::Code,
    family: Family::Fastening,
    endangers: &[Danger::Code, Danger::Safety],
    reading: Reading::In(&[Edition::Of2018]),
    about: "fastener",
    groups: &[],
    file: include_str!("nail_smaller_than_code.rs"),
    run: nail_smaller_than_code,
};

/// What the code lists, inches. Tile has no least length of its own.
struct Listed {
    name: &'static str,
    length: f64,
    shank: f64,
    text: Text,
}

const READ: Text = Text {
    source: "International Residential Code, Table R905.7.5(2), read in the 2018 edition.",
    reading: Reading::In(&[Edition::Of2018]),
};

fn listed(covering: &Covering) -> Option<Listed> {
    let parted = covering.conditions.wood.as_ref().map(|wood| wood.parted);
    let length = covering.unit.length.to_inches().round() as u32;
    match (covering.material, length, parted) {
        (Material::WoodShingle, 16 | 18, _) => box_nail("3d box", figure!(1.25), figure!(0.080), READ),
        (Material::WoodShingle, 24, _) => {
            let source = "International Residential Code, Table R905.7.5(2), from memory, not read.";
            box_nail("4d box", figure!(1.5), figure!(0.080), Text { source, reading: Reading::Memory })
        }
        (Material::WoodShake, 18, Some(Parted::StraightSplit)) | (Material::WoodShake, 24, Some(Parted::TaperSplit)) => {
            box_nail("5d box", figure!(1.75), figure!(0.080), READ)
        }
        (Material::WoodShake, 18 | 24, Some(Parted::Handsplit | Parted::TaperSawn)) => {
            box_nail("6d box", figure!(2.0), figure!(0.0915), READ)
        }
        (Material::PlainTile, ..) => {
            let source = "International Building Code 2018, 1507.3.6, read.";
            box_nail("11", 0.0, figure!(0.1205), Text { source, reading: READ.reading })
        }
        _ => None,
    }
}

const fn box_nail(name: &'static str, length: f64, shank: f64, text: Text) -> Option<Listed> {
    Some(Listed { name, length, shank, text })
}

fn nail_smaller_than_code(facts: &Facts) -> Verdict {
    let Some(listed) = facts.coverings().into_iter().find_map(|(_, covering)| listed(covering)) else {
        return Verdict::not_applicable("The code lists no nail for this covering here.");
    };
    let (Some(length), Some(shank)) = (facts.fastener.length, facts.fastener.shank) else {
        let [length, shank] = [facts.fastener.length, facts.fastener.shank].map(|given| given.is_some());
        return Verdict::missing(&absent(&[(length, "[fastener] length"), (shank, "[fastener] shank")]));
    };
    let (length, shank) = (length.to_inches(), shank.to_inches());
    let is_kept = length + SLACK >= listed.length && shank + SLACK >= listed.shank;
    let needed = match listed.length {
        0.0 => format!("{} gage ({}\")", listed.name, listed.shank),
        least => format!("a {} nail, {least}\" by {}\"", listed.name, listed.shank),
    };
    let verdict = Verdict::judged(is_kept, format!("The nail is {length}\" by {shank}\"; the code lists {needed}."));
    verdict.by(Some(listed.text))
}

#[cfg(test)]
mod tests {
    use units::Length;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn nail(material: Material, unit: f64, parted: Parted, [length, shank]: [f64; 2]) -> Trial {
        let mut trial = Trial::of(material);
        trial.covering.unit.length = Length::inches(unit);
        if let Some(wood) = &mut trial.covering.conditions.wood {
            wood.parted = parted;
        }
        trial.fastener.length = Some(Length::inches(length));
        trial.fastener.shank = Some(Length::inches(shank));
        trial
    }

    /// International Residential Code 2018, Table R905.7.5(2).
    #[test]
    fn the_listed_nail_itself_will_do() {
        for (material, unit, parted, length, shank, at_best) in [
            (Material::WoodShingle, 16.0, Parted::Sawn, 1.25, 0.080, Outcome::Pass),
            (Material::WoodShingle, 18.0, Parted::Sawn, 1.25, 0.080, Outcome::Pass),
            (Material::WoodShingle, 24.0, Parted::Sawn, 1.5, 0.080, Outcome::Attention),
            (Material::WoodShake, 18.0, Parted::StraightSplit, 1.75, 0.080, Outcome::Pass),
            (Material::WoodShake, 18.0, Parted::Handsplit, 2.0, 0.0915, Outcome::Pass),
            (Material::WoodShake, 24.0, Parted::Handsplit, 2.0, 0.0915, Outcome::Pass),
            (Material::WoodShake, 24.0, Parted::TaperSplit, 1.75, 0.080, Outcome::Pass),
            (Material::WoodShake, 24.0, Parted::TaperSawn, 2.0, 0.0915, Outcome::Pass),
        ] {
            let outcome = |size| nail(material, unit, parted, size).outcome("nail-smaller-than-code");
            assert_eq!(outcome([length, shank]), at_best, "{unit} {parted:?}");
            assert_eq!(outcome([length - 0.01, shank]), Outcome::Fail, "{unit} {parted:?}");
            assert_eq!(outcome([length, shank - 0.0005]), Outcome::Fail, "{unit} {parted:?}");
        }
    }

    /// 11 gage is 0.1205 in (steel wire gage); International Building Code 2018, 1507.3.6.
    #[test]
    fn tile_asks_for_eleven_gage() {
        let outcome = |shank| nail(Material::PlainTile, 15.0, Parted::Sawn, [1.5, shank]).outcome("nail-smaller-than-code");
        assert_eq!([outcome(0.1205), outcome(0.12)], [Outcome::Pass, Outcome::Fail]);
    }

    #[test]
    fn a_thin_nail_is_told() {
        let thin = nail(Material::WoodShake, 24.0, Parted::TaperSawn, [2.0, 0.08]);
        let says = "The nail is 2\" by 0.08\"; the code lists a 6d box nail, 2\" by 0.0915\".";
        assert_eq!(thin.says("nail-smaller-than-code"), says);
        assert_eq!(thin.adds(&nail(Material::WoodShake, 24.0, Parted::TaperSawn, [2.0, 0.1])), ["nail-smaller-than-code"]);
        assert_eq!(Trial::sound().outcome("nail-smaller-than-code"), Outcome::NotApplicable);
        let mut silent = thin;
        silent.fastener.shank = None;
        assert_eq!(silent.says("nail-smaller-than-code"), "The job does not give [fastener] shank.");
    }
}
