use super::fall::Arrow;
use super::opening::Opening;
use super::start::Start;
use crate::clear::boxed;
use crate::lettering::{LARGE, SMALL, small, strong, strong_width, width};
use crate::{Anchor, Item, LineType, Point};

/// Of a row, mm.
const ROW: f64 = 5.6;
/// Of the title, mm.
const HEAD: f64 = 7.5;
/// Between columns, mm.
const BETWEEN: f64 = 6.0;

/// A sign of the drawing and what it stands for.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Entry {
    pub(crate) sign: Sign,
    pub(crate) words: String,
}

/// What stands in the drawing.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Sign {
    Line(LineType),
    Fall,
    Start,
    Opening,
    /// Or a number.
    Letter(String),
}

impl Entry {
    /// A letter and what it stands for, in a line of text.
    pub(crate) fn told(&self) -> String {
        match &self.sign {
            Sign::Letter(letter) => format!("{letter}  {}", self.words),
            _ => self.words.clone(),
        }
    }
}

impl Sign {
    /// Room for it, mm.
    const fn width(&self) -> f64 {
        match self {
            Self::Line(_) | Self::Fall | Self::Start | Self::Opening => 24.0,
            Self::Letter(_) => 8.0,
        }
    }

    /// Between `left` and the words, about a level line.
    fn draw(&self, [left, y]: Point) -> Vec<Item> {
        let [right, middle] = [left + self.width(), left + self.width() / 2.0];
        match self {
            Self::Line(line) => vec![Item::Line { points: vec![[left, y], [right, y]], line: *line }],
            Self::Fall => Arrow { middle: [middle, y], along: [1.0, 0.0], length: 10.0 }.draw().to_vec(),
            Self::Start => vec![Start { at: [middle - 1.7, y], along: [1.0, 0.0] }.draw()],
            Self::Opening => Opening { name: "", corners: boxed([middle, y], [5.0, 3.5], 0.0).to_vec() }.draw(),
            Self::Letter(letter) => vec![strong([left, y + SMALL / 2.0], SMALL, Anchor::Start, letter)],
        }
    }
}

/// Entries under a title, in columns side by side.
#[derive(Debug, Clone)]
pub(crate) struct Legend {
    pub(crate) title: String,
    pub(crate) entries: Vec<Entry>,
    /// Top left corner.
    pub(crate) at: Point,
    /// Rows of a column.
    pub(crate) rows: usize,
}

impl Legend {
    /// In one column.
    pub(crate) fn new(title: String, entries: Vec<Entry>) -> Self {
        let rows = entries.len();
        Self { title, entries, at: [0.0; 2], rows }
    }

    /// In columns of so many rows with its top left corner at a point.
    pub(crate) fn standing(self, at: Point, rows: usize) -> Self {
        Self { at, rows: rows.max(1), ..self }
    }

    fn column_width(&self) -> f64 {
        let widths = self.entries.iter().map(|entry| entry.sign.width() + 2.5 + width(&entry.words, SMALL));
        widths.fold(strong_width(&self.title, LARGE), f64::max)
    }

    /// Width in columns of so many rows, mm.
    pub(crate) fn width(&self, rows: usize) -> f64 {
        let columns = self.entries.len().div_ceil(rows.max(1)).max(1) as f64;
        columns * self.column_width() + (columns - 1.0) * BETWEEN
    }

    /// Of a column of so many rows, mm.
    pub(crate) fn height(rows: usize) -> f64 {
        HEAD + ROW * rows as f64
    }

    pub(crate) fn draw(&self) -> Vec<Item> {
        let [left, top] = self.at;
        let mut items = vec![strong([left, top + LARGE], LARGE, Anchor::Start, &self.title)];
        for (index, entry) in self.entries.iter().enumerate() {
            let left = left + (index / self.rows) as f64 * (self.column_width() + BETWEEN);
            let y = top + HEAD + ROW * ((index % self.rows) as f64 + 0.5);
            items.extend(entry.sign.draw([left, y]));
            items.push(small([left + entry.sign.width() + 2.5, y + SMALL / 2.0], Anchor::Start, &entry.words));
        }
        items
    }
}
