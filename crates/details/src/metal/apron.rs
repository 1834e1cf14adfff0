//! Aprons at headwalls and sills, pans behind what stands in a slope, the metal of other level edges, and counterflashing.

use covering::Covering;
use layout::{Course, LaidPlane};
use roof::{EdgeKind, OpeningKind, Place};
use units::Length;

use super::stretch::{Stretch, on_plane, stretches};
use super::valley::from_foot;
use super::{MetalPiece, MetalRun};
use crate::Given;

/// A course that reaches past a line by less than this, in, does not reach it.
const NIL: f64 = 1e-3;

/// Headwalls, and the low sides of chimneys and skylights.
fn heads_of_courses(given: &Given<'_>) -> Vec<Stretch> {
    let mut walls = stretches(given, EdgeKind::Headwall);
    walls.extend(at_openings(given, EdgeKind::Sill, &[OpeningKind::Chimney, OpeningKind::Skylight]));
    walls
}

/// The edges of openings of some kinds. Pipes and vents have flanges of their own.
pub(crate) fn at_openings(given: &Given<'_>, kind: EdgeKind, openings: &[OpeningKind]) -> Vec<Stretch> {
    let is_one = |stretch: &Stretch| {
        let opening = stretch.along.opening.and_then(|opening| given.roof.openings.get(opening));
        opening.is_some_and(|opening| openings.contains(&opening.kind))
    };
    stretches(given, kind).into_iter().filter(is_one).collect()
}

/// How far an apron lies on the units.
fn apron_leg(given: &Given<'_>, covering: &Covering) -> Length {
    let leg = covering.edges.apron_leg;
    if leg > Length::ZERO { leg } else { given.flashing.roof_leg }
}

/// Width of an apron's blank: over the units, up the wall, and the hem.
fn apron_girth(given: &Given<'_>, covering: &Covering) -> Length {
    apron_leg(given, covering) + given.flashing.wall_leg + given.flashing.hem
}

/// Over the last course below every wall, which is cut and face-nailed; run past the wall's ends.
pub(crate) fn aprons(given: &Given<'_>) -> Vec<MetalRun> {
    let run = |wall: Stretch| {
        let (laid, covering) = laid_on(given, &wall)?;
        // Units that the apron hides altogether are no course.
        let seen = wall.upward()[0][1] - covering.edges.apron_leg.to_inches();
        let course = laid.courses.iter().rposition(|row| row.butt < seen - NIL);
        let face_nails = course.map_or(0, |course| pieces_beside(&laid.courses[course], &wall) * covering.nails.each);
        let pieces = lengths(given, &wall, apron_girth(given, covering), course);
        let roof_leg = Some(apron_leg(given, covering));
        Some(MetalRun { face_nails, roof_leg, ..MetalRun::of(wall.along, pieces) })
    };
    heads_of_courses(given).into_iter().filter_map(run).collect()
}

/// A piece at each end of every apron, folded round the corner of the wall.
pub(crate) fn corners(given: &Given<'_>) -> Vec<MetalRun> {
    let run = |wall: Stretch| {
        let (_, covering) = laid_on(given, &wall)?;
        let flashing = given.flashing;
        let girth = apron_girth(given, covering);
        let piece =
            |at: Place| MetalPiece { course: None, ends: [at; 2], girth, length: flashing.past_end + flashing.wall_leg };
        Some(MetalRun::of(wall.along, wall.ends.map(piece).into()))
    };
    heads_of_courses(given).into_iter().filter_map(run).collect()
}

/// Behind skylights, and chimneys without a cricket: up the slope under the units, and up the back.
pub(crate) fn back_pans(given: &Given<'_>) -> Vec<MetalRun> {
    let heads = at_openings(given, EdgeKind::Head, &[OpeningKind::Chimney, OpeningKind::Skylight]);
    let girth = given.flashing.back_leg + given.flashing.wall_leg + given.flashing.hem;
    heads.into_iter().filter_map(|head| under_units(given, &head, girth)).collect()
}

/// Along walls towards which a slope falls.
pub(crate) fn dead_valleys(given: &Given<'_>) -> Vec<MetalRun> {
    let girth = given.flashing.back_leg + given.flashing.wall_leg + given.flashing.hem;
    stretches(given, EdgeKind::DeadValley).into_iter().filter_map(|at| under_units(given, &at, girth)).collect()
}

/// Metal under the first course above it.
fn under_units(given: &Given<'_>, at: &Stretch, girth: Length) -> Option<MetalRun> {
    let (laid, _) = laid_on(given, at)?;
    let v = at.upward()[0][1];
    let course = laid.courses.iter().position(|row| row.butt + row.exposure > v + NIL);
    Some(MetalRun::of(at.along, lengths(given, at, girth, course)))
}

/// Over the units of high edges, and turned down.
pub(crate) fn high_edges(given: &Given<'_>) -> Vec<MetalRun> {
    let run = |edge: Stretch| {
        let (laid, covering) = laid_on(given, &edge)?;
        let girth = covering.edges.high_edge_metal + given.flashing.wall_leg + given.flashing.hem * 2.0;
        let pieces = lengths(given, &edge, girth, laid.courses.len().checked_sub(1));
        Some(MetalRun::of(edge.along, pieces))
    };
    stretches(given, EdgeKind::HighEdge).into_iter().filter_map(run).collect()
}

