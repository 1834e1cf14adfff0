//! One block raised: its planes and the plan polygons they cover.

use std::collections::BTreeMap;

use geom::region::{Region, either, is_sliver};
use geom::skeleton::{Face, Rim, Skeleton, Stuck, Traced, skeleton};
use geom::{Point, add, distance, dot, polygon, scale, sub};

use crate::classify::JOINED;
use crate::outline::{Outline, OutlineSide, fault, outlines};
use crate::overhang::{DripLine, drip_line, wall_line};
use crate::problem::{Part, Problem, Severity};
use crate::profile::Stage;
use crate::{Block, Frame, KnownBy, Plane, SideKind};

/// Steeper than this, in 12, is a caution: few coverings are made for it.
pub(crate) const VERY_STEEP: f64 = 40.0;

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
    /// It stands on the slope of another block.
    pub(crate) is_dormer: bool,
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
    cautions.extend(moved_corners(block, skeleton.traced));
    let sites = sites(&outlines, &drip, &skeleton);
    let mut planes: Vec<Plane> =
        sites.iter().map(|site| bare_plane(block, &outlines, &drip, &skeleton, site, north_deg)).collect();
    name_planes(&mut planes, &sites);
    let pieces = pieces(&skeleton, &sites);
    let walls = wall_line(block, &outlines);
    let (ends, unknown_overhang) = (ends(&outlines, &drip), unknown_overhang(&outlines));
    Ok(Raised { planes, pieces, walls, ends, is_dormer: false, unknown_overhang })
}

fn unknown_overhang(outlines: &[Outline]) -> Option<Part> {
    let unknown = |side: &&OutlineSide| side.side.overhang.is_none() && side.side.kind != SideKind::Wall;
    outlines.iter().find_map(|outline| {
        let side = outline.sides.iter().find(unknown)?;
        Some(Part::Side { hole: outline.hole, side: side.index })
    })
}

/// Where a plane belongs.
struct Site {
    /// Index in [`Skeleton::faces`].
    face: usize,
    /// Counted over all outlines.
    side: usize,
    /// How many planes the same side has below this one.
    level: usize,
    stage: Stage,
}

/// The face of every side that carries a plane, side by side and from the eave up.
fn sites(outlines: &[Outline], drip: &DripLine, skeleton: &Skeleton) -> Vec<Site> {
    let carries = |&(index, _): &(usize, &Face)| is_solid(skeleton, index);
    let site = |(index, face): (usize, &Face)| {
        let stages = &drip.profiles[face.side];
        let level = stages[..face.stage].iter().filter(|stage| stage.pitch.is_some()).count();
        Site { face: index, side: face.side, level, stage: stages[face.stage] }
    };
    let mut sites: Vec<Site> = skeleton.faces.iter().enumerate().filter(carries).map(site).collect();
    sites.sort_by_key(|site| (locate(outlines, site.side), site.level));
    sites
}

fn is_solid(skeleton: &Skeleton, face: usize) -> bool {
    skeleton.faces[face].rings.iter().any(|ring| !is_sliver(&flat(skeleton, ring)))
}

fn flat(skeleton: &Skeleton, ring: &[Rim]) -> Vec<Point> {
    ring.iter().map(|rim| [skeleton.nodes[rim.node][0], skeleton.nodes[rim.node][1]]).collect()
}

/// What each plane covers. A break a hair below the ridge leaves slivers above it, which go to their neighbours.
fn pieces(skeleton: &Skeleton, sites: &[Site]) -> Vec<Region> {
    let solid = |site: &Site| {
        let rings = skeleton.faces[site.face].rings.iter().map(|ring| flat(skeleton, ring));
        rings.filter(|ring| !is_sliver(ring)).collect()
    };
    let mut pieces: Vec<Region> = sites.iter().map(solid).collect();
    for ring in skeleton.faces.iter().flat_map(|face| &face.rings) {
        let corners = flat(skeleton, ring);
        if is_sliver(&corners)
            && let Some(heir) = heir(ring, &corners, sites)
        {
            pieces[heir] = either(&pieces[heir], &[corners]);
        }
    }
    pieces
}

/// Which site lies along the longest side of a sliver.
fn heir(ring: &[Rim], corners: &[Point], sites: &[Site]) -> Option<usize> {
    let lengths = polygon::sides(corners).map(|(a, b)| distance(a, b));
    let shared = ring.iter().zip(lengths).filter_map(|(rim, length)| {
        let site = sites.iter().position(|site| Some(site.face) == rim.other)?;
        Some((length, site))
    });
    shared.max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1))).map(|(_, site)| site)
}

