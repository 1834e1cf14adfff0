//! The ice barrier: from the roof edge up to 24 in past the wall, a width along valleys and rakes and round openings.

use geom::region::Region;
use roof::{EdgeKind, Line, Place, PlacedOpening, Plane};
use units::{Length, Pitch, Temperature};

use crate::strip::{Lies, Patch, Strip};
use crate::surface::{ANYWHERE, beside, carried, ends_on, range, rises, stretches};
use crate::{DryInChoices, EaveBarrier, Edition, Given, Missing, Roll, WallFace};

/// Below this mean winter temperature ice backs water up at the eaves (common practice, no published source).
const COLD: Temperature = Temperature::fahrenheit(25.0);

/// Editions that also ask for 36 in along the slope at 8:12 and steeper: 2015, 2018 and 2021 (International Residential
/// Code R905.1.2, as a code officials' discussion of the 2024 edition tells; the code itself was not read).
const STEEP_CLAUSE: std::ops::RangeInclusive<Edition> = Edition::Of2015..=Edition::Of2021;
const STEEP_CLAUSE_FROM: f64 = 8.0;
const STEEP_CLAUSE_LENGTH: f64 = 36.0;

/// Openings no wider and no higher than this share of the roll are sealed by one square piece with a hole in it.
const ONE_PIECE: f64 = 1.0 / 3.0;

/// What the barrier is worked out to.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct IceBarrier {
    /// Lowest first, so that each laps over the one before.
    pub(crate) strips: Vec<Strip>,
    /// Where it stands in for underlayment.
    pub(crate) shelters: Vec<Shelter>,
    /// Why there is one or none.
    pub(crate) says: String,
    pub(crate) eaves: Vec<EaveBarrier>,
    pub(crate) missing: Vec<Missing>,
}

/// A rectangle of a plane from an eave up that needs no underlayment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Shelter {
    pub(crate) plane: usize,
    pub(crate) u: [f64; 2],
    pub(crate) v: [f64; 2],
}

/// How far up the slope the barrier must reach from the roof edge, in inches: `reach` is the level distance from the edge
/// to where it ends, overhang and all.
///
/// The level distance × the slope factor, √(1 + (pitch/12)²); at 8:12 and steeper at least 36 in by the editions 2015 to
/// 2021, and where no edition is known, which is the longer.
#[must_use]
pub fn ice_barrier_length(reach: Length, pitch: Pitch, code: Option<Edition>) -> Length {
    let sloped = reach * pitch.slope_factor();
    let is_asked = code.is_none_or(|code| STEEP_CLAUSE.contains(&code)) && pitch.rise() >= STEEP_CLAUSE_FROM;
    if is_asked && sloped.to_inches() < STEEP_CLAUSE_LENGTH { Length::inches(STEEP_CLAUSE_LENGTH) } else { sloped }
}

/// Whole courses of a roll that reach so far, each lapped over the one before: width + (n − 1) × (width − lap) ≥ length.
#[must_use]
pub fn courses_that_reach(length: Length, roll: &Roll) -> u32 {
    let [width, advance] = [roll.width, roll.width - roll.side_lap].map(Length::to_inches);
    let more = ((length.to_inches() - width) / advance - 1e-9).ceil();
    1 + more.max(0.0) as u32
}

fn laid(length: Length, roll: &Roll) -> Length {
    let more = courses_that_reach(length, roll) - 1;
    roll.width + (roll.width - roll.side_lap) * f64::from(more)
}

/// Lays the barrier.
pub(crate) fn lay(given: &Given<'_>) -> IceBarrier {
    let (asked, says) = asked(given);
    let mut barrier = IceBarrier { says, ..IceBarrier::default() };
    if asked == Some(true) {
        given.eaves().for_each(|(index, line)| along_eave(given, index, line, &mut barrier));
    }
    let chosen = |choice: Option<bool>| choice.unwrap_or(asked == Some(true));
    let DryInChoices { at_valleys, at_rakes, round_openings, .. } = *given.dry_in;
    if chosen(at_valleys) {
        barrier.strips.extend(along_lines(given, valley));
    }
    if chosen(at_rakes) {
        barrier.strips.extend(along_lines(given, rake));
    }
    if chosen(round_openings) {
        barrier.strips.extend(given.roof.openings.iter().enumerate().flat_map(|(at, opening)| round(given, at, opening)));
    }
    if asked.is_none() {
        barrier.missing.push(Missing {
            what: "ice barrier".into(),
            says: "it is not known whether the place asks for an ice barrier, so none is laid along the eaves".into(),
            remedy: "write winter, its mean temperature, or ice_barrier = true or false under [site]".into(),
        });
    }
    barrier
}

/// Whether an eave is to have one, and why.
fn asked(given: &Given<'_>) -> (Option<bool>, String) {
    let site = given.climate;
    match (site.ice_barrier, site.winter) {
        (Some(true), _) => (Some(true), "Asked for by the job.".into()),
        (Some(false), _) => (Some(false), "None by the job.".into()),
        (None, Some(is)) if is < COLD => (Some(true), format!("The mean winter temperature, {is}, is below {COLD}.")),
        (None, Some(is)) => (Some(false), format!("None: the mean winter temperature, {is}, is not below {COLD}.")),
        (None, None) => (None, "Not known whether the place asks for one.".into()),
    }
}

