use drawings::Words;

use crate::tongue::Tongue;
use crate::{BookError, Language, Measures};

/// Says in another language what a plan says in English, for those who show it elsewhere than in a book.
pub struct Speaker(Tongue);

impl Speaker {
    /// Lengths stay in feet and inches.
    ///
    /// # Errors
    /// The book's own words cannot be read.
    pub fn new(language: Language) -> Result<Self, BookError> {
        Tongue::new(language, Measures::Customary).map(Self)
    }

    /// A sentence, an item, a place of the plan; as it stands where the book has no form of it.
    #[must_use]
    pub fn say(&self, says: &str) -> String {
        self.0.local(says)
    }

    /// The title of a rule, by its name.
    #[must_use]
    pub fn title(&self, rule: &str, title: &str) -> String {
        self.0.titled(rule, title)
    }

    /// A key of the job file, `side_lap`.
    #[must_use]
    pub fn key(&self, key: &str) -> String {
        self.0.typed("key", key)
    }

    /// A word that may stand for a value in the job file, `ring-nail`.
    #[must_use]
    pub fn choice(&self, word: &str) -> String {
        self.0.typed("choice", word)
    }

    /// What keeps a rule, by its name.
    #[must_use]
    pub fn remedy(&self, rule: &str, remedy: &str) -> String {
        self.0.remedy(rule, remedy)
    }
}

/// Letters drawings too.
impl Words for Speaker {
    fn word(&self, name: &str) -> String {
        self.0.word(name)
    }

    fn length(&self, inches: f64) -> String {
        self.0.length(inches)
    }

    fn is_metric(&self) -> bool {
        self.0.is_metric()
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests only")]
mod tests {
    use super::*;

    #[test]
    fn what_has_a_form_is_said_and_the_rest_stands() {
        let speaker = Speaker::new(Language::Spanish).unwrap();
        assert_ne!(speaker.title("chalk-stains-units", "Chalk stains units"), "Chalk stains units");
        assert_eq!(speaker.title("no-such-rule", "No such rule"), "No such rule");
        assert_eq!(speaker.say("Mr. Nobody's words"), "Mr. Nobody's words");
        assert_eq!(speaker.say("house, south"), "house, sur");
        assert_eq!(speaker.key("side_lap"), "traslape lateral");
        assert_eq!((speaker.choice("ring-nail").as_str(), speaker.choice("2018").as_str()), ("clavo anillado", "2018"));
    }
}
