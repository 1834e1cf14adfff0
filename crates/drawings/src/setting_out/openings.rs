use plan::Opening;

use super::sheet::{Sheet, in_inches, tape};
use super::view::View;
use crate::clear::boxed;
use crate::lettering::{SMALL, centred, width};
use crate::surface::Surface;
use crate::{Fill, Item, LineType, Point};

/// Edges of openings: the opening has one number for all of them.
pub(crate) const EDGES: [&str; 3] = ["sill", "side", "head"];

/// Numbers of the openings in the plane, each in the middle of its own, as they stand in the notes.
pub(crate) fn draw(sheet: &Sheet, view: &View) -> Vec<Item> {
    let numbered = numbered(sheet).filter_map(|(number, opening)| Some((number, middle(sheet, opening)?)));
    numbered.flat_map(|(number, at)| patched(view.point(at), &number.to_string())).collect()
}

/// What the numbers take up.
pub(crate) fn rooms(sheet: &Sheet, view: &View) -> Vec<[Point; 4]> {
    let numbered = numbered(sheet).filter_map(|(number, opening)| Some((number.to_string(), middle(sheet, opening)?)));
    numbered.map(|(number, at)| room(view.point(at), &number)).collect()
}

/// The openings in the plane, numbered as on the roof plan.
pub(crate) fn numbered<'a>(sheet: &'a Sheet) -> impl Iterator<Item = (usize, &'a Opening)> {
    let all = sheet.plan.roof.openings.iter().enumerate().map(|(index, opening)| (index + 1, opening));
    all.filter(|(_, opening)| opening.planes.contains(&sheet.plane.id))
}

/// In inches of the plane's frame.
fn middle(sheet: &Sheet, opening: &Opening) -> Option<Point> {
    let surface = Surface::of(&sheet.plan.roof, sheet.plane)?;
    let count = opening.outline_ft.len().max(1) as f64;
    let sum = opening.outline_ft.iter().fold([0.0; 2], |sum, at| [sum[0] + at[0], sum[1] + at[1]]);
    Some(surface.own(sum.map(|all| all / count)))
}

fn room(at: Point, number: &str) -> [Point; 4] {
    boxed(at, [width(number, SMALL) + 0.6, SMALL + 0.6], 0.0)
}

fn patched(at: Point, number: &str) -> [Item; 2] {
    let patch = room(at, number).to_vec();
    [Item::Shape { rings: vec![patch], line: LineType::Unseen, fill: Fill::Paper }, centred(at, 0.0, number)]
}

/// Sizes and places; `None` without openings.
pub(crate) fn note(sheet: &Sheet) -> Option<String> {
    let told: Vec<String> =
        numbered(sheet).filter_map(|(number, opening)| Some(told(number, opening, middle(sheet, opening)?))).collect();
    (!told.is_empty()).then(|| format!("Openings, middle from the left end and up from the low edge: {}.", told.join("; ")))
}

fn told(number: usize, opening: &Opening, [across, up]: Point) -> String {
    let [width, height] = [opening.width_in, opening.height_in].map(in_inches);
    format!("{number}: {}, {width} wide, {height} on the slope, at {} and {}", opening.name, tape(across), tape(up))
}
