//! Dormers: from a few figures to a block that reaches back into the slope just far enough, and the area of its cheeks.

use geom::{Point, add, polygon, scale};
use units::{Area, Length, Pitch};

use crate::build::{Built, POKES_THROUGH, build_with};
use crate::overhang::OVERHANG_NOT_GIVEN;
use crate::problem::{Part, Problem, Severity};
use crate::slope_line::{Stretch, run_to_eave, slope_line};
use crate::{Block, OutlineAt, Plane, Roof, Side, SideKind};

/// A dormer as measured: it stands on a plane and its roof dies into the slope behind.
#[derive(Debug, Clone, PartialEq)]
pub struct Dormer {
    /// Its name, unique among dormers and blocks.
    pub name: String,
    /// The shape of its roof.
    pub kind: DormerKind,
    /// Id of the plane on which it stands.
    pub on: String,
    /// From the plane's left end to the dormer's middle.
    pub across: Length,
    /// Up the slope from the plane's bearing side to the front wall.
    pub up: Length,
    /// Over the cheeks, wall to wall.
    pub width: Length,
    /// Height of the front wall from the slope up to the dormer's eave height.
    pub wall_height: Length,
    /// Of all its planes.
    pub pitch: Pitch,
    /// Past the walls at its eaves. Absent is unknown, not zero.
    pub overhang: Option<Length>,
    /// Past the walls at its rakes. Absent is unknown, not zero.
    pub rake_overhang: Option<Length>,
}

/// The shape of a dormer's roof.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DormerKind {
    /// Two planes and a gable over the front wall.
    Gable,
    /// Three planes.
    Hip,
    /// One plane that falls to the front, less steep than the slope.
    Shed,
}

/// A wall surface that was measured with the roof; it is no part of the roof's area.
#[derive(Debug, Clone, PartialEq)]
pub struct Wall {
    /// `dormer, left cheek`, seen facing the dormer from the ground.
    pub name: String,
    /// Of one side.
    pub area: Area,
}

/// What dormers add to a house.
#[derive(Default)]
struct Stood {
    /// One for each dormer that stands.
    blocks: Vec<Block>,
    cheeks: Vec<Wall>,
    problems: Vec<Problem>,
}

/// Stands dormers on a house, given its blocks and what was built of them alone. Gives the house built anew together with
/// its dormers, and two cheeks for each.
#[must_use]
pub fn with_dormers(alone: Built, blocks: &[Block], dormers: &[Dormer], north_deg: f64) -> (Built, Vec<Wall>) {
    if dormers.is_empty() {
        return (alone, Vec::new());
    }
    let stood = stand(&alone.roof, dormers);
    let mut built = build_with(blocks, &stood.blocks, north_deg);
    // The front and the cheeks of a dormer are meant to stand out above the slope. Its overhangs are asked for in its own words.
    let is_of_a_dormer = |problem: &Problem| stood.blocks.iter().any(|block| block.name == problem.block);
    let is_outer = |problem: &Problem| problem.part != Part::Side { hole: None, side: BACK };
    let is_meant = |problem: &Problem| match problem.code {
        POKES_THROUGH => is_outer(problem),
        OVERHANG_NOT_GIVEN => true,
        _ => false,
    };
    built.problems.retain(|problem| !(is_meant(problem) && is_of_a_dormer(problem)));
    built.problems.extend(stood.problems);
    (built, stood.cheeks)
}

fn stand(roof: &Roof, dormers: &[Dormer]) -> Stood {
    let mut stood = Stood::default();
    for dormer in dormers {
        match Site::of(roof, dormer) {
            Ok(site) => {
                stood.problems.extend(above_the_slope(dormer, &site));
                stood.problems.extend(past_the_eave(dormer, &site));
                stood.problems.extend(overhangs_not_given(dormer));
                stood.cheeks.extend(cheeks(roof, dormer, &site));
                stood.blocks.push(block(&ending_over_the_eave(dormer, &site), &site));
            }
            Err(problem) => stood.problems.push(*problem),
        }
    }
    stood
}

/// Where a dormer stands, heights above its foot: the slope at its front wall.
struct Site<'a> {
    plane: &'a Plane,
    /// Height of the foot above the datum.
    foot: f64,
    /// Level distance from the bearing side to the front wall.
    run: f64,
    /// Level distance from the front wall to where its roof ends.
    depth: f64,
    /// Its roof ends there because the slope does.
    is_cut_off: bool,
    /// Level distance from the front wall out to the eave below it; nothing where a break or another plane is below.
    to_eave: Option<f64>,
}

