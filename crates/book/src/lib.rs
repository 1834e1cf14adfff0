//! The job book: a plan bound as PDF, in English and Spanish.
//!
//! Everything shown stands in the plan; nothing here decides anything about the roof, and nothing here writes a file.

mod content;
mod letters;
mod measure;
mod phrases;
mod press;
mod sections;
mod speaker;
mod tail;
mod tongue;

use drawings::Page;
use plan::Plan;

pub use measure::Measures;
pub use speaker::Speaker;
pub use tongue::Language;

use content::Content;
use tongue::Tongue;

/// How a book is to be bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Binding {
    /// What is read.
    pub language: Language,
    /// What is measured in.
    pub measures: Measures,
    /// What it is printed on.
    pub paper: Paper,
    /// For whom.
    pub part: Part,
    /// Year, month and day that the book bears; without one, a blank is left on the cover.
    pub date: Option<[i16; 3]>,
}

/// What a book is printed on, lying.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// US Letter.
    Letter,
    /// A4 of ISO 216.
    A4,
}

impl Paper {
    /// As the typesetter knows it, and the sheet twice as large, on which a drawing is folded out that has no room on this one.
    const fn names(self) -> [&'static str; 2] {
        match self {
            Self::Letter => ["us-letter", "us-tabloid"],
            Self::A4 => ["a4", "a3"],
        }
    }

    /// Width and height of the sheet twice as large, mm.
    const fn large_size(self) -> [f64; 2] {
        let [width, height] = self.size();
        match self {
            Self::Letter => [2.0 * height, width],
            Self::A4 => [420.0, 297.0],
        }
    }

    /// Width and height, mm.
    const fn size(self) -> [f64; 2] {
        match self {
            Self::Letter => Page::LETTER.size(),
            Self::A4 => [297.0, 210.0],
        }
    }
}

/// For whom a book is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Everything but the full-size poles.
    Whole,
    /// What is needed on the roof.
    Crew,
    /// What is ordered and cut.
    Office,
    /// What the building official asks for.
    Official,
    /// What the owner keeps.
    Owner,
    /// Story poles in full size, to be taped together.
    Poles,
}

/// Why there is no book.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BookError {
    /// A file of the book's words is broken.
    #[error("the words of the book in {} cannot be read", .language.code())]
    Text {
        /// Whose words.
        language: Language,
    },
    /// The typesetter refuses.
    #[error("the book cannot be set: {says}")]
    Press {
        /// In its own words.
        says: String,
    },
    /// Nothing of the roof was planned.
    #[error("there is nothing to bind: no plane of the roof was planned")]
    Empty,
}

/// Stages of the binding, for whoever waits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// The sheets are drawn and written.
    Drawing,
    /// They are set in type and written as PDF.
    Printing,
}

/// Binds a plan. The same plan and binding give the same bytes on every machine. `watch` hears what is being done.
///
/// # Errors
///
/// If nothing was planned, or the typesetter refuses.
pub fn bind(plan: &Plan, binding: &Binding, watch: &mut dyn FnMut(Stage)) -> Result<Vec<u8>, BookError> {
    watch(Stage::Drawing);
    let content = content(plan, binding)?;
    watch(Stage::Printing);
    press::print(&content)
}

fn content(plan: &Plan, binding: &Binding) -> Result<Content, BookError> {
    if plan.roof.planes.is_empty() {
        return Err(BookError::Empty);
    }
    let tongue = Tongue::new(binding.language, binding.measures)?;
    Ok(sections::content(plan, binding, &tongue))
}

#[cfg(test)]
mod tests;
