/// A stage of the work. At a hold point the next stages wait until somebody has looked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Unchanging short name, `dry-in`.
    pub id: &'static str,
    /// What is done.
    pub title: &'static str,
    /// Nothing that waits for it is begun before it is seen and signed.
    pub hold_point: bool,
    /// Ids of the steps that must be done before.
    pub after: Vec<&'static str>,
    /// What must be seen, a sentence each.
    pub see: Vec<String>,
    /// Who looks.
    pub who: Who,
    /// The photo to take.
    pub photo: String,
}

/// Who looks at a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Who {
    /// The crew lead.
    CrewLead,
    /// The sheet-metal hand.
    SheetMetalHand,
    /// The building official, where the place inspects it; the crew lead in any case.
    BuildingOfficial,
}

impl Who {
    /// The trade's word.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::CrewLead => "crew lead",
            Self::SheetMetalHand => "sheet-metal hand",
            Self::BuildingOfficial => "crew lead, and the building official where the place inspects it",
        }
    }
}
