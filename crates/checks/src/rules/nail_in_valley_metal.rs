//! # Nail in valley metal
//!
//! ## What it finds
//! Nails of units along an open valley that stand nearer to its middle than the metal reaches there, measured nail by nail. A
//! length of metal counts as trimmed: it narrows upwards with the valley.
//! ## Why it matters
//! A hole in the lining leaks at once, and a nailed lining cannot move with heat: it tears.
//! ## Remedy
//! Move the nail out, or cut the unit from a wider one; cleats hold the metal, nails never.
//! ## Source
//! Copper Flashings: A Manual (Copper and Brass Research Association, 1920s), specification 33, holds valley metal by cleats and lets it widen over 8 ft; no nail through it is common practice, no published source.

use details::{MetalKind, MetalRun};
use roof::{Line, Place as Spot};

use crate::facts::Laid;
use crate::facts::metal::{half_width, runs};
use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::tally::{Bound, Tally};
use crate::text::Reading;
use crate::{Facts, Family, Place};

pub(crate) const RULE: Rule = Rule {
    name: "nail-in-valley-metal",
    kind: Kind::Practice,
    family: Family::Edges,
    endangers: &[Danger::Leak, Danger::Warranty],
    reading: Reading::Memory,
    about: "covering.sheet",
    groups: &[],
    file: include_str!("nail_in_valley_metal.rs"),
    run: nail_in_valley_metal,
};

fn nail_in_valley_metal(facts: &Facts) -> Verdict {
    let mut distances = Tally::lengths(Bound::AtLeast);
    for lining in runs(facts, MetalKind::OpenValley).filter_map(|run| lining(facts, run)) {
        for laid in facts.laid().filter(|laid| lining.line.planes.contains(&laid.index) && laid.plane.has_place()) {
            let ends = ends_on(&laid, lining.line);
            for (course, nail) in nails_at_ends(&laid) {
                let Some((share, away)) = from_line(ends, nail) else { continue };
                let reach = lining.reach_at(share);
                if away < NEAR * reach {
                    distances.add(away, reach, Place { course, ..facts.place_on(laid.index, nail) });
                }
            }
        }
    }
    distances.verdict(
        |nearest| {
            let [is, metal] = nearest.inches();
            let place = facts.name_of(nearest.place);
            format!("{place} has a nail {is} from the middle of a valley; its metal reaches {metal}")
        },
        |place| facts.name_of(place),
        "No unit is nailed beside an open valley.",
    )
}

/// Nails further off than so many times the metal's reach are not beside it.
const NEAR: f64 = 2.0;

/// The metal of one valley.
struct Lining<'a> {
    line: &'a Line,
    /// What each length covers, as shares of the valley from its foot on, and how far its foot reaches from the middle.
    lengths: Vec<([f64; 2], f64)>,
    /// It reaches less far by so much over the whole valley: lengths narrow upwards with it.
    narrows: f64,
}

impl Lining<'_> {
    fn reach_at(&self, share: f64) -> f64 {
        let here = self.lengths.iter().filter(|([foot, head], _)| (*foot..=*head).contains(&share));
        here.map(|([foot, _], reach)| reach - self.narrows * (share - foot)).fold(0.0, f64::max)
    }
}

fn lining<'a>(facts: &Facts<'a>, run: &MetalRun) -> Option<Lining<'a>> {
    let line = facts.roof.lines.get(run.along.line?)?;
    let frame = &facts.roof.planes.get(run.along.plane)?.frame;
    let ends = line.ends.map(|[x, y, _]| frame.place(x, y)[1]);
    let [foot, head] = [ends[0].min(ends[1]), ends[0].max(ends[1])];
    let share = |[_, v]: Spot| (v - foot) / (head - foot);
    let lengths = run.pieces.iter().map(|piece| (piece.ends.map(share), half_width(facts, run, piece)));
    let growth = facts.covering(run.along.plane)?.edges.valley_growth.to_feet() / figure!(8.0);
    let narrows = growth * line.length().to_inches() / 2.0;
    (head > foot).then(|| Lining { line, lengths: lengths.collect(), narrows })
}

/// Foot and head of a valley on a plane.
fn ends_on(laid: &Laid, line: &Line) -> [Spot; 2] {
    let [a, b] = line.ends.map(|[x, y, _]| laid.plane.frame.place(x, y));
    if a[1] <= b[1] { [a, b] } else { [b, a] }
}

