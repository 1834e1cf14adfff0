//! What the outline leaves of one unit.

use i_overlay::core::{fill_rule::FillRule, overlay_rule::OverlayRule};
use roof::Place;

use crate::Cut;
use crate::bond::NIL;
use crate::cut::{NIL_AREA, area};
use crate::outline::overlaid;
use crate::strip::{Strip, clipped};

/// What is left of a unit, or of the place of one.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Left {
    /// It lies outside.
    Nothing,
    /// It is not cut.
    All,
    /// It is cut.
    Part(Cut),
}

impl Left {
    fn of(parts: Vec<Vec<Place>>, strip: &Strip, unit: f64) -> Self {
        let all = unit * (strip.head - strip.butt);
        let sum: f64 = parts.iter().map(|part| area(part)).sum();
        if sum < NIL_AREA {
            Self::Nothing
        } else if sum > all - NIL_AREA {
            Self::All
        } else {
            Self::Part(Cut::of(parts))
        }
    }
}

/// What the laid outline leaves of a unit `unit` wide in a place from one u to another of a course's strip.
pub(crate) fn left_of(outline: &[Vec<Place>], strip: &Strip, place: [f64; 2], unit: f64) -> Left {
    let touching: Vec<Touching> = strip.sides.iter().filter_map(|&line| Touching::of(line, strip, place)).collect();
    let rectangle = rectangle(place, [strip.butt, strip.head]);
    let parts = if touching.is_empty() {
        return left_in_columns(&strip.column(f64::midpoint(place[0], place[1])), strip, place[1] - place[0], unit);
    } else if bulges(&touching) {
        vec![touching.iter().fold(rectangle, |piece, side| keep_left(&piece, side.line))]
    } else {
        overlaid(&vec![rectangle], &outline.to_vec(), OverlayRule::Intersect, FillRule::EvenOdd)
    };
    Left::of(from_corner(parts, [place[0], strip.butt]), strip, unit)
}

/// What the laid outline leaves of a place of any shape, measured from a corner, for a unit `unit` wide.
pub(crate) fn left_of_shape(outline: &[Vec<Place>], strip: &Strip, place: Vec<Place>, corner: Place, unit: f64) -> Left {
    let parts = overlaid(&vec![place], &outline.to_vec(), OverlayRule::Intersect, FillRule::EvenOdd);
    Left::of(from_corner(parts, corner), strip, unit)
}

/// As [`left_of`], in columns that are all alike: these ranges of v are laid.
pub(crate) fn left_in_columns(ranges: &[[f64; 2]], strip: &Strip, width: f64, unit: f64) -> Left {
    let parts = ranges.iter().map(|&range| rectangle([0.0, width], range)).collect();
    Left::of(from_corner(parts, [0.0, strip.butt]), strip, unit)
}

fn rectangle([left, right]: [f64; 2], [low, high]: [f64; 2]) -> Vec<Place> {
    vec![[left, low], [right, low], [right, high], [left, high]]
}

fn from_corner(mut parts: Vec<Vec<Place>>, corner: Place) -> Vec<Vec<Place>> {
    parts.retain(|part| area(part).abs() > NIL_AREA);
    for at in parts.iter_mut().flatten() {
        *at = [at[0] - corner[0], at[1] - corner[1]];
    }
    parts
}

/// A side of the outline that passes through the place of a unit.
struct Touching {
    line: [Place; 2],
    /// The stretch of it within the place.
    within: [Place; 2],
}

impl Touching {
    fn of(line: [Place; 2], strip: &Strip, [left, right]: [f64; 2]) -> Option<Self> {
        let within = clipped(line, 0, [left + NIL, right - NIL])?;
        let within = clipped(within, 1, [strip.butt + NIL, strip.head - NIL])?;
        Some(Self { line, within })
    }
}

/// How far a place lies off a side's line, positive on the laid side, times the side's length.
fn off([from, to]: [Place; 2], at: Place) -> f64 {
    (to[0] - from[0]) * (at[1] - from[1]) - (to[1] - from[1]) * (at[0] - from[0])
}

/// No side passes on the wrong hand of another: the piece is what lies on the laid side of each.
fn bulges(touching: &[Touching]) -> bool {
    touching.iter().all(|&Touching { line, .. }| {
        let slack = NIL * libm::hypot(line[1][0] - line[0][0], line[1][1] - line[0][1]);
        touching.iter().flat_map(|other| other.within).all(|at| off(line, at) >= -slack)
    })
}

/// The part of a piece on the laid side of a line.
pub(crate) fn keep_left(piece: &[Place], side: [Place; 2]) -> Vec<Place> {
    let mut kept = Vec::with_capacity(piece.len() + 1);
    for (index, &at) in piece.iter().enumerate() {
        let next = piece[(index + 1) % piece.len()];
        let [here, there] = [off(side, at), off(side, next)];
        if here >= 0.0 {
            kept.push(at);
        }
        if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
            let part = here / (here - there);
            kept.push([at[0] + (next[0] - at[0]) * part, at[1] + (next[1] - at[1]) * part]);
        }
    }
    kept
}
