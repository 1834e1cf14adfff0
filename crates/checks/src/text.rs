use crate::Edition;

/// How well a source is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    /// It was read: a maker's sheet, a book, a page of a public agency.
    Read,
    /// A code, of which these editions were read. Others are taken to say the same, from memory.
    In(&'static [Edition]),
    /// From memory, or common practice that nobody has published.
    Memory,
}

/// A text that a finding rests on, where one rule has several: the rows of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Text {
    /// Standard, edition, section, table.
    pub(crate) source: &'static str,
    pub(crate) reading: Reading,
}

impl Reading {
    /// Anything of it was read.
    #[must_use]
    pub const fn is_read(self) -> bool {
        match self {
            Self::Read => true,
            Self::In(editions) => !editions.is_empty(),
            Self::Memory => false,
        }
    }

    /// The editions of a code that were read.
    #[must_use]
    pub const fn editions(self) -> &'static [Edition] {
        match self {
            Self::In(editions) => editions,
            Self::Read | Self::Memory => &[],
        }
    }

    /// The words of the edition that the job names were read.
    pub(crate) fn covers(self, code: Option<Edition>) -> bool {
        code.is_some_and(|edition| self.editions().contains(&edition))
    }
}
