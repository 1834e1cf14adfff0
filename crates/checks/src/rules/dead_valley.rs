//! # Dead valley
//!
//! ## What it finds
//! Level lines at which a plane falls towards a wall or towards another plane, so that water has no way on.
//! ## Why it matters
//! Water stands there, and snow lies there for months; no lap of small units holds standing water.
//! ## Remedy
//! Build a cricket that falls both ways, or line the place like a gutter in soldered metal and keep the units off it.
//! ## Source
//! Common practice, no published source.

use roof::{EdgeKind, Line};

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "dead-valley",
    kind: Kind::Practice,
    family: Family::Edges,
    endangers: &[Danger::Leak],
    reading: Reading::Memory,
    about: "block",
    groups: &[],
    file: include_str!("dead_valley.rs"),
    run: dead_valley,
};

fn dead_valley(facts: &Facts) -> Verdict {
    let dead: Vec<&Line> = facts.roof.lines.iter().filter(|line| is_dead(line)).collect();
    let Some(longest) = dead.iter().max_by(|a, b| a.length().to_inches().total_cmp(&b.length().to_inches())) else {
        return Verdict::pass("Water finds its way off every plane.");
    };
    let says = format!("Water has no way on along {} of level line", longest.length());
    Verdict::found(Outcome::Attention, says, dead.iter().filter_map(|line| place(facts, line)).collect())
}

fn is_dead(line: &Line) -> bool {
    let falls = (line.ends[0][2] - line.ends[1][2]).abs();
    let is_level_valley = line.kind == EdgeKind::Valley && falls * figure!(100.0) < line.length().to_inches();
    line.kind == EdgeKind::DeadValley || is_level_valley
}

fn place(facts: &Facts, line: &Line) -> Option<Place> {
    let plane = *line.planes.first()?;
    let [x, y, _] = line.ends[0];
    let [u, v] = facts.roof.planes.get(plane)?.frame.place(x, y);
    Some(Place { plane, course: 0, u, v })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::{Trial, house};

    /// Two gables side by side: the eaves between them meet in a level valley.
    #[test]
    fn a_level_valley_between_gables() {
        let gable = |name, low, high| house(name, [0.0, low, 40.0, high], [Some(8.0), None, Some(8.0), None], 9.0);
        let alone = Trial::on(&[gable("south", 0.0, 20.0)]);
        assert_eq!(alone.outcome("dead-valley"), Outcome::Pass);
        let both = Trial::on(&[gable("south", 0.0, 20.0), gable("north", 20.0, 40.0)]);
        let found = both.one("dead-valley");
        assert_eq!(found.outcome, Outcome::Attention, "{}", found.says);
        assert_eq!(found.says, "Water has no way on along 40' 0\" of level line.");
    }

    #[test]
    fn a_plane_that_falls_towards_a_wall() {
        let mut trial = Trial::sound();
        let ends = [[0.0; 3], [120.0, 0.0, 0.0]];
        trial.roof.lines = vec![Line { kind: EdgeKind::DeadValley, ends, planes: vec![0] }];
        assert_eq!(trial.adds(&Trial::sound()), ["dead-valley"]);
        trial.roof.lines[0].kind = EdgeKind::Valley;
        trial.roof.lines[0].ends[1][2] = 2.0;
        assert_eq!(trial.outcome("dead-valley"), Outcome::Pass);
        // Level is what rises less than 1 in 100, as lines are told apart everywhere here: 1.2 in over 10 ft.
        let falls = |height: f64| {
            trial.roof.lines[0].ends[1][2] = height;
            trial.outcome("dead-valley")
        };
        assert_eq!([1.195, 1.205].map(falls), [Outcome::Attention, Outcome::Pass]);
    }
}
