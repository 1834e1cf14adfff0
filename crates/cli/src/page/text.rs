use crate::ink::Ink;
use crate::note::printable;

/// Columns of the page.
pub(crate) const COLUMNS: usize = 80;

/// A page under way. No line grows wider than [`COLUMNS`], whatever it is given.
pub(crate) struct Page {
    ink: Ink,
    written: String,
}

impl Default for Page {
    fn default() -> Self {
        Self::new(Ink::Plain)
    }
}

impl Page {
    pub(crate) const fn new(ink: Ink) -> Self {
        Self { ink, written: String::new() }
    }

    pub(crate) fn finished(self) -> String {
        self.written
    }

    pub(crate) fn blank(&mut self) {
        self.written.push('\n');
    }

    pub(crate) fn title(&mut self, words: &str) {
        for line in wrap(words, COLUMNS) {
            self.line(&self.ink.strong(&line));
        }
    }

    /// A heading after a blank line.
    pub(crate) fn heading(&mut self, words: &str) {
        self.blank();
        self.title(words);
    }

    /// A row of a table, its columns set already.
    pub(crate) fn row(&mut self, row: &str) {
        self.line(&printable(row));
    }

    /// Words that break between words, all lines indented alike.
    pub(crate) fn wrapped(&mut self, indent: usize, words: &str) {
        self.hanging(indent, "", words);
    }

    /// A lead that stands alone at the left of wrapped words.
    pub(crate) fn hanging(&mut self, indent: usize, lead: &str, words: &str) {
        self.led(indent, lead, lead, words);
    }

    /// As [`Page::hanging`], the lead in the colour of an outcome.
    pub(crate) fn judged(&mut self, indent: usize, outcome: &str, lead: &str, words: &str) {
        self.led(indent, &self.ink.outcome(outcome, lead), lead, words);
    }

    /// What is asked, what it is by the job, and a blank, in three columns.
    pub(crate) fn blank_to_fill(&mut self, label: &str, value: &str, blank: &str) {
        const VALUE: usize = 14;
        const BLANK: usize = 16;
        let room = COLUMNS - 2 - VALUE - 2 - BLANK;
        let inner = 2 + label.chars().take_while(|&c| c == ' ').count();
        let lines = wrap(label, room - inner);
        for (index, line) in lines.iter().enumerate() {
            let after = if index + 1 == lines.len() { format!("{value:>VALUE$}  {blank:>BLANK$}") } else { String::new() };
            let led = format!("{:inner$}{line}", "");
            self.line(&format!("{led:<width$}{after}", width = room + 2));
        }
    }

    /// Words at the left, an amount at the right end of their last line.
    pub(crate) fn sum(&mut self, indent: usize, words: &str, amount: &str) {
        let lines = wrap(words, COLUMNS.saturating_sub(indent + width(amount) + 2));
        for (index, line) in lines.iter().enumerate() {
            let led = format!("{:indent$}{line}", "");
            let is_last = index + 1 == lines.len();
            let gap = COLUMNS.saturating_sub(width(&led) + width(amount));
            let after = if is_last { format!("{:gap$}{amount}", "") } else { String::new() };
            self.line(&format!("{led}{after}"));
        }
    }

    fn led(&mut self, indent: usize, painted: &str, lead: &str, words: &str) {
        let inner = indent + width(lead);
        for (index, line) in wrap(words, COLUMNS.saturating_sub(inner)).iter().enumerate() {
            let left = if index == 0 { format!("{:indent$}{painted}", "") } else { " ".repeat(inner) };
            self.line(&format!("{left}{line}"));
        }
    }

    fn line(&mut self, line: &str) {
        self.written.push_str(line.trim_end());
        self.written.push('\n');
    }
}

pub(crate) fn width(words: &str) -> usize {
    words.chars().count()
}

/// Lines of at most `room` characters, at least one; a word that is wider is broken.
pub(crate) fn wrap(words: &str, room: usize) -> Vec<String> {
    let room = room.max(1);
    let mut lines = vec![String::new()];
    let words = printable(words);
    for word in words.split(' ').filter(|word| !word.is_empty()) {
        let letters: Vec<char> = word.chars().collect();
        for part in letters.chunks(room) {
            let last = lines.len() - 1;
            let line = &mut lines[last];
            if line.is_empty() {
                line.extend(part);
            } else if width(line) + 1 + part.len() <= room {
                line.push(' ');
                line.extend(part);
            } else {
                lines.push(part.iter().collect());
            }
        }
    }
    lines
}

/// `12,345`.
pub(crate) fn thousands(number: u64) -> String {
    let digits = number.to_string();
    let grouped: Vec<&str> =
        digits.as_bytes().rchunks(3).rev().filter_map(|group| std::str::from_utf8(group).ok()).collect();
    grouped.join(",")
}

/// `1 problem`, `2 problems`.
pub(crate) fn count(number: u64, thing: &str) -> String {
    format!("{} {thing}{}", thousands(number), if number == 1 { "" } else { "s" })
}

/// The word with a capital letter.
pub(crate) fn capital(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_break_between_words_and_long_words_anywhere() {
        assert_eq!(wrap("a bb ccc", 4), ["a bb", "ccc"]);
        assert_eq!(wrap("abcdefgh ij", 3), ["abc", "def", "gh", "ij"]);
        assert_eq!(wrap("", 10), [""]);
    }

    #[test]
    fn a_page_is_never_wider_than_its_columns() {
        let mut page = Page::default();
        page.title(&"long ".repeat(40));
        page.hanging(4, "lead: ", &"x".repeat(300));
        page.wrapped(2, &"word ".repeat(60));
        page.sum(4, &"word ".repeat(60), "$ 1,234.56");
        let page = page.finished();
        assert!(page.lines().all(|line| width(line) <= COLUMNS), "{page}");
    }

    #[test]
    fn numbers_are_grouped() {
        assert_eq!(thousands(0), "0");
        assert_eq!(thousands(999), "999");
        assert_eq!(thousands(1_234_567), "1,234,567");
        assert_eq!(count(1, "course"), "1 course");
    }
}
