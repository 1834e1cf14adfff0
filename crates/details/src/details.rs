use units::Length;

use crate::{FastenerGrid, Layers, Metal, NailNeed, Rolls, Step, Vents};

/// What goes under and around the units of a roof.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Details {
    /// What must be seen before what, in the order in which it is done.
    pub order_of_work: Vec<Step>,
    /// What lies on what, from the deck up: one list for all planes that have the same.
    pub layers: Vec<Layers>,
    /// What makes the deck watertight.
    pub dry_in: DryIn,
    /// What lines valleys and turns up walls; none where nothing needs it.
    pub metal: Option<Metal>,
    /// Nails of edge metal and of sheet metal sold in one box.
    pub nail_box: u32,
    /// How long nails must be, sheet by sheet and use by use.
    pub nails: Vec<NailNeed>,
    /// What lets the attic breathe; absent where the job does not describe the attic.
    pub vents: Option<Vents>,
    /// What could not be placed, and what to tell so that it can.
    pub missing: Vec<Missing>,
}

/// Sheets and edge metal over the deck.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DryIn {
    /// Goods from rolls and edge metal, kind by kind in the order in which they are laid.
    pub rolls: Vec<Rolls>,
    /// Why there is, or is not, an ice barrier, in a sentence.
    pub ice_barrier: String,
    /// How far it reaches along every eave that has one.
    pub eaves: Vec<EaveBarrier>,
    /// Where fasteners of the underlayment go; none where nothing is covered.
    pub fasteners: Option<FastenerGrid>,
}

/// How far the ice barrier reaches up the slope from one eave; a break above may let it end on the next plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EaveBarrier {
    /// Index in [`roof::Roof::lines`].
    pub line: usize,
    /// What is asked for.
    pub needed: Length,
    /// What whole courses give.
    pub laid: Length,
}

/// Something that the job does not tell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// What is not placed for it: `ice barrier, house, south`.
    pub what: String,
    /// What is missing.
    pub says: String,
    /// What to tell.
    pub remedy: String,
}