fn bare_plane(
    block: &Block,
    outlines: &[Outline],
    drip: &DripLine,
    skeleton: &Skeleton,
    site: &Site,
    north_deg: f64,
) -> Plane {
    let (outline, at) = locate(outlines, site.side);
    let corners = &drip.contours[outline].corners;
    let (a, b) = (corners[at], corners[(at + 1) % corners.len()]);
    let right = scale(sub(b, a), 1.0 / distance(a, b));
    let OutlineSide { index, side } = &outlines[outline].sides[at];
    let pitch = site.stage.pitch.unwrap_or_else(|| unreachable!("only what moves traces faces"));
    let facing_deg = (libm::atan2(right[1], -right[0]).to_degrees() - north_deg).rem_euclid(360.0);
    let id = match outlines[outline].hole {
        None => format!("{}.{index}", block.name),
        Some(hole) => format!("{}.hole{hole}.{index}", block.name),
    };
    // The eave line begins at its corner, hidden or not; a line further up where the plane below ends.
    let rises_from_the_eave = site.level == 0 && side.kind.pitch().is_some();
    let along = if rises_from_the_eave { 0.0 } else { left_end(skeleton, site, a, right) };
    let [x, y] = add(a, add(scale(right, along), scale([-right[1], right[0]], site.stage.inset)));
    Plane {
        id: if site.level == 0 { id } else { format!("{id}/{}", site.level) },
        name: format!("{}, {}", block.name, compass(facing_deg)),
        block: block.name.clone(),
        pitch,
        facing_deg,
        known_by: KnownBy::Outline,
        frame: Frame { origin: [x, y, block.eave_height + site.stage.begins], right, pitch },
        rings: Vec::new(),
    }
}

/// How far along its side a face begins at its lowest line.
fn left_end(skeleton: &Skeleton, site: &Site, a: Point, right: Point) -> f64 {
    let nodes = skeleton.faces[site.face].rings.iter().flatten().map(|rim| skeleton.nodes[rim.node]);
    let lowest = nodes.filter(|node| (node[2] - site.stage.begins).abs() < JOINED);
    let left = lowest.map(|[x, y, _]| dot(right, sub([x, y], a))).fold(f64::INFINITY, f64::min);
    if left.is_finite() { left } else { 0.0 }
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

/// Sides that face the same way get numbers after the first, `house, south 2`; planes above a break are called upper.
fn name_planes(planes: &mut [Plane], sites: &[Site]) {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let mut named = None;
    for (plane, site) in planes.iter_mut().zip(sites) {
        if named != Some(site.side) {
            *seen.entry(plane.name.clone()).or_insert(0) += 1;
            named = Some(site.side);
        }
        let count = seen.get(&plane.name).copied().unwrap_or(1);
        plane.name = [numbered(&plane.name, count), upper(site.level)].concat();
    }
}

fn numbered(name: &str, count: usize) -> String {
    if count > 1 { format!("{name} {count}") } else { name.into() }
}

fn upper(level: usize) -> String {
    match level {
        0 => String::new(),
        _ => numbered(", upper", level),
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

/// Where a roof was found only for an outline that is not quite the one measured.
fn moved_corners(block: &Block, traced: Traced) -> Option<Problem> {
    (traced == Traced::Coarse).then(|| Problem {
        code: "corners-moved",
        severity: Severity::Caution,
        block: block.name.clone(),
        part: Part::Whole,
        says: "the planes were found only after nearly parallel sides were made parallel: corners may have moved by up to 1/100 in"
            .into(),
        remedy: "look whether ridges, hips and valleys run as on the house; if not, measure the sides that should be parallel                  again, or draw a part as a block of its own"
            .into(),
    })
}

fn very_steep(block: &Block, outlines: &[Outline]) -> Vec<Problem> {
    let all = outlines.iter().flat_map(|outline| outline.sides.iter().map(move |side| (outline.hole, side)));
    all.filter_map(|(hole, side)| {
        let later = side.side.changes.iter().filter_map(|change| change.pitch);
        let pitch = side.side.kind.pitch().into_iter().chain(later).find(|pitch| pitch.rise() > VERY_STEEP)?;
        Some(Problem {
            code: "very-steep",
            severity: Severity::Caution,
            block: block.name.clone(),
            part: Part::Side { hole, side: side.index },
            says: format!("side {} is pitched {pitch}, steeper than 40/12", side.index),
            remedy: "measure it again; a surface this steep is usually clad as a wall".into(),
        })
    })
    .collect()
}
