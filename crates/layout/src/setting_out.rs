use std::borrow::Cow;
use std::collections::BTreeSet;

use covering::{Bond, Covering};
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
    /// How valleys are laid; `None` leaves it to the sheet.
    pub valleys: Option<Valleys>,
    /// How hips are finished; `None` leaves it to the sheet.
    pub hips: Option<Hips>,
    /// Which of the sheet's bonds is laid; `None`, or one that the sheet does not allow: its first.
    pub bond: Option<Bond>,
    /// Every other unit hangs by the sheet's step, if it gives one; else butts lie straight.
    pub staggered: bool,
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

/// How valleys are laid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Valleys {
    /// Clear of units at the sheet's width, on metal that is seen.
    Open,
    /// Units of both planes are cut to the valley's rib.
    Closed,
}

/// How hips are finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hips {
    /// Caps cover both sides.
    Capped,
    /// Units of both planes are cut to the hip line and are seen up to it.
    Mitred,
}

impl Default for SettingOut {
    fn default() -> Self {
        let (tape_step, sight_limit) = (Length::inches(0.0625), Length::inches(0.125));
        Self { tape_step, sight_limit, match_hips: MatchHips::None, valleys: None, hips: None, bond: None, staggered: false }
    }
}

/// The sheet with what is chosen for this roof in it: a closed valley has no clear width, a mitred hip no caps, one
/// bond is allowed, and units hang only where that is asked for. Open
/// valleys of a sheet that closes them are 4 in clear at the top: Copper Flashings, a manual, Copper and Brass Research
/// Association (1920s), specification, paragraph 33.
#[must_use]
pub fn as_set_out<'a>(covering: &'a Covering, setting_out: &SettingOut) -> Cow<'a, Covering> {
    let mut sheet = Cow::Borrowed(covering);
    let (clear, cover) = (covering.edges.valley_clear, covering.cap.hip_cover);
    match setting_out.valleys {
        Some(Valleys::Closed) if clear > Length::ZERO => sheet.to_mut().edges.valley_clear = Length::ZERO,
        Some(Valleys::Open) if clear <= Length::ZERO => sheet.to_mut().edges.valley_clear = Length::inches(4.0),
        _ => {}
    }
    match setting_out.hips {
        Some(Hips::Mitred) if cover > Length::ZERO => sheet.to_mut().cap.hip_cover = Length::ZERO,
        Some(Hips::Capped) if cover <= Length::ZERO => sheet.to_mut().cap.hip_cover = covering.cap.cover,
        _ => {}
    }
    if covering.bonds.step.is_some() && !setting_out.staggered {
        sheet.to_mut().bonds.step = None;
    }
    let bond = covering.bond(setting_out.bond);
    if bond != covering.bond(None) {
        sheet.to_mut().bonds.allows = vec![bond];
    }
    sheet
}
