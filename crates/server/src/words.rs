//! The plan's sentences in another language, as the book has them.

use axum::Json;
use axum::http::StatusCode;
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
#[derive(Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum LanguageWord {
    /// English.
    En,
    /// Spanish.
    Es,
}

/// Something that a plan says.
#[derive(Deserialize, JsonSchema)]
struct Said {
    /// In English.
    text: String,
    /// Of which rule it is the title or the remedy.
    rule: Option<String>,
    /// It is the rule's remedy.
    #[serde(default)]
    remedy: bool,
}

pub(crate) async fn said(Body(to_say): Body<ToSay>) -> Result<Json<Vec<String>>, Refusal> {
    let language = match to_say.language {
        LanguageWord::En => Language::English,
        LanguageWord::Es => Language::Spanish,
    };
    let said = move || Speaker::new(language).map(|speaker| to_say.says.iter().map(|one| say(&speaker, one)).collect());
    let broken = |_| Refusal::new(StatusCode::INTERNAL_SERVER_ERROR, "the words cannot be read", "Report it.");
    work(said).await?.map(Json).map_err(broken)
}

fn say(speaker: &Speaker, Said { text, rule, remedy }: &Said) -> String {
    match (rule, remedy) {
        (None, _) => speaker.say(text),
        (Some(rule), false) => speaker.title(rule, text),
        (Some(rule), true) => speaker.remedy(rule, text),
    }
}
