/// Why a file cannot be imported, and what to do.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{says}. {remedy}")]
pub struct Refused {
    /// What is wrong and where, without a full stop.
    pub says: String,
    /// What to do, a sentence.
    pub remedy: String,
}

impl Refused {
    pub(crate) fn new(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self { says: says.into(), remedy: remedy.into() }
    }
}