/// Level distance from the roof edge to where the barrier ends: overhang, wall where the inner face counts, and what the
/// code asks past it. In doubt about the face the inner one, which is the longer.
fn reach(given: &Given<'_>, line: usize) -> Option<f64> {
    let choices = given.dry_in;
    let overhang = given.overhang_of.get(line).copied().flatten().or(choices.overhang)?;
    let wall = match choices.wall_face {
        Some(WallFace::Outer) => Length::ZERO,
        _ => choices.wall_thickness.unwrap_or(Length::ZERO),
    };
    Some((overhang + wall + choices.past_wall).to_inches())
}

fn along_eave(given: &Given<'_>, index: usize, line: &Line, barrier: &mut IceBarrier) {
    let Some(&plane) = line.planes.first() else { return };
    let Some(reach) = reach(given, index) else {
        let name = &given.roof.planes[plane].name;
        barrier.missing.push(Missing {
            what: format!("ice barrier, {name}"),
            says: format!("the overhang of an eave of {name} is not known, so no barrier is laid along it"),
            remedy: "write overhang on that edge, or overhang under [dry_in] for all eaves that have none".into(),
        });
        return;
    };
    let frame = &given.roof.planes[plane].frame;
    let ends = line.ends.map(|[x, y, _]| frame.place(x, y));
    let pitch = given.roof.planes[plane].pitch;
    let length = ice_barrier_length(Length::inches(reach), pitch, given.climate.code);
    barrier.eaves.push(EaveBarrier { line: index, needed: length, laid: laid(length, &given.dry_in.ice_barrier) });
    let reach = length.to_inches() / pitch.slope_factor();
    up_from(given, Edge { plane, ends, reach }, 0, barrier);
}

/// A level low edge from which the barrier still has so far to reach, level.
#[derive(Clone, Copy)]
struct Edge {
    plane: usize,
    ends: [Place; 2],
    reach: f64,
}

/// Breaks over each other on one roof are fewer.
const MOST_BREAKS: u32 = 8;

/// Courses from a low edge up, and on beyond a break.
fn up_from(given: &Given<'_>, edge: Edge, breaks: u32, barrier: &mut IceBarrier) {
    let plane = &given.roof.planes[edge.plane];
    let length = edge.reach * plane.pitch.slope_factor();
    courses(given, plane, edge, length, barrier);
    if breaks == MOST_BREAKS {
        return;
    }
    for (other, ends, low) in breaks_above(given, edge) {
        let run = (low - edge.ends[0][1]) / plane.pitch.slope_factor();
        if run > 0.0 && run < edge.reach {
            up_from(given, Edge { plane: other, ends, reach: edge.reach - run }, breaks + 1, barrier);
        }
    }
}

fn courses(given: &Given<'_>, plane: &Plane, edge: Edge, length: f64, barrier: &mut IceBarrier) {
    let roll = &given.dry_in.ice_barrier;
    let [width, advance, past] = [roll.width, roll.width - roll.side_lap, given.dry_in.past_wall].map(Length::to_inches);
    let region = carried(plane, |kind| given.carried_over(kind));
    let low = edge.ends[0][1];
    // Where the eave ends at a jog the wall turns the corner, and so does the barrier.
    let u = widened(range(&edge.ends, 0), past);
    let count = courses_that_reach(Length::inches(length), roll);
    let v = |course: u32| [low + f64::from(course) * advance, low + f64::from(course) * advance + width];
    for course in 0..count {
        let along = stretches(&region, u, v(course));
        barrier.strips.extend(along.into_iter().map(|u| Strip::across(Lies::Eave { course }, edge.plane, u, v(course))));
    }
    let top = v(count - 1)[1] - given.dry_in.over_barrier.to_inches();
    let ends = stretches(&region, ANYWHERE, [low, top]).into_iter().filter(|ends| ends[0] < u[1] && ends[1] > u[0]);
    barrier.shelters.extend(ends.map(|ends| {
        // The underlayment runs on over an end of the barrier that is not the end of the plane.
        let lap = |inner: bool| if inner { roll.end_lap.to_inches() } else { 0.0 };
        let from = u[0].max(ends[0]) + lap(u[0] > ends[0]);
        let to = u[1].min(ends[1]) - lap(u[1] < ends[1]);
        Shelter { plane: edge.plane, u: [from, to], v: [low, top] }
    }));
}

fn widened([from, to]: [f64; 2], by: f64) -> [f64; 2] {
    [from - by, to + by]
}

