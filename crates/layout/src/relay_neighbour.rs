//! What becomes of courses that met at a hip or a valley when one of its sides is spread anew.

use covering::Covering;
use roof::{EdgeKind, Plane};

use crate::courses::{ROUNDING, Slope};
use crate::cut::sides;
use crate::outline::is_level;
use crate::{End, LaidPlane, Mark, Reading, Relaying};

/// A plane beyond a hip or valley at which courses met by the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Neighbour {
    /// Index in `roof.planes`.
    pub plane: usize,
    /// [`EdgeKind::Hip`] or [`EdgeKind::Valley`].
    pub kind: EdgeKind,
    /// The end of the courses that runs out there.
    pub end: End,
    /// The furthest that a line now lies above where it meets its neighbour's, up the slope; below it, if negative. 0 where
    /// that is less than the sight limit.
    pub off: f64,
    /// The course of the neighbour from whose butts it would be spread anew too, counted from 0.
    pub course: usize,
    /// The least and the greatest exposure that its courses would then show.
    pub shows: [f64; 2],
    /// What the sheet allows there.
    pub allowed: [f64; 2],
    /// The greatest change of its exposures from course to course.
    pub change: f64,
    /// Its new marks from its own zero, of the courses above.
    pub marks: Vec<Mark>,
}

/// The sides of a plane at which its courses met others', with what its new lines (v at both ends, from the course that was
/// read up) make of it.
pub(crate) fn neighbours<'a>(
    relaying: Relaying<'a>,
    covering_of: &impl Fn(&Plane) -> Option<&'a Covering>,
    reading: &Reading,
    lines: &[[f64; 2]],
) -> Vec<Neighbour> {
    let plane = &relaying.roof.planes[reading.plane];
    let mut found: Vec<Neighbour> = Vec::new();
    for (places, ring) in plane.places().iter().zip(&plane.rings) {
        for (side, edge) in sides(places).zip(&ring.edges) {
            let is_sloping = !is_level(side) && matches!(edge.kind, EdgeKind::Hip | EdgeKind::Valley);
            let Some(other) = edge.meets.filter(|_| is_sloping) else { continue };
            // Counter-clockwise, the left side of a plane runs down.
            let end = if side[0][1] > side[1][1] { End::Left } else { End::Right };
            if found.iter().all(|known| known.plane != other) {
                found.extend(neighbour(relaying, covering_of, reading, lines, (other, edge.kind, end)));
            }
        }
    }
    found
}

fn neighbour<'a>(
    relaying: Relaying<'a>,
    covering_of: &impl Fn(&Plane) -> Option<&'a Covering>,
    reading: &Reading,
    lines: &[[f64; 2]],
    (other, kind, end): (usize, EdgeKind, End),
) -> Option<Neighbour> {
    let laid_of = |plane: usize| relaying.layout.planes.iter().find(|laid| laid.plane == plane);
    let [plane, beyond] = [reading.plane, other].map(|index| &relaying.roof.planes[index]);
    let [laid, theirs] = [laid_of(reading.plane)?, laid_of(other)?];
    let step = relaying.setting_out.tape_step.to_inches();
    let rise = |plane: &Plane| plane.pitch.rise() / 12.0 / plane.pitch.slope_factor();
    let [ours, their_slope] = [rise(plane), rise(beyond)];
    let height = |laid: &LaidPlane, course: usize| -> Option<f64> {
        let plane = &relaying.roof.planes[laid.plane];
        plane.has_place().then_some(plane.frame.origin[2] + laid.courses.get(course)?.butt * rise(plane))
    };
    let at = height(laid, reading.course)?;
    let is_met = |course: usize, at: f64| height(theirs, course).is_some_and(|height| (height - at).abs() < step * ours);
    let course = (0..theirs.courses.len()).find(|&course| is_met(course, at))?;
    let pairs = (laid.courses.len() - reading.course).min(theirs.courses.len() - course);
    let meet = (0..pairs).all(|nth| height(laid, reading.course + nth).is_some_and(|at| is_met(course + nth, at)));
    let covering = covering_of(beyond).filter(|_| meet)?;
    let slope = Slope::of(beyond, covering, &theirs.laid)?;
    let new: Vec<f64> = lines.iter().map(|ends| ends[usize::from(end == End::Right)]).collect();
    let off = new.iter().zip(&laid.courses[reading.course..]).take(pairs).map(|(new, course)| new - course.butt);
    let off = off.fold(0.0, |worst: f64, off| if off.abs() > worst.abs() { off } else { worst });
    let base = plane.frame.origin[2] - beyond.frame.origin[2];
    let butts: Vec<f64> = new.iter().map(|v| (base + v * ours) / their_slope).filter(|v| *v < theirs.top - step).collect();
    let exposures: Vec<f64> = butts.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let unit = |nth: usize| theirs.courses.get(course + nth).or(theirs.courses.last());
    let shorter = |nth: usize| unit(nth).map_or(0.0, |unit| slope.grade(unit.length).shorter);
    // As of the sheet's own unit, so that a change of length is none that is seen.
    let as_own: Vec<f64> = exposures.iter().enumerate().map(|(nth, exposure)| exposure + shorter(nth)).collect();
    let changes = as_own.windows(2).map(|pair| (pair[1] - pair[0]).abs());
    let [shortest, longest] = [shorter(exposures.len().saturating_sub(1)), shorter(0)];
    let mark = |(nth, v): (usize, &f64)| {
        let on_tape = |inches: f64| libm::round(inches / step) * step;
        let running = v - theirs.first_butt;
        let length = unit(nth).map_or(0.0, |unit| unit.length);
        let head = (v + length <= theirs.top + ROUNDING).then(|| on_tape(running + length));
        let hang = (theirs.step > 0.0).then(|| on_tape(running - theirs.step));
        Mark { course: course + nth, butt: on_tape(running), hang, head }
    };
    Some(Neighbour {
        plane: other,
        kind,
        end,
        off: if off.abs() >= relaying.setting_out.sight_limit.to_inches().max(step) { off } else { 0.0 },
        course,
        shows: [exposures.iter().copied().fold(f64::INFINITY, f64::min), exposures.iter().copied().fold(0.0, f64::max)],
        allowed: [slope.limits.least - shortest, slope.limits.greatest - longest],
        change: changes.fold(0.0, f64::max),
        marks: butts.iter().enumerate().skip(1).map(mark).collect(),
    })
}
