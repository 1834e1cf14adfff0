//! One block raised: its planes and the plan polygons they cover.

use std::collections::BTreeMap;

use geom::region::Region;
use geom::skeleton::{Skeleton, Stuck, skeleton};
use geom::{Point, distance, polygon, scale, sub};
use units::Pitch;

use crate::outline::{Outline, OutlineSide, fault, outlines};
use crate::overhang::{DripLine, drip_line, wall_line};
use crate::problem::{Part, Problem, Severity};
use crate::{Block, Frame, Plane, SideKind};

/// Steeper than this, in 12, is a caution: few coverings are made for it.
const VERY_STEEP: f64 = 40.0;

/// A block with its roof, before its neighbours are looked at.
pub(crate) struct Raised {
    /// Without boundaries yet.
    pub(crate) planes: Vec<Plane>,
    /// What each plane covers in plan.
    pub(crate) pieces: Vec<Region>,
    /// Plan region inside the walls.
    pub(crate) walls: Region,
    /// Sides along which no plane rises.
    pub(crate) ends: Vec<End>,
    /// A side whose overhang is not known.
    pub(crate) unknown_overhang: Option<Part>,
}

/// A gable or wall side at the drip line.
#[derive(Debug, Clone, Copy)]
pub(crate) struct End {
    pub(crate) part: Part,
    pub(crate) is_wall: bool,
    pub(crate) line: [Point; 2],
}

pub(crate) fn raise(block: &Block, north_deg: f64, cautions: &mut Vec<Problem>) -> Result<Raised, Vec<Problem>> {
    let outlines = outlines(block)?;
    let drip = drip_line(block, &outlines, cautions)?;
    let skeleton = skeleton(&drip.contours, drip.start).map_err(|stuck| vec![stuck_problem(block, stuck)])?;
    cautions.extend(very_steep(block, &outlines));
    let mut planes = Vec::new();
    let mut pieces = Vec::new();
    for (side, face) in bearing_faces(&skeleton) {
        planes.push(bare_plane(block, &outlines, &drip, side, north_deg));
        pieces.push(rings_of(&skeleton, face));
    }
    name_planes(&mut planes);
    let walls = wall_line(block, &outlines);
    Ok(Raised { planes, pieces, walls, ends: ends(&outlines, &drip), unknown_overhang: unknown_overhang(&outlines) })
}

fn unknown_overhang(outlines: &[Outline]) -> Option<Part> {
    let unknown = |side: &&OutlineSide| side.side.overhang.is_none() && side.side.kind != SideKind::Wall;
    outlines.iter().find_map(|outline| {
        let side = outline.sides.iter().find(unknown)?;
        Some(Part::Side { hole: outline.hole, side: side.index })
    })
}

/// The face of every side that carries a plane.
fn bearing_faces(skeleton: &Skeleton) -> impl Iterator<Item = (usize, usize)> + '_ {
    let carries = |face: &geom::skeleton::Face| !face.rings.is_empty();
    skeleton.faces.iter().enumerate().filter(move |(_, face)| carries(face)).map(|(index, face)| (face.side, index))
}

fn rings_of(skeleton: &Skeleton, face: usize) -> Vec<Vec<Point>> {
    let node = |rim: &geom::skeleton::Rim| [skeleton.nodes[rim.node][0], skeleton.nodes[rim.node][1]];
    skeleton.faces[face].rings.iter().map(|ring| ring.iter().map(node).collect()).collect()
}

