use covering::Covering;
use layout::Layout;
use roof::{EdgeKind, Line, Plane, Roof};
use units::{Area, Length};

use crate::{Attic, Climate, Deck, DryInChoices, FlashingChoices, NailChoices, SheetStock};

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
    pub climate: Climate,
    /// What the roof is laid on.
    pub deck: Deck,
    /// What is laid under the units, and how.
    pub dry_in: &'a DryInChoices,
    /// Sheet that flashings are bent from.
    pub sheet_metal: &'a SheetStock,
    /// How they are bent, lapped and held.
    pub flashing: &'a FlashingChoices,
    /// Nails of the units.
    pub nails: NailChoices,
    /// What is to breathe.
    pub attic: Option<Attic>,
}

impl<'a> Given<'a> {
    /// The covering of a plane.
    pub(crate) fn covering(&self, plane: usize) -> Option<&'a Covering> {
        *self.covering_of.get(plane)?
    }

    /// Planes that are covered.
    pub(crate) fn covered(&self) -> impl Iterator<Item = (usize, &'a Plane, &'a Covering)> + '_ {
        let planes = self.roof.planes.iter().enumerate();
        planes.filter_map(|(index, plane)| Some((index, plane, self.covering(index)?)))
    }

    /// Lines of one kind on covered planes, with their indices.
    pub(crate) fn lines(&self, kind: EdgeKind) -> impl Iterator<Item = (usize, &'a Line)> + '_ {
        let lines = self.roof.lines.iter().enumerate().filter(move |(_, line)| line.kind == kind);
        lines.filter(|(_, line)| line.planes.iter().any(|&plane| self.covering(plane).is_some()))
    }

    /// Planes of crickets, which are covered in metal, each with the slope that it stands on.
    pub(crate) fn crickets(&self) -> impl Iterator<Item = (usize, usize)> + 'a {
        self.roof.openings.iter().flat_map(|opening| {
            let own = opening.cricket.into_iter().flat_map(|cricket| cricket.planes);
            own.filter_map(|plane| Some((plane, *opening.planes.first()?)))
        })
    }

    /// Eaves of covered planes.
    pub(crate) fn eaves(&self) -> impl Iterator<Item = (usize, &'a Line)> + '_ {
        self.lines(EdgeKind::Eave)
    }

    /// How far a sheet is carried past an edge: over to the next plane, or up a wall, in inches.
    pub(crate) fn carried_over(&self, kind: EdgeKind) -> f64 {
        use EdgeKind::{Break, DeadValley, Headwall, Hip, Ridge, Sidewall, Valley};
        let is_carried = matches!(kind, Ridge | Hip | Valley | Break | Sidewall | Headwall | DeadValley);
        if is_carried { self.dry_in.carried_over.to_inches() } else { 0.0 }
    }
}
