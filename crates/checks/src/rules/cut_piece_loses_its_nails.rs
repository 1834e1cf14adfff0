//! # Cut piece loses its nails
//!
//! ## What it finds
//! Cut pieces that are too narrow for two nails where the nails go: at the sheet's height over the butt, under a cap or an apron
//! where that height is cut away, or at the top of a piece that ends below it; and pieces in which no place is far enough from
//! their edges and from the metal of a valley.
//! ## Why it matters
//! A piece on one nail turns and slides out; along hips and valleys that is where roofs lose their first units.
//! ## Remedy
//! Cut the piece from a wide unit, shift the start of the course, or hold it by wire or adhesive as the sheet allows.
//! ## Source
//! Cyclopedia of Architecture, Carpentry and Building (American Technical Society, c. 1907), slate roofing: a cut piece keeps two nails; their place by the covering's data sheet.

use covering::NailLine;
use layout::{Cut, Fault};

use crate::facts::Laid;
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "cut-piece-loses-its-nails",
    kind: Kind::Practice,
    family: Family::Pieces,
    endangers: &[Danger::Leak, Danger::Safety],
    reading: Reading::Read,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("cut_piece_loses_its_nails.rs"),
    run: cut_piece_loses_its_nails,
};

fn cut_piece_loses_its_nails(facts: &Facts) -> Verdict {
    let mut widths = Tally::lengths(Bound::AtLeast);
    for laid in facts.laid() {
        let Some(line) = laid.covering.conditions.nail_line else {
            return Verdict::not_in_sheet("where its nails go, [nails] side and up");
        };
        let widths_of: Vec<f64> = laid.units.cuts.iter().map(|cut| width_at_nails(cut, &line)).collect();
        add_pieces(&laid, &widths_of, figure!(2.0) * line.side.to_inches(), &mut widths);
    }
    if let Some(verdict) = loose(facts) {
        return verdict;
    }
    let verdict = widths.verdict(
        |narrowest| {
            let [is, least] = narrowest.inches();
            format!("{} has a piece {is} wide at its nails; two nails need {least}", facts.name_of(narrowest.place))
        },
        |place| facts.name_of(place),
        "No unit is cut.",
    );
    verdict.looked_at()
}

/// Pieces in which the layout found no place for two nails.
fn loose(facts: &Facts) -> Option<Verdict> {
    let findings = facts.laid().flat_map(|laid| {
        let loose = laid.units.findings.iter().filter(|finding| finding.fault == Fault::CannotBeNailed);
        loose.map(move |finding| laid.place_at(finding.course, finding.at[0])).collect::<Vec<_>>()
    });
    let places: Vec<Place> = findings.collect();
    let count = places.len();
    let more = if count > 1 { format!("; {count} places in all") } else { String::new() };
    let says = format!(
        "{} has a piece without room for two nails off its edges and off the metal of the valley{more}.",
        facts.name_of(*places.first()?)
    );
    Some(Verdict { outcome: Outcome::Attention, places, ..Verdict::not_applicable(says) })
}

fn add_pieces(laid: &Laid, widths_of: &[f64], needed: f64, widths: &mut Tally) {
    for (number, course) in laid.units.courses.iter().enumerate() {
        for run in &course.runs {
            let Some(&width) = run.cut.and_then(|cut| widths_of.get(cut as usize)) else { continue };
            widths.add_each(width, needed, run.lefts().map(|left| laid.place_at(number, left)));
        }
    }
}

/// Width of the widest part of a piece at its nails.
fn width_at_nails(cut: &Cut, line: &NailLine) -> f64 {
    // A nail's head needs so much of the piece above it.
    let head_room = figure!(0.5);
    let at = |part: &Vec<[f64; 2]>| {
        let top = part.iter().map(|&[_, v]| v).fold(0.0, f64::max);
        let placed = cut.nails.first().map(|nail| nail[1]);
        width_at(part, placed.unwrap_or_else(|| line.up.to_inches().min(top - head_room)))
    };
    cut.parts.iter().map(at).fold(0.0, f64::max)
}

