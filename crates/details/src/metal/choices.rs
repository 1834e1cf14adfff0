use units::{Length, Mass};

use super::Sealant;

/// Sheet from which flashings and valleys are bent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetStock {
    /// What it is made of.
    pub metal: SheetMetal,
    /// Of the sheet.
    pub thickness: Length,
    /// Along; no piece is longer.
    pub length: Length,
    /// Across; the girth of a piece lies this way.
    pub width: Length,
    /// Of a square foot.
    pub weight: Mass,
}

/// The metal of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetMetal {
    /// Copper.
    Copper,
    /// Steel with a coat of zinc.
    GalvanizedSteel,
    /// Stainless steel.
    StainlessSteel,
    /// Aluminium.
    Aluminum,
    /// Zinc.
    Zinc,
}

impl SheetMetal {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Copper => "copper",
            Self::GalvanizedSteel => "galvanized steel",
            Self::StainlessSteel => "stainless steel",
            Self::Aluminum => "aluminum",
            Self::Zinc => "zinc",
        }
    }

    /// Pounds of a cubic foot (from memory, not read; 16-oz copper is 0.0216 in thick by it).
    #[must_use]
    pub const fn pounds_per_cubic_foot(self) -> f64 {
        match self {
            Self::Copper => 556.0,
            Self::GalvanizedSteel => 490.0,
            Self::StainlessSteel => 500.0,
            Self::Aluminum => 169.0,
            Self::Zinc => 446.0,
        }
    }

    /// Of one square foot so thick: density × thickness.
    #[must_use]
    pub fn weight(self, thickness: Length) -> Mass {
        Mass::pounds(self.pounds_per_cubic_foot() * thickness.to_feet())
    }
}

/// How metal is bent, lapped and held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlashingChoices {
    /// Up a wall.
    pub wall_leg: Length,
    /// Of step flashing under the units.
    pub roof_leg: Length,
    /// A piece of step flashing is at least so long.
    pub step_length: Length,
    /// A piece of step flashing laps the one below by so much at least.
    pub step_lap: Length,
    /// Turned back along the edge of step flashing.
    pub step_hem: Length,
    /// The foot of step flashing stays so far above the butts of its course, so that it is not seen.
    pub above_butt: Length,
    /// Turned back along the free edges of everything else.
    pub hem: Length,
    /// Joints of valley metal lap by so much.
    pub valley_lap: Length,
    /// Cleats along each edge of valley metal are so far apart.
    pub cleats_apart: Length,
    /// Height of the W or crimp along the middle of a valley whose sides differ.
    pub rib: Length,
    /// One side of a valley may drain so many times the area of the other before a rib is raised.
    pub area_ratio: f64,
    /// A piece of a closed valley or a mitred hip laps the one below by so much.
    pub course_lap: Length,
    /// Joints of aprons, pans and counterflashing lap by so much.
    pub joint_lap: Length,
    /// Aprons and pans run past the end of a wall by so much.
    pub past_end: Length,
    /// Up the slope behind what stands in it, under the units.
    pub back_leg: Length,
    /// Counterflashing over the upturned leg.
    pub counter_leg: Length,
    /// Of counterflashing let into the masonry.
    pub raglet: Length,
    /// Walls too get counterflashing; where not, siding covers the legs.
    pub counter_at_walls: bool,
    /// Nails of a piece of step flashing.
    pub step_nails: u32,
    /// Nails along aprons, pans and the metal of level edges are so far apart.
    pub nails_apart: Length,
    /// Nails of metal sold in one box.
    pub nail_box: u32,
    /// What seals its joints.
    pub sealant: Sealant,
}
