//! Metal over ridges and hips instead of caps.

use schemars::JsonSchema;
use serde::Deserialize;
use units::{Length, Measure};

use crate::desk::Desk;
use crate::{Covering, SheetFile};

/// Metal over ridges or hips. It reaches down each side as far as caps would: [`crate::Cap::cover`] and
/// [`crate::Cap::hip_cover`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RidgeMetal {
    /// Ridges have it, and no caps.
    pub at_ridges: bool,
    /// Hips have it, and no caps, unless they are mitred.
    pub at_hips: bool,
    /// A piece over the one before.
    pub lap: Length,
    /// Girth that a roll or a standing seam along the line takes up beside the two sides.
    pub rise: Length,
}

/// Which lines have metal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RidgeMetalOn {
    /// Ridges; hips have caps.
    Ridges,
    /// Hips; ridges have caps.
    Hips,
    /// Both.
    RidgesAndHips,
}

/// Metal that covers ridges or hips instead of caps. Its cover down each side is that of `[cap]`.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RidgeMetalGroup {
    /// Which lines have it.
    pub on: RidgeMetalOn,
    /// A piece over the one before.
    pub lap: Measure,
    /// Girth that a roll or a standing seam along the line takes up. Absent: 0.
    pub rise: Option<Measure>,
    /// Where these figures come from.
    pub source: String,
}

pub(crate) fn ridge_metal(desk: &mut Desk, sheet: &SheetFile, group: &RidgeMetalGroup) -> RidgeMetal {
    let at_hips = matches!(group.on, RidgeMetalOn::Hips | RidgeMetalOn::RidgesAndHips);
    let mitred = sheet.cap.hip_cover.is_some_and(|cover| cover.in_unit(sheet.units) <= Length::ZERO);
    let says = || "hips are mitred, since [cap] hip_cover is 0, and have no metal over them".into();
    desk.expect(!(at_hips && mitred), "ridge_metal.on", says, "Write on = \"ridges\", or give hip_cover.");
    RidgeMetal {
        at_ridges: matches!(group.on, RidgeMetalOn::Ridges | RidgeMetalOn::RidgesAndHips),
        at_hips,
        lap: desk.nil_or_more("ridge_metal.lap", group.lap),
        rise: group.rise.map_or(Length::ZERO, |rise| desk.nil_or_more("ridge_metal.rise", rise)),
    }
}

impl Covering {
    /// Ridges are covered in caps.
    #[must_use]
    pub fn has_ridge_caps(&self) -> bool {
        self.ridge_metal.is_none_or(|metal| !metal.at_ridges)
    }

    /// Hips are covered in metal: neither in caps nor mitred.
    #[must_use]
    pub fn has_hip_metal(&self) -> bool {
        self.ridge_metal.is_some_and(|metal| metal.at_hips) && self.cap.hip_cover > Length::ZERO
    }

    /// Hips are covered in caps: neither in metal nor mitred.
    #[must_use]
    pub fn has_hip_caps(&self) -> bool {
        self.cap.hip_cover > Length::ZERO && !self.has_hip_metal()
    }
}