impl<'a> Site<'a> {
    fn of(roof: &'a Roof, dormer: &Dormer) -> Result<Self, Box<Problem>> {
        let plane =
            roof.planes.iter().find(|plane| plane.id == dormer.on).ok_or_else(|| Box::new(unknown_plane(roof, dormer)))?;
        if !stands_on(plane, dormer) {
            return Err(Box::new(off_its_plane(plane, dormer)));
        }
        let up = dormer.up.to_inches();
        let line = slope_line(roof, plane, dormer.across.to_inches(), up);
        let died = line.iter().find_map(|stretch| stretch.meets(top(dormer)));
        Ok(Self {
            plane,
            foot: plane.frame.point([0.0, up])[2],
            run: up / plane.pitch.slope_factor(),
            depth: died.unwrap_or_else(|| line.last().map_or(0.0, |last| last.to)),
            is_cut_off: died.is_none(),
            to_eave: to_eave(plane, dormer),
        })
    }
}

/// From the front wall to the nearest eave below it.
fn to_eave(plane: &Plane, dormer: &Dormer) -> Option<f64> {
    let half = dormer.width.to_inches() / 2.0 - HAIR;
    let runs = [-half, 0.0, half].map(|u| run_to_eave(plane, dormer.across.to_inches() + u, dormer.up.to_inches()));
    runs.into_iter().flatten().reduce(f64::min)
}

/// What hangs over the front wall.
fn front_overhang(dormer: &Dormer) -> Option<Length> {
    match dormer.kind {
        DormerKind::Gable => dormer.rake_overhang,
        DormerKind::Hip | DormerKind::Shed => dormer.overhang,
    }
}

/// The same with a front overhang that ends over the eave below it at the latest. The eaves of a hip dormer stay at one
/// height, so all of them are as short.
fn ending_over_the_eave(dormer: &Dormer, site: &Site) -> Dormer {
    let Some(most) = site.to_eave.map(Length::inches) else { return dormer.clone() };
    let shortened = |overhang: Option<Length>| overhang.map(|overhang| if overhang > most { most } else { overhang });
    match dormer.kind {
        DormerKind::Gable => Dormer { rake_overhang: shortened(dormer.rake_overhang), ..dormer.clone() },
        DormerKind::Hip | DormerKind::Shed => Dormer { overhang: shortened(dormer.overhang), ..dormer.clone() },
    }
}

/// The highest line of a dormer's roof over its middle: height at the front wall, and rise per inch behind it.
fn top(dormer: &Dormer) -> [f64; 2] {
    let slope = dormer.pitch.rise() / 12.0;
    let eaves = dormer.wall_height.to_inches();
    match dormer.kind {
        DormerKind::Gable | DormerKind::Hip => [eaves + slope * dormer.width.to_inches() / 2.0, 0.0],
        DormerKind::Shed => [eaves, slope],
    }
}

/// The upper edge of a cheek.
fn cheek_top(dormer: &Dormer) -> [f64; 2] {
    match dormer.kind {
        DormerKind::Gable | DormerKind::Hip => [dormer.wall_height.to_inches(), 0.0],
        DormerKind::Shed => top(dormer),
    }
}

fn cheeks(roof: &Roof, dormer: &Dormer, site: &Site) -> Vec<Wall> {
    let cheek = |side: &str, sense: f64| {
        let across = dormer.across.to_inches() + sense * dormer.width.to_inches() / 2.0;
        let line = slope_line(roof, site.plane, across, dormer.up.to_inches());
        let area = line.iter().map(|stretch: &Stretch| stretch.area_below(cheek_top(dormer), site.depth)).sum();
        Wall { name: format!("{}, {side} cheek", dormer.name), area: Area::square_inches(area) }
    };
    vec![cheek("left", -1.0), cheek("right", 1.0)]
}

/// Which side of a dormer's block lies in the slope; they run front, right, back, left.
const BACK: usize = 2;