fn bare_plane(block: &Block, outlines: &[Outline], drip: &DripLine, side: usize, north_deg: f64) -> Plane {
    let (outline, at) = locate(outlines, side);
    let corners = &drip.contours[outline].corners;
    let (a, b) = (corners[at], corners[(at + 1) % corners.len()]);
    let right = scale(sub(b, a), 1.0 / distance(a, b));
    let measured = outlines[outline].sides[at];
    let index = measured.index;
    let SideKind::Eave(pitch) = measured.side.kind else { unreachable!("only eave sides move, so only they trace faces") };
    let facing_deg = (libm::atan2(right[1], -right[0]).to_degrees() - north_deg).rem_euclid(360.0);
    let id = match outlines[outline].hole {
        None => format!("{}.{index}", block.name),
        Some(hole) => format!("{}.hole{hole}.{index}", block.name),
    };
    Plane {
        id,
        name: format!("{}, {}", block.name, compass(facing_deg)),
        block: block.name.clone(),
        pitch,
        facing_deg,
        frame: Frame { origin: [a[0], a[1], block.eave_height + drip.begins[side]], right, pitch },
        rings: Vec::new(),
    }
}

/// Outline and position in it of a side counted over all outlines.
fn locate(outlines: &[Outline], mut side: usize) -> (usize, usize) {
    for (index, outline) in outlines.iter().enumerate() {
        if side < outline.sides.len() {
            return (index, side);
        }
        side -= outline.sides.len();
    }
    unreachable!("every face belongs to a side of an outline")
}

fn compass(facing_deg: f64) -> &'static str {
    const NAMES: [&str; 8] = ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];
    NAMES[((facing_deg / 45.0).round() as usize) % 8]
}

/// Planes that face the same way get numbers after the first: `house, south 2`.
fn name_planes(planes: &mut [Plane]) {
    let mut seen: BTreeMap<String, u32> = BTreeMap::new();
    for plane in planes {
        let count = seen.entry(plane.name.clone()).or_insert(0);
        *count += 1;
        if *count > 1 {
            plane.name = format!("{} {count}", plane.name);
        }
    }
}

fn ends(outlines: &[Outline], drip: &DripLine) -> Vec<End> {
    let rings = outlines.iter().zip(&drip.contours);
    let sides = rings.flat_map(|(outline, contour)| {
        let lines = polygon::sides(&contour.corners);
        outline.sides.iter().zip(lines).map(|(side, (a, b))| (outline.hole, side, [a, b]))
    });
    let standing = sides.filter(|(_, side, _)| !matches!(side.side.kind, SideKind::Eave(_)));
    standing
        .map(|(hole, side, line)| End {
            part: Part::Side { hole, side: side.index },
            is_wall: side.side.kind == SideKind::Wall,
            line,
        })
        .collect()
}

fn stuck_problem(block: &Block, stuck: Stuck) -> Problem {
    let (code, place, says, remedy) = match stuck {
        Stuck::NeverCovered([x, y]) => (
            "part-never-covered",
            [x, y],
            "no plane ever reaches the part of the outline",
            "give a pitch to a side there, or draw that part as a block of its own",
        ),
        Stuck::Unresolved([x, y]) => (
            "roof-not-resolved",
            [x, y],
            "the planes could not be worked out",
            "check the corners for slips of the tape, or draw the part as a block of its own",
        ),
    };
    let says = format!("{says} near x = {:.2} ft, y = {:.2} ft", place[0] / 12.0, place[1] / 12.0);
    fault(block, code, Part::Whole, says, remedy)
}

fn very_steep(block: &Block, outlines: &[Outline]) -> Vec<Problem> {
    let steep = |pitch: Pitch| pitch.rise() > VERY_STEEP;
    let all = outlines.iter().flat_map(|outline| outline.sides.iter().map(move |side| (outline.hole, side)));
    all.filter_map(|(hole, side)| match side.side.kind {
        SideKind::Eave(pitch) if steep(pitch) => Some(Problem {
            code: "very-steep",
            severity: Severity::Caution,
            block: block.name.clone(),
            part: Part::Side { hole, side: side.index },
            says: format!("side {} is pitched {pitch}, steeper than 40/12", side.index),
            remedy: "measure it again; a surface this steep is usually clad as a wall".into(),
        }),
        _ => None,
    })
    .collect()
}
