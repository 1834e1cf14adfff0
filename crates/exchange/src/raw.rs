//! What a file holds, before anything is tidied.

use roof::Point3;

use crate::refused::Refused;

/// Everything of a file, in inches, where the file has it.
#[derive(Debug, Default)]
pub(crate) struct Found {
    pub(crate) outlines: Vec<Footprint>,
    pub(crate) planes: Vec<Surface>,
    pub(crate) notes: Vec<String>,
}

/// One polygon in space.
#[derive(Debug, Clone)]
pub(crate) struct Surface {
    /// The building it belongs to.
    pub(crate) part_of: String,
    pub(crate) name: String,
    /// The outer ring first, then its holes; no corner is repeated at the end.
    pub(crate) rings: Vec<Vec<Point3>>,
}

/// An outline whose height is only a hint.
#[derive(Debug, Clone)]
pub(crate) struct Footprint {
    pub(crate) surface: Surface,
    /// Height of the lowest corner of the planes over it, when the file has them.
    pub(crate) roof_from: Option<f64>,
}

/// More than these in one import is a town; nobody would edit the job file, and it could not be read back.
const MOST_SURFACES: usize = 2_500;
const MOST_CORNERS: usize = 40_000;
/// The plan reads no outline with more.
const MOST_CORNERS_OF_A_RING: usize = 2_000;

impl Found {
    pub(crate) fn surfaces(&self) -> impl Iterator<Item = &Surface> {
        self.planes.iter().chain(self.outlines.iter().map(|outline| &outline.surface))
    }

    pub(crate) fn corners(&self) -> impl Iterator<Item = &Point3> {
        self.surfaces().flat_map(|surface| surface.rings.iter().flatten())
    }

    /// Refuses a town.
    pub(crate) fn is_a_house(&self) -> Result<(), Refused> {
        let (surfaces, corners) = (self.surfaces().count(), self.corners().count());
        let remedy = "Take one building only: name it with --layer, or cut it out with the program that made the file.";
        if surfaces > MOST_SURFACES || corners > MOST_CORNERS {
            let says = format!("the file holds {surfaces} outlines and planes with {corners} corners, which is no house");
            return Err(Refused::new(says, remedy));
        }
        let longest = self.surfaces().flat_map(|surface| &surface.rings).map(Vec::len).max().unwrap_or_default();
        if longest > MOST_CORNERS_OF_A_RING {
            let says = format!("an outline has {longest} corners, where {MOST_CORNERS_OF_A_RING} is the most");
            return Err(Refused::new(says, "Simplify it with the program that made the file."));
        }
        Ok(())
    }
}
