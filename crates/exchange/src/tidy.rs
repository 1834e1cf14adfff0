//! From what a file holds to what a job file can hold: moved, rounded, without what is no corner or no roof.

use std::collections::{BTreeMap, BTreeSet};

use geom::polygon;
use roof::Point3;
use units::Length;

use crate::imported::{Facet, Imported, Outline};
use crate::merge::merged;
use crate::names::{Names, some_of};
use crate::raw::{Footprint, Found, Surface};
use crate::refused::Refused;
use crate::ring::{dot, length, normal, simplified, spaced, sub};

/// The tape mark to which outlines are rounded; corners of a plane that lie nearer to each other are one.
const MARK: f64 = 1.0 / 16.0;
/// The step to which planes are rounded, 1/10,000 ft.
const STEP: f64 = 12.0 / 10_000.0;
/// Farther apart than this is no house: the plan reads no corner farther than 10,000 ft from its datum.
const FARTHEST: f64 = 10_000.0 * 12.0;
/// Smaller than this is no house.
const SMALLEST: f64 = 3.0 * 12.0;
/// In inches. Eastings with the number of their zone in front reach 60,500 km; `f64` holds a thousandth of an inch here.
const ABSURD: f64 = 1e10;
/// Of outlines and planes, in square inches; less is a crumb.
const LEAST_OUTLINE: f64 = 144.0;
const LEAST_PLANE: f64 = 10.0;
/// Cosine of 88°: steeper is a wall.
const WALL: f64 = 0.034_899_496_702_500_97;
/// Corners of a plane farther off it than this are worth a word, in inches.
const FLAT: f64 = 1.0;

pub(crate) fn tidy(found: Found) -> Result<Imported, Refused> {
    found.is_a_house()?;
    let (low, size) = extent(&found)?;
    has_size_of_a_house(size)?;
    let mut desk = Desk { notes: found.notes, ..Desk::default() };
    desk.say_where(low);
    let planes: Vec<Surface> = found.planes.iter().filter_map(|plane| desk.plane(plane, low)).collect();
    desk.with_planes = planes.iter().map(|plane| plane.part_of.clone()).collect();
    let outlines = found.outlines.iter().filter_map(|footprint| desk.outline(footprint, low)).collect();
    let pieces = planes.len();
    let planes: Vec<Facet> = merged(planes, STEP).into_iter().filter_map(|plane| desk.facet(plane)).collect();
    desk.finish(Imported { outlines, planes, notes: Vec::new() }, pieces)
}

/// The lowest corner in each direction, and how far everything extends.
fn extent(found: &Found) -> Result<(Point3, Point3), Refused> {
    let (mut low, mut high) = ([f64::INFINITY; 3], [f64::NEG_INFINITY; 3]);
    for corner in found.corners() {
        if let Some(absurd) = corner.iter().find(|at| at.is_nan() || at.abs() >= ABSURD) {
            let says = format!("a corner lies {:.0} ft from the origin, which is no place on Earth", absurd / 12.0);
            return Err(Refused::new(says, "Check the coordinates and their unit."));
        }
        low = std::array::from_fn(|i| low[i].min(corner[i]));
        high = std::array::from_fn(|i| high[i].max(corner[i]));
    }
    if low[0] > high[0] {
        return Err(Refused::new("the outlines and planes of the file have no corners", "Export the house again."));
    }
    Ok((low, sub(high, low)))
}

fn has_size_of_a_house([x, y, _]: Point3) -> Result<(), Refused> {
    let size = format!("{} by {}", Length::inches(x), Length::inches(y));
    if x.max(y) > FARTHEST {
        let says = format!("everything together measures {size}, which is no house");
        return Err(Refused::new(says, "Choose one building with --layer, or check the unit with --units."));
    }
    if x.max(y) < SMALLEST {
        let says = format!("everything together measures only {size}");
        return Err(Refused::new(says, "Check the unit with --units."));
    }
    Ok(())
}

/// What was done, and names given.
#[derive(Default)]
struct Desk {
    notes: Vec<String>,
    names: Names,
    /// Buildings of which at least one plane is kept.
    with_planes: BTreeSet<String>,
    /// What was left out, by reason.
    left_out: BTreeMap<&'static str, Vec<String>>,
    corners_dropped: usize,
    turned_over: usize,
    out_of_flat: Vec<(f64, String)>,
}

