use std::collections::BTreeMap;

use covering::Covering;
use layout::{LaidPlane, Layout};
use roof::{EdgeKind, Place, Plane, Roof};
use units::{Length, Mass};

/// How units are staged on the roof.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StageChoices {
    /// Up the slope, within the reach of those who lay from one line of planks.
    pub reach: Length,
    /// From pile to pile along the course.
    pub apart: Length,
    /// Side of the square patch of deck, on the slope, over which boards spread a pile.
    pub patch: Length,
    /// What the framing was designed to carry beside its own weight, pounds a square foot of plan.
    pub live_load_psf: Option<f64>,
}

impl Default for StageChoices {
    /// Common practice, no published source: an arm's reach above the planks, a step aside, a patch of 4 by 4 ft.
    fn default() -> Self {
        let [reach, apart, patch] = [4.0, 6.0, 4.0].map(Length::feet);
        Self { reach, apart, patch, live_load_psf: None }
    }
}

/// No crew sets down more piles, nor lays more pieces, in one go.
const MOST_PILES: f64 = 5000.0;
const MOST_PIECES: u64 = 1_000_000;

/// Piles of field units, each beside the pieces that are laid from it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stage {
    /// In the order in which they are set down.
    pub piles: Vec<Pile>,
    /// Planes that lean on each other over a ridge, and how evenly they are loaded.
    pub balances: Vec<Balance>,
}

/// A pile in the middle of what is laid from it, so that piles on both sides of a ridge or a hip stay apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Pile {
    /// Index in [`Roof::planes`].
    pub plane: usize,
    /// Band of courses that are laid from one line of planks, counted from 0 at the eave.
    pub band: usize,
    /// First and last course laid from it, counted from 0.
    pub courses: [usize; 2],
    /// Its middle, in the plane's own frame, inches; on a piece of the roof.
    pub at: Place,
    /// Pieces laid from it, each as a unit.
    pub units: u64,
    /// Units set down at once, at most; none if the patch carries not even one.
    pub at_once: u64,
    /// How often units are set down here.
    pub times: u64,
    /// Of the units set down at once.
    pub weight: Mass,
    /// Of those, over the patch, pounds a square foot of plan.
    pub patch_psf: f64,
}

/// How evenly planes are loaded that lean on each other, while each pile is set down once.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// Indices in [`Roof::planes`].
    pub planes: Vec<usize>,
    /// The greatest difference between two of them while both have piles to come.
    pub greatest_difference: Mass,
    /// On each when every pile stands.
    pub at_end: Vec<Mass>,
}

/// Piles for every laid plane: from the top band down, always on the plane of a group that carries least, so that while piles
/// are to come on both sides of a ridge they differ by no more than a pile. None where they would be more than 5,000, or for
/// more than a million pieces.
#[must_use]
pub fn stage<'a>(
    roof: &'a Roof,
    layout: &'a Layout,
    choices: &StageChoices,
    covering_of: impl Fn(&Plane) -> Option<&'a Covering>,
) -> Stage {
    let mut stage = Stage::default();
    if is_too_large(roof, layout, choices) {
        return stage;
    }
    for planes in leaning(roof, layout) {
        let of_plane = |&index: &usize| {
            let plane = roof.planes.get(index)?;
            let laid = layout.planes.iter().find(|laid| laid.plane == index)?;
            Some(piles(plane, laid, covering_of(plane)?, choices))
        };
        let waiting: Vec<Vec<Pile>> = planes.iter().map(|plane| of_plane(plane).unwrap_or_default()).collect();
        let (piles, balance) = evenly(planes, waiting);
        stage.piles.extend(piles);
        stage.balances.extend(balance);
    }
    stage
}

