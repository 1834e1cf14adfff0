use std::fmt;
use std::ops::Range;

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, MietteError, MietteSpanContents, Severity, SourceCode,
    SourceSpan, SpanContents,
};
use reader::Mistake;

use crate::ink::Ink;
use crate::input::Source;

/// Characters shown at each side of the offending text: a file can hold megabytes in one line.
const AROUND: usize = 48;

/// Something the person must mend or know, with the offending text if there is one.
#[derive(Debug)]
pub(crate) struct Note {
    severity: Severity,
    says: String,
    remedy: String,
    excerpt: Option<Excerpt>,
}

impl Note {
    /// An error about no text.
    pub(crate) fn plain(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self { severity: Severity::Error, says: says.into(), remedy: remedy.into(), excerpt: None }
    }

    /// An error at its place in a file.
    pub(crate) fn mistake(source: &Source, mistake: &Mistake) -> Self {
        let excerpt = Excerpt::of(source, mistake);
        Self { excerpt: Some(excerpt), ..Self::plain(&mistake.says, &mistake.remedy) }
    }

    /// What is wrong.
    pub(crate) fn says(&self) -> &str {
        &self.says
    }

    /// The same, as something to look at.
    pub(crate) fn into_caution(self) -> Self {
        Self { severity: Severity::Warning, ..self }
    }

    /// As it is shown on standard error, 80 columns wide.
    pub(crate) fn shown(&self) -> String {
        let theme = match Ink::on(&std::io::stderr()) {
            Ink::Coloured => GraphicalTheme::unicode(),
            Ink::Plain => GraphicalTheme::unicode_nocolor(),
        };
        let mut shown = String::new();
        let handler = GraphicalReportHandler::new_themed(theme).with_width(80).with_links(false);
        match handler.render_report(&mut shown, self) {
            Ok(()) => shown,
            Err(_) => format!("{}\n{}\n", self.says, self.remedy),
        }
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&printable(&self.says))
    }
}

impl std::error::Error for Note {}

impl Diagnostic for Note {
    fn severity(&self) -> Option<Severity> {
        Some(self.severity)
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        (!self.remedy.is_empty()).then(|| Box::new(printable(&self.remedy)) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.excerpt.as_ref().map(|excerpt| excerpt as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let Range { start, end } = self.excerpt.as_ref()?.marked.clone();
        Some(Box::new(std::iter::once(LabeledSpan::new(None, start, end - start))))
    }
}

/// Control characters would move the cursor or colour the screen.
pub(crate) fn printable(words: &str) -> String {
    words.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}

/// One line of a file, or as much of it as can be read at a glance.
#[derive(Debug)]
struct Excerpt {
    file: String,
    text: String,
    /// Bytes of the text to underline.
    marked: Range<usize>,
    /// Of the file, counted from 0.
    line: usize,
    /// Bytes of the line before the text.
    column: usize,
}

impl Excerpt {
    fn of(source: &Source, mistake: &Mistake) -> Self {
        let text = &source.text;
        let (start, end) = (mistake.span.start.min(text.len()), mistake.span.end.min(text.len()));
        let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let line_end = text[start..].find('\n').map_or(text.len(), |at| start + at);
        let from = text[line_start..start].char_indices().rev().take(AROUND).last().map_or(start, |(at, _)| line_start + at);
        let end = end.min(line_end);
        let until = |at: usize, most| text[at..line_end].char_indices().nth(most).map_or(line_end, |(more, _)| at + more);
        let marked_end = until(start, AROUND).min(end);
        Self {
            file: source.name.clone(),
            text: tabless(&text[from..until(marked_end, AROUND)]),
            marked: start - from..marked_end - from,
            line: mistake.line.saturating_sub(1),
            column: from - line_start,
        }
    }
}

/// A tab and what ends a line take one column each, so that the underline stays under its text.
fn tabless(line: &str) -> String {
    line.chars().map(|c| if c.is_ascii_control() { ' ' } else { c }).collect()
}

impl SourceCode for Excerpt {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let inner = self.text.as_str().read_span(span, before, after)?;
        Ok(Box::new(MietteSpanContents::new_named(
            self.file.clone(),
            inner.data(),
            *inner.span(),
            inner.line() + self.line,
            inner.column() + self.column,
            inner.line_count(),
        )))
    }
}

#[cfg(test)]
mod tests {
    use reader::Format;

    use super::*;

    fn shown(text: &str, span: Range<usize>, line: usize) -> String {
        let source = Source { name: "job.toml".into(), text: text.into(), format: Format::Toml };
        let mistake = Mistake { span, line, path: String::new(), says: "wrong".into(), remedy: "mend".into() };
        Note::mistake(&source, &mistake).shown()
    }

    #[test]
    fn the_offending_text_is_underlined_on_its_line() {
        let shown = shown("a = 1\nb = two\nc = 3\n", 10..13, 2);
        assert!(shown.contains("job.toml:2:5"), "{shown}");
        assert!(shown.contains("2 │ b = two\n"), "{shown}");
        assert!(shown.contains("─┬") || shown.contains("───"), "{shown}");
    }

    #[test]
    fn a_line_of_megabytes_is_shown_in_part() {
        let text = format!("name = \"{}\"", "½".repeat(500_000));
        for span in [0..4, 7..text.len() - 1, 400_000..400_002, text.len()..text.len()] {
            assert!(shown(&text, span, 1).len() < 1_500);
        }
    }

    #[test]
    fn nothing_a_file_says_moves_the_cursor() {
        let note = Note::plain("bad \u{1b}[2J name", "a\nb");
        assert!(!note.shown().contains('\u{1b}'));
    }
}
