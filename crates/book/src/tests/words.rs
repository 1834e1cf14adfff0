//! No message is missing or idle, and the crew's Spanish book has no English sentence.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use fluent_syntax::ast::Entry;

use super::{PARTS, binding, examples, lines};
use crate::tongue::Tongue;
use crate::{Language, Measures, Part};

fn names(text: &str) -> BTreeSet<String> {
    let resource = fluent_syntax::parser::parse(text).unwrap_or_else(|(_, faults)| panic!("{faults:?}"));
    let name = |entry: &Entry<&str>| match entry {
        Entry::Message(message) => Some(message.id.name.to_owned()),
        _ => None,
    };
    let all: Vec<String> = resource.body.iter().filter_map(name).collect();
    let names: BTreeSet<String> = all.iter().cloned().collect();
    assert_eq!(all.len(), names.len(), "a message stands twice");
    names
}

const ENGLISH: &str = include_str!("../../text/en.ftl");
const SPANISH: &str = include_str!("../../text/es.ftl");

/// Words of drawings and of rules, whose English stands elsewhere.
fn elsewhere() -> BTreeSet<String> {
    let (_, plan) = examples().swap_remove(0);
    let rules = plan.checks.iter().flat_map(|check| [format!("rule-{}", check.rule), format!("remedy-{}", check.rule)]);
    let drawn = drawings::WORDS.iter().map(|(name, _)| format!("drawing-{}", name.replace(' ', "-")));
    rules.chain(drawn).collect()
}

#[test]
fn spanish_has_every_message_and_no_other() {
    let wanted: BTreeSet<String> = names(ENGLISH).union(&elsewhere()).cloned().collect();
    let has = names(SPANISH);
    assert_eq!(wanted.difference(&has).collect::<Vec<_>>(), Vec::<&String>::new(), "missing in Spanish");
    assert_eq!(has.difference(&wanted).collect::<Vec<_>>(), Vec::<&String>::new(), "idle in Spanish");
}

/// Every file of Rust, or of coverings, under a folder.
fn sources(folder: &Path) -> String {
    let mut all = String::new();
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let path = entry.path();
        if path.is_dir() {
            all += &sources(&path);
        } else if path.extension().is_some_and(|ending| ending == "rs" || ending == "toml") {
            all += &fs::read_to_string(path).unwrap();
        }
    }
    all
}

/// Messages whose names are put together; the books of the next test use every one.
const MADE_UP: [&str; 5] = ["phrase-", "outcome-", "poles-", "checks-", "detail-"];

#[test]
fn every_message_is_used() {
    let own = sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/sections"))
        + &fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("src/sections.rs")).unwrap();
    let idle: Vec<String> = names(ENGLISH)
        .into_iter()
        .filter(|name| !MADE_UP.iter().any(|beginning| name.starts_with(beginning)))
        .filter(|name| !own.contains(&format!("\"{name}\"")))
        .collect();
    assert_eq!(idle, Vec::<String>::new());
}

/// A phrase that the plan no longer says would never be found again.
#[test]
fn every_phrase_is_said_by_the_plan() {
    let rooms = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let said: String = [
        "crates/roof/src",
        "crates/layout/src",
        "crates/details/src",
        "crates/takeoff/src",
        "crates/checks/src",
        "crates/plan/src",
        "coverings",
    ]
    .iter()
    .map(|room| sources(&rooms.join(room)))
    .collect();
    let said = said.replace("\\\"", "\"");
    let said: String = said.split_whitespace().collect::<Vec<_>>().join(" ").replace("\\ ", "");
    for line in ENGLISH.lines().filter(|line| line.starts_with("phrase-")) {
        let (name, words) = line.split_once(" = ").unwrap();
        let own = words.split(['{', '}']).step_by(2).max_by_key(|own| own.len()).unwrap();
        assert!(said.contains(own.trim()), "{name}: nothing says {own:?}");
    }
}

#[test]
fn no_message_is_missing_on_any_sheet() {
    for (name, plan) in examples() {
        for part in PARTS {
            for (language, measures) in [(Language::English, Measures::Customary), (Language::Spanish, Measures::Metric)] {
                let content = crate::content(&plan, &binding(language, measures, part)).unwrap();
                let missing: Vec<String> = lines(&content).into_iter().filter(|line| line.contains('«')).collect();
                assert_eq!(missing, Vec::<String>::new(), "{name}, {part:?}");
            }
        }
    }
}

