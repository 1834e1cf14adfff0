use std::ops::Range;

/// How many mistakes one reading reports.
pub(crate) const MOST: usize = 100;

/// Something wrong in a text, for the person who typed it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mistake {
    /// The offending bytes, within one line of the text and on character boundaries.
    pub span: Range<usize>,
    /// Line of the text, counted from 1.
    pub line: usize,
    /// Path of the value, `block[0].edges[2].eave`; nothing for the whole file or where the text cannot be parsed.
    pub path: String,
    /// What is wrong.
    pub says: String,
    /// What to do.
    pub remedy: String,
}

/// A text that knows its lines.
#[derive(Clone)]
pub(crate) struct Text<'a> {
    pub(crate) text: &'a str,
    /// Where each line ends.
    pub(crate) line_ends: Vec<usize>,
}

impl<'a> Text<'a> {
    pub(crate) fn new(text: &'a str) -> Self {
        let newlines = text.bytes().enumerate().filter(|&(_, byte)| byte == b'\n').map(|(at, _)| at);
        Self { text, line_ends: newlines.chain([text.len()]).collect() }
    }

    /// A mistake at a stretch of the text, without a path. The stretch is cut to its first line.
    pub(crate) fn mistake(&self, span: Range<usize>, says: impl Into<String>, remedy: impl Into<String>) -> Mistake {
        let span = on_one_line(self.text, span);
        let line = line_at(&self.line_ends, span.start);
        Mistake { span, line, path: String::new(), says: says.into(), remedy: remedy.into() }
    }
}

/// The line a byte is on, counted from 1.
pub(crate) fn line_at(line_ends: &[usize], byte: usize) -> usize {
    1 + line_ends.partition_point(|&end| end < byte)
}

/// In the order of the text, one for each place, at most [`MOST`].
pub(crate) fn in_order(mut mistakes: Vec<Mistake>) -> Vec<Mistake> {
    mistakes.sort_by(|a, b| (a.span.start, &a.says).cmp(&(b.span.start, &b.says)));
    mistakes.dedup();
    mistakes.truncate(MOST);
    mistakes
}

/// The part of a span that lies on its first line, inside the text and on character boundaries.
fn on_one_line(text: &str, span: Range<usize>) -> Range<usize> {
    let start = text.floor_char_boundary(span.start);
    let end = text.ceil_char_boundary(span.end.max(start));
    let length = text[start..end].find(['\n', '\r']).unwrap_or(end - start);
    start..start + length
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_span_is_cut_to_its_line_and_to_whole_characters() {
        let text = "a\n½ = {\n}\n";
        assert_eq!(on_one_line(text, 3..9), 2..8);
        assert_eq!(on_one_line(text, 90..99), 11..11);
        assert_eq!(Text::new(text).mistake(8..9, "", "").line, 2);
    }
}
