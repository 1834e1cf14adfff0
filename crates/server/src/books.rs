//! The job book of a revision as PDF, with the very bytes that `headlap book` writes.

use axum::extract::State;
use axum::response::Response;
use book::{Binding, BookError, Measures, Paper, Part};
use schemars::JsonSchema;
use serde::Deserialize;

use crate::App;
use crate::answer::{Asked, At, Refusal, work};
use crate::jobs::{attached, kept};
use crate::plans::of_text;
use crate::words::LanguageWord;

/// For whom: as `headlap book --part` has it, or the whole book.
#[derive(Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum PartWord {
    /// Everything but the full-size poles.
    Whole,
    /// What is needed on the roof.
    Crew,
    /// What is ordered and cut.
    Office,
    /// What the building official asks for.
    Official,
    /// What the owner keeps.
    Owner,
    /// Story poles in full size.
    Poles,
}

/// How it is bound.
#[derive(Clone, Copy, Deserialize)]
pub(crate) struct Wanted {
    #[serde(default)]
    language: LanguageWord,
    #[serde(default)]
    paper: PaperWord,
    #[serde(default)]
    units: UnitsWord,
}

/// What it is printed on.
#[derive(Clone, Copy, Default, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum PaperWord {
    /// US Letter.
    #[default]
    Letter,
    /// ISO A4.
    A4,
}

/// What is measured in.
#[derive(Clone, Copy, Default, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum UnitsWord {
    /// Feet and inches.
    #[default]
    Us,
    /// Metres and millimetres.
    Metric,
}

impl PartWord {
    /// And how the file's name ends behind the job's.
    const fn part(self) -> (Part, &'static str) {
        match self {
            Self::Whole => (Part::Whole, "-book.pdf"),
            Self::Crew => (Part::Crew, "-crew.pdf"),
            Self::Office => (Part::Office, "-office.pdf"),
            Self::Official => (Part::Official, "-official.pdf"),
            Self::Owner => (Part::Owner, "-owner.pdf"),
            Self::Poles => (Part::Poles, "-poles.pdf"),
        }
    }
}

impl Wanted {
    fn binding(self, part: Part) -> Binding {
        let paper = match self.paper {
            PaperWord::Letter => Paper::Letter,
            PaperWord::A4 => Paper::A4,
        };
        let measures = match self.units {
            UnitsWord::Us => Measures::Customary,
            UnitsWord::Metric => Measures::Metric,
        };
        Binding { language: self.language.into(), measures, paper, part, date: None }
    }
}

pub(crate) async fn book(
    State(app): State<App>,
    At((id, version, word)): At<(i64, i64, PartWord)>,
    Asked(wanted): Asked<Wanted>,
) -> Result<Response, Refusal> {
    let text = kept(&app, id, version).await?.text;
    let (part, ending) = word.part();
    let name = text.clone();
    let bytes = work(move || bound(&text, &wanted.binding(part))).await??;
    Ok(attached(&name, ending, "application/pdf", bytes))
}

fn bound(text: &str, binding: &Binding) -> Result<Vec<u8>, Refusal> {
    let plan = of_text(text)?;
    book::bind(&plan, binding, &mut |_| {}).map_err(|error| match error {
        BookError::Empty => Refusal::bad(error.to_string(), "Measure tells what is missing."),
        BookError::Text { .. } | BookError::Press { .. } => Refusal::fault(error.to_string()),
    })
}