fn is_too_large(roof: &Roof, layout: &Layout, choices: &StageChoices) -> bool {
    let pieces: u64 = layout.planes.iter().map(|laid| laid.counts().pieces()).sum();
    let areas = layout.planes.iter().filter_map(|laid| roof.planes.get(laid.plane)).map(|plane| plane.area());
    let area: f64 = areas.map(|area| area.to_square_inches()).sum();
    pieces > MOST_PIECES || area / (choices.reach.to_inches() * choices.apart.to_inches()) > MOST_PILES
}

/// The laid planes in groups that are joined by ridges.
fn leaning(roof: &Roof, layout: &Layout) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = layout.planes.iter().map(|laid| vec![laid.plane]).collect();
    for ridge in roof.lines.iter().filter(|line| line.kind == EdgeKind::Ridge) {
        let (joined, rest): (Vec<_>, Vec<_>) =
            groups.into_iter().partition(|group| group.iter().any(|plane| ridge.planes.contains(plane)));
        groups = rest;
        let mut joined = joined.concat();
        joined.sort_unstable();
        groups.extend((!joined.is_empty()).then_some(joined));
    }
    groups.sort();
    groups
}

/// Takes the next pile of the plane that carries least, again and again.
fn evenly(planes: Vec<usize>, waiting: Vec<Vec<Pile>>) -> (Vec<Pile>, Option<Balance>) {
    let mut waiting: Vec<_> = waiting.into_iter().map(|piles| piles.into_iter().peekable()).collect();
    let mut carried = vec![0.0_f64; planes.len()];
    let mut worst = 0.0_f64;
    let mut piles = Vec::new();
    loop {
        let open: Vec<usize> = (0..planes.len()).filter(|&at| waiting[at].peek().is_some()).collect();
        let Some(&next) = open.iter().min_by(|&&a, &&b| carried[a].total_cmp(&carried[b])) else { break };
        let Some(pile) = waiting[next].next() else { break };
        carried[next] += pile.weight.to_pounds();
        piles.push(pile);
        let [least, most] = open
            .iter()
            .fold([f64::INFINITY, 0.0], |[least, most]: [f64; 2], &at| [least.min(carried[at]), most.max(carried[at])]);
        worst = worst.max(most - least);
    }
    let balance = (planes.len() > 1).then(|| Balance {
        planes,
        greatest_difference: Mass::pounds(worst),
        at_end: carried.into_iter().map(Mass::pounds).collect(),
    });
    (piles, balance)
}

/// A piece for which units are staged.
struct Piece {
    course: usize,
    middle: Place,
}

/// Piles of one plane, from the top band down, left to right.
fn piles(plane: &Plane, laid: &LaidPlane, covering: &Covering, choices: &StageChoices) -> Vec<Pile> {
    let patch = Patch::of(plane, covering, choices);
    let pieces = pieces(laid);
    let [low, high] = range(pieces.iter().map(|piece| laid.courses[piece.course].butt));
    let bands = ((high - low) / choices.reach.to_inches()).floor() + 1.0;
    let band = |piece: &Piece| cell(laid.courses[piece.course].butt, [low, high], bands);
    let mut in_bands: BTreeMap<u64, Vec<Piece>> = BTreeMap::new();
    for piece in pieces {
        in_bands.entry(band(&piece)).or_default().push(piece);
    }
    in_bands
        .into_iter()
        .rev()
        .flat_map(|(band, pieces)| piles_of_band(laid, (band as usize, pieces), &patch, choices))
        .collect()
}

fn piles_of_band(laid: &LaidPlane, (band, pieces): (usize, Vec<Piece>), patch: &Patch, choices: &StageChoices) -> Vec<Pile> {
    let [left, right] = range(pieces.iter().map(|piece| piece.middle[0]));
    let columns = ((right - left) / choices.apart.to_inches()).floor() + 1.0;
    let mut cells: BTreeMap<u64, Vec<Piece>> = BTreeMap::new();
    for piece in pieces {
        cells.entry(cell(piece.middle[0], [left, right], columns)).or_default().push(piece);
    }
    cells.into_values().filter_map(|pieces| pile(laid, band, &pieces, patch)).collect()
}

