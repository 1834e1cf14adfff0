use units::{Area, Length};

/// What lets the attic breathe. NFA is net free area.
#[derive(Debug, Clone, PartialEq)]
pub struct Vents {
    /// Of the attic floor.
    pub floor: Area,
    /// 150 or 300: a share of the floor.
    pub share: u32,
    /// Why this share, with the code edition.
    pub why: String,
    /// NFA in all.
    pub needed: Area,
    /// Of it, at the ridge.
    pub upper: Area,
    /// Of it, at the eaves.
    pub lower: Area,
    /// Every ridge that can be vented.
    pub ridges: Vec<RidgeRun>,
    /// NFA that the ridges give.
    pub ridge_gives: Area,
    /// To be cut out of the deck at the ridge, both sides and the ridge board together; none where nothing is vented.
    pub slot: Option<Length>,
    /// Soffit vent needed for the lower share.
    pub soffit: Length,
    /// Eaves there are.
    pub eaves: Length,
    /// What falls short and what to do, a sentence each.
    pub notes: Vec<String>,
}

/// A ridge with its vent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RidgeRun {
    /// Index in [`roof::Roof::lines`].
    pub line: usize,
    /// Where slot and vent begin and end, in inches from the line's first end.
    pub from: f64,
    /// As `from`.
    pub to: f64,
    /// Sections of vent, laid from the first end on; the last one is cut.
    pub sections: u32,
}
