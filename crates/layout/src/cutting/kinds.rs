//! The cut pieces of planes, equal ones counted together.

use std::collections::BTreeMap;

use covering::{CuttingRules, MadeSides};
use roof::Place;

use super::saw::{Saw, saw};
use super::shape::{Blank, Kept, SNUG, area_of, extent};
use crate::{Cut, LaidPlane, Run, UnitKind};

/// Sides nearer than this to the unit's own, in, are the unit's own.
const OWN: f64 = 1e-6;

/// Equal cut pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceKind {
    /// Its outline as it lies in the unit, moved so that its box begins at the origin, inches: outer rings
    /// counter-clockwise, holes clockwise.
    pub parts: Vec<Vec<Place>>,
    /// Of its lowest point above the unit's butt, as laid, inches.
    pub low: f64,
    /// Edges that must be the unit's own.
    pub kept: Kept,
    /// How the saw is set for it.
    pub saw: Saw,
    /// One letter, or two, for each setting of the saw.
    pub bin: String,
    /// Of the box around it, inches.
    pub width: f64,
    /// Of the box around it, inches.
    pub height: f64,
    /// Sq in.
    pub area: f64,
    /// How many.
    pub count: u64,
    /// Where they lie.
    pub from: Vec<Origin>,
}

/// Some of a plane's cut pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Origin {
    /// Index in `roof.planes`.
    pub plane: usize,
    /// Index in [`LaidPlane::cuts`].
    pub cut: u32,
    /// How many.
    pub count: u64,
}

/// Whole pieces made of one kind of unit, and the kinds of cut ones in the order of the saw.
pub(crate) fn kinds(planes: &[&LaidPlane], unit: &UnitKind, rules: Option<&CuttingRules>) -> (u64, Vec<PieceKind>) {
    let mut sorted = Sorting { blank: blank(unit, rules), unit: *unit, sides: made_sides(rules), ..Sorting::default() };
    for plane in planes {
        sorted.add(plane);
    }
    let mut kinds: Vec<PieceKind> = sorted.kinds.into_values().collect();
    kinds.sort_by(|a, b| a.saw.order(&b.saw).then(b.width.total_cmp(&a.width)).then(b.area.total_cmp(&a.area)));
    label(&mut kinds);
    (sorted.whole, kinds)
}

/// A bin for each setting of the saw.
fn label(kinds: &mut [PieceKind]) {
    for (index, bin) in kinds.chunk_by_mut(|a, b| a.saw.same(&b.saw)).enumerate() {
        bin.iter_mut().for_each(|kind| kind.bin = letters(index));
    }
}

/// A to Z, then AA to AZ, and so on.
fn letters(index: usize) -> String {
    let last = char::from(b'A' + (index % 26) as u8);
    if index < 26 { last.into() } else { letters(index / 26 - 1) + &last.to_string() }
}

/// Where the sheet says nothing, the most is allowed that any sheet could: the bound must hold for it.
pub(crate) fn blank(unit: &UnitKind, rules: Option<&CuttingRules>) -> Blank {
    Blank {
        length: unit.length,
        width: unit.width,
        kerf: rules.map_or(0.0, |rules| rules.kerf.to_inches()),
        least_offcut: rules.map_or(0.0, |rules| rules.least_offcut.to_inches()),
        even: rules.is_none_or(|rules| rules.even),
        turned: rules.is_none_or(|rules| rules.turned),
    }
}

fn made_sides(rules: Option<&CuttingRules>) -> MadeSides {
    rules.map_or(MadeSides::Nowhere, |rules| rules.made_sides)
}

#[derive(Default)]
struct Sorting {
    blank: Blank,
    unit: UnitKind,
    sides: MadeSides,
    whole: u64,
    kinds: BTreeMap<(Kept, Vec<i64>), PieceKind>,
}

