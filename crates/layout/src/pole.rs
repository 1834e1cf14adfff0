//! The story pole: the rod marked with every course line, held against a rake.

use covering::{Bond, Covering};
use roof::{EdgeKind, Place, Plane};

use crate::bond::{NIL, every};
use crate::outline::{edges, is_level, projection};
use crate::square::Square;
use crate::{Course, LaidPlane, SettingOut, Station};

/// One pole: for one rake and one stretch of it. Inches from the plane's one zero, the first butts.
#[derive(Debug, Clone, PartialEq)]
pub struct Pole {
    /// Where it is held.
    pub side: PoleSide,
    /// u of the foot of the edge it is held against.
    pub u: f64,
    /// Up the pole to the top line.
    pub top: f64,
    /// One for every course line that it reaches, from the lowest up.
    pub marks: Vec<Mark>,
    /// Fixed heights that it passes, from the lowest up.
    pub stations: Vec<PoleStation>,
    /// From this side to the first joint, in the lowest course of the pole and as many more as the bond has, all of random
    /// widths and of units that narrow; none in a course of one piece.
    pub starts: Vec<Option<f64>>,
}

/// Where a pole is held, seen facing the plane from the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PoleSide {
    /// Against an edge with the plane on its right.
    Left,
    /// Against an edge with the plane on its left.
    Right,
    /// Up the middle of a plane of which no rake passes every course.
    Middle,
}

/// Marks of one course on the tape, each rounded by itself, so that rounding never adds up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Counted from 0 at the eave.
    pub course: usize,
    /// Of the butts.
    pub butt: f64,
    /// Of the butts that hang below the line; none where all lie on it.
    pub hang: Option<f64>,
    /// Of the heads; none above the top line, where units are trimmed.
    pub head: Option<f64>,
}

/// A fixed height as it stands on the pole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PoleStation {
    /// On the tape.
    pub mark: f64,
    /// Which it is.
    pub station: Station,
}

/// Where caps come to lie: a straight line snapped at this distance from a hip or ridge at both its ends, so that crooked
/// framing does not show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guide {
    /// [`EdgeKind::Hip`] or [`EdgeKind::Ridge`].
    pub kind: EdgeKind,
    /// The hip or ridge itself.
    pub line: [Place; 2],
    /// Square to it on the surface, to the edge of the caps, inches.
    pub off: f64,
}

/// Lines to be snapped along the edges of caps.
pub(crate) fn guides(plane: &Plane, covering: &Covering) -> Vec<Guide> {
    let capped = edges(plane).filter(|(_, kind)| matches!(kind, EdgeKind::Hip | EdgeKind::Ridge));
    capped.map(|(line, kind)| Guide { kind, line, off: covering.cap.cover.to_inches() }).collect()
}

/// The poles of a plane whose courses are laid.
pub(crate) fn poles(
    plane: &Plane,
    covering: &Covering,
    laid: &LaidPlane,
    square: &Square,
    setting_out: &SettingOut,
) -> Vec<Pole> {
    let making = Making { covering, laid, square, step: setting_out.tape_step.to_inches() };
    let along = stretches(plane).into_iter().map(|stretch| making.pole(stretch)).filter(|pole| pole.marks.len() > 1);
    let mut poles: Vec<Pole> = along.collect();
    if poles.iter().all(|pole| pole.marks.len() < laid.courses.len()) {
        poles.extend(middle(laid).map(|stretch| making.pole(stretch)));
    }
    poles
}

/// An edge against which a pole can be held.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    side: PoleSide,
    foot: Place,
    head: Place,
}