impl Desk {
    fn say_where(&mut self, [x, y, z]: Point3) {
        let at = [x, y, z].map(|at| format!("{:.3}", at / 12.0 + 0.0));
        self.notes.insert(0, format!("Moved: x 0, y 0, height 0 here is {}, {}, {} ft in the file.", at[0], at[1], at[2]));
    }

    fn leave_out<T>(&mut self, why: &'static str, name: &str) -> Option<T> {
        self.left_out.entry(why).or_default().push(name.to_owned());
        None
    }

    fn outline(&mut self, footprint: &Footprint, low: Point3) -> Option<Outline> {
        let Surface { part_of, name, rings } = &footprint.surface;
        let mut flat = rings.iter().map(|ring| self.plan_ring(ring, low)).collect::<Vec<_>>().into_iter();
        let corners = flat.next().unwrap_or_default();
        if polygon::area(&corners).abs() < LEAST_OUTLINE {
            return self.leave_out("is smaller than a square foot", name);
        }
        let holes: Vec<Vec<[f64; 2]>> = flat.filter(|hole| polygon::area(hole).abs() >= LEAST_OUTLINE).collect();
        let all: Vec<&[[f64; 2]]> = std::iter::once(&corners).chain(&holes).map(Vec::as_slice).collect();
        if polygon::first_crossing(&all).is_some() || all.iter().any(|ring| polygon::first_fold(ring).is_some()) {
            return self.leave_out("is an outline that crosses, touches or runs back over itself", name);
        }
        let height = rings.iter().flatten().map(|corner| corner[2]).fold(f64::INFINITY, f64::min);
        Some(Outline {
            name: self.names.unlike_others(name, "house"),
            corners: running(corners, true),
            holes: holes.into_iter().map(|hole| running(hole, false)).collect(),
            eave_height: to(footprint.roof_from.unwrap_or(height) - low[2], MARK),
            has_planes: self.with_planes.contains(part_of),
        })
    }

    fn plan_ring(&mut self, ring: &[Point3], low: Point3) -> Vec<[f64; 2]> {
        let moved: Vec<Point3> = ring.iter().map(|c| [to(c[0] - low[0], MARK), to(c[1] - low[1], MARK), 0.0]).collect();
        let kept = simplified(&moved, MARK);
        self.corners_dropped += without_last(&moved) - kept.len();
        kept.into_iter().map(|[x, y, _]| [x, y]).collect()
    }

    /// Moved, rounded and turned face up, unless it is no piece of roof.
    fn plane(&mut self, Surface { part_of, name, rings }: &Surface, low: Point3) -> Option<Surface> {
        let mut rings: Vec<Vec<Point3>> = rings.iter().map(|ring| self.space_ring(ring, low)).collect();
        rings.retain(|ring| !ring.is_empty());
        let up = rings.first().map_or([0.0; 3], |ring| normal(ring));
        if length(up) / 2.0 < LEAST_PLANE {
            return self.leave_out("is smaller than a hand", name);
        }
        if up[2].abs() / length(up) < WALL {
            return self.leave_out("is steeper than 88°, so it is a wall", name);
        }
        self.turned_over += usize::from(up[2] < 0.0);
        let face_up = |(at, mut ring): (usize, Vec<Point3>)| {
            if (normal(&ring)[2] > 0.0) != (at == 0) {
                ring.reverse();
            }
            ring
        };
        let rings = rings.into_iter().enumerate().map(face_up).collect();
        Some(Surface { part_of: part_of.clone(), name: name.clone(), rings })
    }

    fn space_ring(&mut self, ring: &[Point3], low: Point3) -> Vec<Point3> {
        let moved: Vec<Point3> = ring.iter().map(|&corner| sub(corner, low).map(|at| to(at, STEP))).collect();
        let kept = simplified(&moved, STEP);
        self.corners_dropped += without_last(&moved) - kept.len();
        if kept.len() < 3 { Vec::new() } else { kept }
    }

