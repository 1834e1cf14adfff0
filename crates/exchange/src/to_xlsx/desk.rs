use rust_xlsxwriter::{Format, FormatAlign, FormatBorder, Formula, Worksheet, XlsxError};

/// Longer words are cut; a cell holds 32,767.
const LONGEST: usize = 1000;

/// How a cell is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Look {
    /// Of the sheet.
    Title,
    Head,
    Words,
    /// Up to three decimals.
    Number,
    /// In inches and sixteenths.
    Inches,
    Money,
    /// Up to four decimals.
    Price,
    Percent,
    Sum,
    MoneySum,
}

pub(super) struct Looks {
    formats: Vec<(Look, Format)>,
    plain: Format,
}

impl Looks {
    pub(super) fn new() -> Self {
        let (plain, bold) = (Format::new, || Format::new().set_bold());
        let over = |format: Format| format.set_border_top(FormatBorder::Thin);
        let formats = vec![
            (Look::Title, bold().set_font_size(14.0)),
            (Look::Head, bold().set_text_wrap().set_align(FormatAlign::Top).set_border_bottom(FormatBorder::Thin)),
            (Look::Words, plain().set_align(FormatAlign::Top)),
            (Look::Number, plain().set_num_format("#,##0.###")),
            (Look::Inches, plain().set_num_format("# ??/16")),
            (Look::Money, plain().set_num_format("#,##0.00")),
            (Look::Price, plain().set_num_format("#,##0.00##")),
            (Look::Percent, plain().set_num_format("0.00%")),
            (Look::Sum, over(bold().set_num_format("#,##0.###"))),
            (Look::MoneySum, over(bold().set_num_format("#,##0.00"))),
        ];
        Self { formats, plain: plain() }
    }

    fn of(&self, look: Look) -> &Format {
        self.formats.iter().find(|(of, _)| *of == look).map_or(&self.plain, |(_, format)| format)
    }
}

/// A sheet that is written row by row, from the top.
pub(super) struct Desk<'a> {
    sheet: &'a mut Worksheet,
    looks: &'a Looks,
    /// The row that is written, counted from 0.
    row: u32,
}

/// Whether a cell could be written.
pub(super) type Done = Result<(), XlsxError>;

impl<'a> Desk<'a> {
    pub(super) fn new(sheet: &'a mut Worksheet, looks: &'a Looks) -> Self {
        Self { sheet, looks, row: 0 }
    }

    pub(super) fn next_row(&mut self) {
        self.row += 1;
    }

    /// The row as formulas call it, counted from 1.
    pub(super) const fn here(&self) -> u32 {
        self.row + 1
    }

    /// Words are never taken for a formula.
    pub(super) fn words(&mut self, column: u16, look: Look, words: &str) -> Done {
        let format = self.looks.of(look);
        self.sheet.write_string_with_format(self.row, column, short(words), format).map(drop)
    }

    pub(super) fn number(&mut self, column: u16, look: Look, value: f64) -> Done {
        let value = (value * 1e4).round() / 1e4 + 0.0;
        self.sheet.write_number_with_format(self.row, column, value, self.looks.of(look)).map(drop)
    }

    /// A formula and what it gives now.
    pub(super) fn formula(&mut self, column: u16, look: Look, formula: &str, result: f64) -> Done {
        let formula = Formula::new(formula).set_result(format!("{}", result + 0.0));
        self.sheet.write_formula_with_format(self.row, column, formula, self.looks.of(look)).map(drop)
    }

    /// A line of words in the first column, then the next row.
    pub(super) fn line(&mut self, look: Look, words: &str) -> Done {
        self.words(0, look, words)?;
        self.next_row();
        Ok(())
    }

    /// Headings with the widths of their columns, in characters; then the next row.
    pub(super) fn heads(&mut self, heads: &[(&str, f64)]) -> Done {
        for (column, (head, width)) in (0..).zip(heads) {
            self.sheet.set_column_width(column, *width)?;
            self.words(column, Look::Head, head)?;
        }
        self.next_row();
        Ok(())
    }

    /// What stands above stays in sight.
    pub(super) fn freeze(&mut self) -> Done {
        self.sheet.set_freeze_panes(self.row, 0).map(drop)
    }
}

/// As much as anybody reads in a cell.
pub(super) fn short(words: &str) -> String {
    words.chars().take(LONGEST).collect()
}
