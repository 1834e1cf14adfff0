/// A layer with the look of what is on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Layer {
    pub(super) name: &'static str,
    /// Index in the format's list of colours; 7 is black on white paper.
    pub(super) colour: u8,
    pub(super) line: LineKind,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum LineKind {
    Continuous,
    Dashed,
    DashDot,
}

impl LineKind {
    pub(super) const ALL: [Self; 3] = [Self::Continuous, Self::Dashed, Self::DashDot];

    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Continuous => "Continuous",
            Self::Dashed => "DASHED",
            Self::DashDot => "DASHDOT",
        }
    }

    /// Inches of the roof: dashes above 0, gaps below, 0 a dot.
    pub(super) const fn dashes(self) -> &'static [f64] {
        match self {
            Self::Continuous => &[],
            Self::Dashed => &[6.0, -3.0],
            Self::DashDot => &[12.0, -3.0, 0.0, -3.0],
        }
    }
}

const fn layer(name: &'static str, colour: u8, line: LineKind) -> Layer {
    Layer { name, colour, line }
}

/// Outline of the roof in plan.
pub(super) const OUTLINE: Layer = layer("OUTLINE", 7, LineKind::Continuous);
/// Courtyards in it, around which the roof runs.
pub(super) const COURTYARD: Layer = layer("COURTYARD", 7, LineKind::Continuous);
/// Planes in space.
pub(super) const PLANES: Layer = layer("PLANES", 8, LineKind::Continuous);
/// What is cut out of planes.
pub(super) const HOLES: Layer = layer("PLANE-HOLES", 8, LineKind::Dashed);
pub(super) const OPENINGS: Layer = layer("OPENINGS", 2, LineKind::Continuous);
pub(super) const NAMES: Layer = layer("NAMES", 7, LineKind::Continuous);

/// By the kinds of lines, as the plan names them.
const LINES: [(&str, Layer); 10] = [
    ("eave", layer("EAVE", 3, LineKind::Continuous)),
    ("rake", layer("RAKE", 4, LineKind::Continuous)),
    ("ridge", layer("RIDGE", 1, LineKind::DashDot)),
    ("hip", layer("HIP", 6, LineKind::Continuous)),
    ("valley", layer("VALLEY", 5, LineKind::Dashed)),
    ("sidewall", layer("SIDEWALL", 30, LineKind::DashDot)),
    ("headwall", layer("HEADWALL", 30, LineKind::DashDot)),
    ("break", layer("BREAK", 1, LineKind::Dashed)),
    ("high edge", layer("HIGH-EDGE", 3, LineKind::DashDot)),
    ("dead valley", layer("DEAD-VALLEY", 5, LineKind::DashDot)),
];

/// What is none of these is an edge of an opening.
pub(super) fn of_line(kind: &str) -> Layer {
    LINES.iter().find(|(name, _)| *name == kind).map_or(OPENINGS, |(_, layer)| *layer)
}

pub(super) const FLAT_EDGE: Layer = layer("FLAT-EDGE", 7, LineKind::Continuous);
/// The boundary the units are cut to.
pub(super) const FLAT_LAID: Layer = layer("FLAT-LAID", 8, LineKind::Dashed);
pub(super) const FLAT_WHOLE: Layer = layer("FLAT-WHOLE", 9, LineKind::Continuous);
pub(super) const FLAT_CUT: Layer = layer("FLAT-CUT", 1, LineKind::Continuous);
/// Numbers of the cuts, as on the setting-out sheet.
pub(super) const FLAT_NUMBER: Layer = layer("FLAT-NUMBER", 1, LineKind::Continuous);
pub(super) const FLAT_STARTER: Layer = layer("FLAT-STARTER", 6, LineKind::Dashed);
/// Where butts come to lie.
pub(super) const FLAT_COURSE: Layer = layer("FLAT-COURSE", 5, LineKind::Continuous);
/// Story poles with their running marks.
pub(super) const FLAT_MARK: Layer = layer("FLAT-MARK", 3, LineKind::Continuous);
pub(super) const FLAT_NAME: Layer = layer("FLAT-NAME", 7, LineKind::Continuous);

pub(super) const SAW_PIECE: Layer = layer("SAW-PIECE", 7, LineKind::Continuous);
pub(super) const SAW_TEXT: Layer = layer("SAW-TEXT", 3, LineKind::Continuous);
