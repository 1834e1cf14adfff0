/// What lies on what on some planes. A fire class is tested for such a list as a whole, never for one of its layers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layers {
    /// Indices in [`roof::Roof::planes`].
    pub planes: Vec<usize>,
    /// From the deck up.
    pub layers: Vec<Layer>,
}

/// One layer of a roof.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layer {
    /// Its part in the roof.
    pub kind: LayerKind,
    /// What it is made of, as the sheet or the job names it.
    pub name: String,
    /// How many times it lies over itself, laps apart.
    pub times: u32,
    /// It covers only a part of the plane.
    pub in_part: bool,
}

/// The part that a layer plays.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LayerKind {
    /// What everything is fastened to.
    Deck,
    /// Sticks to the deck where ice backs water up.
    IceBarrier,
    /// Over the whole deck.
    Underlayment,
    /// Between courses of shakes.
    Interlayment,
    /// The covering.
    Units,
}

impl LayerKind {
    /// The trade's word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Deck => "deck",
            Self::IceBarrier => "ice barrier",
            Self::Underlayment => "underlayment",
            Self::Interlayment => "interlayment",
            Self::Units => "units",
        }
    }
}
