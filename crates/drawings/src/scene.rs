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

impl Item {
    /// The same, shifted on the paper.
    pub(crate) fn shifted(self, by: Point) -> Self {
        let shift = |point: Point| [point[0] + by[0], point[1] + by[1]];
        let all = |points: Vec<Point>| points.into_iter().map(shift).collect();
        match self {
            Self::Line { points, line } => Self::Line { points: all(points), line },
            Self::Shape { rings, line, fill } => Self::Shape { rings: rings.into_iter().map(all).collect(), line, fill },
            Self::Text(text) => Self::Text(Text { at: shift(text.at), ..text }),
        }
    }
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
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
    /// Seen from above: continuous, extra wide.
    Eave,
    /// Seen from above: continuous, wide.
    Rake,
    /// Seen from above: long-dashed dotted, wide.
    Ridge,
    /// Seen from above: continuous, narrow.
    Hip,
    /// Seen from above: dashed, extra wide.
    Valley,
    /// Seen from above: long-dashed short-dashed, wide.
    Sidewall,
    /// Seen from above: long-dashed double-short-dashed, wide.
    Headwall,
    /// Seen from above: long-dashed double-dotted, wide.
    Break,
    /// Seen from above: dashed dotted, extra wide.
    HighEdge,
    /// Seen from above: dotted, extra wide.
    DeadValley,
    /// No line.
    Unseen,
}

impl LineType {
    /// Width in millimetres.
    #[must_use]
    pub const fn width(self) -> f64 {
        match self {
            Self::PlaneEdge | Self::Eave | Self::Valley | Self::HighEdge | Self::DeadValley => 0.7,
            Self::Course | Self::Rake | Self::Ridge | Self::Sidewall | Self::Headwall | Self::Break => 0.35,
            Self::Piece | Self::Hidden | Self::Limit | Self::Hip => 0.18,
            Self::Unseen => 0.0,
        }
    }

    /// Lengths of dashes and gaps in turn, in line widths; empty for a continuous line.
    #[must_use]
    pub const fn dashes(self) -> &'static [f64] {
        match self {
            Self::Hidden | Self::Valley => &[DASH, GAP],
            Self::Limit | Self::Ridge => &[LONG, GAP, DOT, GAP],
            Self::Sidewall => &[LONG, GAP, SHORT, GAP],
            Self::Headwall => &[LONG, GAP, SHORT, GAP, SHORT, GAP],
            Self::Break => &[LONG, GAP, DOT, GAP, DOT, GAP],
            Self::HighEdge => &[DASH, GAP, DOT, GAP],
            Self::DeadValley => &[DOT, GAP],
            Self::PlaneEdge | Self::Piece | Self::Course | Self::Eave | Self::Rake | Self::Hip | Self::Unseen => &[],
        }
    }
}

/// Parts of a broken line, in line widths.
const LONG: f64 = 24.0;
const DASH: f64 = 12.0;
const SHORT: f64 = 6.0;
const GAP: f64 = 3.0;
const DOT: f64 = 0.5;

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
