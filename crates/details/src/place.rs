//! The room's one verb.

use std::collections::BTreeMap;

use covering::Covering;
use units::Length;

use crate::cutting::{Stock, Want, cut};
use crate::ice_barrier::{self, Shelter};
use crate::layers::layers;
use crate::metal::metal;
use crate::nails::nails;
use crate::order_of_work::order_of_work;
use crate::strip::{Kind, Lies, Roll, Rolls, Strip};
use crate::vents::vents;
use crate::{Details, DryIn, Given, Missing, drip_edge, fasteners, underlayment, underlayment_layers};

/// Places what goes under and around the units. What cannot be placed is absent and named in [`Details::missing`].
#[must_use]
pub fn place(given: &Given<'_>) -> Details {
    let mut missing = Vec::new();
    let dry_in = dry_in(given, &mut missing);
    let vents = given.attic.and_then(|attic| vents(given, &attic).map_err(|gap| missing.push(gap)).ok());
    let layers = layers(given, &dry_in.rolls);
    let order_of_work = order_of_work(given, &dry_in, vents.as_ref());
    let nails = nails(given, vents.as_ref());
    Details { order_of_work, layers, dry_in, metal: metal(given), nail_box: given.flashing.nail_box, nails, vents, missing }
}

fn dry_in(given: &Given<'_>, missing: &mut Vec<Missing>) -> DryIn {
    if given.covered().next().is_none() {
        return DryIn::default();
    }
    let choices = given.dry_in;
    let barrier = ice_barrier::lay(given);
    missing.extend(barrier.missing);
    let mut bench = Bench { given, missing, rolls: Vec::new() };
    bench.cut(Kind::DripEdge, "", &choices.drip_edge, || drip_edge::lay(given));
    bench.cut(Kind::IceBarrier, "", &choices.ice_barrier, || barrier.strips);
    let sheets: BTreeMap<&str, &Covering> =
        given.covered().map(|(_, _, covering)| (covering.id.as_str(), covering)).collect();
    for (sheet, covering) in sheets {
        bench.cut(Kind::Underlayment, sheet, &underlayment::roll(covering), || under(given, sheet, &barrier.shelters));
        bench.cut(Kind::Interlayment, sheet, &choices.interlayment, || between(given, sheet));
    }
    DryIn { rolls: bench.rolls, ice_barrier: barrier.says, eaves: barrier.eaves, fasteners: Some(choices.fasteners) }
}

fn under(given: &Given<'_>, sheet: &str, shelters: &[Shelter]) -> Vec<Strip> {
    let bare = given.crickets().filter(|(plane, _)| given.covering(*plane).is_none());
    let crickets = bare.filter_map(|(plane, slope)| Some((plane, given.roof.planes.get(plane)?, given.covering(slope)?)));
    let planes = given.covered().chain(crickets).filter(|(_, _, covering)| covering.id == sheet);
    planes.flat_map(|(index, plane, covering)| underlayment::lay(given, index, plane, covering, shelters)).collect()
}

fn between(given: &Given<'_>, sheet: &str) -> Vec<Strip> {
    let planes = given.covered().filter(|(_, _, covering)| covering.id == sheet);
    planes.flat_map(|(index, plane, covering)| underlayment::interlay(given, index, plane, covering)).collect()
}

/// Where strips are cut from rolls, kind by kind.
struct Bench<'a, 'b> {
    given: &'b Given<'a>,
    missing: &'b mut Vec<Missing>,
    rolls: Vec<Rolls>,
}

impl Bench<'_, '_> {
    fn cut(&mut self, kind: Kind, sheet: &str, roll: &Roll, lay: impl FnOnce() -> Vec<Strip>) {
        if !is_usable(kind, roll) {
            self.missing.push(unusable(kind, roll));
            return;
        }
        let mut strips = lay();
        if strips.is_empty() {
            return;
        }
        let cutting = cut(&wants(&strips), self.stock(kind, roll));
        for (strip, pieces) in strips.iter_mut().zip(cutting.pieces) {
            strip.pieces = pieces;
        }
        if kind == Kind::DripEdge {
            fasteners::nail(&mut strips, self.given.dry_in.drip_edge_nails);
        }
        if kind == Kind::Underlayment {
            fasteners::fasten(&mut strips, roll, |plane| self.layers_on(plane), &self.given.dry_in.fasteners);
        }
        let [count, bound] = [cutting.rolls, cutting.bound];
        self.rolls.push(Rolls { kind, sheet: sheet.into(), roll: roll.clone(), strips, count, bound });
    }

    fn stock(&self, kind: Kind, roll: &Roll) -> Stock {
        let offset = if kind == Kind::DripEdge { Length::ZERO } else { self.given.dry_in.end_lap_offset };
        Stock { length: roll.length.to_inches(), lap: roll.end_lap.to_inches(), offset: offset.to_inches() }
    }

    fn layers_on(&self, plane: usize) -> u32 {
        match (self.given.covering(plane), self.given.roof.planes.get(plane)) {
            (Some(covering), Some(surface)) => underlayment_layers(covering, surface),
            _ => 1,
        }
    }
}

/// What strips need of a roll; courses that advance by less, or rolls that are shorter, are mistyped.
fn is_usable(kind: Kind, roll: &Roll) -> bool {
    let advances = kind == Kind::DripEdge || roll.width - roll.side_lap >= Length::inches(3.0);
    advances && roll.length >= Length::feet(3.0) && roll.length > roll.end_lap * 2.0
}

fn unusable(kind: Kind, roll: &Roll) -> Missing {
    Missing {
        what: kind.name().into(),
        says: format!(
            "a roll of {} × {} with its laps is too small to lay, so no {} is laid",
            roll.width,
            roll.length,
            kind.name()
        ),
        remedy: "mend the roll's width, length and laps".into(),
    }
}

/// Strips on one plane that lap or touch keep their end laps apart.
fn wants(strips: &[Strip]) -> Vec<Want> {
    let want = |strip: &Strip| Want {
        length: strip.length,
        start: strip.patches.first().map_or(0.0, |patch| patch.u()[0]),
        beside: (0..strips.len()).filter(|&other| lies_beside(strip, &strips[other])).collect(),
    };
    strips.iter().map(want).collect()
}

fn lies_beside(strip: &Strip, other: &Strip) -> bool {
    let (Some(a), Some(b)) = (strip.patches.first(), other.patches.first()) else { return false };
    let is_course = |strip: &Strip| matches!(strip.lies, Lies::Course { .. } | Lies::Eave { .. });
    let overlap = a.v()[0] < b.v()[1] && b.v()[0] < a.v()[1];
    strip != other && a.plane == b.plane && is_course(strip) && is_course(other) && overlap
}
