//! Step flashing: one piece for each course along every wall up the slope.

use layout::{Course, LaidPlane};
use roof::{EdgeKind, OpeningKind};
use units::Length;

use super::apron::at_openings;
use super::stretch::{Stretch, on_plane, stretches};
use super::{FlashingChoices, MetalPiece, MetalRun};
use crate::Given;

/// A course reaching a wall by less than this, in, does not touch it.
const NIL: f64 = 1e-3;

/// Length of a piece in a course so exposed: exposure + lap, and no less than the least length. Where one is as long as that,
/// it laps the piece below by more.
#[must_use]
pub fn step_length(exposure: Length, flashing: &FlashingChoices) -> Length {
    let needed = exposure + flashing.step_lap;
    if needed > flashing.step_length { needed } else { flashing.step_length }
}

/// Width of its blank: both legs and the hem.
#[must_use]
pub fn step_girth(flashing: &FlashingChoices) -> Length {
    flashing.wall_leg + flashing.roof_leg + flashing.step_hem
}

/// A run for every sidewall, and for the sides of every chimney and skylight.
pub(crate) fn lay(given: &Given<'_>) -> Vec<MetalRun> {
    let runs = walls(given).into_iter().filter_map(|wall| {
        let laid = given.layout.planes.iter().find(|laid| laid.plane == wall.along.plane)?;
        let pieces = along_wall(laid, &wall, given.flashing);
        (!pieces.is_empty()).then(|| MetalRun::of(wall.along, pieces))
    });
    runs.collect()
}

/// Everything beside which units are laid up the slope. Pipes and vents have flanges of their own.
fn walls(given: &Given<'_>) -> Vec<Stretch> {
    let mut walls = stretches(given, EdgeKind::Sidewall);
    walls.extend(at_openings(given, EdgeKind::Side, &[OpeningKind::Chimney, OpeningKind::Skylight]));
    walls
}

/// The courses that are seen beside a wall, each with its piece under the units, a little above their butts.
fn along_wall(laid: &LaidPlane, wall: &Stretch, flashing: &FlashingChoices) -> Vec<MetalPiece> {
    let [low, high] = wall.upward().map(|end| end[1]);
    let touches = |course: &&(usize, &Course)| {
        let row = course.1;
        row.butt < high - NIL && row.butt + row.exposure > low + NIL
    };
    let courses: Vec<(usize, &Course)> = laid.courses.iter().enumerate().collect();
    let piece = |&(index, row): &(usize, &Course)| {
        // Each reaches up under the next one, whose foot is as far above that course's butts.
        let length = step_length(Length::inches(row.exposure), flashing);
        let foot = row.butt + flashing.above_butt.to_inches();
        let ends = [foot, foot + length.to_inches()].map(|v| [wall.u_at(v), v]);
        MetalPiece { course: Some(index as u32), ends, girth: step_girth(flashing), length }
    };
    courses.iter().filter(touches).map(piece).collect()
}

/// A kick-out at the foot of every sidewall that comes down to an eave.
pub(crate) fn kick_outs(given: &Given<'_>) -> Vec<MetalRun> {
    let at_eave = |wall: &Stretch| {
        let plane = given.roof.planes.get(wall.along.plane)?;
        let foot = wall.upward()[0];
        let eaves = on_plane(given.roof, wall.along.plane, plane, EdgeKind::Eave);
        eaves.iter().any(|eave| eave.ends_at(foot)).then_some(foot)
    };
    let length = given.flashing.step_length;
    let runs = stretches(given, EdgeKind::Sidewall).into_iter().filter_map(|wall| {
        let foot = at_eave(&wall)?;
        let head = [wall.u_at(foot[1] + length.to_inches()), foot[1] + length.to_inches()];
        let piece = MetalPiece { course: None, ends: [foot, head], girth: step_girth(given.flashing), length };
        Some(MetalRun::of(wall.along, vec![piece]))
    });
    runs.collect()
}
