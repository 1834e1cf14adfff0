use layout::{Cutting, LaidPlane, UnitKind};
use roof::Roof;
use units::Length;

use crate::laying::Laying;
use crate::stock::made_of_offcuts;
use crate::{CountedPlace, OrderLine};

/// What the order's lines of field units are called.
const ITEM: &str = "field-units";

/// Field units, a line for each kind: one for every piece that is one or is cut from one, less those that are made of
/// offcuts. Random widths that are sold mixed are one line for each length, by the running width.
pub(crate) fn lines(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting]) -> Vec<OrderLine> {
    let kinds = kinds(laying, false);
    if laying.covering.bonds.sold_mixed && kinds.len() > 1 {
        let lengths = kinds.chunk_by(|a, b| same(a.length, b.length));
        return lengths.map(|alike| mixed(roof, laying, cuttings, alike, &kinds)).collect();
    }
    kinds.iter().map(|&kind| of_kind(roof, laying, cuttings, kind, &kinds)).collect()
}

/// The kinds of units that any plane has, the wide ones or the others, in the order of the planes.
pub(crate) fn kinds(laying: &Laying<'_>, wide: bool) -> Vec<UnitKind> {
    let mut kinds: Vec<UnitKind> = Vec::new();
    for &kind in laying.planes.iter().flat_map(|(_, laid)| &laid.units).filter(|kind| kind.wide == wide) {
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
    }
    kinds
}

/// Pieces of one kind, plane by plane: those that take a unit, and those made of offcuts.
pub(crate) fn places(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting], kind: UnitKind) -> Vec<CountedPlace> {
    let from_offcuts = made_of_offcuts(laying, cuttings, kind);
    let on_plane = |laid: &LaidPlane| {
        let offcuts = from_offcuts.get(&laid.plane).copied().unwrap_or_default();
        let place = CountedPlace::on_plane(roof, laid.plane, count(laid, kind).saturating_sub(offcuts) as f64);
        CountedPlace { from_offcuts: offcuts as f64, ..place }
    };
    laying.planes.iter().map(|(_, laid)| on_plane(laid)).collect()
}

fn count(laid: &LaidPlane, kind: UnitKind) -> u64 {
    let number = laid.units.iter().position(|unit| *unit == kind);
    number.map_or(0, |number| laid.counts_of(number as u32).pieces())
}

fn of_kind(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting], kind: UnitKind, all: &[UnitKind]) -> OrderLine {
    let covering = laying.covering;
    let weight = covering.unit.weight * (volume(kind) / volume(whole(laying)));
    let (id, places) = (id(ITEM, kind, all, true), places(roof, laying, cuttings, kind));
    OrderLine::in_bundles(&id, covering.name.clone(), places, covering.pack, weight)
        .sized(Length::inches(kind.width), Length::inches(kind.length))
}

/// Units of one length by their running width, in widths of the sheet's own unit.
fn mixed(roof: &Roof, laying: &Laying<'_>, cuttings: &[Cutting], alike: &[UnitKind], all: &[UnitKind]) -> OrderLine {
    let covering = laying.covering;
    let own = UnitKind { width: covering.unit.width.to_inches(), ..alike[0] };
    let mut running: Vec<CountedPlace> = Vec::new();
    for &kind in alike {
        for place in places(roof, laying, cuttings, kind) {
            let [quantity, from_offcuts] = [place.quantity, place.from_offcuts].map(|count| count * kind.width / own.width);
            match running.iter_mut().find(|known| known.planes == place.planes) {
                Some(known) => {
                    (known.quantity, known.from_offcuts) = (known.quantity + quantity, known.from_offcuts + from_offcuts)
                }
                None => running.push(CountedPlace { quantity, from_offcuts, ..place }),
            }
        }
    }
    let weight = covering.unit.weight * (volume(own) / volume(whole(laying)));
    let item = format!("{}, random widths", covering.name);
    let line = OrderLine::in_bundles(&id(ITEM, alike[0], all, false), item, running, covering.pack, weight);
    OrderLine { unit: "unit widths", pack: format!("bundle of {} unit widths", covering.pack.count), ..line }
}

/// `field-units`, and what tells a kind from the others, its length or its width: `field-units-8-1/2-wide`.
pub(crate) fn id(item: &str, kind: UnitKind, all: &[UnitKind], by_width: bool) -> String {
    let longs = all.iter().any(|other| !same(other.length, kind.length));
    let wides = by_width && all.iter().any(|other| !same(other.width, kind.width));
    let size = |inches: f64, what: &str| format!("-{}-{what}", Length::inches(inches).in_inches().replace('"', ""));
    let mut id = String::from(item);
    if longs {
        id += &size(kind.length, "long");
    }
    if wides {
        id += &size(kind.width, "wide");
    }
    id
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

/// What a unit weighs, against one of the sheet's own length and thickness and as wide.
pub(crate) fn of_own_length(laying: &Laying<'_>, kind: UnitKind) -> f64 {
    let own = whole(laying);
    kind.length * kind.thickness / (own.length * own.thickness)
}

fn volume(kind: UnitKind) -> f64 {
    kind.length * kind.width * kind.thickness
}

/// The sheet's own unit, whose weight it gives.
fn whole(laying: &Laying<'_>) -> UnitKind {
    let unit = laying.covering.unit;
    let [length, width, thickness] = [unit.length, unit.width, unit.thickness].map(Length::to_inches);
    UnitKind { length, width, thickness, wide: false }
}
