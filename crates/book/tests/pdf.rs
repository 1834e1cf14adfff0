//! The printed file from outside. What a PDF reader sees in it is looked at by `oracles/book_scale.py`.

use book::{Binding, Language, Measures, Paper, Part, Stage, bind};
use covering::Catalog;
use plan::Plan;
use reader::Format;

fn planned(job: &str) -> Plan {
    plan::plan(&plan::read_job(job, Format::Toml).0.expect("a sound example"), &Catalog::shipped())
}

fn gable() -> Plan {
    planned(include_str!("../../../examples/gable.toml"))
}

const CREW: Binding = Binding {
    language: Language::Spanish,
    measures: Measures::Customary,
    paper: Paper::A4,
    part: Part::Crew,
    date: Some([2026, 5, 31]),
};

fn count(bytes: &[u8], what: &str) -> usize {
    bytes.windows(what.len()).filter(|window| *window == what.as_bytes()).count()
}

/// The file says of itself what it keeps: PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1); the typesetter refuses to write it
/// otherwise.
#[test]
fn the_book_is_an_archival_tagged_pdf_and_the_same_every_time() {
    let mut heard = Vec::new();
    let once = bind(&gable(), &CREW, &mut |stage| heard.push(stage)).unwrap();
    assert_eq!(heard, [Stage::Drawing, Stage::Printing]);
    assert!(once.starts_with(b"%PDF-1.7"));
    for kept in [
        "<pdfaid:part>2</pdfaid:part>",
        "<pdfaid:conformance>A</pdfaid:conformance>",
        "<pdfuaid:part>1</pdfuaid:part>",
        "2026-05-31",
    ] {
        assert_eq!(count(&once, kept).min(1), 1, "{kept}");
    }
    assert!(bind(&gable(), &CREW, &mut |_| {}).unwrap() == once);
}

/// Papers by ANSI/ASME Y14.1 and ISO 216, in points of 1/72 in.
#[test]
fn pages_lie_on_their_paper() {
    let letter = Binding { paper: Paper::Letter, part: Part::Owner, language: Language::English, date: None, ..CREW };
    let bytes = bind(&gable(), &letter, &mut |_| {}).unwrap();
    assert_eq!(count(&bytes, "/MediaBox[0 0 792 612]"), count(&bytes, "<</Type/Page/"), "landscape Letter");
    assert!(count(&bytes, "<</Type/Page/") >= 4);
}

/// A name may hold whatever somebody typed.
#[test]
fn letters_that_no_font_has_are_no_obstacle() {
    let plan = Plan { name: "屋根 \u{1} 🏠 \u{202e} <b> \"x\" \\ # $ [a] ñ".into(), ..gable() };
    let owner = Binding { part: Part::Owner, ..CREW };
    assert!(bind(&plan, &owner, &mut |_| {}).unwrap().starts_with(b"%PDF"));
}

#[test]
fn nothing_planned_is_nothing_bound() {
    let empty = Plan { roof: plan::Roof::default(), ..gable() };
    assert_eq!(bind(&empty, &CREW, &mut |_| {}), Err(book::BookError::Empty));
}
