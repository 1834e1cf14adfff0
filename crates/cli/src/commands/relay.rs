use std::path::PathBuf;
use std::str::FromStr;

use plan::{CourseRead, Severity};
use units::Length;

use super::PrintedAs;
use super::plan::{note, read};
use crate::Ending;
use crate::ink::Ink;
use crate::note::Note;
use crate::output::{print, tell};

mod page;

/// Spread the rest of a plane's courses anew from where one lies on the roof
#[derive(clap::Args)]
pub(crate) struct Arguments {
    /// The job file, TOML or, if its name ends in .json, JSON
    job: PathBuf,
    /// A course as measured: from the pole's zero, the first butts, to that course's butts at its two ends
    #[arg(long = "reading", value_name = READING, required = true)]
    readings: Vec<String>,
    /// How the new marks are printed
    #[arg(long, value_enum, default_value_t)]
    format: PrintedAs,
}

const READING: &str = "house.2, course 14, left 9' 7-1/4\", right 9' 7\"";

pub(crate) fn run(arguments: &Arguments) -> Ending {
    match relaid(arguments) {
        Ok(ending) => ending,
        Err(notes) => {
            tell(&notes);
            Ending::Unread
        }
    }
}

fn relaid(arguments: &Arguments) -> Result<Ending, Vec<Note>> {
    let (source, job, catalog) = read(&arguments.job)?;
    let readings = readings(&arguments.readings)?;
    let misread = |wrong: &plan::Misread| {
        let typed = arguments.readings.get(wrong.reading).map_or("", String::as_str);
        Note::plain(format!("--reading {typed}: {}", wrong.says), &wrong.remedy)
    };
    let relay = plan::relay(&job, &catalog, &readings).map_err(|wrong| wrong.iter().map(misread).collect::<Vec<Note>>())?;
    let errors = relay.problems.iter().filter(|problem| problem.severity == Severity::Error);
    tell(&errors.map(|problem| note(&source, &job, problem)).collect::<Vec<Note>>());
    let printed = match arguments.format {
        PrintedAs::Text => page::page(&relay, Ink::on(&std::io::stdout())),
        // Plain numbers, words and lists: there is nothing in it that JSON cannot say.
        PrintedAs::Json => serde_json::to_string_pretty(&relay).map(|json| json + "\n").unwrap_or_default(),
    };
    let printed = print(&printed);
    Ok(if relay.has_room() { printed } else { Ending::NotAll })
}

fn readings(typed: &[String]) -> Result<Vec<CourseRead>, Vec<Note>> {
    let (mut readings, mut notes) = (Vec::new(), Vec::new());
    for typed in typed {
        match reading(typed) {
            Ok(reading) => readings.push(reading),
            Err(says) => notes.push(Note::plain(format!("--reading {typed}: {says}"), format!("write it as {READING}"))),
        }
    }
    if notes.is_empty() { Ok(readings) } else { Err(notes) }
}

/// `house.2, course 14, left 9' 7-1/4", right 9' 7"`. A plane's name may hold commas, so it is read from the end.
fn reading(typed: &str) -> Result<CourseRead, String> {
    let mut parts = typed.rsplitn(4, ',').map(str::trim);
    let [Some(right), Some(left), Some(course), Some(plane)] = [(); 4].map(|()| parts.next()) else {
        return Err("plane, course, left and right are wanted, with commas between".into());
    };
    let after = |part: &str, word: &str| {
        let rest = part.strip_prefix(word).map(str::trim).map(str::to_owned);
        rest.ok_or_else(|| format!("\"{word}\" is wanted where \"{part}\" stands"))
    };
    let length = |part: &str, word: &str| {
        let length = after(part, word)?;
        Length::from_str(&length).map_err(|wrong| format!("{word} \"{length}\": {wrong}"))
    };
    let course = after(course, "course")?;
    let course = course.parse().map_err(|_| format!("course \"{course}\" is no number"))?;
    Ok(CourseRead { plane: plane.into(), course, left: length(left, "left")?, right: length(right, "right")? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_is_plane_course_and_two_lengths() {
        let read = reading(READING).expect("the example reads");
        assert_eq!((read.plane.as_str(), read.course), ("house.2", 14));
        assert_eq!((read.left, read.right), (Length::inches(115.25), Length::inches(115.0)));
        let named = reading("house, north, course 3,left 2 ft, right 61 cm").expect("a name may hold a comma");
        assert_eq!((named.plane.as_str(), named.course), ("house, north", 3));
    }

    #[test]
    fn what_cannot_be_read_says_where() {
        for (typed, says) in [
            ("house.2, 14, left 9', right 9'", "\"course\" is wanted where \"14\" stands"),
            ("house.2, course 14, right 9', left 9'", "\"left\" is wanted"),
            ("house.2, course two, left 9', right 9'", "course \"two\" is no number"),
            ("house.2, course -2, left 9', right 9'", "course \"-2\" is no number"),
            ("house.2, course 2, left 9, right 9'", "left \"9\""),
            ("course 2, left 9', right 9'", "with commas between"),
            ("", "with commas between"),
        ] {
            let wrong = reading(typed).expect_err(typed);
            assert!(wrong.contains(says), "{typed}: {wrong}");
        }
    }
}
