//! Where the units go that are taken and do not lie on the roof: counted cut by cut, never a percentage.

use std::collections::BTreeMap;

use layout::{Cut, Cutting, LaidPlane, Run, UnitKind};
use roof::{EdgeKind, Place, Roof};

use crate::kerf::sawn_away;
use crate::laying::{Laying, by_sheet};

/// What one sheet's units come to. All areas in units of the field unit's size, so that they add up: `taken` − `on_roof` =
/// the sum of `cut_off` − `used_again`.
#[derive(Debug, Clone, PartialEq)]
pub struct Waste {
    /// The sheet's id.
    pub sheet: String,
    /// Units that are taken.
    pub stock: u64,
    /// Their area.
    pub taken: f64,
    /// Of the pieces.
    pub on_roof: f64,
    /// What is cut off the pieces, each counted as if it took a unit of its own, by what cuts it.
    pub cut_off: Vec<CutOff>,
    /// Units fewer, as so many pieces are made of what is cut off others.
    pub from_offcuts: u64,
    /// The area of these units.
    pub used_again: f64,
    /// What the saw takes of what is lost; the rest of it lies in offcuts that nothing is made of.
    pub kerf: f64,
    /// Field units by the trade's rule: the area of the planes with small openings, and for every foot of hip and valley a square
    /// foot more.
    pub by_rule: f64,
}

/// What one kind of edge cuts off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutOff {
    /// `None`: a joint that was moved, so that no piece is too small.
    pub by: Option<EdgeKind>,
    /// Pieces that it cuts; one that two kinds cut counts with both.
    pub pieces: u64,
    /// In units of the field unit's size.
    pub units: f64,
}

/// What is lost of the units of each sheet, in the order of the sheets' ids.
#[must_use]
pub fn waste<'a>(
    roof: &'a Roof,
    layout: &'a layout::Layout,
    cuttings: &[Cutting],
    covering_of: impl Fn(&roof::Plane) -> Option<&'a covering::Covering>,
) -> Vec<Waste> {
    by_sheet(roof, layout, covering_of).iter().map(|laying| of_sheet(roof, laying, cuttings)).collect()
}

fn of_sheet(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting]) -> Waste {
    let unit = laying.covering.unit;
    let field = (unit.length.to_inches() * unit.width.to_inches()).max(f64::MIN_POSITIVE);
    let own: Vec<&Cutting> = cuttings.iter().filter(|cutting| cutting.sheet == laying.covering.id).collect();
    let sum = |of: &dyn Fn(&Cutting) -> f64| own.iter().map(|cutting| of(cutting)).sum::<f64>() / field + 0.0;
    let kerf = laying.covering.cutting.map(|rules| rules.kerf.to_inches());
    let used = |cutting: &Cutting| cutting.kinds.iter().map(|kind| kind.area * kind.count as f64).sum::<f64>();
    Waste {
        sheet: laying.covering.id.clone(),
        stock: own.iter().map(|cutting| cutting.stock()).sum(),
        taken: sum(&|cutting| cutting.stock() as f64 * area(cutting.unit)),
        on_roof: sum(&|cutting| cutting.whole as f64 * area(cutting.unit) + used(cutting)),
        cut_off: cut_off(laying, field),
        from_offcuts: own.iter().map(|cutting| cutting.pieces() - cutting.stock()).sum(),
        used_again: sum(&|cutting| (cutting.pieces() - cutting.stock()) as f64 * area(cutting.unit)),
        kerf: sum(&|cutting| kerf.map_or(0.0, |kerf| sawn_away(cutting, kerf))),
        by_rule: by_rule(roof, laying),
    }
}

fn area(unit: UnitKind) -> f64 {
    unit.length * unit.width
}

fn cut_off(laying: &Laying<'_>, field: f64) -> Vec<CutOff> {
    let mut all: BTreeMap<Option<EdgeKind>, (u64, f64)> = BTreeMap::new();
    for (_, laid) in &laying.planes {
        for run in laid.courses.iter().flat_map(|course| &course.runs) {
            let Some(cut) = run.cut.and_then(|cut| laid.cuts.get(cut as usize)) else { continue };
            for (by, part) in shares(laid, run, cut) {
                let known = all.entry(by).or_default();
                known.0 += u64::from(run.count);
                known.1 += f64::from(run.count) * part / field;
            }
        }
    }
    all.into_iter().map(|(by, (pieces, units))| CutOff { by, pieces, units }).collect()
}

