//! What stands on the pages, before it is set in type: every word is already in the reader's language.

use drawings::Figure;
use serde::Serialize;

/// A book ready for the press.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Content {
    /// `en`, `es`.
    pub(crate) language: &'static str,
    /// `us-letter` or `a4`, and the sheet twice as large: `us-tabloid` or `a3`.
    pub(crate) papers: [&'static str; 2],
    /// Year, month and day of the document.
    pub(crate) date: [i16; 3],
    /// Of the document.
    pub(crate) title: String,
    /// Fields at the foot of every sheet: name and value.
    pub(crate) foot: Vec<[String; 2]>,
    /// Name of the field that holds a drawing's scale.
    pub(crate) scale: String,
    /// Name of the field that holds the number of the sheet, and the word between number and count.
    pub(crate) numbering: [String; 2],
    /// The first sheet is a cover.
    pub(crate) cover: bool,
    /// In order.
    pub(crate) sheets: Vec<Sheet>,
}

/// A sheet begins on a page of its own, and may go on over several.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Sheet {
    /// What it is about.
    pub(crate) title: String,
    /// Which kind of sheet it is.
    pub(crate) sort: String,
    /// It is folded out: its paper is twice as large.
    pub(crate) large: bool,
    /// Its lines stand closer, so that no page is left for a few of them.
    pub(crate) close: bool,
    /// Its drawing's scale, or nothing.
    pub(crate) scale: String,
    /// In order.
    pub(crate) blocks: Vec<Block>,
}

impl Sheet {
    pub(crate) fn new(title: impl Into<String>, sort: impl Into<String>, blocks: Vec<Block>) -> Self {
        Self { title: title.into(), sort: sort.into(), large: false, close: false, scale: String::new(), blocks }
    }
}

/// A part of a sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "block", rename_all = "kebab-case")]
pub(crate) enum Block {
    /// For whom the book is, under the name of the job.
    Banner { words: String },
    /// Over what follows.
    Heading { words: String },
    /// A paragraph.
    Words { words: String },
    /// A paragraph in a frame, that must not be missed.
    Caution { words: String },
    /// Sentences, one under the other.
    List { items: Vec<String> },
    /// What numbers in a drawing stand for.
    Key { items: Vec<String> },
    /// Sentences to be ticked off.
    Boxes { items: Vec<String> },
    /// Named values beside each other.
    Facts { facts: Vec<[String; 2]> },
    /// Rows and columns.
    Table(Table),
    /// A drawing.
    Figure(Picture),
    /// Lines to sign on; each with what it signs for.
    Sign { lines: Vec<String>, fields: Vec<String> },
    /// What follows may go on beside itself.
    Columns { count: u32, blocks: Vec<Block> },
    /// Two halves.
    Beside { left: Vec<Block>, right: Vec<Block> },
    /// Kept on one page.
    Together { blocks: Vec<Block> },
    /// The list of the sheets.
    Contents { words: String },
}

/// A table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Table {
    pub(crate) columns: Vec<Column>,
    pub(crate) rows: Vec<Vec<String>>,
    /// Of the words, points.
    pub(crate) size: f64,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Column {
    pub(crate) head: String,
    /// Numbers stand at the right.
    pub(crate) right: bool,
    /// Share of the room that is left; 0 for as wide as its widest cell.
    pub(crate) share: u32,
}

impl Column {
    /// Numbers.
    pub(crate) const fn right(head: String) -> Self {
        Self { head, right: true, share: 0 }
    }

    /// Words, as wide as the widest.
    pub(crate) const fn left(head: String) -> Self {
        Self { head, right: false, share: 0 }
    }

    /// Words that may break.
    pub(crate) const fn wide(head: String, share: u32) -> Self {
        Self { head, right: false, share }
    }
}

/// A drawing on a page.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(crate) struct Picture {
    /// Its file in the press.
    pub(crate) file: String,
    /// What it shows, for those who cannot see it.
    pub(crate) alt: String,
    /// Under it; nothing for none.
    pub(crate) caption: String,
    /// Width and height, mm.
    pub(crate) size: [f64; 2],
    /// The drawing.
    #[serde(skip)]
    pub(crate) svg: String,
}

impl Picture {
    pub(crate) fn of(name: &str, figure: &Figure, alt: String, caption: String) -> Self {
        Self {
            file: format!("/drawings/{name}.svg"),
            alt,
            caption,
            size: figure.scene.page.size(),
            svg: drawings::svg(&figure.scene),
        }
    }
}
