use std::fmt;

/// Why a text is not the quantity it should be, and where in the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread {
    /// Byte offset in the text at which reading stopped making sense.
    pub at: usize,
    /// What is wrong, in words for the person who typed it.
    pub says: String,
}

impl Misread {
    pub(crate) fn new(at: usize, says: impl Into<String>) -> Self {
        Self { at, says: says.into() }
    }
}

impl fmt::Display for Misread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says)
    }
}

impl std::error::Error for Misread {}