fn block(dormer: &Dormer, site: &Site) -> Block {
    let half = dormer.width.to_inches() / 2.0;
    let across = dormer.across.to_inches();
    let (right, inward) = (site.plane.frame.right, site.plane.frame.inward());
    let [x, y, _] = site.plane.frame.origin;
    let corner = |u: f64, run: f64| -> Point { add([x, y], add(scale(right, u), scale(inward, run))) };
    let (front, back) = (site.run, site.run + site.depth);
    let eave = || Side { overhang: dormer.overhang, ..Side::new(SideKind::Eave(dormer.pitch)) };
    let rake = || Side { overhang: dormer.rake_overhang, ..Side::new(SideKind::Gable) };
    let inner = Side { overhang: Some(Length::ZERO), ..Side::new(SideKind::Gable) };
    let [before, beside] = match dormer.kind {
        DormerKind::Gable => [rake(), eave()],
        DormerKind::Hip => [eave(), eave()],
        DormerKind::Shed => [eave(), rake()],
    };
    Block {
        name: dormer.name.clone(),
        outline: vec![
            corner(across - half, front),
            corner(across + half, front),
            corner(across + half, back),
            corner(across - half, back),
        ],
        outline_at: OutlineAt::Walls,
        sides: vec![before, beside.clone(), inner, beside],
        holes: Vec::new(),
        eave_height: site.foot + dormer.wall_height.to_inches(),
    }
}

/// So far inside its ends a front wall is surely over its plane, in inches.
const HAIR: f64 = 1.0 / 64.0;

/// Whether both ends of the front wall stand on the plane.
fn stands_on(plane: &Plane, dormer: &Dormer) -> bool {
    let half = dormer.width.to_inches() / 2.0 - HAIR;
    let rings = plane.places();
    let holds = |u: f64| {
        let p = [dormer.across.to_inches() + u, dormer.up.to_inches() + HAIR];
        rings.iter().filter(|ring| polygon::contains(ring, p)).count() % 2 == 1
    };
    holds(-half) && holds(half)
}

fn problem(dormer: &Dormer, code: &'static str, severity: Severity, says: String, remedy: String) -> Problem {
    Problem { code, severity, block: dormer.name.clone(), part: Part::Whole, says, remedy }
}

fn unknown_plane(roof: &Roof, dormer: &Dormer) -> Problem {
    let ids: Vec<&str> = roof.planes.iter().map(|plane| plane.id.as_str()).collect();
    let says = format!("there is no plane \"{}\" for the dormer to stand on", dormer.on);
    problem(dormer, "dormer-on-unknown-plane", Severity::Error, says, format!("the planes are {}", ids.join(", ")))
}

fn off_its_plane(plane: &Plane, dormer: &Dormer) -> Problem {
    let says = format!("the dormer's front wall, {} wide, does not stand on {}", dormer.width, plane.name);
    let remedy = "measure across from the plane's left end to the dormer's middle, and up the slope from the roof edge";
    problem(dormer, "dormer-off-its-plane", Severity::Error, says, remedy.into())
}

fn above_the_slope(dormer: &Dormer, site: &Site) -> Option<Problem> {
    let says = format!("the dormer's roof does not die into the slope: it stands above the top of {}", site.plane.name);
    let remedy = "a lower front wall, a lower pitch, less width or a place further down would let it die in";
    site.is_cut_off.then(|| problem(dormer, "dormer-above-slope", Severity::Caution, says, remedy.into()))
}

fn overhangs_not_given(dormer: &Dormer) -> Vec<Problem> {
    let rakes = dormer.kind != DormerKind::Hip && dormer.rake_overhang.is_none();
    let absent = [("eaves", "overhang", dormer.overhang.is_none()), ("rakes", "rake_overhang", rakes)];
    let problem = |(edges, key, _)| {
        let says =
            format!("the overhang of the dormer's {edges} is not given, so they are taken to be flush with its walls");
        let remedy = format!("measure it and write {key} = \"...\" in the dormer; 0 if it is flush");
        problem(dormer, OVERHANG_NOT_GIVEN, Severity::Caution, says, remedy)
    };
    absent.into_iter().filter(|(.., is_absent)| *is_absent).map(problem).collect()
}

fn past_the_eave(dormer: &Dormer, site: &Site) -> Option<Problem> {
    let (overhang, to_eave) = (front_overhang(dormer)?, Length::inches(site.to_eave?));
    let past = overhang - to_eave;
    let says = format!(
        "the dormer's front overhang of {overhang} would reach {past} past the eave of {}, which lies {to_eave} before its \
         front wall, so it is planned to end over that eave",
        site.plane.name
    );
    let remedy = "measure again how far up the slope the front wall stands, and the overhang";
    (past.to_inches() > 1.0 / 16.0).then(|| problem(dormer, "dormer-past-eave", Severity::Caution, says, remedy.into()))
}