impl Sorting {
    fn add(&mut self, plane: &LaidPlane) {
        let mut counts: BTreeMap<(u32, Kept), u64> = BTreeMap::new();
        for course in &plane.courses {
            for (index, run) in course.runs.iter().enumerate() {
                if plane.units.get(run.unit as usize) != Some(&self.unit) {
                    continue;
                }
                let Some((number, cut)) = run.cut.and_then(|cut| Some((cut, plane.cuts.get(cut as usize)?))) else {
                    self.whole += u64::from(run.count);
                    continue;
                };
                let joint_after = course.runs.get(index + 1).is_some_and(|next| next.joint_before);
                for (kept, count) in self.kept(cut, run, joint_after) {
                    *counts.entry((number, kept)).or_default() += count;
                }
            }
        }
        for ((cut, kept), count) in counts {
            self.count(kept, &plane.cuts[cut as usize], Origin { plane: plane.plane, cut, count });
        }
    }

    /// The edges that the pieces of a run must keep. Those at its ends may have no neighbour.
    fn kept(&self, cut: &Cut, run: &Run, joint_after: bool) -> Vec<(Kept, u64)> {
        let keeps = |neighbour: bool| match self.sides {
            MadeSides::Everywhere => true,
            MadeSides::Outside => !neighbour,
            MadeSides::Nowhere => false,
        };
        let made = cut.made;
        let butt = made.butt || cut.parts.iter().any(|part| has_butt(part));
        let piece = |before, after| Kept { butt, left: made.left && keeps(before), right: made.right && keeps(after) };
        match u64::from(run.count) {
            0 => vec![],
            1 => vec![(piece(run.joint_before, joint_after), 1)],
            count => {
                let between = (piece(true, true), count - 2);
                vec![(piece(run.joint_before, true), 1), between, (piece(true, joint_after), 1)]
            }
        }
    }

    fn count(&mut self, kept: Kept, cut: &Cut, origin: Origin) {
        if origin.count == 0 {
            return;
        }
        let (parts, low) = from_corner(&cut.parts);
        let height_matters = kept.butt || !self.blank.even;
        let key = key(&parts, if height_matters { low } else { 0.0 });
        let new = || {
            let [width, height] = extent(&parts);
            let (saw, area) = (saw(&cut.parts), area_of(&parts));
            PieceKind { low, kept, saw, bin: String::new(), width, height, area, count: 0, from: Vec::new(), parts }
        };
        let kind = self.kinds.entry((kept, key)).or_insert_with(new);
        kind.count += origin.count;
        kind.from.push(origin);
    }
}

fn is_own(u: f64, own: f64) -> bool {
    (u - own).abs() < OWN
}

fn has_butt(part: &[Place]) -> bool {
    crate::cut::sides(part).any(|[from, to]| is_own(from[1], 0.0) && is_own(to[1], 0.0) && (to[0] - from[0]).abs() > SNUG)
}

/// The rings with their box's corner at the origin, and how high that lay.
fn from_corner(parts: &[Vec<Place>]) -> (Vec<Vec<Place>>, f64) {
    let corners = parts.iter().flatten();
    let [left, low] = corners.fold([f64::INFINITY; 2], |[left, low], &[u, v]| [left.min(u), low.min(v)]);
    let moved = |part: &Vec<Place>| part.iter().map(|&[u, v]| [u - left, v - low]).collect();
    (parts.iter().map(moved).collect(), low)
}

/// Equal for outlines that agree to 2^-16 in.
fn key(parts: &[Vec<Place>], low: f64) -> Vec<i64> {
    let steps = |inches: f64| (inches * 65_536.0).round() as i64;
    let mut key = vec![steps(low)];
    for part in parts {
        let corners: Vec<[i64; 2]> = part.iter().map(|at| at.map(steps)).collect();
        let start = (0..corners.len()).min_by_key(|&index| corners[index]).unwrap_or(0);
        key.push(corners.len() as i64);
        key.extend(corners[start..].iter().chain(&corners[..start]).flatten());
    }
    key
}
