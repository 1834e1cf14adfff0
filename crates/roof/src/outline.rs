//! From the outline as measured to contours whose sides can be raised.

use geom::polygon;
use geom::{Point, cross, distance, dot, sub};

use crate::problem::{Part, Problem, Severity};
use crate::{Block, Side, SideKind};

/// Corners nearer than one tape mark are one corner typed twice.
const LEAST_SIDE: f64 = 1.0 / 16.0;
/// Sides that turn by less than this, in radians, are on one line.
const STRAIGHT: f64 = 1e-6;
/// Sides that turn by less than this (0.1°) are meant to be on one line, so they cannot carry different pitches.
const NEARLY_STRAIGHT: f64 = 0.001_745;

/// An outline ready to be raised: the outer one counter-clockwise, courtyards clockwise, no corner on a straight line
/// between sides that are one plane.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Outline {
    /// Which courtyard; `None` for the outer outline.
    pub(crate) hole: Option<usize>,
    pub(crate) corners: Vec<Point>,
    pub(crate) sides: Vec<OutlineSide>,
}

/// A side of an [`Outline`].
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct OutlineSide {
    /// Index in the outline as typed; the lowest where several were merged.
    pub(crate) index: usize,
    pub(crate) side: Side,
}

/// Checks a block and makes its outlines ready, or says everything that is wrong with it.
pub(crate) fn outlines(block: &Block) -> Result<Vec<Outline>, Vec<Problem>> {
    let mut problems = Vec::new();
    let mut outlines = Vec::new();
    let holes = block.holes.iter().enumerate().map(|(at, hole)| (Some(at), &hole.outline, &hole.sides));
    for (hole, corners, sides) in std::iter::once((None, &block.outline, &block.sides)).chain(holes) {
        match one_outline(block, hole, corners, sides) {
            Ok(outline) => outlines.push(outline),
            Err(mut found) => problems.append(&mut found),
        }
    }
    if problems.is_empty() {
        problems.extend(misplaced_hole(block, &outlines));
    }
    if !block.sides.iter().any(|side| matches!(side.kind, SideKind::Eave(_))) && block.holes.is_empty() {
        problems.push(fault(
            block,
            "no-eave-side",
            Part::Whole,
            "no side of the outline is an eave, so no roof plane rises".into(),
            "give at least one side a pitch, as in { eave = \"8/12\" }",
        ));
    }
    if problems.is_empty() { Ok(outlines) } else { Err(problems) }
}

pub(crate) fn fault(block: &Block, code: &'static str, part: Part, says: String, remedy: &str) -> Problem {
    Problem { code, severity: Severity::Error, block: block.name.clone(), part, says, remedy: remedy.into() }
}

fn one_outline(block: &Block, hole: Option<usize>, corners: &[Point], sides: &[Side]) -> Result<Outline, Vec<Problem>> {
    let mut problems = shape_faults(block, hole, corners, sides);
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut outline = directed(hole, corners, sides);
    problems.extend(merge_straight(block, &mut outline));
    if problems.is_empty() && outline.corners.len() < 3 {
        problems.push(no_area(block, hole));
    }
    if problems.is_empty() { Ok(outline) } else { Err(problems) }
}

fn shape_faults(block: &Block, hole: Option<usize>, corners: &[Point], sides: &[Side]) -> Vec<Problem> {
    if corners.len() < 3 {
        let says = format!("an outline needs at least three corners, this one has {}", corners.len());
        return vec![fault(block, "outline-too-few-corners", Part::Whole, says, "measure the missing corners")];
    }
    if corners.len() != sides.len() {
        let says = format!("{} corners make {} sides, but {} edges are given", corners.len(), corners.len(), sides.len());
        let remedy = "edges[i] is the side from corner i to corner i + 1, the last back to the first: give one for each";
        return vec![fault(block, "edges-do-not-match", Part::Whole, says, remedy)];
    }
    let repeated = polygon::sides(corners).enumerate().filter(|(_, (a, b))| distance(*a, *b) < LEAST_SIDE);
    let repeated: Vec<Problem> = repeated
        .map(|(at, _)| {
            let next = (at + 1) % corners.len();
            let says = format!("corners {at} and {next} are the same place");
            fault(
                block,
                "corner-repeated",
                Part::Corner { hole, corner: next },
                says,
                "leave one of them out, with its edge",
            )
        })
        .collect();
    if !repeated.is_empty() {
        return repeated;
    }
    let mut found = Vec::new();
    if let Some(corner) = polygon::first_fold(corners) {
        let says = format!("at corner {corner} the outline runs back over itself");
        found.push(fault(
            block,
            "outline-folds-back",
            Part::Corner { hole, corner },
            says,
            "correct or leave out this corner",
        ));
    } else if let Some([(_, first), (_, second)]) = polygon::first_crossing(&[corners]) {
        let says = format!("the outline crosses or touches itself: side {first} meets side {second}");
        let remedy = "put the corners in the order in which you walk round the roof";
        found.push(fault(block, "outline-crosses-itself", Part::Corner { hole, corner: second }, says, remedy));
    } else if polygon::area(corners).abs() < LEAST_SIDE {
        found.push(no_area(block, hole));
    }
    found
}

