use units::Length;

/// What is chosen for the whole roof before a course line is set, where the sheet leaves it open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettingOut {
    /// Marks of the tape: exposures are whole numbers of these.
    pub tape_step: Length,
    /// The greatest change from one course's exposure to the next that nobody sees from the ground.
    pub sight_limit: Length,
}

impl Default for SettingOut {
    fn default() -> Self {
        Self { tape_step: Length::inches(0.0625), sight_limit: Length::inches(0.125) }
    }
}
