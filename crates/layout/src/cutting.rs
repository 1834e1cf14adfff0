//! Which offcut makes which piece: how few units the cut pieces of a roof can be sawn from.
//!
//! A piece keeps its face and its way up. Its made butt must be a made butt, so it moves along the course only; a piece
//! that a valley leaves without a butt may also come from another height, if the unit is even from butt to head. A side
//! that is laid as the unit made it stays a made one where the sheet asks. Pieces of one unit lie a kerf apart, and only
//! one of them may be narrower than the least offcut. A piece comes from a unit of the kind that it is laid as.
//!
//! Equal pieces are one kind. Which kinds go into one unit together is told exactly for convex pieces, as each lies left
//! or right of another; sets of which that is not known count as fitting for the bound, and as not fitting for the stock.

mod candidate;
mod dual;
mod fill;
mod heights;
mod kinds;
mod pairs;
mod saw;
mod search;
mod shape;
mod table;

use std::collections::BTreeMap;

use covering::Covering;
use roof::{Place, Plane, Roof};

use crate::{LaidPlane, Layout, UnitKind};
use candidate::{Candidate, seats};
use fill::{Filled, count, fill};
use kinds::{blank, kinds};
use pairs::pairs;
use search::ONE;
use shape::Blank;
use table::Table;

pub use kinds::{Origin, PieceKind};
pub use saw::{Hand, Saw};
pub use shape::Kept;

/// How the pieces of one kind of unit are cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Cutting {
    /// The sheet's id.
    pub sheet: String,
    /// What they are cut from.
    pub unit: UnitKind,
    /// Pieces that are whole units.
    pub whole: u64,
    /// The cut pieces in the order of the saw.
    pub kinds: Vec<PieceKind>,
    /// Every cut piece is in one of these, once.
    pub units: Vec<CutUnit>,
    /// No way of cutting by the sheet's rules needs fewer units, whole ones among them.
    pub bound: u64,
}

impl Cutting {
    /// Units to take: the whole ones and those that are cut.
    #[must_use]
    pub fn stock(&self) -> u64 {
        self.whole + self.units.iter().map(|unit| unit.count).sum::<u64>()
    }

    /// Pieces, whole and cut.
    #[must_use]
    pub fn pieces(&self) -> u64 {
        self.whole + self.kinds.iter().map(|kind| kind.count).sum::<u64>()
    }
}

/// Units that are cut alike.
#[derive(Debug, Clone, PartialEq)]
pub struct CutUnit {
    /// How many.
    pub count: u64,
    /// What each gives, left to right.
    pub pieces: Vec<Cutout>,
}

/// A piece in the unit that it is cut from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cutout {
    /// Index in [`Cutting::kinds`].
    pub kind: usize,
    /// Lower left corner of the box around it, from the unit's lower left corner, inches.
    pub at: Place,
    /// It lies head for tail.
    pub turned: bool,
}

/// Cuts all pieces of a roof, sheet by sheet in the order of their ids. `covering_of` gives the sheet in which a plane was
/// laid.
#[must_use]
pub fn cut_roof<'a>(roof: &Roof, layout: &Layout, covering_of: impl Fn(&Plane) -> Option<&'a Covering>) -> Vec<Cutting> {
    let mut sheets: BTreeMap<&str, (&Covering, Vec<&LaidPlane>)> = BTreeMap::new();
    for laid in &layout.planes {
        if let Some(covering) = roof.planes.get(laid.plane).and_then(&covering_of) {
            sheets.entry(&covering.id).or_insert_with(|| (covering, Vec::new())).1.push(laid);
        }
    }
    sheets.into_values().flat_map(|(covering, planes)| cut_units(&planes, covering)).collect()
}

/// Cuts all pieces of planes that are laid in one sheet, one [`Cutting`] for every kind of unit. Where the sheet does not say
/// how units may be cut, each piece takes a unit, and the bound holds for whatever it could say.
#[must_use]
pub fn cut_units(planes: &[&LaidPlane], covering: &Covering) -> Vec<Cutting> {
    let mut units: Vec<UnitKind> = Vec::new();
    for &unit in planes.iter().flat_map(|plane| &plane.units) {
        if !units.contains(&unit) {
            units.push(unit);
        }
    }
    units.into_iter().map(|unit| cut_kind(planes, covering, unit)).collect()
}

