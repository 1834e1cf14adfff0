//! Reads TOML or JSON text into any type that serde can fill, and collects many mistakes in one run.
//!
//! Serde stops at its first mistake. Here the text becomes one tree whose nodes know their bytes; a value that serde
//! refuses is noted with its place, a stand-in takes its seat, and the reading is tried again, until nothing new is
//! found. Unknown keys are caught on the way: the type tells which keys it knows, and the rest are reported with the
//! nearest of them.

mod fault;
mod from_json;
mod from_toml;
mod guard;
mod mistake;
mod nearest;
mod node;
mod places;
mod standin;
mod to_json;
mod trial;
mod walk;
mod words;

use serde::de::DeserializeOwned;

pub use guard::{LARGEST, decode};
pub use mistake::Mistake;
pub use nearest::nearest;
pub use places::Places;
pub use to_json::to_json;
pub use words::quoted;

use mistake::Text;
use node::Node;

/// How a text is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Format {
    /// TOML 1.1.
    Toml,
    /// JSON as the standard has it: no comments, no trailing commas.
    Json,
}

/// What came of a reading.
#[derive(Debug, Clone)]
pub struct Read<T> {
    /// The value; absent if there was any mistake.
    pub value: Option<T>,
    /// Every mistake found, in the order of the text, at most 100.
    pub mistakes: Vec<Mistake>,
    /// Where every value stands, for checks that come later.
    pub places: Places,
}

/// Reads `text` into a `T`. Never panics, whatever the text; a text above [`LARGEST`] bytes or nested deeper than 64
/// is refused unread.
pub fn read<T: DeserializeOwned>(text: &str, format: Format) -> Read<T> {
    if let Some(refusal) = guard::refusal(text, format) {
        return Read { value: None, mistakes: vec![refusal], places: Places::new(&Text::new(""), Node::nothing()) };
    }
    let text = Text::new(text);
    let mut noted = Vec::new();
    let root = match format {
        Format::Toml => from_toml::tree(&text, &mut noted),
        Format::Json => from_json::tree(&text, &mut noted),
    };
    let places = Places::new(&text, root);
    if !noted.is_empty() {
        return Read { value: None, mistakes: mistake::in_order(noted), places };
    }
    let (value, mistakes) = trial::run(&text, format, &places);
    Read { value: value.filter(|_| mistakes.is_empty()), mistakes, places }
}
