//! The words of a whole book, as they were read through.

use super::{binding, examples, lines};
use crate::{Language, Measures, Part};

/// `HEADLAP_BLESS=1 cargo test -p book` writes the words anew; read them before you keep them.
#[test]
fn words_stay_as_they_were_read() {
    let (_, plan) = examples().into_iter().find(|(name, _)| name == "gable").unwrap();
    let books = [
        ("gable-en", binding(Language::English, Measures::Customary, Part::Whole)),
        ("gable-es", binding(Language::Spanish, Measures::Metric, Part::Crew)),
    ];
    for (name, binding) in books {
        let path = format!("{}/tests/golden/{name}.txt", env!("CARGO_MANIFEST_DIR"));
        let words = lines(&crate::content(&plan, &binding).unwrap()).join("\n") + "\n";
        if std::env::var_os("HEADLAP_BLESS").is_some() {
            std::fs::write(&path, &words).unwrap();
        }
        assert!(words == std::fs::read_to_string(&path).unwrap(), "{name} has changed; bless it if the new words are right");
    }
}
