//! A DXF file is a list of pairs: a line with a group code, a line with its value.

use crate::refused::Refused;

/// One pair.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pair<'a> {
    pub(super) code: i32,
    pub(super) value: &'a str,
    /// Of the value, counted from 1.
    pub(super) line: usize,
}

pub(super) fn pairs(text: &str) -> Result<Vec<Pair<'_>>, Refused> {
    let mut lines = text.lines().enumerate();
    let mut found = Vec::new();
    while let Some((at, code)) = lines.next() {
        let code = code.trim().trim_start_matches('\u{feff}');
        let Some((_, value)) = lines.next() else {
            if code.is_empty() {
                break;
            }
            return Err(not_dxf(at + 1, "the file ends in the middle of a pair"));
        };
        let code = code.parse().map_err(|_| not_dxf(at + 1, "a group code, a whole number, should stand here"))?;
        found.push(Pair { code, value, line: at + 2 });
    }
    Ok(found)
}

fn not_dxf(line: usize, says: &str) -> Refused {
    Refused::new(format!("line {line}: {says}"), "Save the drawing again as DXF in text form.")
}

impl Pair<'_> {
    /// An ordinary number.
    pub(super) fn number(&self) -> Result<f64, Refused> {
        let number = self.value.trim().parse().ok().filter(|number: &f64| number.is_finite());
        number.ok_or_else(|| not_dxf(self.line, "an ordinary number should stand here"))
    }

    pub(super) fn whole(&self) -> Result<i64, Refused> {
        self.value.trim().parse().map_err(|_| not_dxf(self.line, "a whole number should stand here"))
    }
}
