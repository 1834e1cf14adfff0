use units::{Length, Pitch};

/// What happens along one side of an outline, from its eave up.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// Eave, gable or wall.
    pub kind: SideKind,
    /// How far the roof edge stands out past the wall, in plan. Absent is unknown, not zero.
    pub overhang: Option<Length>,
    /// Height above the job's datum of the plane over this side as measured, in inches; absent: the block's.
    pub eave_height: Option<f64>,
    /// What happens further up, in the order of the heights.
    pub changes: Vec<Change>,
}

/// Whether a plane rises from a side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SideKind {
    /// A plane rises from here at this pitch.
    Eave(Pitch),
    /// A vertical end: no plane rises from here.
    Gable,
    /// Like a gable, but it stands against another block's wall.
    Wall,
}

/// From a height on, a side goes on otherwise: a break of the pitch, a gable above a hip, a hip above a gable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// Above the side's eave height.
    pub rise: Length,
    /// The pitch from here on; none where the side goes on upright.
    pub pitch: Option<Pitch>,
}

impl Side {
    /// A side that goes on as it begins, with its overhang unknown.
    #[must_use]
    pub const fn new(kind: SideKind) -> Self {
        Self { kind, overhang: None, eave_height: None, changes: Vec::new() }
    }
}

impl SideKind {
    /// The pitch of the plane that rises from here.
    #[must_use]
    pub const fn pitch(self) -> Option<Pitch> {
        match self {
            Self::Eave(pitch) => Some(pitch),
            Self::Gable | Self::Wall => None,
        }
    }
}
