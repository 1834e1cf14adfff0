//! The roof plan: the whole roof seen from above, every plane by its name. Lengths stand on the setting-out sheets.

mod arrangement;
mod drawing;
mod fall;
mod kinds;
mod label;
mod legend;
mod names;
mod north;
mod opening;
mod overhead;
mod region;
mod start;
mod stretch;
mod view;
mod zones;

use plan::{Plan, Severity};

use crate::lettering::{LINE, SMALL, fitted, small};
use crate::page::MARGIN;
use crate::title_block::{self, ROW};
use crate::{Anchor, English, Figure, Item, Page, Scene, Words, heading, scale_bar};
use arrangement::{Arrangement, arrange, arrange_within};
use legend::Entry;
use stretch::stands_apart;

pub(crate) use drawing::line_of;
pub(crate) use overhead::Overhead;
pub(crate) use view::View;

/// Draws the roof plan: planes with name, pitch and fall, lines by kind, where laying starts, north.
///
/// The paper is US Letter, upright or lying as the roof asks for, or the next larger size on which most names find room on their
/// planes. `None` if the plan has no plane.
#[must_use]
pub fn roof_plan(plan: &Plan) -> Option<Scene> {
    let overhead = Overhead::of(plan, &English)?;
    let arrangement = arrange(&overhead)?;
    Some(draw(&overhead, arrangement))
}

fn draw(overhead: &Overhead, arrangement: Arrangement) -> Scene {
    let plan = overhead.plan;
    let mut items = heading::draw(arrangement.page, &plan.name, "Roof plan");
    items.extend(draw_notes(plan, arrangement.page));
    items.extend(title_block::draw(
        arrangement.page,
        &title_block::of_whole_roof(
            plan,
            "Roof plan",
            ("Planes", plan.roof.planes.len()),
            arrangement.scale,
            arrangement.page,
        ),
    ));
    let description = format!(
        "The roof seen from above at {}: {} planes with pitch and fall, their lines by kind, and where laying starts.",
        arrangement.scale,
        plan.roof.planes.len()
    );
    let page = arrangement.page;
    items.extend(drawing(overhead, arrangement));
    Scene { page, title: format!("Roof plan: {}", plan.name), description, items }
}

/// Draws the roof plan with its key alone, as large as the room allows: width and height in mm. `None` if the plan has no plane, or
/// if there is no room.
#[must_use]
pub fn roof_figure(plan: &Plan, within: [f64; 2], words: &dyn Words) -> Option<Figure> {
    let overhead = Overhead::of(plan, words)?;
    let arrangement = arrange_within(&overhead, within)?;
    let (page, scale) = (arrangement.page, arrangement.scale);
    let (title, description) = (plan.name.clone(), plan.name.clone());
    let is_told = arrangement.list.is_none();
    let keyed = arrangement.drawing.listed.iter().filter(|_| is_told).map(Entry::told).collect();
    let scene = Scene { page, title, description, items: drawing(&overhead, arrangement) };
    Some(Figure { scene, scale, keyed })
}

/// The roof, north, key and scale bar.
fn drawing(overhead: &Overhead, arrangement: Arrangement) -> Vec<Item> {
    let mut items = north::draw(arrangement.north_at, overhead.plan.roof.north_deg, &overhead.words.word("N"));
    items.extend(arrangement.key.draw());
    items.extend(arrangement.list.iter().flat_map(|list| list.draw()));
    items.extend(scale_bar::draw(arrangement.scale, arrangement.bar_at, overhead.words));
    items.extend(arrangement.drawing.items.into_iter().map(|item| item.shifted(arrangement.drawing_at)));
    items
}

/// Of notes and title block with the space over them, mm.
fn foot(plan: &Plan) -> f64 {
    LINE * notes(plan).len() as f64 + 6.0 + 2.0 * ROW
}

/// From the lowest line up.
fn notes(plan: &Plan) -> Vec<&'static str> {
    let lengths = "Lengths, courses and cuts stand on the setting-out sheet of each plane.";
    let apart = plan.roof.planes.iter().any(stands_apart);
    let apart = apart.then_some("Planes measured by tape stand side by side: their place in plan is not known.");
    let absent = plan.problems.iter().any(|problem| problem.severity == Severity::Error);
    let absent = absent.then_some("NOT ALL OF THE JOB IS PLANNED: what could not be planned is not drawn here.");
    let wind = plan.wind.is_some();
    let wind = wind
        .then_some("Zones of the wind along eaves and rakes; whether ridges and hips count too, a licensed engineer tells.");
    [lengths].into_iter().chain(wind).chain(apart).chain(absent).collect()
}

fn draw_notes(plan: &Plan, page: Page) -> Vec<Item> {
    let [width, height] = page.size();
    let line = |(index, words): (usize, &str)| {
        let base = height - MARGIN - 2.0 * ROW - 3.5 - LINE * index as f64;
        small([MARGIN, base], Anchor::Start, fitted(words, SMALL, width - 2.0 * MARGIN))
    };
    notes(plan).into_iter().enumerate().map(line).collect()
}
