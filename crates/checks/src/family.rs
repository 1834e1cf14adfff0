/// What part of the work a rule is about; the pages are in this order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Family {
    /// Deck and order of work.
    Deck,
    /// Pitch and exposure.
    Pitch,
    /// Lap and joints.
    Lap,
    /// Pieces.
    Pieces,
    /// Fastening.
    Fastening,
    /// Metals.
    Metals,
    /// Dry-in.
    DryIn,
    /// Vents.
    Vents,
    /// Edges, valleys and walls.
    Edges,
    /// Tested classes.
    Tested,
    /// Wind.
    Wind,
    /// Snow and ice.
    Snow,
    /// Loads.
    Loads,
    /// Weather and handling.
    Weather,
    /// Parts that will not last as long as the units.
    Lifetime,
    /// People on the roof.
    People,
}

impl Family {
    /// Every family, in the order of the pages.
    pub const ALL: [Self; 16] = [
        Self::Deck,
        Self::Pitch,
        Self::Lap,
        Self::Pieces,
        Self::Fastening,
        Self::Metals,
        Self::DryIn,
        Self::Vents,
        Self::Edges,
        Self::Tested,
        Self::Wind,
        Self::Snow,
        Self::Loads,
        Self::Weather,
        Self::Lifetime,
        Self::People,
    ];

    /// As a heading.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Deck => "deck and order of work",
            Self::Pitch => "pitch and exposure",
            Self::Lap => "lap and joints",
            Self::Pieces => "pieces",
            Self::Fastening => "fastening",
            Self::Metals => "metals",
            Self::DryIn => "dry-in",
            Self::Vents => "vents",
            Self::Edges => "edges, valleys and walls",
            Self::Tested => "tested classes",
            Self::Wind => "wind",
            Self::Snow => "snow and ice",
            Self::Loads => "loads",
            Self::Weather => "weather and handling",
            Self::Lifetime => "parts that will not last as long as the units",
            Self::People => "people on the roof",
        }
    }
}
