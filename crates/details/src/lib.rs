//! Under and around the units: what makes the deck watertight, what lets the attic breathe, and what must be seen before
//! what. Everything is placed from the roof and the layout, so that an order can point at its place.
//!
//! Formulas and their reasons are in `docs/dry-in.md` and `docs/metal.md`.

mod choices;
mod cutting;
mod details;
mod drip_edge;
mod edition;
mod fasteners;
mod given;
mod ice_barrier;
mod layers;
mod metal;
mod nails;
mod order_of_work;
mod place;
mod strip;
mod surface;
mod underlayment;
mod vents;

pub use choices::{Attic, Climate, Deck, DryInChoices, FastenerGrid, Framing, RidgeVent, SoffitVent, WallFace};
pub use details::{Details, DryIn, EaveBarrier, Missing};
pub use edition::Edition;
pub use given::Given;
pub use ice_barrier::{courses_that_reach, ice_barrier_length};
pub use layers::{Layer, LayerKind, Layers};
pub use metal::{
    Along, FlashingChoices, Metal, MetalItem, MetalKind, MetalPiece, MetalRun, PipeFlange, Sealant, SheetMetal, SheetStock,
    closed_valley_girth, pieces_per_sheet, step_girth, step_length, valley_girth,
};
pub use nails::{NailChoices, NailHolds, NailNeed, Passed, units_at_nail};
pub use order_of_work::{Step, Who};
pub use place::place;
pub use strip::{Kind, Lies, Patch, Piece, Roll, Rolls, Strip};
pub use underlayment::{interlayment_edge, underlayment_layers};
pub use vents::{RidgeRun, Vents, vent_share, with_vent_slot};
