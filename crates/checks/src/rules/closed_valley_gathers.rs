//! # Closed valley gathers
//!
//! ## What it finds
//! Closed valleys where snow falls or trees stand over the roof.
//! ## Why it matters
//! Snow, ice and leaves lie longest in a valley; in a closed one they lie on the units and push water under them.
//! ## Remedy
//! Leave the valley open, on metal wide enough for the water of both planes.
//! ## Source
//! Common practice, no published source.

use roof::EdgeKind;

use crate::rule::{Danger, Kind, Rule, Verdict, absent};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "closed-valley-gathers",
    kind: Kind::Practice,
    family: Family::Edges,
    endangers: &[Danger::Leak],
    reading: Reading::Memory,
    about: "site",
    groups: &[],
    file: include_str!("closed_valley_gathers.rs"),
    run: closed_valley_gathers,
};

fn closed_valley_gathers(facts: &Facts) -> Verdict {
    let closed = closed_valleys(facts);
    let Some(&first) = closed.first() else {
        return Verdict::not_applicable("There is no closed valley.");
    };
    let (snow, trees) = (facts.site.ground_snow_psf, facts.site.trees);
    let what = match (snow, trees) {
        (Some(snow), _) if snow > 0.0 => "snow falls here",
        (_, Some(true)) => "trees stand over the roof",
        (Some(_), Some(false)) => return Verdict::pass("Neither snow nor leaves gather in the closed valleys."),
        _ => {
            let keys = [(snow.is_some(), "[site] ground_snow_psf"), (trees.is_some(), "[site] trees")];
            return Verdict::missing(&absent(&keys));
        }
    };
    let says = format!("The valley of {} is closed, and {what}", facts.plane_name(first));
    Verdict::found(Outcome::Attention, says, closed)
}

fn closed_valleys(facts: &Facts) -> Vec<Place> {
    let valleys = facts.roof.lines.iter().filter(|line| line.kind == EdgeKind::Valley);
    let closed = valleys.filter_map(|line| {
        let plane = *line.planes.first()?;
        let is_closed = facts.covering(plane)?.edges.valley_clear <= units::Length::ZERO;
        let [x, y, _] = line.ends[0];
        let [u, v] = facts.roof.planes.get(plane)?.frame.place(x, y);
        is_closed.then_some(Place { plane, course: 0, u, v })
    });
    closed.collect()
}

#[cfg(test)]
mod tests {
    use roof::Line;
    use units::Length;

    use super::*;
    use crate::trial::Trial;

    fn valley(clear: f64, snow: Option<f64>, trees: Option<bool>) -> Trial {
        let mut trial = Trial::sound();
        let ends = [[100.0, 100.0, 80.0], [0.0, 0.0, 0.0]];
        trial.roof.lines = vec![Line { kind: EdgeKind::Valley, ends, planes: vec![0] }];
        trial.covering.edges.valley_clear = Length::inches(clear);
        (trial.site.ground_snow_psf, trial.site.trees) = (snow, trees);
        trial
    }

    #[test]
    fn snow_or_leaves_close_it_for_good() {
        let outcome = |clear, snow, trees| valley(clear, snow, trees).outcome("closed-valley-gathers");
        assert_eq!(outcome(0.0, Some(0.0), Some(false)), Outcome::Pass);
        assert_eq!(outcome(0.0, Some(20.0), None), Outcome::Attention);
        assert_eq!(outcome(0.0, None, Some(true)), Outcome::Attention);
        assert_eq!(outcome(4.0, Some(20.0), Some(true)), Outcome::NotApplicable);
        assert_eq!(
            valley(0.0, None, Some(false)).says("closed-valley-gathers"),
            "The job does not give [site] ground_snow_psf."
        );
    }

    #[test]
    fn it_is_told() {
        let says = "The valley of house, south is closed, and trees stand over the roof.";
        assert_eq!(valley(0.0, None, Some(true)).says("closed-valley-gathers"), says);
        assert_eq!(valley(0.0, Some(0.0), Some(true)).adds(&valley(0.0, Some(0.0), Some(false))), ["closed-valley-gathers"]);
    }
}
