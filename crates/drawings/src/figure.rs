use crate::{Scale, Scene};

/// A drawing without heading, notes and title block, to stand on a page that has its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// As large as what is drawn.
    pub scene: Scene,
    /// What it is drawn at.
    pub scale: Scale,
    /// What the letters in it stand for.
    pub keyed: Vec<String>,
}
