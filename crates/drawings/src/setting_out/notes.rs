use units::Length;

use super::arrangement::{Arrangement, MARGIN};
use super::pieces::JOINTED_COURSES;
use super::sheet::{Sheet, in_inches, tape};
use super::title_block;
use crate::lettering::{LINE, SMALL, fitted, small, wrap};
use crate::{Anchor, Item};

/// Most lines.
const LINES: usize = 5;
/// Of the notes and the space over and under them, mm.
pub(crate) const HEIGHT: f64 = LINE * LINES as f64 + 4.0;

/// What the lead must know before the first unit, the most important first.
pub(crate) fn draw(sheet: &Sheet, arrangement: &Arrangement, keyed: &[String]) -> Vec<Item> {
    let [width, height] = arrangement.page.size();
    let room = width - 2.0 * MARGIN;
    let top = height - MARGIN - title_block::HEIGHT - HEIGHT + 1.5;
    let lines: Vec<String> = notes(sheet, keyed).iter().flat_map(|note| wrap(note, SMALL, room)).collect();
    let shown = lines.iter().take(LINES).enumerate();
    let ends_early = lines.len() > LINES;
    shown
        .map(|(index, line)| {
            let more = if ends_early && index + 1 == LINES { " …" } else { "" };
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
    if !keyed.is_empty() {
        notes.push(format!("Short edges: {}.", keyed.join("; ")));
    }
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

fn starters(sheet: &Sheet) -> Option<String> {
    let rows: Vec<String> = sheet.laid.starters.iter().map(starter_row).collect();
    (!rows.is_empty()).then(|| format!("Starters, drawn below their edge: {}.", rows.join("; ")))
}

fn starter_row(row: &plan::Starters) -> String {
    let [left, right] = row.span_in;
    let started = ((left - row.left_in) / row.step_in).floor();
    let joint = row.left_in + row.step_in * (started + 1.0) - left;
    let first =
        if left + joint < right { format!(", first joint {} from the left", in_inches(joint)) } else { String::new() };
    format!("{} of {} height{first}", row.count, in_inches(row.height_in))
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