fn cut_kind(planes: &[&LaidPlane], covering: &Covering, unit: UnitKind) -> Cutting {
    let rules = covering.cutting.as_ref();
    let blank = blank(&unit, rules);
    let (whole, kinds) = kinds(planes, &unit, rules);
    let candidates: Vec<Candidate> = kinds.iter().map(|kind| Candidate::of(kind, &blank)).collect();
    let (filled, bound) = match rules {
        Some(_) => fewest(&candidates, &blank, whole),
        None => (
            kinds.iter().enumerate().map(|(index, kind)| (vec![index], kind.count)).collect(),
            bound(candidates.clone(), &blank),
        ),
    };
    let units = filled.iter().map(|(pieces, count)| laid_out(&candidates, &blank, pieces, *count)).collect();
    Cutting { sheet: covering.id.clone(), unit, whole, kinds, units, bound: whole + bound }
}

/// Where the bound is within one in so many units of the stock, both are good enough.
const CLOSE: u64 = 200;
/// Up to so many kinds everything is done at once: it takes no time.
const FEW: usize = 48;
/// Beyond so many kinds, two by two takes too long.
const MANY: usize = 600;

/// The fewest units found, and a bound on them. What takes longer is done only where stock and bound are still apart.
fn fewest(candidates: &[Candidate], blank: &Blank, whole: u64) -> (Filled, u64) {
    let is_close = |(filled, bound): &(Filled, u64)| (count(filled) - bound) * CLOSE <= whole + count(filled);
    if candidates.len() > FEW {
        let quick = quickly(&Table::quick(candidates.to_vec(), *blank));
        if is_close(&quick) || candidates.len() > MANY {
            return quick;
        }
    }
    thoroughly(&Table::complete(candidates.to_vec(), *blank))
}

fn quickly(table: &Table) -> (Filled, u64) {
    (fill(table, &areas(table)), heights::least_units(table))
}

fn thoroughly(table: &Table) -> (Filled, u64) {
    let (mut best, mut bound) = quickly(table);
    if count(&best) > bound {
        let seeds: Vec<Vec<usize>> = best.iter().map(|(set, _)| set.clone()).collect();
        if let Some(prices) = dual::prices(table, &seeds) {
            best = fewer(best, fill(table, &prices));
            bound = bound.max(dual::proven(table, &prices));
        }
    }
    if count(&best) > bound {
        best = pairs(table).into_iter().fold(best, fewer);
    }
    (best, bound)
}

fn fewer(one: Filled, other: Filled) -> Filled {
    if count(&other) < count(&one) { other } else { one }
}

/// A bound alone.
fn bound(candidates: Vec<Candidate>, blank: &Blank) -> u64 {
    match candidates.len() {
        0..=FEW => thoroughly(&Table::complete(candidates, *blank)).1,
        _ => heights::least_units(&Table::quick(candidates, *blank)),
    }
}

/// Values that rise with area, and always more for a piece than for none.
fn areas(table: &Table) -> Vec<u64> {
    table.kinds.iter().map(|kind| (kind.area / table.blank.area() * ONE as f64) as u64 + 1).collect()
}

/// Where each piece of a set lies in its unit.
fn laid_out(candidates: &[Candidate], blank: &Blank, pieces: &[usize], count: u64) -> CutUnit {
    let chosen: Vec<&Candidate> = pieces.iter().map(|&piece| &candidates[piece]).collect();
    let seated = seats(&chosen, blank).unwrap_or_default();
    debug_assert!(seated.len() == pieces.len(), "a set that fits has a seat for each of its pieces");
    let cutout = |seat: &candidate::Seat| {
        let shape = &chosen[seat.piece].shapes[seat.shape];
        Cutout { kind: pieces[seat.piece], at: [seat.u, shape.low], turned: shape.turned }
    };
    CutUnit { count, pieces: seated.iter().map(cutout).collect() }
}
