//! The setting-out sheet of one plane: what the crew lead lays from.

mod arrangement;
mod course_table;
mod cut_list;
mod edges;
mod flashing;
mod notes;
mod openings;
mod pieces;
mod pole;
mod set_out;
mod sheet;
mod starters;
mod title_block;
mod view;

use plan::Plan;

use crate::rect::Rect;
use crate::{English, Figure, Item, Page, Scale, Scene, Words, heading};
use arrangement::{Arrangement, arrange};
pub use cut_list::{CutUse, cut_uses};
use sheet::Sheet;
pub(crate) use sheet::in_inches;
pub use sheet::mark;
use view::{View, room};

/// Draws the setting-out sheet of one plane: the plane to scale with its pieces, the marks of the story pole, the cut list.
///
/// The paper is US Letter, or the next larger size on which every mark of the pole finds room. `None` if the plane is not in the
/// plan, was not laid, or is larger than any paper.
#[must_use]
pub fn setting_out(plan: &Plan, plane_id: &str) -> Option<Scene> {
    setting_out_in(plan, plane_id, &English)
}

/// The same with the drawing lettered in other words; tables and notes about it stay English, so that it is for the screen, which
/// shows the drawing alone. The book has the whole sheet in other languages.
#[must_use]
pub fn setting_out_in(plan: &Plan, plane_id: &str, words: &dyn Words) -> Option<Scene> {
    let sheet = Sheet::of(plan, plane_id, words)?;
    let arrangement = arrange(&sheet)?;
    Some(draw(&sheet, &arrangement))
}

/// Where a plane lies on its setting-out sheet, for those who point at a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnSheet {
    /// Width and height of the paper, mm.
    pub page: [f64; 2],
    /// The part of the paper that holds the plane with its poles and labels: left, top, width and height, mm.
    pub drawing: [f64; 4],
    /// Where u and v are 0, mm from the paper's top left corner; u runs to the right, v up.
    pub origin: [f64; 2],
    /// Millimetres of paper to an inch of the plane.
    pub mm_per_inch: f64,
}

/// Where the plane lies on the sheet that [`setting_out_in`] draws; `None` where that draws none.
#[must_use]
pub fn on_sheet(plan: &Plan, plane_id: &str, words: &dyn Words) -> Option<OnSheet> {
    let sheet = Sheet::of(plan, plane_id, words)?;
    let arrangement = arrange(&sheet)?;
    let view = View::in_middle_of(arrangement.drawing, &sheet, arrangement.scale);
    let (space, [width, height]) = (arrangement.drawing, room(&sheet, arrangement.scale));
    Some(OnSheet {
        page: arrangement.page.size(),
        drawing: [space.left + (space.width - width) / 2.0, space.top + (space.height - height) / 2.0, width, height],
        origin: view.point([0.0, 0.0]),
        mm_per_inch: arrangement.scale.paper(1.0),
    })
}

/// Draws the plane alone, with poles, edges and scale bar, as large as the room allows: width and height in mm. `None` as for
/// [`setting_out`], or if there is no room.
#[must_use]
pub fn plane_figure(plan: &Plan, plane_id: &str, within: [f64; 2], words: &dyn Words) -> Option<Figure> {
    let sheet = Sheet::of(plan, plane_id, words)?;
    let fits = |scale: &Scale| {
        let [width, height] = room(&sheet, *scale);
        width <= within[0] && height <= within[1]
    };
    let scale = words.scales().into_iter().find(fits)?;
    let [width, height] = room(&sheet, scale);
    let view = View::in_middle_of(Rect { left: 0.0, top: 0.0, width, height }, &sheet, scale);
    let (items, keyed) = drawing(&sheet, &view);
    let scene = Scene {
        page: Page::of_figure([width, height]),
        title: sheet.plane.name.clone(),
        description: sheet.plane.name.clone(),
        items,
    };
    Some(Figure { scene, scale, keyed })
}

/// The plane with all that is drawn on and about it, and what the letters at its short edges stand for.
fn drawing(sheet: &Sheet, view: &View) -> (Vec<Item>, Vec<String>) {
    let edges = edges::draw(sheet, view);
    let mut items = pieces::draw(sheet, view);
    items.extend(starters::draw(sheet, view));
    items.extend(edges.items);
    items.extend(openings::draw(sheet, view));
    items.extend(pole::draw(sheet, view));
    items.extend(view.scale_bar(sheet));
    (items, edges.keyed)
}

/// The name of a plane, or its id if the plan has no such plane.
pub(crate) fn surface_name(plan: &Plan, id: &str) -> String {
    let plane = plan.roof.planes.iter().find(|plane| plane.id == id);
    plane.map_or_else(|| id.to_owned(), |plane| plane.name.clone())
}

fn draw(sheet: &Sheet, arrangement: &Arrangement) -> Scene {
    let view = View::in_middle_of(arrangement.drawing, sheet, arrangement.scale);
    let (drawn, keyed) = drawing(sheet, &view);
    let mut items = heading::draw(arrangement.page, &sheet.heading(), "Setting-out sheet");
    items.extend(drawn);
    items.extend(course_table::table(sheet).draw(arrangement.courses_at, arrangement.course_rows));
    if !sheet.laid.cuts.is_empty() {
        items.extend(cut_list::table(sheet, arrangement.cut_lines).draw(arrangement.cuts_at, arrangement.cut_rows));
    }
    items.extend(notes::draw(sheet, arrangement, &keyed));
    items.extend(title_block::draw(sheet, arrangement));
    Scene {
        page: arrangement.page,
        title: format!("Setting-out sheet: {}, {}", sheet.plan.name, sheet.plane.name),
        description: description(sheet, arrangement),
        items,
    }
}

fn description(sheet: &Sheet, arrangement: &Arrangement) -> String {
    format!(
        "The plane {} drawn at {} with {} courses and {} pieces, the marks of the story pole for butts and heads, and the cut list.",
        sheet.plane.name,
        arrangement.scale,
        sheet.laid.courses.len(),
        sheet.pieces()
    )
}
