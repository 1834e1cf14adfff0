use plan::Starters;
use units::Length;

use super::arrangement::Arrangement;
use super::pieces::JOINTED_COURSES;
use super::sheet::{Sheet, in_inches, tape};
use super::title_block;
use super::{flashing, openings, set_out};
use crate::lettering::{LINE, SMALL, fitted, small, wrap};
use crate::page::MARGIN;
use crate::{Anchor, Item, Page};

/// Most lines: five, a line for two openings, those of the step flashing, and one for what each note on setting out says.
fn most_lines(sheet: &Sheet) -> usize {
    let flashing = flashing::note(sheet).map_or(0, |note| wrap(&note, SMALL, Page::LETTER.size()[0] - 2.0 * MARGIN).len());
    5 + openings::numbered(sheet).count().div_ceil(2) + set_out::notes(sheet).len() + flashing
}

/// Of the notes and the space over and under them, mm.
pub(crate) fn height(sheet: &Sheet) -> f64 {
    LINE * most_lines(sheet) as f64 + 4.0
}

/// What the lead must know before the first unit, the most important first.
pub(crate) fn draw(sheet: &Sheet, arrangement: &Arrangement, keyed: &[String]) -> Vec<Item> {
    let [width, height] = arrangement.page.size();
    let room = width - 2.0 * MARGIN;
    let top = height - MARGIN - title_block::HEIGHT - self::height(sheet) + 1.5;
    let most = most_lines(sheet);
    let lines: Vec<String> = notes(sheet, keyed).iter().flat_map(|note| wrap(note, SMALL, room)).collect();
    let shown = lines.iter().take(most).enumerate();
    let ends_early = lines.len() > most;
    shown
        .map(|(index, line)| {
            let more = if ends_early && index + 1 == most { " …" } else { "" };
            small(
                [MARGIN, top + LINE * (index + 1) as f64 - 1.0],
                Anchor::Start,
                fitted(&format!("{line}{more}"), SMALL, room),
            )
        })
        .collect()
}

fn notes(sheet: &Sheet, keyed: &[String]) -> Vec<String> {
    let mut notes = vec![start(sheet), pole(sheet)];
    notes.extend(set_out::notes(sheet));
    if !keyed.is_empty() {
        notes.push(format!("Short edges: {}.", keyed.join("; ")));
    }
    notes.extend(openings::note(sheet));
    notes.extend(flashing::note(sheet));
    notes.extend(starters(sheet));
    notes.push(drawing(sheet));
    notes
}

fn start(sheet: &Sheet) -> String {
    format!("Start at the left. First joint from the left end of a course: {}.", first_joints(sheet))
}

/// The offsets by kind of course where they repeat, else those of the first courses.
fn first_joints(sheet: &Sheet) -> String {
    let marks: Vec<Option<String>> =
        sheet.laid.courses.iter().map(|course| Sheet::first_joint(course).map(in_inches)).collect();
    let repeats = |bond: &usize| marks.len() > *bond && marks.iter().zip(marks.iter().skip(*bond)).all(|(a, b)| a == b);
    let shown = |index: usize| marks[index].clone().unwrap_or_else(|| "none".to_owned());
    match (1..=3).find(repeats) {
        Some(1) => format!("every course {}", shown(0)),
        Some(2) => format!("odd courses {}, even courses {}", shown(0), shown(1)),
        Some(_) => format!("courses 1, 4, 7 … {}; courses 2, 5, 8 … {}; courses 3, 6, 9 … {}", shown(0), shown(1), shown(2)),
        None => {
            let first: Vec<String> =
                (0..marks.len().min(3)).map(|index| format!("course {} {}", index + 1, shown(index))).collect();
            format!("{}; others in the table", first.join(", "))
        }
    }
}

fn pole(sheet: &Sheet) -> String {
    let first = sheet.laid.first_butt_in;
    format!(
        "Pole zero: first butts, {}. Top line (long-dashed dotted): {}. Mark butts and heads on both poles; chalk heads.",
        from_low_edge(first),
        tape(sheet.laid.top_in - first)
    )
}

fn from_low_edge(first_butt: f64) -> String {
    match Length::inches(first_butt).to_tape().to_inches() {
        0.0 => "at the low edge".to_owned(),
        below if below < 0.0 => format!("{} past the low edge", in_inches(-first_butt)),
        _ => format!("{} above the low edge", tape(first_butt)),
    }
}

/// Narrower starters told one by one.
const MOST_NARROW: usize = 6;

fn starters(sheet: &Sheet) -> Option<String> {
    let gap = sheet.plan.covering.gap_in;
    let edges = starters_by_edge(&sheet.laid.starters);
    let told: Vec<String> = edges.into_iter().map(|rows| starters_of_edge(rows, gap)).collect();
    (!told.is_empty()).then(|| format!("Starters, drawn below their edge: {}.", told.join("; ")))
}

/// Rows that follow each other along one edge.
fn starters_by_edge(rows: &[Starters]) -> Vec<&[Starters]> {
    let follows =
        |a: &Starters, b: &Starters| (a.butt_in - b.butt_in).abs() < 1e-6 && (a.span_in[1] - b.span_in[0]).abs() < 1e-6;
    rows.chunk_by(follows).collect()
}

fn starters_of_edge(rows: &[Starters], gap: f64) -> String {
    let count: u32 = rows.iter().map(|row| row.count).sum();
    let height = rows.first().map_or(0.0, |row| row.height_in);
    let first = rows.first().filter(|_| count > 1).map_or_else(String::new, |row| {
        let joint = row.left_in + row.step_in - gap / 2.0 - row.span_in[0];
        format!(", first joint {} from the left", in_inches(joint))
    });
    format!("{count}, {} high{first}{}", in_inches(height), narrow_starters(rows, gap))
}

/// The starters shortened to keep their joints off the first course's.
fn narrow_starters(rows: &[Starters], gap: f64) -> String {
    let step = rows.iter().map(|row| row.step_in).fold(0.0, f64::max);
    let mut number = 0;
    let mut narrow = Vec::new();
    for row in rows {
        if row.step_in < step - 1.0 / 32.0 {
            narrow.push(format!("no. {} {}", number + 1, in_inches(row.step_in - gap)));
        }
        number += row.count;
    }
    let more = if narrow.len() > MOST_NARROW { " …" } else { "" };
    narrow.truncate(MOST_NARROW);
    if narrow.is_empty() { String::new() } else { format!(", cut narrower: {}{more}", narrow.join(", ")) }
}

fn drawing(sheet: &Sheet) -> String {
    if sheet.shows_pieces() {
        return "Hatched: cut pieces, numbered as in the cut list. L and R: the cuts at the left and right end of a course."
            .to_owned();
    }
    format!(
        "{} pieces: drawn are course lines and the joints of courses 1 to {JOINTED_COURSES}, as far apart as can be read. L and R: \
         the cuts at the left and right end of a course.",
        sheet.pieces()
    )
}
