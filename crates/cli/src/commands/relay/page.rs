use plan::{Mark, Outcome, PartedNeighbour, Pole, RelaidPlane, Relay};
use units::Length;

use crate::ink::Ink;
use crate::page::text::{Page, count};

/// Poles side by side in one table.
const BESIDE: usize = 2;

/// New marks, plane by plane, for the one who holds the tape.
pub(super) fn page(relay: &Relay, ink: Ink) -> String {
    let mut page = Page::new(ink);
    page.title(&relay.name);
    page.wrapped(
        0,
        "Left and right as you face the plane from the ground; all marks are from the pole's zero, the first butts.",
    );
    relay.planes.iter().for_each(|plane| of_plane(&mut page, plane));
    page.blank();
    page.wrapped(0, "Measure again after some courses. The maker's sheet and the local code decide.");
    page.finished()
}

fn of_plane(page: &mut Page, plane: &RelaidPlane) {
    page.heading(&format!("{} ({})", plane.name, plane.id));
    for laid in &plane.laid {
        let [left, right] = laid.read_in.map(Length::inches);
        let drift = laid.drift_in.map(drift);
        page.wrapped(2, &format!("Course {}: left {left}, {}; right {right}, {}.", laid.course + 1, drift[0], drift[1]));
    }
    plane.cautions.iter().for_each(|caution| page.hanging(2, "LOOK  ", caution));
    match plane.outcome {
        Outcome::NoRoom => no_room(page, plane),
        Outcome::AsPlanned => {
            page.wrapped(2, "It lies on its marks: nothing changes.");
            room(page, plane);
        }
        Outcome::Spread => spread(page, plane),
    }
}

fn drift(inches: f64) -> String {
    let tape = Length::inches(inches.abs()).to_tape();
    match tape > Length::ZERO {
        false => "as planned".into(),
        true if inches > 0.0 => format!("{} too high", tape.in_inches()),
        true => format!("{} too low", tape.in_inches()),
    }
}

fn no_room(page: &mut Page, plane: &RelaidPlane) {
    page.wrapped(2, "NO ROOM: the courses above cannot reach the top line within exposure, headlap and sight limit.");
    plane.in_the_way.iter().for_each(|why| page.hanging(4, "- ", why));
    page.wrapped(2, "Ways out:");
    plane.ways.iter().for_each(|way| page.hanging(4, "- ", way));
    if plane.ways.is_empty() {
        page.hanging(4, "- ", "none found: ask the maker before you go on");
    }
}

fn spread(page: &mut Page, plane: &RelaidPlane) {
    let above = plane.courses.len().saturating_sub(1) as u64;
    let number = match plane.more_courses {
        0 => "as many as planned".into(),
        more if more > 0 => format!("{} MORE than planned, about {} more", count(more as u64, "course"), pieces(plane)),
        fewer => format!("{} FEWER than planned, about {} fewer", count(fewer.unsigned_abs(), "course"), pieces(plane)),
    };
    page.wrapped(2, &format!("{} above, {number}.", count(above, "course")));
    page.wrapped(2, &format!("Exposures left {}, right {}.", shows(plane, 0), shows(plane, 1)));
    room(page, plane);
    let hang = plane.poles.iter().flat_map(|pole| &pole.marks).find_map(|mark| Some(mark.butt_in - mark.hang_in?));
    if let Some(hang) = hang {
        page.wrapped(2, &format!("Every other unit hangs {} below its mark.", Length::inches(hang).to_tape().in_inches()));
    }
    let mut poles: Vec<&Pole> = plane.poles.iter().collect();
    poles.sort_by(|a, b| a.u_in.total_cmp(&b.u_in));
    poles.chunks(BESIDE).for_each(|poles| marks(page, poles));
    plane.neighbours.iter().for_each(|neighbour| parted(page, neighbour));
}

fn pieces(plane: &RelaidPlane) -> String {
    count(plane.more_pieces.unsigned_abs(), "piece")
}

fn shows(plane: &RelaidPlane, end: usize) -> String {
    let shown = || plane.courses.iter().map(|course| course.shows_in[end]);
    let (least, most) = (shown().fold(f64::INFINITY, f64::min), shown().fold(0.0, f64::max));
    if most - least < 0.0005 { format!("{most:.3} in") } else { format!("{least:.3} to {most:.3} in") }
}

/// Rounded down: room that is not there must not be promised.
fn room(page: &mut Page, plane: &RelaidPlane) {
    let [lower, higher] = plane.room_in.map(|room| Length::inches((room * 16.0 + 1e-6).floor() / 16.0).in_inches());
    page.wrapped(
        2,
        &format!("Room left with so many courses: course {} could lie {lower} lower or {higher} higher.", plane.course + 1),
    );
}

/// A row for each course, a column for each pole, the highest course on top as on the pole.
fn marks(page: &mut Page, poles: &[&Pole]) {
    page.blank();
    let heading = |pole: &&Pole| columns(&format!("{} pole", pole.side), "heads");
    page.row(&format!("  course{}", poles.iter().map(heading).collect::<String>()));
    let highest = poles.iter().filter_map(|pole| pole.marks.last()).map(|mark| mark.course).max().unwrap_or_default();
    let lowest = poles.iter().filter_map(|pole| pole.marks.first()).map(|mark| mark.course).min().unwrap_or_default();
    let top = poles.iter().map(|pole| columns(&Length::inches(pole.top_in).to_string(), ""));
    page.row(&format!("  {:>6}{}", "top", top.collect::<String>()));
    for course in (lowest..=highest).rev() {
        let cells = poles.iter().map(|pole| cell(pole.marks.iter().find(|mark| mark.course == course)));
        page.row(&format!("  {:>6}{}", course + 1, cells.collect::<String>()));
    }
}

fn cell(mark: Option<&Mark>) -> String {
    let shown = |inches: Option<f64>| inches.map_or_else(String::new, |inches| Length::inches(inches).to_string());
    columns(&shown(mark.map(|mark| mark.butt_in)), &shown(mark.and_then(|mark| mark.head_in)))
}

/// Room for the longest mark of a tall roof, `114' 11-15/16"`.
fn columns(butt: &str, head: &str) -> String {
    format!("{butt:>15}{head:>15}")
}

fn parted(page: &mut Page, neighbour: &PartedNeighbour) {
    page.blank();
    page.wrapped(2, &neighbour.says);
    let marks: Vec<String> =
        neighbour.marks.iter().map(|mark| format!("{}: {}", mark.course + 1, Length::inches(mark.butt_in))).collect();
    if neighbour.keeps_limits && !marks.is_empty() {
        page.wrapped(2, &format!("Its marks would be {}.", marks.join(", ")));
    }
}
