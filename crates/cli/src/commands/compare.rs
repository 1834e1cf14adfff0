use std::path::{Path, PathBuf};
use std::str::FromStr;

use clap::ValueEnum;
use covering::{Bond, Catalog, read_sheet};
use plan::{BondChoice, Choices, Compared, Comparison, HipChoice};
use units::Length;

use super::PrintedAs;
use super::plan::{notes, read};
use crate::Ending;
use crate::ink::Ink;
use crate::input;
use crate::note::Note;
use crate::output::{print, tell};
use crate::page::text::{Page, thousands, wrap};

/// Plan a roof several ways and print them side by side: coverings, exposures, hips, bonds
#[derive(clap::Args)]
#[command(
    after_help = "With none of these: as the job has it, its hips and its bond otherwise, and every covering that ships."
)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// A sheet that ships, or the path of one
    #[arg(long = "covering", value_name = "SHEET")]
    coverings: Vec<String>,
    /// The most that any course may show, as "7 in"
    #[arg(long = "exposure", value_name = "LENGTH", value_parser = exposure)]
    exposures: Vec<Length>,
    /// How hips are finished
    #[arg(long, value_name = "HOW", value_enum)]
    hips: Vec<HipsWord>,
    /// How units stand beside and over each other
    #[arg(long = "bond", value_name = "BOND", value_enum)]
    bonds: Vec<BondWord>,
    /// How they are printed
    #[arg(long, value_enum, default_value_t)]
    format: PrintedAs,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum HipsWord {
    /// Caps, every plane set out by itself.
    Capped,
    /// Courses meet at hips and valleys.
    Matched,
    /// Courses meet, and units are cut to the hip.
    Mitred,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum BondWord {
    /// Each course half a unit further.
    Half,
    /// Each course a third of a unit further.
    Third,
    /// The sheet's mix of widths.
    Random,
    /// Every other unit lower by the sheet's step.
    Staggered,
    /// The sheet's lengths, the longest at the eave.
    Graduated,
}

const fn bond(word: BondWord) -> BondChoice {
    match word {
        BondWord::Half => BondChoice::Of(Bond::Half),
        BondWord::Third => BondChoice::Of(Bond::Third),
        BondWord::Random => BondChoice::Of(Bond::Random),
        BondWord::Staggered => BondChoice::Staggered,
        BondWord::Graduated => BondChoice::Graduated,
    }
}

fn exposure(typed: &str) -> Result<Length, String> {
    let length = Length::from_str(typed).map_err(|wrong| wrong.to_string())?;
    let is_sound = length >= Length::inches(1.0) && length <= Length::inches(36.0);
    if is_sound { Ok(length) } else { Err("an exposure is between 1 in and 36 in".into()) }
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    match compared(arguments) {
        Ok(comparison) => {
            let printed = match arguments.format {
                PrintedAs::Text => page(&comparison, Ink::on(&std::io::stdout())),
                // Plain numbers, words and lists: there is nothing in it that JSON cannot say.
                PrintedAs::Json => serde_json::to_string_pretty(&comparison).map(|json| json + "\n").unwrap_or_default(),
            };
            print(&printed)
        }
        Err(notes) => {
            tell(&notes);
            Ending::Unread
        }
    }
}

fn compared(arguments: &Arguments) -> Result<Comparison, Vec<Note>> {
    let (_, job, mut catalog) = read(&arguments.job)?;
    let mut wrong = Vec::new();
    for covering in &arguments.coverings {
        wrong.extend(find(covering, &mut catalog).err().into_iter().flatten());
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let choices = Choices {
        coverings: arguments.coverings.clone(),
        exposures: arguments.exposures.clone(),
        hips: arguments.hips.iter().map(|&word| hips(word)).collect(),
        bonds: arguments.bonds.iter().map(|&word| bond(word)).collect(),
    };
    Ok(plan::compare(&job, &catalog, &choices))
}

const fn hips(word: HipsWord) -> HipChoice {
    match word {
        HipsWord::Capped => HipChoice::Capped,
        HipsWord::Matched => HipChoice::Matched,
        HipsWord::Mitred => HipChoice::Mitred,
    }
}

/// Puts a sheet named by its path, from where the program runs, into the catalogue.
fn find(covering: &str, catalog: &mut Catalog) -> Result<(), Vec<Note>> {
    if catalog.get(covering).is_some() {
        return Ok(());
    }
    let path = Path::new(covering);
    let is_file =
        path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("toml") || ending.eq_ignore_ascii_case("json"));
    if !is_file {
        let remedy = match catalog.nearest(covering) {
            Some(nearest) => format!("Did you mean {nearest}?"),
            None => "`headlap sheets` lists those that ship; one of your own is named by its path.".into(),
        };
        return Err(vec![Note::plain(format!("no sheet that ships is called {}", reader::quoted(covering)), remedy)]);
    }
    let sheet = input::read(path).map_err(|note| vec![*note])?;
    let read = read_sheet(&sheet.text, sheet.format);
    let value = read.value.ok_or_else(|| notes(&sheet, &read.mistakes))?;
    catalog.sheets.insert(covering.into(), value);
    Ok(())
}

/// For the choice in words.
const CHOICE: usize = 27;

fn page(comparison: &Comparison, ink: Ink) -> String {
    let mut page = Page::new(ink);
    page.title(&comparison.name);
    page.wrapped(
        0,
        &format!("{:.1} squares on the slope, planned {} ways", comparison.area_sqft / 100.0, comparison.options.len()),
    );
    page.blank();
    page.row(&row("", ["courses", "pieces", "cut", "units", "lost", "over", "lb"].map(Into::into)));
    comparison.options.iter().for_each(|option| of_option(&mut page, option));
    page.blank();
    for (word, means) in [
        ("units: ", "field units from which the pieces are cut"),
        ("lost: ", "of these, the worth of so many is cut off and not used again"),
        ("over: ", "field units ordered beyond these: spare packs for what breaks, and what fills the last pack"),
        ("lb: ", "all that is ordered and has a weight on its sheet, in whole packs"),
    ] {
        page.hanging(0, word, means);
    }
    if comparison.options.iter().any(|option| option.invented) {
        page.wrapped(
            0,
            "Sheets that ship have invented figures and stand for no product. The maker's sheet and the local code decide.",
        );
    }
    page.finished()
}

fn row(choice: &str, [courses, pieces, cut, units, lost, over, pounds]: [String; 7]) -> String {
    format!("{choice:<CHOICE$}{courses:>8}{pieces:>9}{cut:>7}{units:>9}{lost:>8}{over:>5}{pounds:>7}")
}

fn of_option(page: &mut Page, option: &Compared) {
    let lines = wrap(&option.choice, CHOICE);
    let figures = [
        thousands(option.courses),
        thousands(option.pieces),
        thousands(option.cut),
        thousands(option.stock),
        format!("{:.1}", option.lost),
        option.over.to_string(),
        thousands(option.weight_lb.round() as u64),
    ];
    page.row(&row(&lines[0], figures));
    lines[1..].iter().for_each(|line| page.row(line));
    let [least, greatest] = option.exposures_in;
    if greatest - least < 0.0005 {
        page.wrapped(4, &format!("exposure {greatest:.3} in"));
    } else {
        page.wrapped(4, &format!("exposures {least:.3} to {greatest:.3} in"));
    }
    if !option.fails.is_empty() {
        page.hanging(4, "FAILS ", &option.fails.join(", "));
    }
    option.says.iter().for_each(|says| page.hanging(4, "LOOK  ", says));
}
