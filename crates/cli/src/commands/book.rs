use std::path::PathBuf;

use book::{Binding, Language, Measures, Paper, Part, Stage};
use clap::ValueEnum;
use plan::Plan;

use super::plan::{is_all_planned, problems, read};
use crate::Ending;
use crate::note::Note;
use crate::output::{say, tell, write_file};

/// Bind the job book as PDF: for the crew, the office, the building official and the owner
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// English or Spanish
    #[arg(long, value_enum, default_value_t)]
    language: LanguageWord,
    /// What it is printed on
    #[arg(long, value_enum, default_value_t)]
    paper: PaperWord,
    /// US customary or metric measures
    #[arg(long, value_enum, default_value_t)]
    units: UnitsWord,
    /// A part of the book; story poles in full size are a part of their own
    #[arg(long, value_enum)]
    part: Option<PartWord>,
    /// The day that the book bears, 2026-05-31; without it a blank is left
    #[arg(long, value_parser = date)]
    date: Option<[i16; 3]>,
    /// The file to write
    #[arg(long, value_name = "FILE.pdf")]
    out: PathBuf,
}

#[derive(Debug, Clone, Copy, Default, ValueEnum)]
enum LanguageWord {
    #[default]
    En,
    Es,
}

#[derive(Debug, Clone, Copy, Default, ValueEnum)]
enum PaperWord {
    #[default]
    Letter,
    A4,
}

#[derive(Debug, Clone, Copy, Default, ValueEnum)]
enum UnitsWord {
    #[default]
    Us,
    Metric,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum PartWord {
    Crew,
    Office,
    Official,
    Owner,
    Poles,
}

/// Year, month and day as ISO 8601 has them.
fn date(words: &str) -> Result<[i16; 3], String> {
    let numbers: Vec<i16> = words.split('-').filter_map(|part| part.parse().ok()).collect();
    match numbers[..] {
        [year @ 1900..=9999, month @ 1..=12, day] if (1..=days(year, month)).contains(&day) => Ok([year, month, day]),
        _ => Err("write year, month and day: 2026-05-31".into()),
    }
}

/// Of a month.
const fn days(year: i16, month: i16) -> i16 {
    match month {
        2 if year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

impl Arguments {
    fn binding(&self) -> Binding {
        Binding {
            language: match self.language {
                LanguageWord::En => Language::English,
                LanguageWord::Es => Language::Spanish,
            },
            measures: match self.units {
                UnitsWord::Us => Measures::Customary,
                UnitsWord::Metric => Measures::Metric,
            },
            paper: match self.paper {
                PaperWord::Letter => Paper::Letter,
                PaperWord::A4 => Paper::A4,
            },
            part: match self.part {
                None => Part::Whole,
                Some(PartWord::Crew) => Part::Crew,
                Some(PartWord::Office) => Part::Office,
                Some(PartWord::Official) => Part::Official,
                Some(PartWord::Owner) => Part::Owner,
                Some(PartWord::Poles) => Part::Poles,
            },
            date: self.date,
        }
    }
}

pub(crate) fn run(arguments: &Arguments) -> Ending {
    say("reading and planning …");
    match read(&arguments.job) {
        Ok((source, job, catalog)) => {
            let plan = plan::plan(&job, &catalog);
            tell(&problems(&source, &job, &plan));
            bind(arguments, &plan)
        }
        Err(notes) => {
            tell(&notes);
            Ending::Unread
        }
    }
}

fn bind(arguments: &Arguments, plan: &Plan) -> Ending {
    let mut watch = |stage: Stage| {
        say(match stage {
            Stage::Drawing => "drawing …",
            Stage::Printing => "setting in type …",
        });
    };
    let bytes = match book::bind(plan, &arguments.binding(), &mut watch) {
        Ok(bytes) => bytes,
        Err(error) => return refused(Note::plain(error.to_string(), "Mend what is named above and bind again.")),
    };
    match write_file(&arguments.out, bytes) {
        Ok(()) => {
            say(&format!("wrote {}", arguments.out.display()));
            if is_all_planned(plan) { Ending::Done } else { Ending::NotAll }
        }
        Err(note) => refused(*note),
    }
}

fn refused(note: Note) -> Ending {
    tell(&[note]);
    Ending::NotAll
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Leap years by the Gregorian calendar.
    #[test]
    fn only_days_that_are_in_the_calendar_are_taken() {
        assert_eq!(date("2026-05-31"), Ok([2026, 5, 31]));
        assert_eq!(date("2028-02-29"), Ok([2028, 2, 29]));
        for wrong in ["2026-02-29", "2100-02-29", "2026-13-01", "2026-04-31", "31 May", "2026-05", "2026-05-31-1", ""] {
            assert!(date(wrong).is_err(), "{wrong}");
        }
    }
}
