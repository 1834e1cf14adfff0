//! Measured planes beside a roof that they are not fitted to.

use super::{Face, MeasuredPlane, problem};
use crate::problem::{MeasuredPart, Problem, Severity};
use crate::{KnownBy, Roof};

/// So many names are called out; of more the number is told.
const CALLED_OUT: usize = 4;

/// What measured planes are not cut by: a word for those by tape, and one for those by corners.
pub(super) fn uncut(planes: &[MeasuredPlane], faces: &[Face], roof: &Roof) -> Vec<Problem> {
    let of = |known_by| faces.iter().filter(|face| face.plane.known_by == known_by).map(|face| face.of).collect::<Vec<_>>();
    let (taped, surveyed) = (of(KnownBy::Tape), of(KnownBy::Corners));
    let has_blocks = !roof.planes.is_empty();
    let by_tape = "by tape, so the place on the house is not known: drawn beside the rest, and nothing is cut where they meet or \
                   cover each other or the rest";
    let by_corners = "by corners and not joined to the blocks: nothing is cut where they meet or cover each other, and a place \
                      that is covered twice counts twice";
    let found = [
        (taped, by_tape, has_blocks || !surveyed.is_empty(), "measure it as it is seen, up to the lines where others begin"),
        (surveyed, by_corners, has_blocks, "end it where the block begins, or leave the block out"),
    ];
    let told = found.into_iter().filter(|(of, _, is_beside, _)| *is_beside && !of.is_empty());
    told.map(|(of, says, _, remedy)| word(planes, &of, says, remedy)).collect()
}

fn word(planes: &[MeasuredPlane], of: &[usize], says: &str, remedy: &str) -> Problem {
    let first = of[0];
    let names: Vec<&str> = of.iter().take(CALLED_OUT).map(|&index| planes[index].name.as_str()).collect();
    let more = of.len().saturating_sub(CALLED_OUT);
    let more = if more > 0 { format!(" and {more} more") } else { String::new() };
    let says = format!("{}{more}: measured {says}", names.join(", "));
    let found = problem(&planes[first], first, MeasuredPart::Whole, ("plane-not-cut", Severity::Caution), "", remedy);
    Problem { says, ..found }
}
