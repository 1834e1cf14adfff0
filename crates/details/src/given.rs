use covering::Covering;
use layout::Layout;
use roof::Roof;
use units::{Area, Length};

use crate::{Attic, Deck, DryInChoices, Site};

/// What details are placed from: plain values, filled by whoever plans.
#[derive(Debug, Clone, Copy)]
pub struct Given<'a> {
    /// Planes, lines and openings.
    pub roof: &'a Roof,
    /// Units on the planes.
    pub layout: &'a Layout,
    /// The covering of each of `roof.planes`; none for planes that are measured only.
    pub covering_of: &'a [Option<&'a Covering>],
    /// How far each of `roof.lines` that is an eave stands out past the wall, in plan; none where it is not known.
    pub overhang_of: &'a [Option<Length>],
    /// Plan area inside the wall lines; none where a wall line is not known.
    pub floor_area: Option<Area>,
    /// Where the house stands.
    pub site: Site,
    /// What the roof is laid on.
    pub deck: Deck,
    /// What is laid under the units, and how.
    pub dry_in: &'a DryInChoices,
    /// What is to breathe.
    pub attic: Option<Attic>,
}
