//! # Valley dies at wall
//!
//! ## What it finds
//! Valleys whose lower end runs into a wall or a dead valley.
//! ## Why it matters
//! All the water of two planes arrives at one point against the wall; snow and leaves stay there, and so do leaks.
//! ## Remedy
//! Turn the water with a cricket, or line the corner with soldered metal well up the wall and under the units.
//! ## Source
//! Common practice, no published source.

use roof::{EdgeKind, Line, Point3};

use crate::figure::figure;
use crate::rule::{Danger, Kind, Rule, Verdict};
use crate::text::Reading;
use crate::{Facts, Family, Outcome, Place};

pub(crate) const RULE: Rule = Rule {
    name: "valley-dies-at-wall",
    kind: Kind::Practice,
    family: Family::Edges,
    endangers: &[Danger::Leak],
    reading: Reading::Memory,
    about: "block",
    groups: &[],
    file: include_str!("valley_dies_at_wall.rs"),
    run: valley_dies_at_wall,
};

fn valley_dies_at_wall(facts: &Facts) -> Verdict {
    let lines = || facts.roof.lines.iter();
    let walls: Vec<&Line> = lines().filter(|line| is_wall(line.kind)).collect();
    let valleys: Vec<&Line> = lines().filter(|line| line.kind == EdgeKind::Valley && !is_level(line)).collect();
    if valleys.is_empty() {
        return Verdict::not_applicable("There is no sloping valley.");
    }
    let dying = valleys.iter().filter(|valley| walls.iter().any(|wall| near(low_end(valley), wall)));
    let places: Vec<Place> = dying.filter_map(|valley| place(facts, valley)).collect();
    match places.first() {
        Some(&first) => {
            let says = format!("A valley of {} ends at a wall", facts.plane_name(first));
            Verdict::found(Outcome::Attention, says, places)
        }
        None => Verdict::pass("No valley ends at a wall."),
    }
}

const fn is_wall(kind: EdgeKind) -> bool {
    matches!(kind, EdgeKind::Sidewall | EdgeKind::Headwall | EdgeKind::DeadValley)
}

fn is_level(line: &Line) -> bool {
    (line.ends[0][2] - line.ends[1][2]).abs() < figure!(1.0)
}

fn low_end(line: &Line) -> Point3 {
    let [a, b] = line.ends;
    if a[2] < b[2] { a } else { b }
}

/// Whether a point lies within a few inches of a line, seen in plan and in height.
fn near(point: Point3, line: &Line) -> bool {
    distance(point, line.ends) < figure!(6.0)
}

pub(super) fn distance(point: Point3, [a, b]: [Point3; 2]) -> f64 {
    let less = |p: Point3, q: Point3| [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
    let dot = |p: Point3, q: Point3| p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
    let along = less(b, a);
    let part = (dot(less(point, a), along) / dot(along, along).max(1e-12)).clamp(0.0, 1.0);
    let foot = [a[0] + part * along[0], a[1] + part * along[1], a[2] + part * along[2]];
    let off = less(point, foot);
    dot(off, off).sqrt()
}

fn place(facts: &Facts, valley: &Line) -> Option<Place> {
    let plane = *valley.planes.first()?;
    let [x, y, _] = low_end(valley);
    let [u, v] = facts.roof.planes.get(plane)?.frame.place(x, y);
    Some(Place { plane, course: 0, u, v })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::Trial;

    /// A valley that falls to a point, and a wall that passes it at a distance.
    fn valley(off: f64) -> Trial {
        let mut trial = Trial::sound();
        let line = |kind, ends| Line { kind, ends, planes: vec![0] };
        trial.roof.lines = vec![
            line(EdgeKind::Valley, [[100.0, 100.0, 80.0], [0.0, 0.0, 0.0]]),
            line(EdgeKind::Sidewall, [[-off, -50.0, 0.0], [-off, 50.0, 0.0]]),
        ];
        trial
    }

    #[test]
    fn a_valley_needs_a_way_out() {
        assert_eq!(valley(6.01).outcome("valley-dies-at-wall"), Outcome::Pass);
        assert_eq!(valley(5.98).outcome("valley-dies-at-wall"), Outcome::Attention);
        assert_eq!(valley(0.0).says("valley-dies-at-wall"), "A valley of house, south ends at a wall.");
        assert_eq!(valley(0.0).adds(&valley(60.0)), ["valley-dies-at-wall"]);
    }

    /// A valley that falls less than an inch is level, and so is no sloping one.
    #[test]
    fn level_valleys_are_no_matter_of_this_rule() {
        let falls = |height: f64| {
            let mut trial = valley(0.0);
            trial.roof.lines[0].ends[0][2] = height;
            trial.outcome("valley-dies-at-wall")
        };
        assert_eq!([falls(0.995), falls(1.005)], [Outcome::NotApplicable, Outcome::Attention]);
        assert_eq!(Trial::sound().outcome("valley-dies-at-wall"), Outcome::NotApplicable);
    }
}
