//! The data sheet of a covering: one material as a maker or a quarry gives it, every value with its source.
//!
//! Facts only. Whether a covering suits a pitch is a check, and how it is laid is the layout's work.

mod bonds;
mod catalog;
mod conditions;
mod cutting;
mod desk;
mod resolve;
mod ridge_metal;
mod sheet;

use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Mass, Pitch};

pub use bonds::{Bond, BondGroup, Bonds, GradedLength, GradedLengthTable, MixedWidth, MixedWidthTable};
pub use catalog::{Catalog, SHIPPED};
pub use conditions::{
    ChalkGroup, Conditions, FireClass, FireTest, ImpactTest, Movement, MovementGroup, NailLine, Parted, Storage,
    StorageGroup, Temperatures, TemperaturesGroup, Tested, TestedGroup, WindSpeed, WindTest, Wood,
};
pub use cutting::{CuttingGroup, CuttingRules, CuttingTool, MadeSides};
pub use resolve::{read_sheet, sound_sheet};
pub use ridge_metal::{RidgeMetal, RidgeMetalGroup, RidgeMetalOn};
pub use sheet::{
    CapGroup, EdgesGroup, ExposureGroup, LapGroup, NailsGroup, PackGroup, SheetFile, StarterGroup, UnderlaymentGroup,
    UnitGroup, WideGroup,
};

/// A covering as its sheet describes it. Lengths on the slope unless said otherwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Covering {
    /// Short name used in job files, `composite-slate`.
    pub id: String,
    /// Printed name.
    pub name: String,
    /// What it is made of.
    pub material: Material,
    /// The field unit.
    pub unit: Unit,
    /// A wider unit of the same length, from which pieces at edges are cut; none where the sheet has none.
    pub wide: Option<Wide>,
    /// How many layers lie over each other.
    pub lap: Lap,
    /// What the sheet allows by pitch, from the lowest pitch up, without gaps between bands.
    pub bands: Vec<Band>,
    /// Exposures marked on the unit itself; empty if it has none.
    pub marks: Vec<Length>,
    /// Space left between neighbours for movement.
    pub gap: Length,
    /// Least distance along the course from a joint to the nearest joint of the course below.
    pub joint_offset: Length,
    /// A cut piece narrower than this at its widest is too small to fasten and to last.
    pub least_piece: Length,
    /// What the sheet leaves open about how units stand beside and over each other.
    pub bonds: Bonds,
    /// How far units reach past the roof's edges and stay off its lines.
    pub edges: Edges,
    /// The course under the first.
    pub starter: Starter,
    /// Units that cover hips and ridges.
    pub cap: Cap,
    /// Metal that covers ridges or hips instead of them, as far down each side as they would.
    pub ridge_metal: Option<RidgeMetal>,
    /// Nails of field units.
    pub nails: Nails,
    /// The sheet under the units, laid over the whole deck.
    pub underlayment: Underlayment,
    /// How field units are packed.
    pub pack: Pack,
    /// What the sheet says beyond sizes.
    pub conditions: Conditions,
    /// How field units may be cut, and what may be made of offcuts; none where the sheet says nothing about it.
    pub cutting: Option<CuttingRules>,
    /// Where each group of values comes from: the group's path in the sheet (`nails`, `exposure[0]`), its source.
    pub sources: Vec<(String, String)>,
    /// The figures are invented and stand for no product.
    pub invented: bool,
}

/// What a unit is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Material {
    /// Moulded composite slate.
    CompositeSlate,
    /// Split natural slate.
    NaturalSlate,
    /// Sawn wood shingle.
    WoodShingle,
    /// Sawn or split shake.
    WoodShake,
    /// Plain tile, clay or concrete.
    PlainTile,
}

/// Sizes and weight of the field unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Up the slope.
    pub length: Length,
    /// Along the course.
    pub width: Length,
    /// At the butt.
    pub thickness: Length,
    /// Thickness at the head is nil: the unit tapers.
    pub tapered: bool,
    /// Of one unit.
    pub weight: Mass,
}

/// A wider unit: a slate and a half, a tile and a half.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wide {
    /// Along the course, more than the field unit's.
    pub width: Length,
    /// Of one.
    pub weight: Mass,
    /// How it is packed.
    pub pack: Pack,
}

/// The lap rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Lap {
    /// Two layers everywhere, three at the headlap; headlap = length − 2 × exposure.
    Double,
    /// Three layers everywhere; headlap here is length − 3 × exposure.
    Triple,
    /// Two layers with a strip of felt between courses; headlap = length − 2 × exposure.
    Shake,
}

impl Lap {
    /// How many courses up the headlap is counted: headlap = length − this × exposure.
    #[must_use]
    pub const fn courses(self) -> u32 {
        match self {
            Self::Double | Self::Shake => 2,
            Self::Triple => 3,
        }
    }

    /// Layers of starters under the first course, so that it lies as the field does (common practice, no published source:
    /// shinglers double the starter under triple lap).
    #[must_use]
    pub const fn starter_layers(self) -> u32 {
        match self {
            Self::Double | Self::Shake => 1,
            Self::Triple => 2,
        }
    }

    /// After how many courses joints may stand over joints again.
    #[must_use]
    pub const fn bond(self) -> u32 {
        self.courses()
    }
}

/// What the sheet allows from one pitch up to the next band, or to any pitch for the last band without an end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Lowest pitch of the band, which belongs to it.
    pub from: Pitch,
    /// The pitch at which the band ends, which does not belong to it.
    pub to: Option<Pitch>,
    /// A preference.
    pub least_exposure: Length,
    /// A limit.
    pub greatest_exposure: Length,
    /// Least headlap.
    pub headlap: Length,
}

