use units::Length;

/// Blank border of every paper, mm.
pub(crate) const MARGIN: f64 = 10.0;

/// A sheet of paper as it lies before the reader.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Page {
    /// From left to right.
    pub width: Length,
    /// From top to bottom.
    pub height: Length,
    /// What a stationer calls it.
    pub name: &'static str,
}

impl Page {
    /// US Letter, landscape.
    pub const LETTER: Self = Self::inches(11.0, 8.5, "Letter");

    /// Papers, landscape, smallest first: the sizes A to E of ANSI/ASME Y14.1 (from memory, not read), then pieces off a roll.
    pub fn series() -> impl Iterator<Item = Self> {
        let rolls = (1..=10).map(|times| Self::inches(f64::from(44 << times), f64::from(34 << times), "roll"));
        Self::CUT_SIZES.into_iter().chain(rolls)
    }

    const CUT_SIZES: [Self; 5] = [
        Self::LETTER,
        Self::inches(17.0, 11.0, "Tabloid"),
        Self::inches(22.0, 17.0, "ANSI C"),
        Self::inches(34.0, 22.0, "ANSI D"),
        Self::inches(44.0, 34.0, "ANSI E"),
    ];

    const fn inches(width: f64, height: f64, name: &'static str) -> Self {
        Self { width: Length::inches(width), height: Length::inches(height), name }
    }

    /// No paper by itself: a figure to stand on one, width and height in mm.
    pub(crate) const fn of_figure([width, height]: [f64; 2]) -> Self {
        Self { width: Length::millimetres(width), height: Length::millimetres(height), name: "figure" }
    }

    /// The same paper turned by a quarter.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self { width: self.height, height: self.width, name: self.name }
    }

    /// Width and height in millimetres, the unit of [`crate::Point`].
    #[must_use]
    pub const fn size(self) -> [f64; 2] {
        [self.width.to_millimetres(), self.height.to_millimetres()]
    }
}
