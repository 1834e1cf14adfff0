use reader::{Mistake, Places, quoted};
use units::Percent;

/// Where the figures of a rates file are looked at, one after the other.
pub(crate) struct Desk<'a> {
    pub(crate) places: &'a Places,
    pub(crate) mistakes: Vec<Mistake>,
}

impl Desk<'_> {
    pub(crate) fn expect(&mut self, sound: bool, path: &str, says: impl FnOnce() -> String, remedy: &str) {
        if !sound {
            self.mistakes.push(self.places.mistake(path, says(), remedy));
        }
    }

    pub(crate) fn words(&mut self, path: &str, text: &str) {
        self.expect(!text.trim().is_empty(), path, || "nothing is written here".into(), "Write at least a word.");
    }

    pub(crate) fn percent(&mut self, path: &str, is: Percent, most: i64) {
        let says = || format!("{is} is not from 0 to {most} %");
        self.expect(is <= Percent::hundredths(most * 100), path, says, "Correct the figure.");
    }

    /// Names that must differ, each with its path.
    pub(crate) fn differ<'n>(&mut self, names: impl Iterator<Item = (String, &'n str)>) {
        let mut seen = std::collections::BTreeSet::new();
        for (path, name) in names {
            self.words(&path, name);
            let says = || format!("there are two of {}", quoted(name));
            self.expect(seen.insert(name), &path, says, "Remove one of them.");
        }
    }
}
