use std::collections::BTreeMap;

use layout::{CutUnit, Cutting, UnitKind};

use crate::laying::Laying;

/// Units from which the pieces are cut, field units and wide ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Stock {
    /// Units to take.
    pub units: u64,
    /// No way of cutting needs fewer.
    pub bound: u64,
}

/// Of all sheets and kinds of unit: none is cut from another.
#[must_use]
pub fn stock(cuttings: &[Cutting]) -> Stock {
    let units = cuttings.iter().map(Cutting::stock).sum();
    Stock { units, bound: cuttings.iter().map(|cutting| cutting.bound).sum() }
}

/// Pieces from one kind of unit of a sheet that are made of what others leave, plane by plane. Of a unit that gives several
/// pieces the largest takes it and the others are made of offcuts; of equal pieces on several planes those laid last.
pub(crate) fn made_of_offcuts(laying: &Laying<'_>, cuttings: &[Cutting], kind: UnitKind) -> BTreeMap<usize, u64> {
    let mut on_planes = BTreeMap::new();
    for cutting in cuttings.iter().filter(|cutting| cutting.sheet == laying.covering.id && cutting.unit == kind) {
        for (kind, mut left) in cutting.kinds.iter().zip(saved(cutting)) {
            for origin in kind.from.iter().rev() {
                let here = left.min(origin.count);
                *on_planes.entry(origin.plane).or_default() += here;
                left -= here;
            }
        }
    }
    on_planes
}

/// Of every kind, how many pieces are made of offcuts.
fn saved(cutting: &Cutting) -> Vec<u64> {
    let mut saved = vec![0; cutting.kinds.len()];
    let area = |kind: usize| cutting.kinds.get(kind).map_or(0.0, |kind| kind.area);
    let largest = |unit: &CutUnit| unit.pieces.iter().map(|piece| piece.kind).max_by(|&a, &b| area(a).total_cmp(&area(b)));
    for unit in &cutting.units {
        for piece in &unit.pieces {
            saved[piece.kind] += unit.count;
        }
        if let Some(largest) = largest(unit) {
            saved[largest] -= unit.count;
        }
    }
    saved
}
