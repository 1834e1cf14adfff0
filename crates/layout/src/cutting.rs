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
    let table = Table::new(kinds.iter().map(|kind| Candidate::of(kind, &blank)).collect(), blank);
    let (filled, bound) = match rules {
        Some(_) => fewest(&table),
        None => (kinds.iter().enumerate().map(|(index, kind)| (vec![index], kind.count)).collect(), bound(&table)),
    };
    let units = filled.into_iter().map(|(pieces, count)| laid_out(&table, &kinds, &blank, &pieces, count)).collect();
    Cutting { sheet: covering.id.clone(), unit, whole, kinds, units, bound: whole + bound }
}

/// The fewest units found, and a bound on them. What takes longer is done only while it can still gain something.
fn fewest(table: &Table) -> (Filled, u64) {
    let mut best = fill(table, &areas(table));
    let mut bound = heights::least_units(table);
    if count(&best) > bound {
        best = [pairs(table)].into_iter().flatten().fold(best, fewer);
    }
    if count(&best) > bound {
        let seeds: Vec<Vec<usize>> = best.iter().map(|(set, _)| set.clone()).collect();
        if let Some(prices) = dual::prices(table, &seeds) {
            best = fewer(best, fill(table, &prices));
            bound = bound.max(dual::proven(table, &prices));
        }
    }
    (best, bound)
}

fn fewer(one: Filled, other: Filled) -> Filled {
    if count(&other) < count(&one) { other } else { one }
}

/// As the bound of [`fewest`].
fn bound(table: &Table) -> u64 {
    let quick = heights::least_units(table);
    dual::prices(table, &[]).map_or(quick, |prices| quick.max(dual::proven(table, &prices)))
}

/// Values that rise with area, and always more for a piece than for none.
fn areas(table: &Table) -> Vec<u64> {
    table.kinds.iter().map(|kind| (kind.area / table.blank.area() * ONE as f64) as u64 + 1).collect()
}

/// Where each piece of a set lies in its unit.
fn laid_out(table: &Table, kinds: &[PieceKind], blank: &Blank, pieces: &[usize], count: u64) -> CutUnit {
    let candidates = table.candidates(pieces);
    let seated = seats(&candidates, blank).unwrap_or_default();
    let cutout = |seat: &candidate::Seat| {
        let shape = &candidates[seat.piece].shapes[seat.shape];
        Cutout { kind: pieces[seat.piece], at: [seat.u, shape.low], turned: shape.turned }
    };
    debug_assert!(seated.len() == pieces.len() && kinds.len() == table.kinds.len());
    CutUnit { count, pieces: seated.iter().map(cutout).collect() }
}
