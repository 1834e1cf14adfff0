use crate::lettering::{LARGE, LINE, SMALL, small, strong, width};
use crate::{Anchor, Item, LineType, Point};

/// A table of lettering, which may flow over several blocks side by side.
pub(crate) struct Table {
    /// Stands over the first block.
    title: &'static str,
    headings: Vec<&'static str>,
    /// As many cells as headings.
    rows: Vec<Vec<String>>,
    /// Stands under the last row.
    tail: String,
    /// Of the columns, mm, the gutter to the right of each included.
    widths: Vec<f64>,
}

/// Title and headings, mm.
const HEAD: f64 = 12.5;
/// Between columns, mm.
const GUTTER: f64 = 2.6;
/// Between blocks, mm.
pub(crate) const BETWEEN: f64 = 6.0;

/// Rows that fit in a height in mm.
pub(crate) fn rows_in(height: f64) -> usize {
    ((height - HEAD) / LINE).max(0.0) as usize
}

/// Of a block with so many rows, mm.
pub(crate) fn height(rows: usize) -> f64 {
    HEAD + LINE * rows as f64
}

impl Table {
    pub(crate) fn new(title: &'static str, headings: Vec<&'static str>, rows: Vec<Vec<String>>) -> Self {
        let widths = headings.iter().enumerate().map(|(column, heading)| widest(&rows, column, heading)).collect();
        Self { title, headings, rows, tail: String::new(), widths }
    }

    /// With a line under the last row.
    pub(crate) fn ending(self, tail: String) -> Self {
        Self { tail, ..self }
    }

    /// Lines of lettering, the tail among them.
    pub(crate) fn lines(&self) -> usize {
        self.rows.len() + usize::from(!self.tail.is_empty())
    }

    /// Blocks needed when each holds `rows` rows.
    pub(crate) fn blocks(&self, rows: usize) -> usize {
        self.lines().div_ceil(rows.max(1))
    }

    /// Width of one block, mm.
    pub(crate) fn block_width(&self) -> f64 {
        self.widths.iter().sum::<f64>().max(width(self.title, LARGE)).max(width(&self.tail, SMALL))
    }

    /// Width of so many blocks and the space between them, mm.
    pub(crate) fn width(&self, blocks: usize) -> f64 {
        let blocks = blocks as f64;
        blocks * self.block_width() + (blocks - 1.0).max(0.0) * BETWEEN
    }

    /// Drawn with its top left corner at `at`, `rows` rows to a block.
    pub(crate) fn draw(&self, at: Point, rows: usize) -> Vec<Item> {
        let rows = rows.max(1);
        let mut items = vec![strong([at[0], at[1] + LARGE], LARGE, Anchor::Start, self.title)];
        for block in 0..self.blocks(rows) {
            let left = at[0] + block as f64 * (self.block_width() + BETWEEN);
            let shown = self.rows.iter().skip(block * rows).take(rows);
            items.extend(self.draw_block([left, at[1]], shown));
        }
        items.extend(self.draw_tail(at, rows));
        items
    }

    fn draw_block<'a>(&self, [left, top]: Point, rows: impl Iterator<Item = &'a Vec<String>>) -> Vec<Item> {
        let head = top + HEAD - 1.5;
        let headings: Vec<String> = self.headings.iter().map(|&heading| heading.to_owned()).collect();
        let mut items = draw_row([left, head - 1.0], &self.widths, &headings);
        items.push(rule([left, head], self.block_width()));
        for (index, row) in rows.enumerate() {
            let base = head + LINE * (index + 1) as f64 - 0.9;
            items.extend(draw_row([left, base], &self.widths, row));
            // A rule after every fifth row leads the eye across.
            if index % 5 == 4 {
                items.push(rule([left, base + 0.9], self.block_width()));
            }
        }
        items
    }

    fn draw_tail(&self, at: Point, rows: usize) -> Option<Item> {
        let (block, row) = (self.rows.len() / rows, self.rows.len() % rows);
        let left = at[0] + block as f64 * (self.block_width() + BETWEEN);
        let base = at[1] + HEAD - 2.4 + LINE * (row + 1) as f64;
        (!self.tail.is_empty()).then(|| small([left, base], Anchor::Start, &self.tail))
    }
}

fn widest(rows: &[Vec<String>], column: usize, heading: &str) -> f64 {
    let cells = rows.iter().filter_map(|row| row.get(column)).map(|cell| width(cell, SMALL));
    cells.fold(width(heading, SMALL), f64::max) + GUTTER
}

fn draw_row([left, base]: Point, widths: &[f64], cells: &[String]) -> Vec<Item> {
    let mut right = left;
    let mut items = Vec::new();
    for (cell, width) in cells.iter().zip(widths) {
        right += width;
        if !cell.is_empty() {
            items.push(small([right - GUTTER / 2.0, base], Anchor::End, cell));
        }
    }
    items
}

fn rule([left, y]: Point, width: f64) -> Item {
    Item::Line { points: vec![[left, y], [left + width, y]], line: LineType::Piece }
}