/// Planes beyond the breaks over an edge: index, ends of the break in that plane's frame, and how high it is in this one.
fn breaks_above(given: &Given<'_>, edge: Edge) -> Vec<(usize, [Place; 2], f64)> {
    let here = &given.roof.planes[edge.plane];
    let lines = given.roof.lines.iter().filter(|line| line.kind == EdgeKind::Break);
    let beyond = lines.filter_map(|line| {
        let other = *line.planes.iter().find(|&&plane| plane != edge.plane)?;
        let there = given.roof.planes.get(other)?;
        let [low, ends] = [here, there].map(|plane| line.ends.map(|[x, y, _]| plane.frame.place(x, y)));
        let over = range(&low, 0)[0] < range(&edge.ends, 0)[1] && range(&low, 0)[1] > range(&edge.ends, 0)[0];
        let joins = line.planes.contains(&edge.plane) && here.has_place() && there.has_place();
        (joins && over).then_some((other, ends, low[0][1]))
    });
    beyond.collect()
}

/// Half a width each side of a valley; a width up from a dead valley.
fn valley(plane: &Plane, ends: [Place; 2], kind: EdgeKind, width: f64) -> Option<[Place; 4]> {
    let inside = |share: f64| inwards(plane, ends, width * share);
    match kind {
        EdgeKind::Valley => Some(inside(0.5)),
        EdgeKind::DeadValley => Some(inside(1.0)),
        _ => None,
    }
}

/// A width from the edge of a rake.
fn rake(plane: &Plane, ends: [Place; 2], kind: EdgeKind, width: f64) -> Option<[Place; 4]> {
    (kind == EdgeKind::Rake).then(|| inwards(plane, ends, width))
}

/// The rectangle beside a line on the side where the plane is.
fn inwards(plane: &Plane, ends: [Place; 2], width: f64) -> [Place; 4] {
    let middle = |corners: [Place; 4]| {
        geom::scale(geom::add(geom::add(corners[0], corners[1]), geom::add(corners[2], corners[3])), 0.25)
    };
    let left = beside(ends, 1.0 / 16.0);
    let sign = if geom::region::contains(&plane.places(), middle(left)) { 1.0 } else { -1.0 };
    beside(ends, sign * width)
}

type OnPlane = fn(&Plane, [Place; 2], EdgeKind, f64) -> Option<[Place; 4]>;

/// A strip along every line for which `on` has a patch on some plane that is covered.
fn along_lines(given: &Given<'_>, on: OnPlane) -> Vec<Strip> {
    let width = given.dry_in.ice_barrier.width.to_inches();
    let strip = |(index, line): (usize, &Line)| {
        let patch = |&plane: &usize| {
            let surface = given.roof.planes.get(plane)?;
            let corners = on(surface, ends_on(surface, line), line.kind, width)?;
            Some(Patch { plane, corners })
        };
        let patches: Vec<Patch> = line.planes.iter().filter_map(patch).collect();
        let is_covered = patches.iter().any(|patch| given.covering(patch.plane).is_some());
        is_covered.then(|| Strip::along(index, patches, line.length().to_inches()))
    };
    given.roof.lines.iter().enumerate().filter_map(strip).collect()
}

/// Round an opening, on every covered plane that it comes through.
fn round(given: &Given<'_>, index: usize, opening: &PlacedOpening) -> Vec<Strip> {
    let planes = opening.planes.iter().filter(|&&plane| given.covering(plane).is_some());
    planes.flat_map(|&plane| round_on(given, index, opening, plane)).collect()
}

/// One square piece over a small opening; else a width below, at both sides and above, each over the last.
fn round_on(given: &Given<'_>, index: usize, opening: &PlacedOpening, plane: usize) -> Vec<Strip> {
    let roll = &given.dry_in.ice_barrier;
    let [width, lap] = [roll.width, roll.end_lap].map(Length::to_inches);
    let surface = &given.roof.planes[plane];
    let corners: Vec<Place> = opening.corners.iter().map(|&[x, y, _]| surface.frame.place(x, y)).collect();
    let [[left, right], [low, high]] = [0, 1].map(|axis| range(&corners, axis));
    let region = surface.places();
    let make = |u: [f64; 2], v: [f64; 2], upright: bool| on_plane(&region, index, plane, (u, v), upright);
    if (right - left).max(high - low) <= width * ONE_PIECE {
        let about = |[from, to]: [f64; 2]| widened([f64::midpoint(from, to); 2], width / 2.0);
        return make(about([left, right]), about([low, high]), false);
    }
    let outer = widened([left, right], width);
    let sides = widened([low, high], lap);
    let strips = [
        make(outer, [low - width, low], false),
        make([outer[0], left], sides, true),
        make([right, outer[1]], sides, true),
        make(outer, [high, high + width], false),
    ];
    strips.concat()
}

/// The part of a rectangle that the plane has, as strips along its longer way.
fn on_plane(region: &Region, opening: usize, plane: usize, (u, v): ([f64; 2], [f64; 2]), upright: bool) -> Vec<Strip> {
    let lies = Lies::Opening { opening };
    if upright {
        let strip = |v: [f64; 2]| Strip { length: v[1] - v[0], ..Strip::across(lies, plane, u, v) };
        rises(region, u, v).into_iter().map(strip).collect()
    } else {
        stretches(region, u, v).into_iter().map(|u| Strip::across(lies, plane, u, v)).collect()
    }
}
