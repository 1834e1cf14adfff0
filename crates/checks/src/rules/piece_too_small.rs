//! # Piece too small
//!
//! ## What it finds
//! Pieces that are nowhere as wide as the least piece of the covering's sheet.
//! ## Why it matters
//! A sliver cannot take its nails, cracks when it is nailed near the edge, and is the first to blow off.
//! ## Remedy
//! Shift the start of the course, make the last two units share what is left over, or cut the piece from a wide unit.
//! ## Source
//! The covering's data sheet, least piece.

use layout::Run;

use crate::facts::Laid;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::{Facts, Family, Reading};

pub(crate) const RULE: Rule = Rule {
    name: "piece-too-small",
    kind: Kind::Maker,
    family: Family::Pieces,
    endangers: &[Danger::Leak, Danger::Warranty, Danger::Safety],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &["lap"],
    file: include_str!("piece_too_small.rs"),
    run: piece_too_small,
};

fn piece_too_small(facts: &Facts) -> Verdict {
    let mut widths = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let least = laid.covering.least_piece.to_inches();
        for (number, course) in laid.units.courses.iter().enumerate() {
            for run in &course.runs {
                let (width, middle) = piece(&laid, run);
                widths.add_each(width, least, run.lefts().map(|left| laid.place_at(number, left + middle)));
            }
        }
    }
    widths.verdict(
        |narrowest| {
            let [is, least] = narrowest.inches();
            let place = narrowest.place;
            let at = units::Length::inches(place.u);
            format!("{} has a piece {is} wide, {at} along; the least piece of the sheet is {least}", facts.name_of(place))
        },
        |place| facts.name_of(place),
        "No unit is laid.",
    )
}

/// A piece's greatest width, and its middle from the left side of the unit it is cut from.
fn piece(laid: &Laid, run: &Run) -> (f64, f64) {
    let cut = run.cut.and_then(|cut| laid.units.cuts.get(cut as usize));
    cut.map_or((run.width, run.width / 2.0), |cut| (cut.width, cut.extent().iter().sum::<f64>() / 2.0))
}

#[cfg(test)]
mod tests {
    use layout::Cut;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    fn cut(width: f64) -> Cut {
        let parts = vec![vec![[0.0, 0.0], [width, 0.0], [width, 18.0], [0.0, 18.0]]];
        Cut { parts, area: width * 18.0, width, ..Cut::default() }
    }

    /// The last unit of a course, cut to a width.
    fn trial_with_a_piece(width: f64) -> Trial {
        let mut trial = Trial::sound();
        let laid = &mut trial.layout.planes[0];
        laid.cuts.push(cut(width));
        let whole = &mut laid.courses[2].runs[0];
        whole.count -= 1;
        let last = Run { left: whole.right() + 0.25, count: 1, cut: Some(0), joint_before: true, ..*whole };
        laid.courses[2].runs.push(last);
        trial
    }

    #[test]
    fn the_least_piece_itself_is_wide_enough() {
        assert_eq!(trial_with_a_piece(4.0).outcome("piece-too-small"), Outcome::Pass);
        let trial = trial_with_a_piece(3.875);
        let checked = trial.one("piece-too-small");
        assert_eq!(checked.outcome, Outcome::Fail);
        assert_eq!(checked.places.iter().map(|place| place.course).collect::<Vec<_>>(), [2]);
        assert!(checked.says.contains("has a piece 3-7/8\" wide"), "{}", checked.says);
    }

    /// Every piece of a run is a place.
    #[test]
    fn uncut_units_can_be_too_small_too() {
        let mut trial = Trial::sound();
        let run = &mut trial.layout.planes[0].courses[1].runs[0];
        (run.width, run.count) = (3.0, 4);
        assert_eq!(trial.one("piece-too-small").places.len(), 4);
    }
}