/// Which of so many equal parts of a range a value lies in; its end belongs to the last.
fn cell(value: f64, [from, to]: [f64; 2], parts: f64) -> u64 {
    let share = if to > from { (value - from) / (to - from) } else { 0.0 };
    (share * parts).floor().min(parts - 1.0) as u64
}

fn range(values: impl Iterator<Item = f64>) -> [f64; 2] {
    let nothing = [f64::INFINITY, f64::NEG_INFINITY];
    let range = values.fold(nothing, |[low, high], value| [low.min(value), high.max(value)]);
    if range[0] > range[1] { [0.0; 2] } else { range }
}

/// The middle of what is seen of every piece.
fn pieces(laid: &LaidPlane) -> Vec<Piece> {
    let in_course = laid.courses.iter().enumerate().flat_map(|(course, row)| {
        let v = row.butt + row.exposure / 2.0;
        row.runs.iter().flat_map(move |run| {
            let cut = run.cut.and_then(|cut| laid.cuts.get(cut as usize));
            let half = cut.map_or(run.width / 2.0, |cut| f64::midpoint(cut.extent()[0], cut.extent()[1]));
            run.lefts().map(move |left| Piece { course, middle: [left + half, v] })
        })
    });
    in_course.collect()
}

/// The pile of one cell stands on the piece that is nearest to the middle of them all.
fn pile(laid: &LaidPlane, band: usize, pieces: &[Piece], patch: &Patch) -> Option<Pile> {
    let first = pieces.iter().map(|piece| piece.course).min()?;
    let last = pieces.iter().map(|piece| piece.course).max()?;
    let units = pieces.len() as u64;
    let mean = [0, 1].map(|axis| pieces.iter().map(|piece| piece.middle[axis]).sum::<f64>() / units as f64);
    let off = |piece: &&Piece| libm::hypot(piece.middle[0] - mean[0], piece.middle[1] - mean[1]);
    let at = pieces.iter().min_by(|a, b| off(a).total_cmp(&off(b)))?.middle;
    let most = patch.carries.unwrap_or(units).min(units);
    let times = if most == 0 { 0 } else { units.div_ceil(most) };
    let at_once = if times == 0 { 0 } else { units.div_ceil(times) };
    let weight = patch.unit * at_once as f64;
    let patch_psf = weight.to_pounds() / patch.plan_sqft;
    Some(Pile { plane: laid.plane, band, courses: [first, last], at, units, at_once, times, weight, patch_psf })
}

/// What a patch of one plane carries.
struct Patch {
    /// Seen in plan.
    plan_sqft: f64,
    /// Of one unit.
    unit: Mass,
    /// Units at most; nothing where neither the framing nor the sheet sets a limit.
    carries: Option<u64>,
}

impl Patch {
    fn of(plane: &Plane, covering: &Covering, choices: &StageChoices) -> Self {
        let side = choices.patch.to_inches();
        let plan_sqft = side * side / 144.0 / plane.pitch.slope_factor();
        let unit = covering.unit.weight;
        let by_load = choices
            .live_load_psf
            .filter(|_| unit.to_pounds() > 0.0)
            .map(|live| (live * plan_sqft / unit.to_pounds() * (1.0 + 1e-9)).floor() as u64);
        Self { plan_sqft, unit, carries: [by_load, by_height(covering, side)].into_iter().flatten().min() }
    }
}

/// Units in as many stacks as lie side by side on a patch, each as high as the sheet allows.
fn by_height(covering: &Covering, side: f64) -> Option<u64> {
    let high = covering.conditions.storage.as_ref()?.stack_packs?;
    let across = |unit: Length| (side / unit.to_inches()).floor().max(1.0) as u64;
    let stacks = across(covering.unit.width) * across(covering.unit.length);
    Some(stacks * u64::from(high) * u64::from(covering.pack.count))
}
