//! The piles of one plane.

use std::collections::BTreeMap;

use covering::Covering;
use layout::LaidPlane;
use roof::{Place, Roof};
use units::Length;

use crate::footing::{Patch, footing, patch_within};
use crate::{Pile, StageChoices};

/// What one plane has.
pub(crate) struct OnPlane {
    pub(crate) plane: usize,
    /// From the top band down, left to right.
    pub(crate) piles: Vec<Pile>,
    /// Units for which there is no pile on it.
    pub(crate) handed_up: u64,
}

/// A piece for which units are staged.
#[derive(Clone, Copy)]
struct Piece {
    course: usize,
    /// Of what is seen of it.
    middle: Place,
    half: f64,
}

/// What is laid from one pile, and what the pile has to itself.
struct Cell {
    band: usize,
    own: Patch,
    pieces: Vec<Piece>,
}

/// A pile for every cell in which one finds room; what the others need is laid from the nearest.
pub(crate) fn of_plane(roof: &Roof, laid: &LaidPlane, covering: &Covering, choices: &StageChoices) -> OnPlane {
    let free = footing(roof, laid.plane);
    let unit = [covering.unit.width, covering.unit.length].map(Length::to_inches);
    let side = choices.patch.to_inches();
    let mut stood: Vec<(Cell, Patch)> = Vec::new();
    let mut without: Vec<Cell> = Vec::new();
    for cell in cells(laid, choices) {
        match patch_within(&free, cell.own, side, middle(&cell.pieces), unit) {
            Some(patch) => stood.push((cell, patch)),
            None => without.push(cell),
        }
    }
    let handed_up = if stood.is_empty() { without.iter().map(|cell| cell.pieces.len() as u64).sum() } else { 0 };
    for cell in without {
        let from = middle(&cell.pieces);
        let off = |patch: &Patch| geom::distance(patch.middle(), from);
        let nearest = stood.iter_mut().min_by(|a, b| off(&a.1).total_cmp(&off(&b.1)));
        nearest.into_iter().for_each(|(other, _)| other.pieces.extend(&cell.pieces));
    }
    let factor = roof.planes.get(laid.plane).map_or(1.0, |plane| plane.pitch.slope_factor());
    let piles =
        stood.iter().filter_map(|(cell, patch)| pile(laid.plane, cell, patch, &Carries { covering, choices, factor }));
    OnPlane { plane: laid.plane, piles: piles.collect(), handed_up }
}

/// Equal bands from the top down, each in equal columns.
fn cells(laid: &LaidPlane, choices: &StageChoices) -> Vec<Cell> {
    let pieces = pieces(laid);
    let butt = |piece: &Piece| laid.courses[piece.course].butt;
    let [low, high] = range(pieces.iter().flat_map(|piece| {
        let row = &laid.courses[piece.course];
        [row.butt, row.butt + row.exposure]
    }));
    let bands = parts(high - low, choices.reach);
    let mut in_bands: BTreeMap<u64, Vec<Piece>> = BTreeMap::new();
    for piece in pieces {
        in_bands.entry(part_of(butt(&piece), [low, high], bands)).or_default().push(piece);
    }
    let of_band = |(band, pieces): (u64, Vec<Piece>)| columns(band, part([low, high], bands, band), pieces, choices);
    in_bands.into_iter().rev().flat_map(of_band).collect()
}

fn columns(band: u64, [low, high]: [f64; 2], pieces: Vec<Piece>, choices: &StageChoices) -> Vec<Cell> {
    let [left, right] = range(pieces.iter().flat_map(|piece| [piece.middle[0] - piece.half, piece.middle[0] + piece.half]));
    let columns = parts(right - left, choices.apart);
    let mut cells: BTreeMap<u64, Vec<Piece>> = BTreeMap::new();
    for piece in pieces {
        cells.entry(part_of(piece.middle[0], [left, right], columns)).or_default().push(piece);
    }
    let cell = |(column, pieces)| {
        let [from, to] = part([left, right], columns, column);
        Cell { band: band as usize, own: Patch { least: [from, low], greatest: [to, high] }, pieces }
    };
    cells.into_iter().map(cell).collect()
}

/// The fewest equal parts of a length that are no longer than `most`.
fn parts(length: f64, most: Length) -> f64 {
    (length / most.to_inches() - 1e-9).ceil().max(1.0)
}