fn no_area(block: &Block, hole: Option<usize>) -> Problem {
    let part = Part::Corner { hole, corner: 0 };
    fault(block, "outline-has-no-area", part, "the outline encloses no area".into(), "check the corners' coordinates")
}

/// Outer outlines counter-clockwise, courtyards clockwise; a turned outline keeps the indices of its sides.
fn directed(hole: Option<usize>, corners: &[Point], sides: &[Side]) -> Outline {
    let mut corners = corners.to_vec();
    let mut sides: Vec<OutlineSide> =
        sides.iter().enumerate().map(|(index, side)| OutlineSide { index, side: side.clone() }).collect();
    if (polygon::area(&corners) > 0.0) != hole.is_none() {
        corners.reverse();
        sides.reverse();
        // Corner i was the start of side i; now it is its end, so the sides move on by one.
        sides.rotate_left(1);
    }
    Outline { hole, corners, sides }
}

/// Takes out corners on a straight line between sides that make one plane; sides that cannot be one are a problem.
fn merge_straight(block: &Block, outline: &mut Outline) -> Vec<Problem> {
    let mut problems = Vec::new();
    let mut at = 0;
    while at < outline.corners.len() && outline.corners.len() > 2 {
        let count = outline.corners.len();
        let before = (at + count - 1) % count;
        let turn = turn(outline.corners[before], outline.corners[at], outline.corners[(at + 1) % count]);
        let (first, second) = (&outline.sides[before], &outline.sides[at]);
        if turn.abs() < STRAIGHT && first.side == second.side {
            let index = first.index.min(second.index);
            outline.corners.remove(at);
            outline.sides.remove(at);
            let kept = if at == 0 { outline.sides.len() - 1 } else { at - 1 };
            outline.sides[kept].index = index;
            continue;
        }
        if turn.abs() < NEARLY_STRAIGHT && !may_be_neighbours(&first.side, &second.side) {
            problems.push(straight_fault(block, outline.hole, first.index, second.index));
        }
        at += 1;
    }
    problems
}

fn straight_fault(block: &Block, hole: Option<usize>, first: usize, second: usize) -> Problem {
    let says = format!(
        "sides {first} and {second} lie on one line but do not make one plane: their kinds, pitches or overhangs differ"
    );
    let remedy = "give both the same pitch and overhang, or put a jog (a short gable side) between them";
    fault(block, "straight-sides-differ", Part::Side { hole, side: second }, says, remedy)
}

/// Sides on one line may differ only if neither moves and both reach equally far out.
fn may_be_neighbours(a: &Side, b: &Side) -> bool {
    let stands = |side: &Side| side.kind.pitch().is_none() && side.changes.is_empty();
    a == b || stands(a) && stands(b) && a.overhang == b.overhang
}

/// Angle by which the outline turns at `b`, in radians, positive to the left; only small angles are exact.
fn turn(a: Point, b: Point, c: Point) -> f64 {
    let (before, after) = (sub(b, a), sub(c, b));
    libm::atan2(cross(before, after), dot(before, after))
}

fn misplaced_hole(block: &Block, outlines: &[Outline]) -> Option<Problem> {
    let rings: Vec<&[Point]> = outlines.iter().map(|outline| outline.corners.as_slice()).collect();
    let outside = outlines.iter().skip(1).find(|hole| !polygon::contains(rings[0], hole.corners[0]));
    let nested = outlines.iter().skip(1).find(|hole| {
        let others = outlines.iter().skip(1).filter(|other| other.hole != hole.hole);
        others.clone().any(|other| polygon::contains(&other.corners, hole.corners[0]))
    });
    let crossing = polygon::first_crossing(&rings).map(|[_, (second, _)]| &outlines[second]);
    let hole = outside.or(nested).or(crossing)?;
    let at = hole.hole.unwrap_or_default();
    let says = format!("courtyard {at} does not lie clear inside the outline and clear of the other courtyards");
    Some(fault(block, "courtyard-misplaced", Part::Corner { hole: hole.hole, corner: 0 }, says, "check its corners"))
}