/// What each kind of edge takes of one piece's unit, sq in: what lies beyond its cuts, in proportion where cuts overlap.
fn shares(laid: &LaidPlane, run: &Run, cut: &Cut) -> BTreeMap<Option<EdgeKind>, f64> {
    let unit = laid.units.get(run.unit as usize).copied().unwrap_or_default();
    let missing = area(unit) - cut.area;
    let mut beyond: BTreeMap<Option<EdgeKind>, f64> = BTreeMap::new();
    for bevel in &cut.bevels {
        *beyond.entry(bevel.kind).or_default() += beyond_line(unit, bevel.line);
    }
    let narrower = (unit.width - run.width).max(0.0) * unit.length;
    if narrower > 0.0 || beyond.values().sum::<f64>() <= 0.0 {
        *beyond.entry(None).or_default() += narrower.max(f64::MIN_POSITIVE);
    }
    let all: f64 = beyond.values().sum();
    beyond.values_mut().for_each(|part| *part = missing * (*part / all));
    beyond
}

/// Area of a unit to the right of a line.
fn beyond_line(unit: UnitKind, [from, to]: [Place; 2]) -> f64 {
    let corners = [[0.0, 0.0], [unit.width, 0.0], [unit.width, unit.length], [0.0, unit.length]];
    let side = |p: Place| (to[1] - from[1]) * (p[0] - from[0]) - (to[0] - from[0]) * (p[1] - from[1]);
    let mut kept: Vec<Place> = Vec::new();
    for (at, &a) in corners.iter().enumerate() {
        let b = corners[(at + 1) % corners.len()];
        let [sa, sb] = [side(a), side(b)];
        if sa >= 0.0 {
            kept.push(a);
        }
        if (sa > 0.0 && sb < 0.0) || (sa < 0.0 && sb > 0.0) {
            let part = sa / (sa - sb);
            kept.push([a[0] + part * (b[0] - a[0]), a[1] + part * (b[1] - a[1])]);
        }
    }
    let next = kept.iter().cycle().skip(1);
    kept.iter().zip(next).map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum::<f64>().abs() / 2.0
}

/// One square for every 100 ft of hip and valley on top of the roof's own squares: a foot of either adds a square foot, and
/// openings of less than 4 ft square are not taken off. A rule of 1869: *Table of Slates*, Architectural Review and American
/// Builders' Journal, volume 1, page 451.
fn by_rule(roof: &Roof, laying: &Laying<'_>) -> f64 {
    let step = (laying.covering.unit.width + laying.covering.gap).to_inches();
    let sqft: f64 = laying.planes.iter().map(|(plane, _)| plane.area().to_square_feet()).sum();
    let here = |opening: &&roof::PlacedOpening| opening.planes.first().is_some_and(|plane| laying.indices.contains(plane));
    let openings = roof.openings.iter().filter(here).map(|opening| opening.width.to_feet() * opening.height.to_feet());
    let small: f64 = openings.filter(|area| *area < SMALL_OPENING).sum();
    let units: f64 = laying.planes.iter().map(|(plane, laid)| plane.area().to_square_inches() / cell(laid, step)).sum();
    let is_own = |line: &&roof::Line| line.planes.first().is_some_and(|plane| laying.indices.contains(plane));
    let hips = roof.lines.iter().filter(is_own).filter(|line| matches!(line.kind, EdgeKind::Hip | EdgeKind::Valley));
    let more: f64 = hips.map(|line| line.length().to_feet()).sum::<f64>() + small;
    if sqft > 0.0 { units * (sqft + more) / sqft } else { 0.0 }
}

/// 4 ft square, sq ft.
const SMALL_OPENING: f64 = 16.0;

/// What one unit of a plane shows on the mean, with its gap, sq in.
fn cell(laid: &LaidPlane, step: f64) -> f64 {
    let mean = (laid.top - laid.first_butt) / (laid.courses.len().max(1)) as f64;
    (mean * step).max(f64::MIN_POSITIVE)
}
