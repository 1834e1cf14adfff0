//! What can be lettered: a name may hold letters that no font of the book has, and PDF/A refuses a letter without a shape.

use std::io::{self, Write};

use serde::Serialize;
use serde_json::ser::{CharEscape, CompactFormatter, Formatter, Serializer};
use typst::text::Font;

use crate::BookError;
use crate::content::Content;

/// Stands for what cannot be lettered.
const BLANK: char = '□';

/// The letters that every font of the book has.
#[derive(Clone, Copy)]
pub(crate) struct Letters<'a> {
    fonts: &'a [Font],
}

impl<'a> Letters<'a> {
    pub(crate) const fn of(fonts: &'a [Font]) -> Self {
        Self { fonts }
    }

    /// The same text, a blank square for each letter that is not in every font.
    pub(crate) fn only(self, text: &str) -> String {
        text.chars().map(|letter| if self.has(letter) { letter } else { BLANK }).collect()
    }

    fn has(self, letter: char) -> bool {
        matches!(letter, ' '..='~' | '\n') || self.fonts.iter().all(|font| font.info().coverage.contains(letter as u32))
    }

    /// The content for the template.
    pub(crate) fn json(self, content: &Content) -> Result<Vec<u8>, BookError> {
        let mut bytes = Vec::new();
        let written = content.serialize(&mut Serializer::with_formatter(&mut bytes, Lettered(self)));
        written.map_err(|fault| BookError::Press { says: fault.to_string() })?;
        Ok(bytes)
    }
}

/// Writes JSON whose strings can be lettered.
struct Lettered<'a>(Letters<'a>);

impl Formatter for Lettered<'_> {
    fn write_string_fragment<W: ?Sized + Write>(&mut self, writer: &mut W, fragment: &str) -> io::Result<()> {
        writer.write_all(self.0.only(fragment).as_bytes())
    }

    fn write_char_escape<W: ?Sized + Write>(&mut self, writer: &mut W, escape: CharEscape) -> io::Result<()> {
        match escape {
            CharEscape::AsciiControl(_) | CharEscape::Backspace | CharEscape::FormFeed => {
                write!(writer, "{BLANK}")
            }
            escape => CompactFormatter.write_char_escape(writer, escape),
        }
    }
}
