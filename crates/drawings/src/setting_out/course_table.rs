use plan::{Course, Run};

use super::sheet::{Sheet, in_inches, tape};
use crate::table::Table;

const HEADINGS: [&str; 9] = ["No.", "Butts", "Right", "Low", "Heads", "Length", "Joint", "L", "R"];

/// The running marks of the pole, the first joint of every course and the cuts at its ends; columns that hold nothing are left out.
pub(crate) fn table(sheet: &Sheet) -> Table {
    let rows: Vec<[String; 9]> =
        sheet.laid.courses.iter().enumerate().map(|(index, course)| row(sheet, index, course)).collect();
    let filled: Vec<usize> = (0..HEADINGS.len()).filter(|&column| rows.iter().any(|row| !row[column].is_empty())).collect();
    let kept = |row: [String; 9]| filled.iter().map(|&column| row[column].clone()).collect();
    Table::new("Courses", filled.iter().map(|&column| HEADINGS[column]).collect(), rows.into_iter().map(kept).collect())
}

fn row(sheet: &Sheet, index: usize, course: &Course) -> [String; 9] {
    [
        (index + 1).to_string(),
        tape(sheet.butt_mark("left", index)),
        right_butts(sheet, index),
        sheet.mark("left", index).and_then(|mark| mark.hang_in).map(tape).unwrap_or_default(),
        sheet.head_mark("left", index).map(tape).unwrap_or_default(),
        length(sheet, course),
        Sheet::first_joint(course).map(in_inches).unwrap_or_default(),
        cut_number(course.runs.first()),
        cut_number(course.runs.last()),
    ]
}

/// Of the units of a course, where they are graduated.
fn length(sheet: &Sheet, course: &Course) -> String {
    if sheet.laid.lengths.is_empty() { String::new() } else { in_inches(course.length_in) }
}

/// Marks of the right pole, where a plane is out of square.
fn right_butts(sheet: &Sheet, index: usize) -> String {
    sheet.laid.out_of_square.as_ref().map_or_else(String::new, |_| tape(sheet.butt_mark("right", index)))
}

fn cut_number(run: Option<&Run>) -> String {
    run.and_then(|run| run.cut).map(|cut| (cut + 1).to_string()).unwrap_or_default()
}
