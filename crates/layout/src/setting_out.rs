use std::collections::BTreeSet;

use units::Length;

/// What is chosen for the whole roof before a course line is set, where the sheet leaves it open.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingOut {
    /// Marks of the tape: exposures are whole numbers of these.
    pub tape_step: Length,
    /// The greatest change from one course's exposure to the next that nobody sees from the ground.
    pub sight_limit: Length,
    /// The planes whose courses should meet at hips and valleys.
    pub match_hips: MatchHips,
}

/// Planes whose courses should meet at hips and valleys.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum MatchHips {
    /// Every plane is set out by itself.
    #[default]
    None,
    /// All planes.
    All,
    /// The planes with these ids.
    Planes(BTreeSet<String>),
}

impl MatchHips {
    /// Whether a plane is among them.
    #[must_use]
    pub fn asks(&self, id: &str) -> bool {
        match self {
            Self::None => false,
            Self::All => true,
            Self::Planes(ids) => ids.contains(id),
        }
    }
}

impl Default for SettingOut {
    fn default() -> Self {
        let (tape_step, sight_limit) = (Length::inches(0.0625), Length::inches(0.125));
        Self { tape_step, sight_limit, match_hips: MatchHips::None }
    }
}
