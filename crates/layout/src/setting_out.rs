use std::borrow::Cow;
use std::collections::BTreeSet;

use covering::{Bond, Covering, GradedLength};
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
    /// Which lengths of the sheet are laid, if it has any.
    pub graduated: Graduated,
    /// Blocks, turrets all, on whose planes units narrow towards the peak.
    pub tapered: BTreeSet<String>,
}

/// Lengths and thicknesses from the longest at the eave to the shortest at the top.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Graduated {
    /// All units have the sheet's own length.
    #[default]
    No,
    /// By the sheet's shares.
    BySheet,
    /// These lengths of the sheet, each with its part of the slope, in any order.
    Lengths(Vec<(Length, f64)>),
}

impl Graduated {
    /// Of the sheet's lengths those that are laid, with their parts of the slope, from the longest down.
    fn of(&self, sheet: &[GradedLength]) -> Vec<GradedLength> {
        match self {
            Self::No => Vec::new(),
            Self::BySheet => sheet.to_vec(),
            Self::Lengths(chosen) => {
                let share = |graded: &GradedLength| {
                    chosen.iter().find(|(length, _)| is_one(*length, graded.length)).map(|(_, share)| *share)
                };
                let laid = sheet.iter().filter_map(|graded| Some(GradedLength { share: share(graded)?, ..*graded }));
                laid.collect()
            }
        }
    }

    /// The lengths asked for that a sheet does not have.
    #[must_use]
    pub fn unknown(&self, covering: &Covering) -> Vec<Length> {
        let Self::Lengths(chosen) = self else { return Vec::new() };
        let has = |length: Length| covering.bonds.lengths.iter().any(|graded| is_one(graded.length, length));
        chosen.iter().map(|(length, _)| *length).filter(|length| !has(*length)).collect()
    }
}

/// Lengths that came from millimetres.
fn is_one(a: Length, b: Length) -> bool {
    (a - b).to_inches().abs() < 1e-6
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
        Self {
            tape_step,
            sight_limit,
            match_hips: MatchHips::None,
            valleys: None,
            hips: None,
            bond: None,
            staggered: false,
            graduated: Graduated::No,
            tapered: BTreeSet::new(),
        }
    }
}

/// The sheet's own unit as thick as the thickest that is laid, and as heavy: by it nails are chosen.
fn as_thick(sheet: &mut Cow<'_, Covering>, thickest: Length) {
    let part = thickest / sheet.unit.thickness;
    if (part - 1.0).abs() > 1e-9 && part.is_finite() {
        let sheet = sheet.to_mut();
        sheet.unit.thickness = thickest;
        sheet.unit.weight = sheet.unit.weight * part;
        if let Some(wide) = &mut sheet.wide {
            wide.weight = wide.weight * part;
        }
    }
}

/// The sheet with what is chosen for this roof in it: a closed valley has no clear width, a mitred hip no caps, one
/// bond is allowed, units hang and are of several lengths only where that is asked for. Open valleys of a sheet that closes
/// them are 4 in clear at the top: Copper Flashings, a manual, Copper and Brass Research Association (1920s),
/// specification, paragraph 33.
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
    let lengths = setting_out.graduated.of(&covering.bonds.lengths);
    if lengths != covering.bonds.lengths {
        sheet.to_mut().bonds.lengths = lengths;
    }
    // The thickest is the longest.
    if let Some(thickest) = sheet.bonds.lengths.first().map(|graded| graded.thickness) {
        as_thick(&mut sheet, thickest);
    }
    let bond = covering.bond(setting_out.bond);
    // Random widths are laid to the line.
    if covering.bonds.step.is_some() && (!setting_out.staggered || bond == Bond::Random) {
        sheet.to_mut().bonds.step = None;
    }
    if bond != covering.bond(None) {
        sheet.to_mut().bonds.allows = vec![bond];
    }
    sheet
}
