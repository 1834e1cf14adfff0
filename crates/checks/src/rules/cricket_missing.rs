//! # Cricket missing
//!
//! ## What it finds
//! Chimneys wider than 30 in across the slope that stand below the ridge without a cricket.
//! ## Why it matters
//! Water, snow and leaves dam up behind a wide chimney and find the one corner that was not soldered.
//! ## Remedy
//! Build a cricket, its ridge as high as half the width times the pitch, and flash it into the chimney.
//! ## Source
//! International Residential Code, R1003.20, as inspectors quote the edition of 2003, from memory, not read in later ones.

use roof::{OpeningKind, PlacedOpening};

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::SLACK;
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "cricket-missing",
    kind: Kind::Code,
    family: Family::Edges,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "opening",
    groups: &[],
    file: include_str!("cricket_missing.rs"),
    run: cricket_missing,
};

fn cricket_missing(facts: &Facts) -> Verdict {
    let chimneys: Vec<&PlacedOpening> =
        facts.roof.openings.iter().filter(|opening| opening.kind == OpeningKind::Chimney).collect();
    if chimneys.is_empty() {
        return Verdict::not_applicable("There is no chimney.");
    }
    let lacking: Vec<&PlacedOpening> = chimneys.into_iter().filter(|chimney| lacks_a_cricket(chimney)).collect();
    match lacking.first() {
        Some(chimney) => {
            let says = format!("{} is {} wide and has no cricket", chimney.name, chimney.width.in_inches());
            Verdict::found(Outcome::Fail, says, lacking.iter().filter_map(|chimney| place(chimney)).collect())
        }
        None => Verdict::pass("Every chimney wider than 30\" below a ridge has a cricket."),
    }
}

/// One that stands astride of the ridge dams no water.
fn lacks_a_cricket(chimney: &PlacedOpening) -> bool {
    chimney.width.to_inches() > figure!(30.0) + SLACK && chimney.cricket.is_none() && chimney.planes.len() == 1
}

fn place(chimney: &PlacedOpening) -> Option<Place> {
    let [u, v] = chimney.at;
    Some(Place { plane: *chimney.planes.first()?, course: 0, u, v })
}

#[cfg(test)]
mod tests {
    use roof::{Opening, Spot};

    use super::*;
    use crate::trial::{Trial, house};

    fn chimney(width: f64, at: [f64; 2]) -> Trial {
        let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0), None, Some(8.0), None], 9.0)]);
        let name = "kitchen chimney".to_owned();
        let opening = Opening { name, kind: OpeningKind::Chimney, spot: Spot::Over(at), width, height: 24.0 };
        trial.roof = roof::cut_out(trial.roof, &[opening]).roof;
        trial
    }

    /// Strictly wider than 30 in: International Residential Code, R1003.20, quoted from the edition of 2003.
    #[test]
    fn thirty_inches_need_none() {
        let bare = |width: f64| {
            let mut trial = chimney(width, [240.0, 60.0]);
            trial.roof.openings[0].cricket = None;
            trial.outcome("cricket-missing")
        };
        assert_eq!([bare(30.0), bare(30.01)], [Outcome::Attention, Outcome::Fail]);
        assert_eq!(chimney(42.0, [240.0, 60.0]).outcome("cricket-missing"), Outcome::Attention, "it has its cricket");
        assert_eq!(chimney(42.0, [240.0, 168.0]).outcome("cricket-missing"), Outcome::Attention, "it stands at the ridge");
        assert_eq!(Trial::sound().outcome("cricket-missing"), Outcome::NotApplicable);
    }

    #[test]
    fn a_wide_chimney_is_told() {
        let mut trial = chimney(42.0, [240.0, 60.0]);
        trial.roof.openings[0].cricket = None;
        let found = trial.one("cricket-missing");
        assert_eq!(
            found.says,
            "kitchen chimney is 42\" wide and has no cricket. The text of the 2018 edition was not read."
        );
        assert_eq!(found.places.len(), 1);
    }
}