/// Rakes and sidewalls, those in line joined. Counter-clockwise, the left side of a plane runs down.
fn stretches(plane: &Plane) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    for (side, kind) in edges(plane) {
        if is_level(side) || !matches!(kind, EdgeKind::Rake | EdgeKind::Sidewall) {
            continue;
        }
        let [from, to] = side;
        let stretch = if from[1] > to[1] {
            Stretch { side: PoleSide::Left, foot: to, head: from }
        } else {
            Stretch { side: PoleSide::Right, foot: from, head: to }
        };
        let meets = |a: Place, b: Place| libm::hypot(a[0] - b[0], a[1] - b[1]) < NIL;
        match stretches.last_mut().filter(|last| last.side == stretch.side) {
            Some(last) if meets(last.foot, stretch.head) => last.foot = stretch.foot,
            Some(last) if meets(last.head, stretch.foot) => last.head = stretch.head,
            _ => stretches.push(stretch),
        }
    }
    stretches
}

fn middle(laid: &LaidPlane) -> Option<Stretch> {
    let [left, right] = laid.courses.first()?.spans(&laid.cuts).first().copied()?;
    let u = f64::midpoint(left, right);
    Some(Stretch { side: PoleSide::Middle, foot: [u, laid.first_butt], head: [u, laid.top] })
}

struct Making<'a> {
    covering: &'a Covering,
    laid: &'a LaidPlane,
    square: &'a Square,
    step: f64,
}

impl Making<'_> {
    fn pole(&self, stretch: Stretch) -> Pole {
        let [low, high] =
            [stretch.foot[1] - projection(self.covering, EdgeKind::Eave).max(0.0) - self.step, stretch.head[1]];
        let is_passed = |v: f64| v >= low && v < high;
        let rows: Vec<(usize, &Course)> =
            self.laid.courses.iter().enumerate().filter(|(_, course)| is_passed(course.butt)).collect();
        let marks = rows.iter().map(|&(course, row)| self.mark(stretch, course, row.butt)).collect();
        let stations = self.laid.stations.iter().filter(|station| is_passed(station.v));
        let never_alike = self.covering.bond(None) == Bond::Random || self.laid.peak.is_some();
        let bond = if never_alike { rows.len() } else { every(self.covering) as usize };
        Pole {
            side: stretch.side,
            u: stretch.foot[0],
            top: self.on_tape(self.running(stretch, self.laid.top)),
            marks,
            stations: stations
                .map(|&station| PoleStation { mark: self.on_tape(self.running(stretch, station.v)), station })
                .collect(),
            starts: rows.iter().take(bond).map(|(_, row)| self.start(stretch, row)).collect(),
        }
    }

    /// Up the pole from the first butts: less where the plane is shorter on this side.
    fn running(&self, stretch: Stretch, v: f64) -> f64 {
        (v - self.laid.first_butt) * self.square.share(stretch.foot[0])
    }

    fn on_tape(&self, running: f64) -> f64 {
        libm::round(running / self.step) * self.step
    }

    fn mark(&self, stretch: Stretch, course: usize, butt: f64) -> Mark {
        let running = self.running(stretch, butt);
        let head = running + self.laid.courses[course].length;
        let is_below = head <= self.running(stretch, self.laid.top) + NIL;
        let hangs = self.laid.hangs(course);
        Mark {
            course,
            butt: self.on_tape(running),
            hang: (hangs > NIL).then(|| self.on_tape(running - hangs)),
            head: is_below.then(|| self.on_tape(head)),
        }
    }

    /// From the end of a course nearest to the pole to its first joint, on the tape.
    fn start(&self, stretch: Stretch, row: &Course) -> Option<f64> {
        let is_right = stretch.side == PoleSide::Right;
        let end = |span: &[f64; 2]| span[usize::from(is_right)];
        let off = |span: &[f64; 2]| (end(span) - stretch.foot[0]).abs();
        let span = row.spans(&self.laid.cuts).into_iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
        let joints = row.joints().into_iter().filter(|joint| *joint > span[0] && *joint < span[1]);
        let near = joints.map(|joint| (joint - end(&span)).abs()).reduce(f64::min)?;
        Some(self.on_tape(near))
    }
}
