use crate::Page;

/// A place on the paper: millimetres from its top left corner, to the right and down.
pub type Point = [f64; 2];

/// One sheet, ready to be written in any format.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// The paper.
    pub page: Page,
    /// One line that names the sheet.
    pub title: String,
    /// What the sheet shows, for those who cannot see it.
    pub description: String,
    /// From the lowest to the topmost: later items cover earlier ones.
    pub items: Vec<Item>,
}

/// Something drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// A line through two points or more.
    Line {
        /// In order.
        points: Vec<Point>,
        /// How it is drawn.
        line: LineType,
    },
    /// Closed outlines; where an even number lie over each other is a hole.
    Shape {
        /// Corners in order; the last joins the first.
        rings: Vec<Vec<Point>>,
        /// Of the outline.
        line: LineType,
        /// Inside.
        fill: Fill,
    },
    /// Lettering.
    Text(Text),
}

/// Inside of a shape. Told apart without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fill {
    /// Blank; hides what lies below.
    Paper,
    /// Black.
    Ink,
    /// Slanting lines on blank paper: cut pieces.
    Hatch,
}

/// Lines by purpose. Types, widths (0.18, 0.35 and 0.7 mm, each twice the one before) and dash lengths after ISO 128-2 (from
/// memory, not read).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineType {
    /// Edge of the plane: continuous, extra wide.
    PlaneEdge,
    /// Outline of a unit, rules of tables, leaders: continuous, narrow.
    Piece,
    /// Course line, pole, frame: continuous, wide.
    Course,
    /// What other things hide: dashed, narrow.
    Hidden,
    /// A limit that is no edge, such as the line up to which a cap covers: long-dashed dotted, narrow.
    Limit,
    /// No line.
    Unseen,
}

impl LineType {
    /// Every type that is seen.
    pub const SEEN: [Self; 5] = [Self::PlaneEdge, Self::Piece, Self::Course, Self::Hidden, Self::Limit];

    /// Width in millimetres.
    #[must_use]
    pub const fn width(self) -> f64 {
        match self {
            Self::PlaneEdge => 0.7,
            Self::Course => 0.35,
            Self::Piece | Self::Hidden | Self::Limit => 0.18,
            Self::Unseen => 0.0,
        }
    }

    /// Lengths of dashes and gaps in turn, in line widths; empty for a continuous line.
    #[must_use]
    pub const fn dashes(self) -> &'static [f64] {
        match self {
            Self::Hidden => &[12.0, 3.0],
            Self::Limit => &[24.0, 3.0, 0.5, 3.0],
            Self::PlaneEdge | Self::Piece | Self::Course | Self::Unseen => &[],
        }
    }
}

/// One line of lettering.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// Where on the baseline.
    pub at: Point,
    /// Height of a capital letter, millimetres.
    pub cap: f64,
    /// Which end of the words stands at `at`.
    pub anchor: Anchor,
    /// Degrees clockwise.
    pub turn: f64,
    /// Heavy letters.
    pub strong: bool,
    /// What is written.
    pub words: String,
}

/// Which part of a line of lettering stands at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
    End,
}