    fn facet(&mut self, Surface { name, rings, .. }: Surface) -> Option<Facet> {
        let mut rings = rings.into_iter().map(|ring| self.spaced_ring(&ring)).collect::<Vec<_>>().into_iter();
        let corners = rings.next()?;
        if corners.len() < 3 {
            return self.leave_out("is smaller than a hand", &name);
        }
        let name = self.names.unlike_others(&name, "plane");
        self.out_of_flat.push((out_of_flat(&corners), name.clone()));
        Some(Facet { name, corners, holes: rings.filter(|hole| hole.len() > 2).collect() })
    }

    fn spaced_ring(&mut self, ring: &[Point3]) -> Vec<Point3> {
        let corners = simplified(ring, STEP);
        let count = corners.len();
        // Printed, corners are rounded once more.
        let kept = spaced(corners, MARK + STEP);
        self.corners_dropped += count - kept.len();
        kept
    }

    fn finish(mut self, mut imported: Imported, pieces: usize) -> Result<Imported, Refused> {
        let left_out: Vec<String> = self.left_out.iter().map(|(why, names)| left_out(why, names)).collect();
        if imported.outlines.is_empty() && imported.planes.is_empty() {
            let says = format!("nothing in the file can be used. {}", left_out.join(" "));
            return Err(Refused::new(says.trim_end_matches(['.', ' ']), "Look at the file with the program that made it."));
        }
        self.notes.extend(left_out);
        self.note_rounding(&imported);
        if pieces > imported.planes.len() {
            let says = "pieces of roof that touch and lie in one plane became";
            self.notes.push(format!("{pieces} {says} {} planes.", imported.planes.len()));
        }
        self.note_faults(pieces);
        imported.notes = self.notes;
        Ok(imported)
    }

    fn note_rounding(&mut self, imported: &Imported) {
        if !imported.outlines.is_empty() {
            self.notes.push("Corners of outlines are rounded to 1/16 in.".into());
        }
        if !imported.planes.is_empty() {
            self.notes.push("Corners of planes are rounded to 1/10,000 ft.".into());
        }
        if self.corners_dropped > 0 {
            self.notes
                .push(format!("{} repeated corners and corners on straight lines are left out.", self.corners_dropped));
        }
    }

    fn note_faults(&mut self, pieces: usize) {
        if self.turned_over * 2 > pieces {
            let says = "Most planes face down in the file: if x is north there and y east, this house is a mirror image.";
            self.notes.insert(0, says.into());
        }
        let bent: Vec<String> =
            self.out_of_flat.iter().filter(|(off, _)| *off > FLAT).map(|(_, name)| name.clone()).collect();
        if !bent.is_empty() {
            self.notes.push(format!("More than 1 in out of flat: {}.", some_of(&bent)));
        }
    }
}

fn left_out(why: &str, names: &[String]) -> String {
    format!("Left out, since it {why}: {}.", some_of(names))
}

/// To the nearest multiple; never -0.
fn to(value: f64, step: f64) -> f64 {
    (value / step).round() * step + 0.0
}

/// How many corners there are when the first is not repeated at the end, as some formats do.
fn without_last(ring: &[Point3]) -> usize {
    let repeats = ring.len() > 1 && ring.first() == ring.last();
    ring.len() - usize::from(repeats)
}

/// In the direction asked for, from the corner at the lower left.
fn running(mut ring: Vec<[f64; 2]>, counter_clockwise: bool) -> Vec<[f64; 2]> {
    if (polygon::area(&ring) > 0.0) != counter_clockwise {
        ring.reverse();
    }
    let out = |at: &usize| ring[*at][0] + ring[*at][1];
    let first = (0..ring.len()).min_by(|a, b| out(a).total_cmp(&out(b))).unwrap_or_default();
    ring.rotate_left(first);
    ring
}

/// The greatest distance of a corner from the plane through the middle of all.
fn out_of_flat(ring: &[Point3]) -> f64 {
    let (up, count) = (normal(ring), ring.len() as f64);
    let middle: Point3 = std::array::from_fn(|i| ring.iter().map(|corner| corner[i]).sum::<f64>() / count);
    ring.iter().map(|&corner| (dot(sub(corner, middle), up) / length(up)).abs()).fold(0.0, f64::max)
}
