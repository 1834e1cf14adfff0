//! # Ice barrier left out
//!
//! ## What it finds
//! Eaves without an ice barrier where the winter's mean temperature is below 25 °F, or where the place asks for one. Tile is not in the code's list.
//! ## Why it matters
//! Where snow melts on a warm roof and freezes at the eave, water backs up behind the ice; units shed water, they do not hold it.
//! ## Remedy
//! Write [site] ice_barrier = true and the overhang of every eave, so that it is laid as far as the code asks.
//! ## Source
//! International Residential Code, R905.1.2, quoted: where ice has formed along eaves; below 25 °F by common practice, no published source. Local officials decide.

use covering::Material;

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "ice-barrier-left-out",
    kind: Kind::Code,
    family: Family::DryIn,
    endangers: &[Danger::Leak, Danger::Code],
    reading: Reading::Memory,
    about: "site",
    groups: &[],
    file: include_str!("ice_barrier_left_out.rs"),
    run: ice_barrier_left_out,
};

fn ice_barrier_left_out(facts: &Facts) -> Verdict {
    let (asked, winter) = (facts.site.ice_barrier, facts.site.winter);
    let is_cold = winter.map(|winter| winter.to_fahrenheit() < figure!(25.0));
    let why = match (asked, is_cold, winter) {
        (_, Some(true), Some(winter)) => format!("The winter's mean is {winter}"),
        (Some(true), ..) => "The job asks for an ice barrier".into(),
        (_, Some(false), Some(winter)) => {
            return Verdict::pass(format!("The winter's mean is {winter}: no ice barrier is asked for."));
        }
        _ => return Verdict::missing(&["[site] winter"]),
    };
    if facts.eaves().next().is_none() {
        return Verdict::not_applicable("There is no eave to be covered.");
    }
    let bare = bare(facts);
    let Some(&first) = bare.first() else { return Verdict::pass(why + ", and every eave has its ice barrier.") };
    let says = format!("{why}, and the eave of {} has no ice barrier", facts.plane_name(first));
    // Who writes that none is asked for has asked the officials.
    let outcome = if asked == Some(false) { Outcome::Attention } else { Outcome::Fail };
    Verdict::found(outcome, says, bare)
}

/// Eaves in the code's list without a barrier.
fn bare(facts: &Facts) -> Vec<Place> {
    let has_one = |index: usize| facts.details.dry_in.eaves.iter().any(|eave| eave.line == index);
    let is_listed = |plane: usize| facts.covering(plane).is_some_and(|covering| covering.material != Material::PlainTile);
    let eaves = facts.eaves().filter(|&(index, _, plane)| is_listed(plane) && !has_one(index));
    let places = eaves.filter_map(|(_, line, plane)| {
        let [x, y, _] = line.ends[0];
        Some(facts.place_on(plane, facts.roof.planes.get(plane)?.frame.place(x, y)))
    });
    places.collect()
}

#[cfg(test)]
mod tests {
    use details::EaveBarrier;
    use units::{Length, Temperature};

    use super::*;
    use crate::trial::{Trial, house};

    /// A gable roof with two eaves, of which so many have a barrier.
    fn with(barriers: usize, winter: Option<f64>, asked: Option<bool>) -> Trial {
        let mut trial = Trial::on(&[house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0), None, Some(8.0), None], 9.0)]);
        let lines = trial.roof.lines.iter().enumerate().filter(|(_, line)| line.kind == roof::EdgeKind::Eave);
        let [needed, laid] = [44.0, 68.0].map(Length::inches);
        trial.details.dry_in.eaves = lines.take(barriers).map(|(line, _)| EaveBarrier { line, needed, laid }).collect();
        (trial.site.winter, trial.site.ice_barrier) = (winter.map(Temperature::fahrenheit), asked);
        trial
    }

    /// Below 25 °F (common practice, no published source).
    #[test]
    fn the_winter_decides() {
        let outcome = |barriers, winter, asked| with(barriers, winter, asked).outcome("ice-barrier-left-out");
        assert_eq!(outcome(0, Some(24.9), None), Outcome::Fail);
        assert_eq!(outcome(0, Some(25.0), None), Outcome::Attention, "a code that was not read never passes");
        assert_eq!(outcome(2, Some(20.0), None), Outcome::Attention);
        assert_eq!(outcome(1, None, Some(true)), Outcome::Fail);
        assert_eq!(outcome(0, None, None), Outcome::NotApplicable);
        assert_eq!(with(1, Some(20.0), None).adds(&with(2, Some(20.0), None)), ["ice-barrier-left-out"]);
    }

    #[test]
    fn what_is_told() {
        let unread = " The text of the 2018 edition was not read.";
        let says = |barriers, winter, asked| with(barriers, winter, asked).says("ice-barrier-left-out");
        let bare = "The winter's mean is 20 °F, and the eave of house, south has no ice barrier; 2 places in all.";
        assert_eq!(says(0, Some(20.0), None), bare.to_owned() + unread);
        assert_eq!(
            says(0, Some(30.0), None),
            "The winter's mean is 30 °F: no ice barrier is asked for.".to_owned() + unread
        );
        assert_eq!(says(0, None, None), "The job does not give [site] winter.");
        let one = "The job asks for an ice barrier, and the eave of house, north has no ice barrier.";
        assert_eq!(says(1, None, Some(true)), one.to_owned() + unread);
    }

    #[test]
    fn who_leaves_it_out_on_purpose_is_asked_to_look() {
        assert_eq!(with(0, Some(20.0), Some(false)).one("ice-barrier-left-out").places.len(), 2);
        assert_eq!(with(0, Some(20.0), Some(false)).outcome("ice-barrier-left-out"), Outcome::Attention);
        let mut tile = with(0, Some(20.0), None);
        tile.covering.material = Material::PlainTile;
        assert_eq!(tile.one("ice-barrier-left-out").places, []);
    }
}
