//! From the wall line to the drip line: every side's overhang carries its roof edge outwards and, at its pitch, down.

use geom::polygon;
use geom::region::Region;
use geom::skeleton::Contour;
use geom::{Point, add, cross, distance, scale, sub};
use units::{Length, Pitch};

use crate::outline::{Outline, fault};
use crate::problem::{Part, Problem, Severity};
use crate::profile::{Stage, begin_late, change_too_low, lowest, moving, stages};
use crate::{Block, OutlineAt, SideKind};

/// Drip lines with the profile of each side.
pub(crate) struct DripLine {
    pub(crate) contours: Vec<Contour>,
    /// Height of the lowest edge above the block's eave height.
    pub(crate) start: f64,
    /// For each side over all contours: its stages, as the skeleton numbers them.
    pub(crate) profiles: Vec<Vec<Stage>>,
}

fn reach(overhang: Option<Length>) -> f64 {
    overhang.map_or(0.0, Length::to_inches)
}

/// Carries the outlines of a block to its drip line.
pub(crate) fn drip_line(block: &Block, outlines: &[Outline], cautions: &mut Vec<Problem>) -> Result<DripLine, Vec<Problem>> {
    let moved: Vec<Vec<Point>> = match block.outline_at {
        OutlineAt::DripLine => outlines.iter().map(|outline| outline.corners.clone()).collect(),
        OutlineAt::Walls => {
            cautions.extend(outlines.iter().flat_map(|outline| unknown_overhangs(block, outline)));
            cautions.extend(outlines.iter().flat_map(|outline| uneven_fascias(block, outline)));
            outlines.iter().map(|outline| pushed_out(outline, 1.0)).collect()
        }
    };
    if block.outline_at == OutlineAt::Walls && collided(outlines, &moved) {
        let says = "the overhangs run into each other: pushed out, the outline crosses itself or a side vanishes".into();
        return Err(vec![fault(
            block,
            "overhangs-collide",
            Part::Whole,
            says,
            "give the drip line itself, or shorter overhangs",
        )]);
    }
    let (start, profiles) = profiles(block, outlines)?;
    let mut sides = profiles.iter().map(|stages| moving(stages));
    let contours =
        moved.into_iter().map(|corners| Contour { sides: sides.by_ref().take(corners.len()).collect(), corners }).collect();
    Ok(DripLine { contours, start, profiles })
}

/// Where the lowest edge lies, and what every side does from there up.
fn profiles(block: &Block, outlines: &[Outline]) -> Result<(f64, Vec<Vec<Stage>>), Vec<Problem>> {
    let sides = || outlines.iter().flat_map(|outline| outline.sides.iter().map(move |side| (outline.hole, side)));
    let mut profiles: Vec<Vec<Stage>> = sides().map(|(_, side)| stages(block, side)).collect();
    let start = lowest(&profiles);
    let too_low = |((hole, side), stages): ((_, _), &Vec<Stage>)| change_too_low(block, hole, side, stages, start);
    let problems: Vec<Problem> = sides().zip(&profiles).filter_map(too_low).collect();
    for stages in &mut profiles {
        begin_late(stages, start);
    }
    if problems.is_empty() { Ok((start, profiles)) } else { Err(problems) }
}

/// Plan region inside the walls; nothing where the overhangs leave none.
pub(crate) fn wall_line(block: &Block, outlines: &[Outline]) -> Region {
    let rings: Region = match block.outline_at {
        OutlineAt::Walls => return outlines.iter().map(|outline| outline.corners.clone()).collect(),
        OutlineAt::DripLine => outlines.iter().map(|outline| pushed_out(outline, -1.0)).collect(),
    };
    if collided(outlines, &rings) { Region::new() } else { rings }
}

/// Every side moved by its overhang, outwards for `sense` 1 and inwards for -1.
pub(crate) fn pushed_out(outline: &Outline, sense: f64) -> Vec<Point> {
    let lines: Vec<(Point, Point)> = polygon::sides(&outline.corners)
        .zip(&outline.sides)
        .map(|((a, b), side)| {
            let along = scale(sub(b, a), 1.0 / distance(a, b));
            let outward = [along[1], -along[0]];
            (add(a, scale(outward, sense * reach(side.side.overhang))), along)
        })
        .collect();
    (0..lines.len()).map(|at| meeting(lines[(at + lines.len() - 1) % lines.len()], lines[at])).collect()
}

/// Where two lines, each a point and a direction, meet; lines on one line meet at the second's point.
fn meeting((p, d): (Point, Point), (q, e): (Point, Point)) -> Point {
    let turn = cross(d, e);
    if turn.abs() < 1e-9 { q } else { add(p, scale(d, cross(sub(q, p), e) / turn)) }
}

fn collided(outlines: &[Outline], moved: &[Vec<Point>]) -> bool {
    let turned = outlines.iter().zip(moved).any(|(outline, moved)| {
        polygon::sides(&outline.corners)
            .zip(polygon::sides(moved))
            .any(|((a, b), (c, d))| geom::dot(sub(b, a), sub(d, c)) <= 0.0)
    });
    let rings: Vec<&[Point]> = moved.iter().map(Vec::as_slice).collect();
    turned || polygon::first_crossing(&rings).is_some()
}

/// Where the wall stands under a roof edge is not known.
pub(crate) const OVERHANG_NOT_GIVEN: &str = "overhang-not-given";

fn unknown_overhangs(block: &Block, outline: &Outline) -> Vec<Problem> {
    let unknown = outline.sides.iter().filter(|side| side.side.overhang.is_none() && side.side.kind != SideKind::Wall);
    unknown
        .map(|side| Problem {
            code: OVERHANG_NOT_GIVEN,
            severity: Severity::Caution,
            block: block.name.clone(),
            part: Part::Side { hole: outline.hole, side: side.index },
            says: format!("side {} has no overhang, so its roof edge is taken to be flush with the wall", side.index),
            remedy: "measure it and write overhang = \"...\" on the edge; 0 if it is flush".into(),
        })
        .collect()
}

/// Eaves of one height that meet at a corner with fascias at different heights.
fn uneven_fascias(block: &Block, outline: &Outline) -> Vec<Problem> {
    let count = outline.sides.len();
    let pairs = (0..count).map(|at| (&outline.sides[(at + count - 1) % count], &outline.sides[at]));
    pairs
        .filter(|(first, second)| first.side.eave_height == second.side.eave_height)
        .filter_map(|(first, second)| {
            let (SideKind::Eave(a), SideKind::Eave(b)) = (first.side.kind, second.side.kind) else { return None };
            let drops = [(a, first.side.overhang), (b, second.side.overhang)]
                .map(|(pitch, overhang)| reach(overhang) * pitch.rise() / 12.0);
            ((drops[0] - drops[1]).abs() > 1.0 / 16.0)
                .then(|| uneven_fascia(block, outline.hole, [first.index, second.index], drops, b))
        })
        .collect()
}

fn uneven_fascia(block: &Block, hole: Option<usize>, sides: [usize; 2], drops: [f64; 2], pitch: Pitch) -> Problem {
    let [first, second] = drops.map(Length::inches);
    let level = Length::inches(drops[0] * 12.0 / pitch.rise());
    Problem {
        code: "fascias-not-level",
        severity: Severity::Caution,
        block: block.name.clone(),
        part: Part::Side { hole, side: sides[1] },
        says: format!(
            "where sides {} and {} meet, one eave is {first} below the wall line and the other {second}: the lower plane ends in a short rake",
            sides[0], sides[1]
        ),
        remedy: format!("an overhang of {level} on side {} would level the fascia", sides[1]),
    }
}