/// Nails of the first and the last piece of every run, with their courses: no other is nearer to an edge.
fn nails_at_ends(laid: &Laid) -> Vec<(usize, Spot)> {
    let mut nails = Vec::new();
    for (course, row) in laid.units.courses.iter().enumerate() {
        for run in &row.runs {
            let cut = run.cut.map(|cut| laid.units.cuts.get(cut as usize).map_or(&[][..], |cut| &cut.nails));
            let whole = || laid.units.nails.get(run.unit as usize).map_or(&[][..], Vec::as_slice);
            let lefts = [run.left, run.last_left()].into_iter().take(run.count.min(2) as usize);
            for left in lefts {
                nails.extend(cut.unwrap_or_else(whole).iter().map(|&[u, v]| (course, [left + u, row.butt + v])));
            }
        }
    }
    nails
}

/// What share of a line lies below a place beside it, and how far the place is from it; none beyond its ends.
fn from_line([low, high]: [Spot; 2], at: Spot) -> Option<(f64, f64)> {
    let [du, dv] = [high[0] - low[0], high[1] - low[1]];
    let length = libm::hypot(du, dv);
    let [u, v] = [at[0] - low[0], at[1] - low[1]];
    let share = (u * du + v * dv) / (length * length);
    (length > 0.0 && (0.0..=1.0).contains(&share)).then(|| (share, ((u * dv - v * du) / length).abs()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Outcome;
    use crate::trial::{Trial, house};

    const NAME: &str = "nail-in-valley-metal";

    /// A wing against a house: one nail so far from the middle of a valley, half way up, on metal of 17 in with turned edges.
    fn with(away: f64) -> Trial {
        let tall = house("house", [0.0, 0.0, 40.0, 28.0], [Some(8.0), None, Some(8.0), None], 9.0);
        let wing = house("wing", [10.0, -12.0, 30.0, 14.0], [None, Some(8.0), None, Some(8.0)], 9.0);
        let mut trial = Trial::on(&[tall, wing]);
        let index = trial.roof.lines.iter().position(|line| line.kind == roof::EdgeKind::Valley).unwrap();
        let line = trial.roof.lines[index].clone();
        let plane = line.planes[0];
        let ends = line.ends.map(|[x, y, _]| trial.roof.planes[plane].frame.place(x, y));
        let [low, high] = if ends[0][1] <= ends[1][1] { ends } else { [ends[1], ends[0]] };
        let [du, dv] = [high[0] - low[0], high[1] - low[1]];
        let length = libm::hypot(du, dv);
        let at = [low[0] + du / 2.0 - away * dv / length, low[1] + dv / 2.0 + away * du / length];
        trial.lay(plane, 7.0);
        let laid = &mut trial.layout.planes[0];
        laid.nails = vec![vec![[0.0, 0.0]]];
        laid.courses.truncate(1);
        laid.courses[0].butt = at[1];
        laid.courses[0].runs[0] = layout::Run { left: at[0], count: 1, ..laid.courses[0].runs[0] };
        trial.metal(MetalKind::OpenValley, &[[low, high]], 17.0);
        trial.details.metal.iter_mut().for_each(|metal| {
            metal.items[0].runs[0].along = details::Along { plane, line: Some(index), opening: None };
        });
        trial
    }

    /// 10 ft along, 10 ft across and 6 ft 8 in up are 187.617 in of valley. Half way up, metal that widens 1 in over 8 ft is
    /// 187.617 / 2 / 96 = 0.977 in narrower than at its foot: 7.511 in each way, by hand.
    #[test]
    fn metal_narrows_upwards() {
        let outcome = |away| {
            let mut trial = with(away);
            trial.covering.edges.valley_growth = units::Length::inches(1.0);
            trial.outcome(NAME)
        };
        assert_eq!([7.512, 7.51].map(outcome), [Outcome::Pass, Outcome::Fail]);
    }

    /// 17 in less 1/2 in turned back at each side: 8 in each way.
    #[test]
    fn off_the_metal() {
        for side in [1.0, -1.0] {
            assert_eq!([8.0, 7.99].map(|away| with(side * away).outcome(NAME)), [Outcome::Pass, Outcome::Fail]);
        }
        let says = with(5.0).says(NAME);
        assert!(says.ends_with("has a nail 5\" from the middle of a valley; its metal reaches 8\"."), "{says}");
        assert_eq!(with(5.0).adds(&with(9.0)), [NAME]);
        assert_eq!(with(40.0).outcome(NAME), Outcome::NotApplicable);
        assert_eq!(Trial::sound().outcome(NAME), Outcome::NotApplicable);
    }
}