/// Which of so many equal parts of a range a value lies in; its end belongs to the last.
fn part_of(value: f64, [from, to]: [f64; 2], parts: f64) -> u64 {
    let share = if to > from { (value - from) / (to - from) } else { 0.0 };
    (share * parts).floor().min(parts - 1.0) as u64
}

/// One of so many equal parts of a range.
fn part([from, to]: [f64; 2], parts: f64, which: u64) -> [f64; 2] {
    [which, which + 1].map(|end| from + (to - from) * end as f64 / parts)
}

fn range(values: impl Iterator<Item = f64>) -> [f64; 2] {
    let nothing = [f64::INFINITY, f64::NEG_INFINITY];
    let range = values.fold(nothing, |[low, high], value| [low.min(value), high.max(value)]);
    if range[0] > range[1] { [0.0; 2] } else { range }
}

fn middle(pieces: &[Piece]) -> Place {
    let count = pieces.len().max(1) as f64;
    [0, 1].map(|axis| pieces.iter().map(|piece| piece.middle[axis]).sum::<f64>() / count)
}

/// What is seen of every piece.
fn pieces(laid: &LaidPlane) -> Vec<Piece> {
    let in_course = laid.courses.iter().enumerate().flat_map(|(course, row)| {
        let v = row.butt + row.exposure / 2.0;
        row.runs.iter().flat_map(move |run| {
            let cut = run.cut.and_then(|cut| laid.cuts.get(cut as usize));
            let [from, to] = cut.map_or([0.0, run.width], layout::Cut::extent);
            let (at, half) = (f64::midpoint(from, to), (to - from) / 2.0);
            run.lefts().map(move |left| Piece { course, middle: [left + at, v], half })
        })
    });
    in_course.collect()
}

/// What decides how many units a patch carries.
struct Carries<'a> {
    covering: &'a Covering,
    choices: &'a StageChoices,
    factor: f64,
}

fn pile(plane: usize, cell: &Cell, patch: &Patch, of: &Carries<'_>) -> Option<Pile> {
    let first = cell.pieces.iter().map(|piece| piece.course).min()?;
    let last = cell.pieces.iter().map(|piece| piece.course).max()?;
    let units = cell.pieces.len() as u64;
    let most = of.units(patch.size()).unwrap_or(units).min(units);
    let times = if most == 0 { 0 } else { units.div_ceil(most) };
    let at_once = if times == 0 { 0 } else { units.div_ceil(times) };
    let weight = of.covering.unit.weight * at_once as f64;
    Some(Pile {
        plane,
        band: cell.band,
        courses: [first, last],
        at: patch.middle(),
        patch: patch.size().map(Length::inches),
        units,
        at_once,
        times,
        weight,
        patch_psf: weight.to_pounds() / of.plan_sqft(patch.size()),
    })
}

impl Carries<'_> {
    /// Of a patch, seen in plan.
    fn plan_sqft(&self, [across, up]: [f64; 2]) -> f64 {
        across * up / 144.0 / self.factor
    }

    /// Units at most; nothing where neither the framing nor the sheet sets a limit.
    fn units(&self, patch: [f64; 2]) -> Option<u64> {
        let unit = self.covering.unit.weight.to_pounds();
        let by_load = self.choices.live_load_psf.filter(|_| unit > 0.0);
        let by_load = by_load.map(|live| (live * self.plan_sqft(patch) / unit * (1.0 + 1e-9)).floor() as u64);
        [by_load, self.by_height(patch)].into_iter().flatten().min()
    }

    /// Units in as many stacks as lie side by side on a patch, each as high as the sheet allows.
    fn by_height(&self, patch: [f64; 2]) -> Option<u64> {
        let high = self.covering.conditions.storage.as_ref()?.stack_packs?;
        let unit = [self.covering.unit.width, self.covering.unit.length].map(Length::to_inches);
        let fit = |[a, b]: [f64; 2]| (patch[0] / a).floor() as u64 * (patch[1] / b).floor() as u64;
        // With their heads up the slope, or along it.
        let stacks = fit(unit).max(fit([unit[1], unit[0]]));
        Some(stacks * u64::from(high) * u64::from(self.covering.pack.count))
    }
}
