use std::io::IsTerminal;

/// Whether words may be coloured. No meaning rests on colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Ink {
    /// Plain letters.
    Plain,
    /// ANSI colours.
    Coloured,
}

impl Ink {
    /// Colours on a terminal, unless the environment variable `NO_COLOR` is set and not empty.
    pub(crate) fn on(stream: &impl IsTerminal) -> Self {
        let refused = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        if stream.is_terminal() && !refused { Self::Coloured } else { Self::Plain }
    }

    pub(crate) fn strong(self, words: &str) -> String {
        self.paint("1", words)
    }

    /// A word in the colour of its outcome.
    pub(crate) fn outcome(self, outcome: &str, word: &str) -> String {
        match outcome {
            "pass" => self.paint("32", word),
            "fail" => self.paint("1;31", word),
            "attention" => self.paint("33", word),
            _ => word.to_owned(),
        }
    }

    fn paint(self, code: &str, words: &str) -> String {
        match self {
            Self::Plain => words.to_owned(),
            Self::Coloured => format!("\u{1b}[{code}m{words}\u{1b}[0m"),
        }
    }
}
