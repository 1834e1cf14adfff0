//! The plan's sentences in another language, as the book has them.

use axum::Json;
use book::{Language, Speaker};
use schemars::JsonSchema;
use serde::Deserialize;

use crate::answer::{Body, Refusal, work};

/// What is to be said.
#[derive(Deserialize, JsonSchema)]
pub(crate) struct ToSay {
    /// In which language.
    language: LanguageWord,
    /// In any order; the answer has the same.
    says: Vec<Said>,
}

/// A language of the screens.
#[derive(Clone, Copy, Default, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum LanguageWord {
    /// English.
    #[default]
    En,
    /// Spanish.
    Es,
}

impl From<LanguageWord> for Language {
    fn from(word: LanguageWord) -> Self {
        match word {
            LanguageWord::En => Self::English,
            LanguageWord::Es => Self::Spanish,
        }
    }
}

/// Something that a plan says.
#[derive(Deserialize, JsonSchema)]
struct Said {
    /// In English.
    text: String,
    /// What it is.
    sort: SortWord,
    /// Of which rule it is the title or the remedy.
    rule: Option<String>,
}

/// What is said.
#[derive(Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum SortWord {
    /// A sentence, an item, a place, a description.
    Sentence,
    /// The title of a rule.
    Title,
    /// What keeps a rule.
    Remedy,
    /// A key of the job file.
    Key,
    /// A word that may stand for a value in the job file.
    Choice,
}

pub(crate) async fn said(Body(to_say): Body<ToSay>) -> Result<Json<Vec<String>>, Refusal> {
    let said = move || {
        Speaker::new(to_say.language.into()).map(|speaker| to_say.says.iter().map(|one| say(&speaker, one)).collect())
    };
    work(said).await?.map(Json).map_err(|error| Refusal::fault(error.to_string()))
}

fn say(speaker: &Speaker, Said { text, sort, rule }: &Said) -> String {
    let rule = rule.as_deref().unwrap_or_default();
    match sort {
        SortWord::Sentence => speaker.say(text),
        SortWord::Title => speaker.title(rule, text),
        SortWord::Remedy => speaker.remedy(rule, text),
        SortWord::Key => speaker.key(text),
        SortWord::Choice => speaker.choice(text),
    }
}
