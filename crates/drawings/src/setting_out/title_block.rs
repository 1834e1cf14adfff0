use units::{Length, Pitch};

use super::arrangement::Arrangement;
use super::sheet::{Sheet, in_inches};
use crate::Item;
use crate::title_block::{self, Field, ROW, field};

/// Of the whole block, mm.
pub(crate) const HEIGHT: f64 = 2.0 * ROW;

pub(crate) fn draw(sheet: &Sheet, arrangement: &Arrangement) -> Vec<Item> {
    title_block::draw(arrangement.page, &[of_the_roof(sheet, arrangement), of_the_covering(sheet)])
}

fn of_the_roof(sheet: &Sheet, arrangement: &Arrangement) -> Vec<Field> {
    vec![
        field(5.0, "Job", &sheet.plan.name),
        field(5.0, "Plane", &sheet.plane.name),
        field(3.5, "Pitch", pitch(sheet.plane.pitch)),
        field(3.2, "Area", format!("{:.1} sq ft", sheet.plane.area_sqft)),
        field(2.0, "Courses", sheet.laid.courses.len().to_string()),
        field(4.0, "Pieces (cut)", format!("{} ({})", sheet.pieces(), sheet.cut_pieces())),
        field(3.5, "Scale", arrangement.scale.to_string()),
        field(2.0, "Paper", arrangement.page.name),
    ]
}

fn of_the_covering(sheet: &Sheet) -> Vec<Field> {
    let covering = &sheet.plan.covering;
    let invented = if covering.invented { ", invented figures" } else { "" };
    vec![
        field(11.5, "Covering", format!("{}{invented}", covering.name)),
        field(4.6, "Unit, width × length", format!("{} × {}", widths(sheet), lengths(sheet))),
        field(4.4, "Exposure", exposure(sheet)),
        field(2.4, "Headlap", headlap(sheet)),
        field(1.8, "Gap", in_inches(covering.gap_in)),
        field(2.6, "Nails each", covering.nails_each.to_string()),
    ]
}

/// The unit's own width, or the narrowest and the widest of a mix.
fn widths(sheet: &Sheet) -> String {
    let field = || sheet.laid.units.iter().filter(|unit| !unit.wide).map(|unit| unit.width_in);
    let [least, most] = [field().reduce(f64::min), field().reduce(f64::max)];
    match (least, most) {
        (Some(least), Some(most)) if least < most => format!("{} to {}", in_inches(least), in_inches(most)),
        _ => in_inches(sheet.plan.covering.width_in),
    }
}

/// The unit's own length, or the shortest and the longest that are laid.
fn lengths(sheet: &Sheet) -> String {
    match &sheet.laid.lengths[..] {
        [longest, .., shortest] => format!("{} to {}", in_inches(shortest.length_in), in_inches(longest.length_in)),
        [one] => in_inches(one.length_in),
        [] => in_inches(sheet.plan.covering.length_in),
    }
}

fn pitch(rise: f64) -> String {
    Pitch::per_12(rise).map(|pitch| format!("{pitch}, {:.1}°", pitch.degrees())).unwrap_or_default()
}

fn exposure(sheet: &Sheet) -> String {
    let [least, greatest] = sheet.exposures();
    match [in_inches(least), in_inches(greatest)] {
        _ if sheet.laid.courses.is_empty() => String::new(),
        [least, greatest] if least == greatest => {
            format!("{least} ({:.3} in)", Length::inches(sheet.least_exposure()).to_inches())
        }
        [least, greatest] => format!("{least} to {greatest}"),
    }
}

/// The least of the plane's courses.
fn headlap(sheet: &Sheet) -> String {
    let headlaps = sheet.laid.courses.iter().map(|course| course.headlap_in);
    headlaps.reduce(f64::min).map_or_else(String::new, in_inches)
}
