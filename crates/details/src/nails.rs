//! How long the nails of units and caps must be, from what really lies under them.

use covering::{Covering, Lap};
use units::Length;

use crate::underlayment::underlayment_layers;
use crate::{Given, Vents};

/// What the job tells of its nails; what was not told is unknown.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct NailChoices {
    /// From under the head to the point.
    pub length: Option<Length>,
    /// How many of that length weigh a pound.
    pub per_pound: Option<f64>,
    /// The underside of the deck is seen, so that no point may show.
    pub exposed_soffit: bool,
}

/// Nails of one use and one sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct NailNeed {
    /// What they hold.
    pub holds: NailHolds,
    /// Id of the covering; empty for metal.
    pub sheet: String,
    /// What they pass above the deck, from the head down.
    pub passes: Vec<Passed>,
    /// Everything that they pass and what they must take of the deck.
    pub least: Length,
    /// So long that no point shows; none where none may be seen or the deck's thickness is not known.
    pub most: Option<Length>,
    /// The shortest nail in steps of a quarter inch that is long enough.
    pub take: Length,
    /// The job's own nail, where it tells one for this use.
    pub given: Option<Length>,
    /// How many of the job's own nails weigh a pound.
    pub per_pound: Option<f64>,
}

/// What nails hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NailHolds {
    /// Field units and starters.
    Units,
    /// Caps of hips and ridges.
    Caps,
    /// Caps over a ridge vent.
    CapsOverVent,
    /// Edge metal and bent sheet metal, on every sheet's planes alike.
    Metal,
}

/// A layer that a nail passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passed {
    /// `units`, `caps`, `metal`, `underlayment`, `interlayment`.
    pub what: &'static str,
    /// How many layers lie there.
    pub layers: u32,
    /// All of them together, where the nail goes through.
    pub thickness: Length,
}

/// Through ridge vents 3-in nails: common practice, no published source.
const THROUGH_VENT: Length = Length::inches(3.0);
/// Nails are sold in steps of so much (from memory, not read).
const STEP: f64 = 0.25;
/// A cap lies over the one before it.
const CAPS: u32 = 2;

impl NailHolds {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Units => "units and starters",
            Self::Caps => "caps",
            Self::CapsOverVent => "caps over the ridge vent",
            Self::Metal => "metal",
        }
    }
}

/// Nails of every sheet that is laid, units first.
pub(crate) fn nails(given: &Given<'_>, vents: Option<&Vents>) -> Vec<NailNeed> {
    let mut needs = Vec::new();
    let mut sheets: Vec<&Covering> = given.covered().map(|(_, _, covering)| covering).collect();
    sheets.sort_by(|a, b| a.id.cmp(&b.id));
    sheets.dedup_by(|a, b| a.id == b.id);
    for covering in sheets {
        needs.push(need(given, covering, NailHolds::Units));
        let caps = covering.has_ridge_caps() || covering.has_hip_caps();
        needs.extend(caps.then(|| need(given, covering, NailHolds::Caps)));
        if covering.has_ridge_caps() && vents.is_some_and(|vents| !vents.ridges.is_empty()) {
            needs.push(need(given, covering, NailHolds::CapsOverVent));
        }
    }
    needs.extend(metal(given));
    needs
}

/// Into the deck by so much, or through it: UFGS-07310 (military guide specification) asks it of slating nails; that those of metal
/// hold as deep is common practice, no published source.
const METAL_INTO_DECK: Length = Length::inches(0.75);
/// Where two lengths lap.
const METAL_LAP: u32 = 2;

/// Of edge and sheet metal: through a lap of it and a lap of the underlayment; none where nothing is covered.
fn metal(given: &Given<'_>) -> Option<NailNeed> {
    let under = given.covered().map(|(_, plane, covering)| underlayment_layers(covering, plane)).max()? + 1;
    let layer = |what, layers: u32, thick: Length| Passed { what, layers, thickness: thick * f64::from(layers) };
    let passes =
        vec![layer("metal", METAL_LAP, given.sheet_metal.thickness), layer("underlayment", under, given.dry_in.thickness)];
    let above = above(&passes);
    let least = above + into_deck(METAL_INTO_DECK, given.deck.thickness);
    Some(NailNeed {
        holds: NailHolds::Metal,
        sheet: String::new(),
        passes,
        least,
        most: given.deck.thickness.filter(|_| given.nails.exposed_soffit).map(|deck| above + deck),
        take: sold(least),
        given: None,
        per_pound: None,
    })
}

/// All layers together.
fn above(passes: &[Passed]) -> Length {
    passes.iter().fold(Length::ZERO, |sum, passed| sum + passed.thickness)
}

