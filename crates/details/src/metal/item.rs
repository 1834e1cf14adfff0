use roof::{Place, Roof};
use units::Length;

use super::{PipeFlange, Sealant, SheetStock};

/// All metal that is bent and laid.
#[derive(Debug, Clone, PartialEq)]
pub struct Metal {
    /// The sheet.
    pub stock: SheetStock,
    /// Sheets that all pieces are cut from.
    pub sheets: u32,
    /// No way of cutting these pieces lengthwise needs fewer.
    pub bound: u32,
    /// Kind by kind in the order in which they are laid; kinds of which nothing is needed are absent.
    pub items: Vec<MetalItem>,
    /// Flanges of pipes, which are bought.
    pub pipes: Vec<PipeFlange>,
    /// What seals it.
    pub sealant: Sealant,
}

/// All metal of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct MetalItem {
    /// What it is.
    pub kind: MetalKind,
    /// Wall by wall, valley by valley.
    pub runs: Vec<MetalRun>,
}

/// What is bent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MetalKind {
    /// Lining of an open valley.
    OpenValley,
    /// A piece in a closed valley, one for each course.
    ClosedValley,
    /// Holds the edge of valley metal and lets it move.
    Cleat,
    /// One for each course along a wall.
    StepFlashing,
    /// Turns the water out at the foot of a sidewall.
    KickOut,
    /// A piece under a mitred hip, one for each course.
    MitredHip,
    /// Along a wall towards which the slope falls.
    DeadValley,
    /// Behind a chimney without a cricket, or a skylight.
    BackPan,
    /// One of the two planes of a cricket.
    Cricket,
    /// Over the last course below a wall.
    Apron,
    /// Closes the end of an apron.
    Corner,
    /// Over the upturned legs at masonry.
    Counterflashing,
    /// Over the units of a high edge.
    HighEdge,
    /// Over the heads below a break.
    Break,
    /// Over a hip, where the sheet has no caps there.
    HipMetal,
    /// Over a ridge, where the sheet has no caps there.
    RidgeMetal,
}

/// The metal of one kind at one wall, valley or opening.
#[derive(Debug, Clone, PartialEq)]
pub struct MetalRun {
    /// Along what.
    pub along: Along,
    /// From the foot up, or from the left.
    pub pieces: Vec<MetalPiece>,
    /// How far an apron lies on the units below it.
    pub roof_leg: Option<Length>,
    /// Laps that are sealed.
    pub sealed_joints: u32,
    /// All beads of sealant at it, one after the other.
    pub sealant: Length,
    /// A W or a crimp is raised along its middle.
    pub ribbed: bool,
    /// Nails through the faces of the cut units under it, whose heads are sealed; they are counted with the units.
    pub face_nails: u32,
    /// Nails that hold it.
    pub nails: u32,
}

/// Along what metal lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Along {
    /// Index in [`roof::Roof::planes`]: the plane whose units lie over it or under it.
    pub plane: usize,
    /// Index in [`roof::Roof::lines`]; none on a plane whose lines are not known.
    pub line: Option<usize>,
    /// Index in [`roof::Roof::openings`], at an opening.
    pub opening: Option<usize>,
}

/// One piece at its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MetalPiece {
    /// The course under whose units it lies, counted from 0; none where it belongs to none.
    pub course: Option<u32>,
    /// Its foot and its head, or its left and its right end, on the plane.
    pub ends: [Place; 2],
    /// Width of the blank across the bends.
    pub girth: Length,
    /// Length of the blank.
    pub length: Length,
}

impl MetalKind {
    /// The trade's word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::OpenValley => "open valley metal",
            Self::ClosedValley => "closed valley metal",
            Self::Cleat => "cleat",
            Self::StepFlashing => "step flashing",
            Self::KickOut => "kick-out",
            Self::MitredHip => "mitred hip metal",
            Self::DeadValley => "dead valley pan",
            Self::BackPan => "back pan",
            Self::Cricket => "cricket metal",
            Self::Apron => "apron",
            Self::Corner => "apron corner",
            Self::Counterflashing => "counterflashing",
            Self::HighEdge => "high edge metal",
            Self::Break => "break metal",
            Self::HipMetal => "hip metal",
            Self::RidgeMetal => "ridge metal",
        }
    }

    /// It is laid in lengths that lap, so that feet of it are counted.
    #[must_use]
    pub const fn is_in_lengths(self) -> bool {
        use MetalKind::{Apron, BackPan, Break, Counterflashing, DeadValley, HighEdge, HipMetal, OpenValley, RidgeMetal};
        matches!(
            self,
            OpenValley | DeadValley | BackPan | Apron | Counterflashing | HighEdge | Break | HipMetal | RidgeMetal
        )
    }

    /// Unchanging short name, `step-flashing`.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::OpenValley => "open-valley-metal",
            Self::ClosedValley => "closed-valley-metal",
            Self::Cleat => "cleats",
            Self::StepFlashing => "step-flashing",
            Self::KickOut => "kick-outs",
            Self::MitredHip => "mitred-hip-metal",
            Self::DeadValley => "dead-valley-pans",
            Self::BackPan => "back-pans",
            Self::Cricket => "cricket-metal",
            Self::Apron => "aprons",
            Self::Corner => "apron-corners",
            Self::Counterflashing => "counterflashing",
            Self::HighEdge => "high-edge-metal",
            Self::Break => "break-metal",
            Self::HipMetal => "hip-metal",
            Self::RidgeMetal => "ridge-metal",
        }
    }
}

impl MetalRun {
    /// Pieces without sealed joints, ribs or face nails.
    pub(crate) const fn of(along: Along, pieces: Vec<MetalPiece>) -> Self {
        let (roof_leg, sealant) = (None, Length::ZERO);
        Self { along, pieces, roof_leg, sealed_joints: 0, sealant, ribbed: false, face_nails: 0, nails: 0 }
    }
}

impl MetalItem {
    /// Every piece.
    pub fn pieces(&self) -> impl Iterator<Item = &MetalPiece> {
        self.runs.iter().flat_map(|run| &run.pieces)
    }
}

impl Along {
    /// In words: `sidewall, garage, south`, `beside kitchen chimney, house, south`.
    #[must_use]
    pub fn name(&self, roof: &Roof) -> String {
        let plane_name = |plane: usize| roof.planes.get(plane).map_or("", |plane| plane.name.as_str());
        let line = self.line.and_then(|line| roof.lines.get(line));
        if let Some(opening) = self.opening.and_then(|opening| roof.openings.get(opening)) {
            let side = line.map_or_else(String::new, |line| format!("{} of ", line.kind.name()));
            let plane = plane_name(self.plane);
            // The planes of a cricket have their chimney's name.
            let named = if plane.starts_with(&opening.name) { plane.into() } else { format!("{}, {plane}", opening.name) };
            return format!("{side}{named}");
        }
        match line {
            Some(line) => {
                let planes: Vec<&str> = line.planes.iter().map(|&plane| plane_name(plane)).collect();
                format!("{}, {}", line.kind.name(), planes.join(" / "))
            }
            None => plane_name(self.plane).into(),
        }
    }
}