/// Whatever the plan says to the crew has a phrase, so that it can be said in Spanish.
#[test]
fn the_crew_reads_no_english() {
    let tongue = Tongue::new(Language::Spanish, Measures::Customary).unwrap();
    let many = super::findings::many().map(|plan| (plan.covering.name.clone(), plan));
    let mut english: BTreeSet<String> = BTreeSet::new();
    for (name, plan) in examples().into_iter().chain(many) {
        let details = &plan.details;
        let steps = details.order_of_work.iter();
        let said = steps.flat_map(|step| step.see.iter().map(String::as_str).chain([step.title, step.who, &step.photo]));
        let vents =
            details.vents.iter().flat_map(|vents| vents.notes.iter().map(String::as_str).chain([vents.why.as_str()]));
        let missing = details.missing.iter().flat_map(|missing| [missing.what.as_str(), &missing.says, &missing.remedy]);
        let fire = details.layers.iter().flat_map(|layers| layers.fire.iter().map(String::as_str));
        let order = plan.order.iter().flat_map(|line| [line.item.as_str(), &line.unit, &line.pack]);
        let stage = plan.loads.cautions.iter().map(String::as_str);
        let problems = plan.problems.iter().flat_map(|problem| [problem.says.as_str(), &problem.remedy]);
        let people = plan.checks.iter().filter(|check| plan.cautions.iter().any(|caution| caution.starts_with(&check.says)));
        let rest = people.map(|check| check.says.as_str()).chain([details.ice_barrier.as_str()]);
        let unsaid = said
            .chain(vents)
            .chain(missing)
            .chain(fire)
            .chain(order)
            .chain(problems)
            .chain(stage)
            .chain(rest)
            .filter(|says| !says.is_empty() && tongue.known(says).is_none());
        english.extend(unsaid.map(|says| format!("{name}: {says}")));
    }
    assert_eq!(english, BTreeSet::new());
}

/// Words that only English has.
pub(super) const ENGLISH_ONLY: [&str; 20] = [
    "the", "of", "and", "with", "from", "to", "is", "are", "by", "than", "under", "over", "not", "course", "units",
    "pieces", "blanks", "nails", "wide", "sheet",
];

/// In every Spanish book that cites no sources, but for what somebody typed.
#[test]
fn no_english_is_left_in_a_spanish_book_without_sources() {
    for (name, plan) in examples() {
        for part in [Part::Crew, Part::Office, Part::Owner, Part::Poles] {
            let content = crate::content(&plan, &binding(Language::Spanish, Measures::Customary, part)).unwrap();
            let english = |line: &String| line.split(|c: char| !c.is_alphabetic()).any(|word| ENGLISH_ONLY.contains(&word));
            let left: Vec<String> = lines(&content).into_iter().filter(english).collect();
            assert_eq!(left, Vec::<String>::new(), "{name}, {part:?}");
        }
    }
}

/// Sentences that no roof of the tests makes the plan say, put together as the rooms below put them together.
#[test]
fn what_few_roofs_have_is_said_in_spanish_too() {
    let tongue = Tongue::new(Language::Spanish, Measures::Customary).unwrap();
    for (says, spanish) in [
        (
            "chimney \"flue\" stands in the valley between house, south and wing, east: the water of both runs at its back",
            "chimenea \"flue\" queda en valle entre house, sur y wing, este: el agua de las dos le llega por detrás",
        ),
        (
            "pipe \"stack\" stands astride of the hip between house, south and house, east: it is cut out of both",
            "tubo \"stack\" queda a caballo de limatesa entre house, sur y house, este: se recorta de las dos",
        ),
        (
            "side 2 has no overhang, so its roof edge is taken to be flush with the wall",
            "el lado 2 no tiene vuelo, así que su orilla de techo se toma al ras del muro",
        ),
        ("side 0 is pitched 50/12, steeper than 40/12", "el lado 0 tiene pendiente 50/12, más de 40/12"),
        (
            "the planes were found only after nearly parallel sides were made parallel: corners may have moved by up to 1/100 in",
            "las aguas se hallaron solo al hacer paralelos unos lados casi paralelos: las esquinas pueden haberse movido hasta \
             1/100 in",
        ),
        (
            "Mine gives no step for staggered butts; they are laid straight",
            "Mine no da escalón para pies alternados; se colocan derechos",
        ),
        (
            "house, south: courses meet their neighbours' after one odd course at the eave, 3\" where others show 7\"",
            "house, sur: las hiladas coinciden con las vecinas después de una hilada distinta en el alero, que deja ver 3\" donde \
             las otras 7\"",
        ),
        (
            "lay it so; or let the first butts stand out 3\" less, and the odd course is gone",
            "colóquela así; o haga que los primeros pies salgan 3\" menos, y la hilada distinta desaparece",
        ),
        (
            "a roll of 3\" × 10' 0\" with its laps is too small to lay, so no ice barrier is laid",
            "un rollo de 3\" × 10' 0\" con sus traslapes es muy chico para colocarse, así que no se coloca barrera contra hielo",
        ),
    ] {
        assert_eq!(tongue.known(says).as_deref(), Some(spanish));
    }
}