/// The shortest nail that is sold and long enough.
fn sold(least: Length) -> Length {
    Length::inches((least.to_inches() / STEP - 1e-9).ceil() * STEP)
}

fn need(given: &Given<'_>, covering: &Covering, holds: NailHolds) -> NailNeed {
    let passes = passes(given, covering, holds);
    let above = above(&passes);
    let into = into_deck(covering.nails.penetration, given.deck.thickness);
    let least = above + into;
    let is_vent = holds == NailHolds::CapsOverVent;
    let least = if is_vent && least < THROUGH_VENT { THROUGH_VENT } else { least };
    let exposed = given.nails.exposed_soffit && holds == NailHolds::Units;
    let own = holds == NailHolds::Units;
    NailNeed {
        holds,
        sheet: covering.id.clone(),
        passes,
        least,
        most: given.deck.thickness.filter(|_| exposed).map(|deck| above + deck),
        take: sold(least),
        given: given.nails.length.filter(|_| own),
        per_pound: given.nails.per_pound.filter(|_| own && given.nails.length.is_some()),
    }
}

/// The sheet's penetration, or through the deck where that is thinner.
fn into_deck(penetration: Length, deck: Option<Length>) -> Length {
    deck.filter(|deck| *deck < penetration).unwrap_or(penetration)
}

fn passes(given: &Given<'_>, covering: &Covering, holds: NailHolds) -> Vec<Passed> {
    let planes = || given.covered().filter(|(_, _, other)| other.id == covering.id);
    let exposures = planes().flat_map(|(index, _, _)| {
        let laid = given.layout.planes.iter().filter(move |laid| laid.plane == index);
        laid.flat_map(|laid| laid.courses.iter().map(|row| row.exposure))
    });
    // Courses close together lie over each other the deepest; the topmost one may be a strip under its cap.
    let closest = exposures.fold(f64::INFINITY, f64::min).max(covering.shortest_exposure().to_inches());
    let [layers, thickness] = units_at_nail(covering, Length::inches(closest));
    let under = planes().map(|(_, plane, _)| underlayment_layers(covering, plane)).max().unwrap_or(1);
    let felt = |what, layers: u32| Passed { what, layers, thickness: given.dry_in.thickness * f64::from(layers) };
    // At a lap one layer more lies there.
    let mut passes = vec![
        Passed { what: "units", layers: layers as u32, thickness: Length::inches(thickness) },
        felt("underlayment", under + 1),
    ];
    if covering.lap == Lap::Shake {
        let strips = (given.dry_in.interlayment.width.to_inches() / closest.max(1.0)).ceil().max(1.0);
        passes.push(felt("interlayment", strips as u32));
    }
    if holds != NailHolds::Units {
        let thickness = covering.unit.thickness * f64::from(CAPS);
        passes.insert(0, Passed { what: "caps", layers: CAPS, thickness });
    }
    passes
}

/// How many units lie where a unit is nailed, and how thick they are there together: the unit itself, and those of the courses
/// below whose heads reach up as far. A unit that tapers is thickness × (1 − distance from its butt / length) thick.
///
/// The sheet's own count of thicknesses holds where it is more, or where the sheet does not say where nails go.
#[must_use]
pub fn units_at_nail(covering: &Covering, exposure: Length) -> [f64; 2] {
    let (unit, told) = (&covering.unit, f64::from(covering.nails.through_units));
    let by_sheet = [told, told * unit.thickness.to_inches()];
    let Some(line) = covering.conditions.nail_line.filter(|_| exposure > Length::ZERO) else { return by_sheet };
    let [up, length, exposure] = [line.up, unit.length, exposure].map(Length::to_inches);
    let from_butts = (0..MOST_COURSES).map(|below| up + f64::from(below) * exposure).take_while(|up| *up < length);
    let thick = |up: f64| unit.thickness.to_inches() * if unit.tapered { 1.0 - up / length } else { 1.0 };
    let found = from_butts.fold([0.0, 0.0], |[count, sum], up| [count + 1.0, sum + thick(up)]);
    if found[1] > by_sheet[1] { found } else { [found[0].max(told), by_sheet[1]] }
}

/// No covering lies so deep.
const MOST_COURSES: u32 = 12;

#[cfg(test)]
mod tests {
    use super::*;

    /// UFGS-07310 (military guide specification): into the deck by 3/4 in, or through it, whichever is less.
    #[test]
    fn through_a_thin_deck() {
        let into = |deck: f64| into_deck(Length::inches(0.75), Some(Length::inches(deck))).to_inches();
        assert!((into(0.5) - 0.5).abs() < 1e-12 && (into(1.0) - 0.75).abs() < 1e-12);
        assert!((into_deck(Length::inches(0.75), None).to_inches() - 0.75).abs() < 1e-12);
    }
}