/// How far units reach past the roof's edges and stay off its lines. Distances on the surface, square to the edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edges {
    /// Past the drip line at eaves.
    pub eave_projection: Length,
    /// Past the rake.
    pub rake_projection: Length,
    /// Least clear distance off walls.
    pub off_walls: Length,
    /// Clear width of an open valley at its top, both sides together; nil for a closed one.
    pub valley_clear: Length,
    /// How much wider an open valley is 8 ft further down.
    pub valley_growth: Length,
    /// How far units lie over the metal of an open valley, from their cut edge.
    pub valley_flange: Length,
    /// Least distance of a nail from that metal.
    pub valley_nails_off: Length,
    /// How far the metal of a high edge covers the units.
    pub high_edge_metal: Length,
    /// The leg of an apron flashing over the units below a wall.
    pub apron_leg: Length,
    /// Width of the vent slot at a ridge, both sides together; nil where none is cut.
    pub ridge_slot: Length,
    /// A unit narrowed at a rake keeps its made side outside, and its cut side faces the neighbour.
    pub made_at_rakes: bool,
}

/// The under-eave course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Starter {
    /// A piece of its own with this height, or cut from field units to first exposure + headlap.
    pub height: Option<Length>,
    /// Along the course.
    pub width: Length,
    /// Of one starter.
    pub weight: Mass,
    /// How it is packed.
    pub pack: Pack,
    /// Nails in each.
    pub nails: u32,
    /// Least distance between its joints and the first course's.
    pub joint_offset: Length,
    /// How many layers lie under the first course.
    pub layers: u32,
}

/// The unit that covers hips and ridges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cap {
    /// Along the line.
    pub length: Length,
    /// Greatest exposure along the line.
    pub exposure: Length,
    /// How far it reaches down the plane each side of a ridge, on the surface.
    pub cover: Length,
    /// As `cover`, at hips; nil where hips are mitred and have no caps.
    pub hip_cover: Length,
    /// Nails in each, both sides together.
    pub nails: u32,
    /// Of one cap.
    pub weight: Mass,
    /// How it is packed.
    pub pack: Pack,
}

/// Nails of field units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nails {
    /// In each unit.
    pub each: u32,
    /// Into the deck, or through it.
    pub penetration: Length,
    /// How many thicknesses of unit the nail passes.
    pub through_units: u32,
    /// Nails sold in one box.
    pub box_count: u32,
}

/// A roll laid over the whole deck.
#[derive(Debug, Clone, PartialEq)]
pub struct Underlayment {
    /// Printed name, generic.
    pub name: String,
    /// Of the roll.
    pub width: Length,
    /// Of the roll.
    pub length: Length,
    /// Over the strip below.
    pub top_lap: Length,
    /// At a roll's end.
    pub end_lap: Length,
    /// Below this pitch two layers are laid.
    pub double_below: Option<Pitch>,
    /// Of one roll.
    pub weight: Mass,
}

/// How pieces are packed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pack {
    /// Pieces in one.
    pub count: u32,
}

impl Covering {
    /// The band for a pitch; `None` where the sheet does not allow the pitch at all.
    #[must_use]
    pub fn band(&self, pitch: Pitch) -> Option<&Band> {
        self.bands.iter().find(|band| pitch >= band.from && band.to.is_none_or(|to| pitch < to))
    }

    /// The lowest pitch that the sheet allows.
    #[must_use]
    pub fn least_pitch(&self) -> Option<Pitch> {
        self.bands.first().map(|band| band.from)
    }

    /// The shortest exposure that the sheet knows at any pitch.
    #[must_use]
    pub fn shortest_exposure(&self) -> Length {
        let shortest = self.bands.iter().map(|band| band.least_exposure.to_inches()).fold(f64::INFINITY, f64::min);
        Length::inches(shortest)
    }

    /// How much shorter the exposures of a shorter unit are, so that the headlap stays.
    #[must_use]
    pub fn shortened(&self, length: Length) -> Length {
        (self.unit.length - length) / f64::from(self.lap.courses())
    }

    /// The lengths of a graduated roof, from the longest, lowest, up; or the unit's own alone.
    #[must_use]
    pub fn grades(&self) -> Vec<GradedLength> {
        let own = GradedLength { length: self.unit.length, thickness: self.unit.thickness, share: 1.0 };
        if self.bonds.lengths.is_empty() { vec![own] } else { self.bonds.lengths.clone() }
    }

    /// How thick the strip under the starters must be, so that the first course lies like the rest: t (L / e - layers) of
    /// units L long that show e, as thick at the head as at the butt, t, like the starters. Geometry: in the field a unit
    /// has its head on the deck and lies on the head of the one below, t over the deck and e further down; so its butt
    /// lies t L / e over the deck, and starters make t of that each. None for tapered units, and where starters suffice.
    #[must_use]
    pub fn cant(&self, exposure: Length, [length, thickness]: [Length; 2]) -> Option<Length> {
        let cant = thickness * (length / exposure - f64::from(self.starter.layers));
        (!self.unit.tapered && exposure > Length::ZERO && cant > Length::ZERO).then_some(cant)
    }

    /// Headlap at an exposure; negative where courses fail to cover.
    #[must_use]
    pub fn headlap(&self, exposure: Length) -> Length {
        self.unit.length - exposure * f64::from(self.lap.courses())
    }
}