/// Over the heads below a break and up under the units above it.
pub(crate) fn breaks(given: &Given<'_>) -> Vec<MetalRun> {
    // The plane lies on an edge's left: one that runs to the left is its upper edge.
    let upper = stretches(given, EdgeKind::Break).into_iter().filter(|edge| edge.ends[0][0] > edge.ends[1][0]);
    let run = |edge: Stretch| {
        let (laid, covering) = laid_on(given, &edge)?;
        let pieces = lengths(given, &edge, apron_girth(given, covering), laid.courses.len().checked_sub(1));
        Some(MetalRun::of(edge.along, pieces))
    };
    upper.filter_map(run).collect()
}

/// Over the upturned legs at chimneys, let into the masonry; along walls only where the job asks for it, since siding covers
/// them.
pub(crate) fn counterflashing(given: &Given<'_>) -> Vec<MetalRun> {
    let flashing = given.flashing;
    let girth = flashing.raglet + flashing.counter_leg + flashing.hem;
    let mut walls: Vec<Stretch> = [EdgeKind::Sill, EdgeKind::Side, EdgeKind::Head]
        .into_iter()
        .flat_map(|kind| at_openings(given, kind, &[OpeningKind::Chimney]))
        .collect();
    walls.extend(backs_of_crickets(given));
    if flashing.counter_at_walls {
        walls.extend([EdgeKind::Headwall, EdgeKind::Sidewall].into_iter().flat_map(|kind| stretches(given, kind)));
    }
    walls.iter().map(|wall| MetalRun::of(wall.along, lengths(given, wall, girth, None))).collect()
}

fn backs_of_crickets(given: &Given<'_>) -> Vec<Stretch> {
    let mut backs = Vec::new();
    for (opening, placed) in given.roof.openings.iter().enumerate() {
        for plane in placed.cricket.iter().flat_map(|cricket| cricket.planes) {
            let own = given.roof.planes.get(plane).map(|surface| on_plane(given.roof, plane, surface, EdgeKind::Head));
            backs.extend(own.into_iter().flatten().map(|mut back| {
                back.along.opening = Some(opening);
                back
            }));
        }
    }
    backs
}

/// Both planes of every cricket, turned up at the chimney and run under the units of the slope.
pub(crate) fn crickets(given: &Given<'_>) -> Vec<MetalRun> {
    let flashing = given.flashing;
    let of_plane = |opening: usize, half: f64, plane: usize| {
        let surface = given.roof.planes.get(plane)?;
        let places = surface.places();
        let corners = places.first()?;
        let low = *corners.first()?;
        let apex =
            corners.iter().copied().reduce(|a, b| if geom::distance(low, b) > geom::distance(low, a) { b } else { a })?;
        let slope = Length::inches(half * surface.pitch.slope_factor());
        let piece = MetalPiece {
            course: None,
            ends: [low, apex],
            girth: slope + flashing.back_leg + flashing.hem,
            length: Length::inches(half) + flashing.wall_leg + flashing.back_leg,
        };
        let along = super::Along { plane, line: None, opening: Some(opening) };
        Some(MetalRun::of(along, vec![piece]))
    };
    // The seam along its ridge is told with the first of its planes.
    let seamed = |index: usize, run: Option<MetalRun>| Some(MetalRun { sealed_joints: u32::from(index == 0), ..run? });
    let crickets = given.roof.openings.iter().enumerate().filter_map(|(at, opening)| Some((at, opening.cricket?)));
    crickets
        .flat_map(|(at, cricket)| cricket.planes.map(|plane| of_plane(at, cricket.ridge.to_inches(), plane)))
        .enumerate()
        .filter_map(|(index, run)| seamed(index % 2, run))
        .collect()
}

/// Pieces along a stretch and past both its ends, from the left, or from the low end, on.
fn lengths(given: &Given<'_>, at: &Stretch, girth: Length, course: Option<usize>) -> Vec<MetalPiece> {
    let past = given.flashing.past_end.to_inches();
    let mut ends = at.upward();
    // A level one is told from the left.
    if (ends[0][1] - ends[1][1]).abs() < NIL && ends[0][0] > ends[1][0] {
        ends.reverse();
    }
    let long = geom::distance(ends[0], ends[1]).max(f64::MIN_POSITIVE);
    let place = |along: f64| geom::add(ends[0], geom::scale(geom::sub(ends[1], ends[0]), along / long));
    let cut = |[from, to]: [f64; 2]| MetalPiece {
        course: course.map(|course| course as u32),
        ends: [place(from - past), place(to - past)],
        girth,
        length: Length::inches(to - from),
    };
    from_foot(long + 2.0 * past, given.sheet_metal, given.flashing.joint_lap.to_inches()).into_iter().map(cut).collect()
}

/// Units of a course in front of a wall.
fn pieces_beside(course: &Course, wall: &Stretch) -> u32 {
    let [left, right] = [wall.ends[0][0].min(wall.ends[1][0]), wall.ends[0][0].max(wall.ends[1][0])];
    let reaches =
        |run: &layout::Run| run.lefts().filter(|&from| from < right - NIL && from + run.width > left + NIL).count() as u32;
    course.runs.iter().map(reaches).sum()
}

fn laid_on<'a>(given: &Given<'a>, at: &Stretch) -> Option<(&'a LaidPlane, &'a Covering)> {
    let laid = given.layout.planes.iter().find(|laid| laid.plane == at.along.plane)?;
    Some((laid, given.covering(at.along.plane)?))
}