/// Width of a convex piece at a height over its butt.
fn width_at(part: &[[f64; 2]], height: f64) -> f64 {
    let sides = part.iter().zip(part.iter().cycle().skip(1));
    let crossed = sides.filter(|([_, low], [_, high])| (*low > height) != (*high > height));
    let across = crossed.map(|([u, v], [u2, v2])| u + (height - v) / (v2 - v) * (u2 - u));
    let [least, most] = across.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], u| [least.min(u), most.max(u)]);
    (most - least).max(0.0)
}

#[cfg(test)]
mod tests {
    use layout::Run;
    use units::Length;

    use super::*;
    use crate::Outcome;
    use crate::trial::Trial;

    /// Nails 1-1/2 in from each side, 10 in over the butt; the last unit of course 3 cut to a shape.
    fn with(part: &[[f64; 2]]) -> Trial {
        let mut trial = Trial::sound();
        let [side, up] = [1.5, 10.0].map(Length::inches);
        trial.covering.conditions.nail_line = Some(NailLine { side, up, off_joint: None });
        trial.covering.least_piece = Length::inches(1.0);
        let laid = &mut trial.layout.planes[0];
        laid.cuts.push(Cut { parts: vec![part.to_vec()], area: 40.0, width: 6.0, ..Cut::default() });
        let whole = &mut laid.courses[2].runs[0];
        whole.count -= 1;
        let last = Run { left: whole.right() + 0.25, count: 1, cut: Some(0), joint_before: true, ..*whole };
        laid.courses[2].runs.push(last);
        trial
    }

    /// A strip along a rake has its width all the way up: two nails 1-1/2 in off each side need 3 in.
    #[test]
    fn two_nails_need_twice_the_distance_to_the_side() {
        let strip = |width: f64| with(&[[0.0, 0.0], [width, 0.0], [width, 18.0], [0.0, 18.0]]);
        assert_eq!(strip(3.0).outcome("cut-piece-loses-its-nails"), Outcome::Pass);
        assert_eq!(strip(2.98).adds(&strip(3.0)), ["cut-piece-loses-its-nails"]);
        let says = "house, south, course 3 has a piece 2-1/2\" wide at its nails; two nails need 3\".";
        assert_eq!(strip(2.5).says("cut-piece-loses-its-nails"), says);
    }

    /// A hip's piece, 12 in wide at the butt: at 10 in it is 12 − 10 × 12 / 18 = 5.33 in wide; one that ends in a point at 9 in is
    /// 0.67 in wide half an inch below it.
    #[test]
    fn a_point_takes_no_nails() {
        let point = |top: f64| with(&[[0.0, 0.0], [12.0, 0.0], [0.0, top]]).outcome("cut-piece-loses-its-nails");
        assert_eq!([point(18.0), point(9.0)], [Outcome::Pass, Outcome::Attention]);
        // 3 in wide half an inch below a point at 2 in, 2.97 in below one at 2.02 in (12 × 0.5 / top, by hand).
        assert_eq!([point(2.0), point(2.02)], [Outcome::Pass, Outcome::Attention]);
    }

    /// 8 in wide at the butt and ending in a point at 16 in: 8 − 8 × 10 / 16 = 3 in wide at the nails, 10 in up. By hand.
    #[test]
    fn the_height_of_the_nails_counts() {
        let point = |top: f64| with(&[[0.0, 0.0], [8.0, 0.0], [0.0, top]]).outcome("cut-piece-loses-its-nails");
        assert_eq!([point(16.0), point(15.9)], [Outcome::Pass, Outcome::Attention]);
        assert_eq!(Trial::sound().outcome("cut-piece-loses-its-nails"), Outcome::NotApplicable);
    }

    /// Where the layout says that nothing holds a piece, that is said.
    #[test]
    fn a_piece_that_the_layout_cannot_nail_is_looked_at() {
        let mut trial = with(&[[0.0, 0.0], [6.0, 0.0], [6.0, 18.0], [0.0, 18.0]]);
        let finding = layout::Finding { fault: Fault::CannotBeNailed, course: 2, at: [40.0, 16.0] };
        trial.layout.planes[0].findings.push(finding);
        assert_eq!(trial.outcome("cut-piece-loses-its-nails"), Outcome::Attention);
        let says =
            "house, south, course 3 has a piece without room for two nails off its edges and off the metal of the valley.";
        assert_eq!(trial.says("cut-piece-loses-its-nails"), says);
    }
}
